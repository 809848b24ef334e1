import type { Crew } from '../../../shared-core/book/job.ts';
import { ChoiceRow, SelectField } from '../Choices.tsx';
import { Fields, NumberField, QuantityField } from '../Fields.tsx';

const OUTLETS = { cap: 'Threaded cap', gate: 'Slide gate', valve: 'Quarter-turn valve' };

interface CrewFieldsProps {
  readonly crew: Crew;
  /** A change with its label for undo. */
  readonly onCrew: (label: string, to: Partial<Crew>) => void;
  /** Only the fields that change the price: the number of people who spread and the cart's load are set on Pour. */
  readonly short?: boolean;
  /** Leaves out how the mix is carried, which this screen asks elsewhere. */
  readonly isCarryAsked?: boolean;
  /** A load that the cart cannot hold, in words. */
  readonly cartProblem?: string | null;
}

/** Who mixes, carries and spreads, and how the mix is carried. */
export function CrewFields({ crew, onCrew, short = false, isCarryAsked = false, cartProblem = null }: CrewFieldsProps) {
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
          label="Bags per batch"
          least={0.25}
          most={20}
          value={crew.bagsPerBatch}
          onChange={(n) => n !== null && onCrew('bags per batch', { bagsPerBatch: n })}
        />
        {!short && crew.carry === 'cart' && (
          <NumberField
            label="Batches per cart"
            whole
            least={1}
            most={40}
            value={crew.cartBatches}
            problem={cartProblem}
            onChange={(n) => n !== null && onCrew('batches per cart', { cartBatches: n })}
          />
        )}
      </Fields>
      {!isCarryAsked && (
        <ChoiceRow
          label="Carrying method"
          captioned
          options={{ cart: 'By cart', 'by-hand': 'By hand' }}
          value={crew.carry}
          onChange={(carry) =>
            onCrew('carrying method', { carry, carriers: carry === 'by-hand' ? Math.max(1, crew.carriers) : crew.carriers })
          }
        />
      )}
      {!short && crew.carry === 'cart' && (
        <Fields>
          <QuantityField
            kind="liquid"
            label="Cart capacity"
            value={crew.cartHoldsL ?? null}
            check={(liters) => (liters > 0 ? null : 'Enter a capacity greater than 0.')}
            onChange={(cartHoldsL) => onCrew('cart capacity', { cartHoldsL })}
          />
          <SelectField
            label="Cart outlet"
            value={crew.outlet ?? null}
            none="Unknown"
            options={OUTLETS}
            onChange={(outlet) => onCrew('cart outlet', { outlet })}
          />
        </Fields>
      )}
    </>
  );
}
