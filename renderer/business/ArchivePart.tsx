import { nowInstant, type Outcome } from '../book/command.ts';
import { useArchive } from '../book/use-records.ts';
import { unarchive } from '../book/write.ts';
import { propertyName } from '../parts/property-name.ts';
import { TextButton } from '../parts/Buttons.tsx';
import { BlockPart } from '../parts/Sheet.tsx';

type SavedFile = {
  readonly table: 'customers' | 'properties' | 'rooms' | 'jobs' | 'materials';
  readonly id: string;
  readonly name: string;
  readonly kind: string;
};

export function ArchivePart({ onSay }: { readonly onSay: (outcome: Outcome<unknown>) => void }) {
  const customers = useArchive('customers');
  const properties = useArchive('properties');
  const rooms = useArchive('rooms');
  const jobs = useArchive('jobs');
  const materials = useArchive('materials');
  const all: SavedFile[] = [
    ...(customers ?? []).map((c) => ({ table: 'customers' as const, id: c.id, name: c.name, kind: 'customer' })),
    ...(properties ?? []).map((p) => ({ table: 'properties' as const, id: p.id, name: propertyName(p), kind: 'property' })),
    ...(rooms ?? []).map((r) => ({ table: 'rooms' as const, id: r.id, name: r.name, kind: 'room' })),
    ...(jobs ?? []).map((j) => ({ table: 'jobs' as const, id: j.id, name: `${j.number} ${j.title}`.trim(), kind: 'job' })),
    ...(materials ?? []).map((m) => ({ table: 'materials' as const, id: m.id, name: m.name, kind: 'material' })),
  ];
  return (
    <BlockPart heading="Archived">
      {all.length === 0 ? (
        <p className="small second">Nothing is archived.</p>
      ) : (
        <ul className="ends">
          {all.map((row) => (
            <li key={`${row.table}/${row.id}`}>
              <span>
                {row.name} <span className="caption">{row.kind}</span>
              </span>
              <TextButton
                kind="plain"
                label={`Unarchive ${row.name}`}
                onPress={() => void unarchive([{ table: row.table, id: row.id }], `unarchive ${row.name}`, nowInstant()).then(onSay)}
              >
                Unarchive
              </TextButton>
            </li>
          ))}
        </ul>
      )}
    </BlockPart>
  );
}
