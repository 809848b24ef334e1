import type { Customer } from '../../shared-core/book/customer.ts';
import type { Job } from '../../shared-core/book/job.ts';
import type { Property } from '../../shared-core/book/property.ts';
import { plain } from '../book/words.ts';

export interface CustomerRow {
  readonly customer: Customer;
  readonly properties: string;
  readonly propertyIds: readonly string[];
  readonly openJobs: number;
}

/**
 * Sorts by name the customers whose name, properties, phone or contacts contain every word.
 * @param sought text of the search field; empty for all
 */
export function customerList(
  records: { readonly customers: readonly Customer[]; readonly properties: readonly Property[]; readonly jobs: readonly Job[] },
  sought: string,
  locale: string,
): CustomerRow[] {
  const words = plain(sought)
    .split(/\s+/)
    .filter((word) => word !== '');
  const properties = new Map<string, Property[]>();
  for (const p of records.properties) properties.set(p.customerId, [...(properties.get(p.customerId) ?? []), p]);
  const open = new Map<string, number>();
  for (const j of records.jobs) if (j.state === 'open') open.set(j.customerId, (open.get(j.customerId) ?? 0) + 1);
  const order = new Intl.Collator(locale, { sensitivity: 'base' });
  return records.customers
    .map((customer) => {
      const own = properties.get(customer.id) ?? [];
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
          properties: own.map((p) => p.address.line).join('; '),
          propertyIds: own.map((p) => p.id),
          openJobs: open.get(customer.id) ?? 0,
        },
        isFound: words.every((word) => text.includes(word)),
      };
    })
    .filter(({ isFound }) => isFound)
    .map(({ row }) => row)
    .sort((a, b) => order.compare(a.customer.name, b.customer.name));
}
