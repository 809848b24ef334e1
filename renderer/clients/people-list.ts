/** Everybody in the book as the list shows them. */
import type { Client } from '../../shared-core/book/client.ts';
import type { Job } from '../../shared-core/book/job.ts';
import type { Property } from '../../shared-core/book/property.ts';

export interface PersonRow {
  readonly client: Client;
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
export function peopleList(
  records: { readonly clients: readonly Client[]; readonly properties: readonly Property[]; readonly jobs: readonly Job[] },
  sought: string,
  locale: string,
): PersonRow[] {
  const words = plain(sought)
    .split(/\s+/)
    .filter((word) => word !== '');
  return records.clients
    .map((client) => {
      const own = records.properties.filter((p) => p.clientId === client.id);
      const text = plain(
        [
          client.name,
          client.phone,
          client.email,
          ...client.contacts.flatMap((c) => [c.name, c.phone]),
          ...own.flatMap((p) => [p.address.line, p.address.town]),
        ].join(' '),
      );
      return {
        row: {
          client,
          houses: own.map((p) => p.address.line).join('; '),
          openJobs: records.jobs.filter((j) => j.clientId === client.id && j.state === 'open').length,
        },
        isFound: words.every((word) => text.includes(word)),
      };
    })
    .filter(({ isFound }) => isFound)
    .map(({ row }) => row)
    .sort((a, b) => a.client.name.localeCompare(b.client.name, locale, { sensitivity: 'base' }));
}
