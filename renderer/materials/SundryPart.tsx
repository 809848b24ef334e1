import type { Update } from '../book/write.ts';
import type { Container, Material } from '../../shared-core/book/material.ts';
import { Fields, NumberField, QuantityField, TextField } from '../parts/Fields.tsx';
import { SelectField } from '../parts/Choices.tsx';

type Edit = (label: string, update: Update<Material>) => void;
type Unit = Container['unit'];

const HOLDS: Readonly<Record<Unit, { readonly word: string; readonly kind: 'mass' | 'liquid' | 'length' | 'area' | null }>> = {
  kg: { word: 'weight', kind: 'mass' },
  L: { word: 'volume', kind: 'liquid' },
  m: { word: 'length', kind: 'length' },
  m2: { word: 'area', kind: 'area' },
  piece: { word: 'pieces', kind: null },
};
const GOES = { m: { word: 'length', kind: 'length' }, m2: { word: 'area', kind: 'area' }, L: { word: 'volume', kind: 'liquid' } } as const;
const more = (v: number): string | null => (v > 0 ? null : 'Enter a value greater than 0.');

interface ContainerPartProps {
  readonly material: Material;
  readonly container: Container;
  readonly edit: Edit;
}

export function ContainerPart({ material, container, edit }: ContainerPartProps) {
  const { goes } = material;
  const holds = HOLDS[container.unit];
  const setContainer = (label: string, change: Partial<Container>): void =>
    edit(label, (m) => ({ ...m, typical: false, container: m.container === null ? null : { ...m.container, ...change } }));
  const setHolds = (value: number | null): void => {
    if (value !== null) setContainer('contents of a container', { holds: value });
  };
  return (
    <section className="materials-part" aria-labelledby="materials-container">
      <h2 className="materials-part-head" id="materials-container">
        Container
      </h2>
      <Fields>
        <TextField
          label="Container"
          value={container.name}
          emptyMessage="Enter the container, such as jug, roll, or piece."
          onChange={(name) => name !== '' && setContainer('name of a container', { name })}
        />
        <SelectField
          label="Counted by"
          value={container.unit}
          options={Object.entries(HOLDS).map(([value, { word }]) => ({ value: value as Unit, word }))}
          onChange={(unit) => setContainer('unit of a container', { unit })}
        />
        {holds.kind === null ? (
          <NumberField
            label="Contents"
            value={container.holds}
            least={1}
            unit="pieces"
            typical={material.typical}
            emptyMessage="Enter how many are in one container."
            onChange={setHolds}
          />
        ) : (
          <QuantityField
            key={holds.kind}
            kind={holds.kind}
            label="Contents"
            value={container.holds}
            typical={material.typical}
            check={more}
            emptyMessage={`Enter the contents of one ${container.name} from the label.`}
            onChange={setHolds}
          />
        )}
      </Fields>
      <Fields>
        <SelectField
          label="Coverage unit"
          value={goes?.unit ?? null}
          none="same as contents"
          options={Object.entries(GOES).map(([value, { word }]) => ({ value: value as keyof typeof GOES, word }))}
          onChange={(unit) =>
            edit('coverage', (m) => ({ ...m, goes: unit === null ? null : { unit, perContainer: m.goes?.perContainer ?? 1 } }))
          }
        />
        {goes !== null && (
          <QuantityField
            key={goes.unit}
            kind={GOES[goes.unit].kind}
            label={`Coverage per ${container.name}`}
            value={goes.perContainer}
            typical={material.typical}
            check={more}
            emptyMessage="Enter the coverage from the label."
            onChange={(perContainer) =>
              edit('coverage', (m) => ({ ...m, typical: false, goes: m.goes === null ? null : { ...m.goes, perContainer } }))
            }
          />
        )}
      </Fields>
    </section>
  );
}
