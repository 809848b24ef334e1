/** Everybody in the book as the list shows them. */
import type { Customer } from '../../shared-core/book/customer.ts';
import type { Job } from '../../shared-core/book/job.ts';
import type { Property } from '../../shared-core/book/property.ts';

export interface PersonRow {
  readonly customer: Customer;
  readonly houses: string;
  readonly openJobs: number;
}

/** Letters without their accents and case, so that “Angstrom” finds “Ångström”. */
const plain = (text: string): string =>
  text
    .normalize('NFD')
    .replace(/\p{Diacritic}/gu, '')
    .toLowerCase();

/**
 * Customers in the order of their names whose name, houses, telephone or contacts hold every word that is sought.
 * @param sought what is typed in the search box; empty finds everybody
 */
export function customerList(
  records: { readonly customers: readonly Customer[]; readonly properties: readonly Property[]; readonly jobs: readonly Job[] },
  sought: string,
  locale: string,
): PersonRow[] {
  const words = plain(sought)
    .split(/\s+/)
    .filter((word) => word !== '');
  const houses = new Map<string, Property[]>();
  for (const p of records.properties) houses.set(p.customerId, [...(houses.get(p.customerId) ?? []), p]);
  const open = new Map<string, number>();
  for (const j of records.jobs) if (j.state === 'open') open.set(j.customerId, (open.get(j.customerId) ?? 0) + 1);
  const order = new Intl.Collator(locale, { sensitivity: 'base' });
  return records.customers
    .map((customer) => {
      const own = houses.get(customer.id) ?? [];
      const text = plain(
        [
          customer.name,
          customer.phone,
          customer.email,
          ...customer.contacts.flatMap((c) => [c.name, c.phone]),
          ...own.flatMap((p) => [p.address.line, p.address.city]),
        ].join(' '),
      );
      return {
        row: {
          customer,
          houses: own.map((p) => p.address.line).join('; '),
          openJobs: open.get(customer.id) ?? 0,
        },
        isFound: words.every((word) => text.includes(word)),
      };
    })
    .filter(({ isFound }) => isFound)
    .map(({ row }) => row)
    .sort((a, b) => order.compare(a.customer.name, b.customer.name));
}
