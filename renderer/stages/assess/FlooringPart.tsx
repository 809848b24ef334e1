import { useState } from 'react';
import { type Flooring, flooringSchema } from '../../../shared-core/book/flooring.ts';
import type { FlooringLimits } from '../../../shared-core/book/job.ts';
import { parseNumber } from '../../../shared-core/measure/number.ts';
import { FLOORING_DEMANDS, type LimitInForce, type LimitsInForce } from '../../../shared-core/substrate/flooring-demands.ts';
import { rulesFor } from '../../../shared-core/survey/tolerances.ts';
import type { Wording } from '../../../shared-core/substrate/wording.ts';
import { Field } from '../../parts/Field.tsx';
import { Fields } from '../../parts/Fields.tsx';
import { PercentField } from '../../parts/PercentField.tsx';
import { QuantityField } from '../../parts/QuantityField.tsx';
import { SelectField } from '../../parts/SelectField.tsx';
import { TextButton } from '../../parts/TextButton.tsx';
import { TextField } from '../../parts/TextField.tsx';
import { UnitText } from '../../parts/UnitText.tsx';
import { YearField } from '../../parts/YearField.tsx';

interface FlooringPartProps {
  readonly flooring: Flooring | null;
  readonly limits: FlooringLimits | null;
  readonly inForce: LimitsInForce;
  readonly yearBuilt: number | null;
  readonly wording: Wording;
  readonly onFlooring: (flooring: Flooring | null) => void;
  readonly onLimits: (limits: Partial<FlooringLimits>) => void;
  readonly onYearBuilt: (year: number | null) => void;
}

/** Pounds over a thousand square feet in a day, the unit every maker prints. */
function parseEmission(text: string) {
  const read = parseNumber(text.replace(/lb.*$/i, ''));
  if (!read.ok || (read.value > 0 && read.value <= 30)) return read;
  return { ok: false as const, message: 'Makers print 3 or 5, in pounds over 1,000 square feet in 24 hours.' };
}

/** What the floor will carry and how old the house is: both decide what the tests are held to. */
export function FlooringPart(props: FlooringPartProps) {
  const { flooring, limits, inForce, yearBuilt, wording, onFlooring, onLimits, onYearBuilt } = props;
  const [open, setOpen] = useState(false);
  const shown = open || limits !== null;
  const { flatnessGapM: gapM = null, flatnessSpanM: spanM = null } = limits ?? {};
  return (
    <section className="assess-part" aria-label="The covering and the house" id="lift-flooring">
      <Fields>
        <SelectField
          label="What will go on it"
          value={flooring}
          none="not chosen yet"
          options={flooringSchema.options.map((value) => ({ value, word: FLOORING_DEMANDS[value].name }))}
          onChange={onFlooring}
        />
        <YearField label="House built in" placeholder="not known" value={yearBuilt} onChange={onYearBuilt} />
      </Fields>
      {flooring !== null && (
        <>
          <p className="assess-limits small">
            {limitsWords(inForce, wording)} <UnitText>{flatWords(flooring, limits)}</UnitText>
          </p>
          <p className="assess-otherwise">
            <TextButton kind="plain" expanded={shown} onPress={() => setOpen(!open)}>
              The covering’s maker says otherwise
            </TextButton>
          </p>
        </>
      )}
      {flooring !== null && shown && (
        <>
          <Fields>
            <PercentField
              label="Slab humidity, at most"
              placeholder="as published"
              value={limits?.slabHumidity ?? null}
              onChange={(slabHumidity) => onLimits({ slabHumidity })}
            />
            <Field
              label="Emission, at most"
              unit="lb"
              inputMode="decimal"
              placeholder="as published"
              value={limits?.emissionLb ?? null}
              parse={parseEmission}
              format={(lb) => wording.number(lb, 2)}
              onChange={(emissionLb) => onLimits({ emissionLb })}
            />
            <PercentField
              label="Timber, at most"
              placeholder="as published"
              value={limits?.woodMoisture ?? null}
              onChange={(woodMoisture) => onLimits({ woodMoisture })}
            />
          </Fields>
          <Fields>
            <QuantityField
              kind="depth"
              label="Gap, at most"
              placeholder="as published"
              value={limits?.flatnessGapM ?? null}
              problem={gapM === null && spanM !== null ? 'How wide a gap? Until then the published tolerance counts.' : null}
              onChange={(flatnessGapM) => onLimits({ flatnessGapM })}
            />
            <QuantityField
              kind="length"
              label="Under a straightedge of"
              placeholder="as published"
              value={limits?.flatnessSpanM ?? null}
              problem={gapM !== null && spanM === null ? 'Under how long a straightedge? Until then the published tolerance counts.' : null}
              onChange={(flatnessSpanM) => onLimits({ flatnessSpanM })}
            />
            <TextField
              label="Stated in"
              placeholder="the maker’s sheet, its page"
              value={limits?.statedIn ?? ''}
              onChange={(statedIn) => onLimits({ statedIn })}
            />
          </Fields>
        </>
      )}
    </section>
  );
}

/** How flat it has to lie, and who says so. */
function flatWords(flooring: Flooring, limits: FlooringLimits | null): string {
  const rules = rulesFor(flooring, limits).map(({ limits: asked, join, source, sourceStatus }) => {
    const all = asked.map((limit) => limit.said).join(join === 'all' ? ' and ' : ' or ');
    return `${all} (${sourceStatus === 'stated by the flooring manufacturer' ? `the covering’s maker: ${source}` : source})`;
  });
  return rules.length === 0 ? 'No flatness is published for it.' : `Gaps at most ${rules.join('; or ')}.`;
}

const one = (limit: LimitInForce | null, words: (value: number) => string): string =>
  limit === null ? '' : `${words(limit.value)} (${limit.source})`;

function limitsWords({ slabHumidity, emissionLb, woodMoisture }: LimitsInForce, w: Wording): string {
  const parts = [
    one(slabHumidity, (value) => `a slab at most ${w.share(value)} humid`),
    one(emissionLb, (value) => `giving off at most ${w.emission(value)}`),
    one(woodMoisture, (value) => `timber at most ${w.share(value)}`),
  ].filter((part) => part !== '');
  if (parts.length === 0) return 'No moisture limit is published for it.';
  const words = `${parts.join('; ')}.`;
  return words.charAt(0).toUpperCase() + words.slice(1);
}
