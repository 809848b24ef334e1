/** The business record a new book starts with. Every cost in it is typical, in US dollars, until the owner enters another. */
import { USUAL_CATEGORIES } from './ledger.ts';
import type { Business } from './business.ts';
import { newContractTerms } from './contract-terms.ts';

/** A new business record with typical costs; `timeZone` and `locale` as the machine has them. */
export function newBusiness(now: string, timeZone: string, locale: string): Business {
  const us = locale.endsWith('US');
  return {
    id: 'business',
    createdAt: now,
    changedAt: now,
    deletedAt: null,
    name: '',
    ownerName: '',
    address: { line: '', city: '', region: '', zip: '', country: us ? 'US' : 'GB' },
    phone: '',
    email: '',
    mark: null,
    units: us ? 'us' : 'metric',
    locale,
    timeZone,
    currency: us ? 'USD' : 'EUR',
    paper: us ? 'letter' : 'a4',
    taxRates: [{ id: 'sales', name: 'Sales tax', rate: 0 }],
    hours: { from: '07:30', to: '17:00', days: [1, 2, 3, 4, 5] },
    // Typical, no source: what small crews commonly calculate with. The owner's own figures replace them.
    costs: {
      ownHourMinor: 5500,
      helperHourMinor: 3200,
      grindM2Minor: 3200,
      grindM3Minor: 40000,
      abradeM2Minor: 900,
      disposalKgMinor: 25,
      travelKmMinor: 45,
      perimeterStripMMinor: 90,
      damMMinor: 450,
      crackFillerMMinor: 700,
      reinforcementM2Minor: 450,
      sealerM2Minor: 800,
    },
    pricing: {
      method: 'markup',
      share: 0.35,
      contingencyShare: 0.05,
      minimumChargeMinor: 45000,
      depositShare: 0.3,
      rounding: 'rate',
      materialTaxId: 'sales',
      laborTaxId: null,
    },
    quoteValidDays: 30,
    quoteTerms: '',
    contract: newContractTerms(),
    coldJointChance: 0.05,
    bagPercentile: 0.8,
    usualLossShare: 0.05,
    bucketL: 19,
    expenseCategories: [...USUAL_CATEGORIES],
    lienRules: [],
    taskFactors: {},
    nextJobSerial: 1,
  };
}
