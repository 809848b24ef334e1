import type { Crew } from '../../../shared-core/book/job.ts';
import { ChoiceRow } from '../ChoiceRow.tsx';
import { Fields } from '../Fields.tsx';
import { NumberField } from '../NumberField.tsx';

interface CrewFieldsProps {
  readonly crew: Crew;
  /** A change and the words it is undone by. */
  readonly onCrew: (label: string, to: Partial<Crew>) => void;
  /** Only what moves a price: who spreads and how much the cart holds stay with the pour. */
  readonly short?: boolean;
}

/** Who mixes, carries and spreads, and how it is brought. */
export function CrewFields({ crew, onCrew, short = false }: CrewFieldsProps) {
  return (
    <>
      <Fields>
        <NumberField
          label="Mixing"
          whole
          least={1}
          most={12}
          value={crew.mixers}
          onChange={(n) => n !== null && onCrew('people mixing', { mixers: n })}
        />
        <NumberField
          label="Carrying"
          whole
          least={0}
          most={12}
          value={crew.carriers}
          onChange={(n) => n !== null && onCrew('people carrying', { carriers: n })}
        />
        {!short && (
          <NumberField
            label="Spreading"
            whole
            least={1}
            most={12}
            value={crew.spreaders}
            onChange={(n) => n !== null && onCrew('people spreading', { spreaders: n })}
          />
        )}
        <NumberField
          label="Bags in a batch"
          least={0.25}
          most={20}
          value={crew.bagsPerBatch}
          onChange={(n) => n !== null && onCrew('bags in a batch', { bagsPerBatch: n })}
        />
        {!short && crew.carry === 'cart' && (
          <NumberField
            label="Batches in the cart"
            whole
            least={1}
            most={40}
            value={crew.cartBatches}
            onChange={(n) => n !== null && onCrew('batches in the cart', { cartBatches: n })}
          />
        )}
      </Fields>
      <ChoiceRow
        label="Brought"
        captioned
        options={[
          { value: 'cart', word: 'by cart' },
          { value: 'by-hand', word: 'by hand' },
        ]}
        value={crew.carry}
        onChange={(carry) =>
          onCrew('how it is brought', { carry, carriers: carry === 'by-hand' ? Math.max(1, crew.carriers) : crew.carriers })
        }
      />
    </>
  );
}
