import { nowInstant } from '../book/moment.ts';
import type { Outcome } from '../book/outcome.ts';
import { usePutAway } from '../book/use-records.ts';
import { bringBack } from '../book/write.ts';
import { TextButton } from '../parts/TextButton.tsx';
import { BlockPart } from '../parts/TitleBlock.tsx';

type Kept = {
  readonly table: 'clients' | 'properties' | 'rooms' | 'jobs' | 'materials';
  readonly id: string;
  readonly name: string;
  readonly kind: string;
};

/** What was put away, each with the way back. */
export function PutAwayPart({ onSay }: { readonly onSay: (outcome: Outcome<unknown>) => void }) {
  const clients = usePutAway('clients');
  const properties = usePutAway('properties');
  const rooms = usePutAway('rooms');
  const jobs = usePutAway('jobs');
  const materials = usePutAway('materials');
  const all: Kept[] = [
    ...(clients ?? []).map((c) => ({ table: 'clients' as const, id: c.id, name: c.name, kind: 'customer' })),
    ...(properties ?? []).map((p) => ({ table: 'properties' as const, id: p.id, name: p.address.line, kind: 'house' })),
    ...(rooms ?? []).map((r) => ({ table: 'rooms' as const, id: r.id, name: r.name, kind: 'room' })),
    ...(jobs ?? []).map((j) => ({ table: 'jobs' as const, id: j.id, name: `${j.number} ${j.title}`.trim(), kind: 'job' })),
    ...(materials ?? []).map((m) => ({ table: 'materials' as const, id: m.id, name: m.name, kind: 'material' })),
  ];
  return (
    <BlockPart heading="Put away">
      {all.length === 0 ? (
        <p className="small second">Nothing is put away.</p>
      ) : (
        <ul className="settings-away">
          {all.map((row) => (
            <li key={`${row.table}/${row.id}`}>
              <span>
                {row.name} <span className="caption">{row.kind}</span>
              </span>
              <TextButton
                kind="plain"
                label={`Bring back ${row.name}`}
                onPress={() => void bringBack([{ table: row.table, id: row.id }], `brought back ${row.name}`, nowInstant()).then(onSay)}
              >
                Bring back
              </TextButton>
            </li>
          ))}
        </ul>
      )}
    </BlockPart>
  );
}
