import type { Customer } from '../../shared-core/book/customer.ts';
import type { Job } from '../../shared-core/book/job.ts';
import type { Property } from '../../shared-core/book/property.ts';
import type { RowOf } from '../../shared-core/book/rows.ts';
import { queryReadings, searchWords } from '../book/words.ts';

export interface CustomerRow {
  readonly customer: Customer;
  readonly properties: string;
  readonly propertyIds: readonly string[];
  readonly openJobs: number;
}

/**
 * Sorts by name the customers whose name, properties, phone numbers, emails or contacts contain every word.
 * @param sought text of the search field; empty for all
 */
export function customerList(
  records: { readonly customers: readonly Customer[]; readonly properties: readonly Property[]; readonly jobs: readonly Job[] },
  sought: string,
  locale: string,
): CustomerRow[] {
  const properties = new Map<string, Property[]>();
  for (const p of records.properties) properties.set(p.customerId, [...(properties.get(p.customerId) ?? []), p]);
  const open = new Map<string, number>();
  for (const j of records.jobs) if (j.state === 'open') open.set(j.customerId, (open.get(j.customerId) ?? 0) + 1);
  const order = new Intl.Collator(locale, { sensitivity: 'base' });
  const ofCustomer = (customer: Customer): readonly Property[] => properties.get(customer.id) ?? [];
  return matching(records.customers, ofCustomer, sought)
    .map((customer) => ({
      customer,
      properties: ofCustomer(customer)
        .map((p) => p.address.line)
        .join('; '),
      propertyIds: ofCustomer(customer).map((p) => p.id),
      openJobs: open.get(customer.id) ?? 0,
    }))
    .sort((a, b) => order.compare(a.customer.name, b.customer.name));
}

/** The customers whose words and properties’ words contain every term, by the first reading of the text that finds one. */
function matching(
  customers: readonly Customer[],
  ofCustomer: (customer: Customer) => readonly Property[],
  sought: string,
): readonly Customer[] {
  const all = customers.map((customer) => ({
    customer,
    words: [...wordsOf('customers', customer), ...ofCustomer(customer).flatMap((property) => wordsOf('properties', property))],
  }));
  for (const terms of queryReadings(sought)) {
    const found = all.filter(({ words }) => terms.every((term) => words.some((word) => word.includes(term))));
    if (found.length > 0) return found.map(({ customer }) => customer);
  }
  return [];
}

const known = new WeakMap<object, readonly string[]>();

/** The search words of an unchanged record, kept because the list is narrowed at every key. */
function wordsOf<T extends 'customers' | 'properties'>(table: T, record: RowOf<T>): readonly string[] {
  const words = known.get(record) ?? searchWords(table, record);
  known.set(record, words);
  return words;
}
