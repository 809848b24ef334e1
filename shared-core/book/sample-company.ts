/** The invented company of the sample data, and how to tell it from the user's own. */
import type { Address, Business } from './business.ts';

/** The ids of all sample records begin with this. */
export const SAMPLE_PREFIX = 'sample-';

/** What the invented company prints on its documents. The sample's company record is made from it. */
export const SAMPLE_COMPANY = {
  name: 'Teague Leveled Floors',
  ownerName: 'Ros Teague',
  line: '12 Quarry Road',
  city: 'Tarrow Falls',
  phone: '555-0142',
  email: 'ros@teague-floors.invalid',
  paymentCode: 'https://pay.teague-floors.invalid',
} as const;

/** Whether the company record is the sample's, even in part: its name, its address, its email, or where its customers pay. */
export function isSampleCompany({ name, address, email, contract }: Business): boolean {
  const invented = SAMPLE_COMPANY;
  const isThere = address.line === invented.line && address.city === invented.city;
  return name === invented.name || email === invented.email || isThere || contract.paymentCode === invented.paymentCode;
}

/** The company's address, near which its properties are; without city and state while it is the sample's. */
export function ownAddress(business: Business): Address {
  return isSampleCompany(business) ? { ...business.address, city: '', region: '' } : business.address;
}

/** Message while a job of the user's own would go out under the invented company. */
export const INVENTED_COMPANY = 'Your company information is from the sample data. Enter your own company first.';

/** Why no document of this job may go out: the job is the user's own and the company is not. Null where it may. */
export function inventedCompany(business: Business, jobId: string): string | null {
  return !jobId.startsWith(SAMPLE_PREFIX) && isSampleCompany(business) ? INVENTED_COMPANY : null;
}
