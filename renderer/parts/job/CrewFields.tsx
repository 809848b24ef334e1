import type { Crew } from '../../../shared-core/book/job.ts';
import { ChoiceRow } from '../ChoiceRow.tsx';
import { Fields } from '../Fields.tsx';
import { NumberField } from '../NumberField.tsx';
import { QuantityField } from '../QuantityField.tsx';
import { SelectField } from '../SelectField.tsx';

const OUTLETS = [
  { value: 'cap', word: 'a cap on a thread' },
  { value: 'gate', word: 'a slide gate' },
  { value: 'valve', word: 'a quarter-turn valve' },
] as const;

interface CrewFieldsProps {
  readonly crew: Crew;
  /** A change and the words it is undone by. */
  readonly onCrew: (label: string, to: Partial<Crew>) => void;
  /** Only what moves a price: who spreads and how much the cart holds stay with the pour. */
  readonly short?: boolean;
  /** A load that the cart does not hold, in words. */
  readonly cartProblem?: string | null;
}

/** Who mixes, carries and spreads, and how it is brought. */
export function CrewFields({ crew, onCrew, short = false, cartProblem = null }: CrewFieldsProps) {
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
            problem={cartProblem}
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
      {!short && crew.carry === 'cart' && (
        <Fields>
          <QuantityField
            kind="liquid"
            label="The cart holds"
            value={crew.cartHoldsL ?? null}
            check={(liters) => (liters > 0 ? null : 'It holds more than nothing: measure it to the brim.')}
            onChange={(cartHoldsL) => onCrew('what the cart holds', { cartHoldsL })}
          />
          <SelectField
            label="Its outlet closes by"
            value={crew.outlet ?? null}
            none="not noted"
            options={OUTLETS}
            onChange={(outlet) => onCrew('outlet of the cart', { outlet })}
          />
        </Fields>
      )}
    </>
  );
}
