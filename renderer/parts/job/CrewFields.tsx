import type { Crew } from '../../../shared-core/book/job.ts';
import { ChoiceRow, SelectField } from '../Choices.tsx';
import { Fields, NumberField, QuantityField } from '../Fields.tsx';

const OUTLETS = { cap: 'Threaded cap', gate: 'Slide gate', valve: 'Ball valve' };

/** Counts of the crew; `cart` ones stand only where the mix is carried by cart. */
const COUNTS = [
  { key: 'mixers', label: 'Mixing', undo: 'people mixing', least: 1, most: 12, when: 'always' },
  { key: 'carriers', label: 'Carrying', undo: 'people carrying', least: 0, most: 12, when: 'always' },
  { key: 'spreaders', label: 'Spreading', undo: 'people spreading', least: 0, most: 12, when: 'plan' },
  { key: 'bagsPerBatch', label: 'Bags per batch', undo: 'bags per batch', least: 0.25, most: 20, when: 'always' },
  { key: 'cartBatches', label: 'Batches per cart', undo: 'batches per cart', least: 1, most: 40, when: 'cart' },
] as const;

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
        {COUNTS.filter(({ when }) => when === 'always' || (!short && (when === 'plan' || crew.carry === 'cart'))).map(
          ({ key, label, undo, ...limits }) => (
            <NumberField
              key={key}
              label={label}
              whole={key !== 'bagsPerBatch'}
              least={limits.least}
              most={limits.most}
              value={crew[key]}
              hint={key === 'spreaders' && crew.spreaders === 0 ? 'Whoever carries a batch spreads it.' : undefined}
              problem={key === 'cartBatches' ? cartProblem : null}
              onChange={(n) => n !== null && onCrew(undo, { [key]: n })}
            />
          ),
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
