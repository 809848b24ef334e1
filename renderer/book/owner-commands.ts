/** Merges two customers and moves a property to another customer. Issued quotes and documents do not change. */
import type { Customer } from '../../shared-core/book/customer.ts';
import { mergedCustomer } from '../../shared-core/book/merge-customers.ts';
import type { Property } from '../../shared-core/book/property.ts';
import { book } from './database.ts';
import { nowInstant, attempt, type Outcome, refused } from './command.ts';
import { type Patch, write } from './write.ts';

type Owned = 'properties' | 'jobs' | 'leads';

const owned = async (table: Owned, index: 'customerId' | 'propertyId', id: string): Promise<string[]> => {
  const rows = book().table<{ id: string }, string>(table);
  const found =
    index === 'propertyId' && table === 'leads'
      ? await rows.filter((row) => 'propertyId' in row && row.propertyId === id).toArray()
      : await rows.where(index).equals(id).toArray();
  return found.map((row) => row.id);
};

const toOwner = (table: Owned, ids: readonly string[], customerId: string): Patch[] =>
  // TypeScript cannot see that the table and the change belong together.
  ids.map((id) => ({ table, id, change: (row: object) => ({ ...row, customerId }) }) as unknown as Patch);

/** Merges a customer into another and archives it. Its properties, jobs and leads move along. One step of undo. */
export function mergeCustomers(stays: Customer, goes: Customer): Promise<Outcome> {
  return attempt(() => merge(stays, goes));
}

const merge = async (stays: Customer, goes: Customer): Promise<Outcome> => {
  if (stays.id === goes.id) return refused('Choose another customer.');
  const [properties, jobs, leads] = [
    await owned('properties', 'customerId', goes.id),
    await owned('jobs', 'customerId', goes.id),
    await owned('leads', 'customerId', goes.id),
  ];
  const now = nowInstant();
  return write(`merge ${goes.name} into ${stays.name}`, now, {
    patches: [
      { table: 'customers', id: stays.id, change: (row) => mergedCustomer(row, goes) },
      { table: 'customers', id: goes.id, change: (row) => ({ ...row, deletedAt: now }) },
      ...toOwner('properties', properties, stays.id),
      ...toOwner('jobs', jobs, stays.id),
      ...toOwner('leads', leads, stays.id),
    ],
  });
};

/**
 * Moves a property to another customer with its leads and open jobs. Finished jobs and jobs with an issued quote stay with the customer who
 * was quoted.
 */
export function moveProperty(property: Property, to: Customer): Promise<Outcome> {
  return attempt(() => move(property, to));
}

const move = async (property: Property, to: Customer): Promise<Outcome> => {
  const jobs = await book().rowsOf('jobs').where('propertyId').equals(property.id).toArray();
  const quoted = new Set(
    (
      await book()
        .rowsOf('quotes')
        .where('jobId')
        .anyOf(jobs.map((job) => job.id))
        .toArray()
    ).map((quote) => quote.jobId),
  );
  const moving = jobs.filter((job) => job.state === 'open' && !quoted.has(job.id)).map((job) => job.id);
  return write(`move ${property.address.line} to ${to.name}`, nowInstant(), {
    patches: [
      { table: 'properties', id: property.id, change: (row) => ({ ...row, customerId: to.id }) },
      ...toOwner('jobs', moving, to.id),
      ...toOwner('leads', await owned('leads', 'propertyId', property.id), to.id),
    ],
  });
};
