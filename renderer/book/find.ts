/** Finding people, houses, rooms, jobs and materials by a few letters. */
import MiniSearch from 'minisearch';
import { book } from './database.ts';

export type Found = {
  readonly id: string;
  readonly kind: 'person' | 'house' | 'room' | 'job' | 'material';
  readonly title: string;
  readonly detail: string;
  readonly href: string;
};
type Entry = Found & { readonly words: string };

const line = (parts: readonly string[]): string => parts.filter((part) => part !== '').join(', ');

/** An entry a row; a row that cannot be read is left to the check of the book, which names it. */
const each = <R extends { readonly deletedAt: string | null }>(rows: readonly R[], make: (row: R) => Entry): Entry[] =>
  rows.flatMap((row) => {
    if (row.deletedAt !== null) return [];
    try {
      return [make(row)];
    } catch {
      return [];
    }
  });

const entries = async (): Promise<Entry[]> => {
  const it = book();
  const [clients, properties, rooms, jobs, materials] = await Promise.all([
    it.rowsOf('clients').toArray(),
    it.rowsOf('properties').toArray(),
    it.rowsOf('rooms').toArray(),
    it.rowsOf('jobs').toArray(),
    it.rowsOf('materials').toArray(),
  ]);
  const nameOf = new Map(clients.map((c) => [c.id, c.name]));
  const houseOf = new Map(properties.map((p) => [p.id, p]));
  const house = (id: string): string => {
    const address = houseOf.get(id)?.address;
    return address === undefined ? '' : line([address.line, address.town]);
  };
  return [
    ...each(clients, (c) => ({
      id: c.id,
      kind: 'person',
      title: c.name,
      detail: line([c.phone, c.email]),
      href: `/people/${c.id}`,
      words: [c.name, c.phone, c.email, ...c.contacts.flatMap((k) => [k.name, k.phone])].join(' '),
    })),
    ...each(properties, (p) => ({
      id: p.id,
      kind: 'house',
      title: line([p.address.line, p.address.town]),
      detail: nameOf.get(p.clientId) ?? '',
      href: `/houses/${p.id}`,
      words: [p.address.line, p.address.town, p.address.postcode, nameOf.get(p.clientId) ?? ''].join(' '),
    })),
    ...each(jobs, (j) => {
      const first = j.rooms[0];
      const stage = first === undefined ? 'assess' : first.stage === 'done' ? 'handover' : first.stage;
      return {
        id: j.id,
        kind: 'job',
        title: line([`Job ${j.number}`, j.title]),
        detail: line([nameOf.get(j.clientId) ?? '', house(j.propertyId)]),
        href: `/jobs/${j.id}/${stage}/${first?.roomId ?? ''}`,
        words: [j.number, j.title, nameOf.get(j.clientId) ?? '', house(j.propertyId)].join(' '),
      };
    }),
    ...each(rooms, (r) => ({
      id: r.id,
      kind: 'room',
      title: r.name,
      detail: house(r.propertyId),
      href: `/houses/${r.propertyId}`,
      words: `${r.name} ${house(r.propertyId)}`,
    })),
    ...each(materials, (m) => ({ id: m.id, kind: 'material', title: m.name, detail: '', href: `/materials/${m.id}`, words: m.name })),
  ];
};

/** An index over the book as it stands; made when Find is opened. */
export async function openFinder(): Promise<(query: string) => Found[]> {
  const all = await entries();
  const index = new MiniSearch<Entry>({
    fields: ['title', 'words'],
    idField: 'id',
    searchOptions: { boost: { title: 2 }, prefix: true, fuzzy: (term) => (term.length > 4 ? 0.2 : false) },
  });
  index.addAll(all);
  const byId = new Map(all.map((e) => [e.id, e]));
  return (query) =>
    index
      .search(query)
      .slice(0, 30)
      .flatMap((hit) => byId.get(String(hit.id)) ?? []);
}
