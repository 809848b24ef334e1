import { useState } from 'react';
import { type Flooring, flooringSchema } from '../../../shared-core/book/flooring.ts';
import type { FlooringLimits } from '../../../shared-core/book/job.ts';
import { parseNumber } from '../../../shared-core/measure/number.ts';
import { FLOORING_DEMANDS, type LimitInForce, type LimitsInForce } from '../../../shared-core/substrate/flooring-demands.ts';
import { type FlatnessDemand, limitText, rulesFor } from '../../../shared-core/survey/tolerances.ts';
import type { UnitSystem } from '../../../shared-core/measure/unit-system.ts';
import type { RoomReading } from '../../../shared-core/standing/read-job.ts';
import type { Wording } from '../../../shared-core/substrate/wording.ts';
import { useMeasure, useWording } from '../../parts/use-measure.ts';
import { Field } from '../../parts/Field.tsx';
import { Fields, PercentField, QuantityField, TextField, YearField } from '../../parts/Fields.tsx';
import { SelectField } from '../../parts/Choices.tsx';
import { TextButton } from '../../parts/Buttons.tsx';
import { UnitText } from '../../parts/UnitText.tsx';

interface FlooringPartProps {
  readonly roomReading: RoomReading;
  readonly yearBuilt: number | null;
  readonly onFlooring: (flooring: Flooring | null) => void;
  readonly onLimits: (limits: Partial<FlooringLimits>) => void;
  readonly onYearBuilt: (year: number | null) => void;
}

/** Pounds per 1,000 sq ft in 24 h, the unit on every data sheet. */
function parseEmission(text: string) {
  const read = parseNumber(text.replace(/lb.*$/i, ''));
  if (!read.ok || (read.value > 0 && read.value <= 30)) return read;
  return { ok: false as const, message: 'Enter pounds per 1,000 sq ft in 24 hours, usually 3 or 5.' };
}

/** The flooring and the age of the house, which decide the limits. */
export function FlooringPart(props: FlooringPartProps) {
  const { yearBuilt, onFlooring, onLimits, onYearBuilt } = props;
  const { jobRoom, assessment } = props.roomReading;
  const { flooring, flooringLimits: limits } = jobRoom;
  const { country } = useMeasure();
  const wording = useWording();
  const [open, setOpen] = useState(false);
  const shown = open || limits !== null;
  const { flatnessGapM: gapM = null, flatnessSpanM: spanM = null } = limits ?? {};
  return (
    <section className="assess-part" aria-label="Flooring and house" id="lift-flooring">
      <Fields>
        <SelectField
          label="Flooring"
          value={flooring}
          none="not chosen"
          options={flooringSchema.options.map((value) => ({ value, word: FLOORING_DEMANDS[value].name }))}
          onChange={onFlooring}
        />
        <YearField label="Year built" placeholder="unknown" value={yearBuilt} onChange={onYearBuilt} />
      </Fields>
      {flooring !== null && (
        <>
          <p className="assess-limits small">
            {limitsWords(assessment.facts.limits, wording)}{' '}
            <UnitText>{flatWords({ flooring, flooringLimits: limits, country }, wording.units)}</UnitText>
          </p>
          <p className="assess-alternative">
            <TextButton kind="plain" expanded={shown} onPress={() => setOpen(!open)}>
              Enter the flooring manufacturer’s limits
            </TextButton>
          </p>
        </>
      )}
      {flooring !== null && shown && (
        <>
          <Fields>
            <PercentField
              label="Max slab RH"
              placeholder="typical"
              value={limits?.slabHumidity ?? null}
              onChange={(slabHumidity) => onLimits({ slabHumidity })}
            />
            <Field
              label="Max MVER"
              unit="lb"
              inputMode="decimal"
              placeholder="typical"
              value={limits?.emissionLb ?? null}
              parse={parseEmission}
              format={(lb) => wording.number(lb, 2)}
              onChange={(emissionLb) => onLimits({ emissionLb })}
            />
            <PercentField
              label="Max wood moisture"
              placeholder="typical"
              value={limits?.woodMoisture ?? null}
              onChange={(woodMoisture) => onLimits({ woodMoisture })}
            />
            <PercentField
              label="Max without holes"
              placeholder="none"
              hint="For a floor that must not be drilled"
              value={limits?.withoutHoles ?? null}
              onChange={(withoutHoles) => onLimits({ withoutHoles })}
            />
          </Fields>
          <Fields>
            <QuantityField
              kind="depth"
              label="Max gap"
              placeholder="typical"
              value={limits?.flatnessGapM ?? null}
              problem={gapM === null && spanM !== null ? 'Enter the max gap. Until then the published tolerance applies.' : null}
              onChange={(flatnessGapM) => onLimits({ flatnessGapM })}
            />
            <QuantityField
              kind="wall"
              label="Straightedge length"
              placeholder="typical"
              value={limits?.flatnessSpanM ?? null}
              problem={
                gapM !== null && spanM === null ? 'Enter the straightedge length. Until then the published tolerance applies.' : null
              }
              onChange={(flatnessSpanM) => onLimits({ flatnessSpanM })}
            />
            <TextField
              label="Source"
              placeholder="data sheet, page"
              value={limits?.statedIn ?? ''}
              onChange={(statedIn) => onLimits({ statedIn })}
            />
          </Fields>
        </>
      )}
    </section>
  );
}

/** The flatness limit with its source. */
function flatWords(demand: FlatnessDemand, units: UnitSystem): string {
  const rules = rulesFor(demand).map(({ limits: asked, join, source, sourceStatus }) => {
    const all = asked.map((limit) => limitText(limit, units)).join(join === 'all' ? ' and ' : ' or ');
    return `${all} (${sourceStatus === 'stated by the flooring manufacturer' ? `flooring manufacturer: ${source}` : source})`;
  });
  return rules.length === 0 ? 'No published flatness limit.' : `Flatness: max gap ${rules.join(', or ')}.`;
}

const one = (limit: LimitInForce | null, words: (value: number) => string): string =>
  limit === null ? '' : `${words(limit.value)} (${limit.source})`;

function limitsWords({ slabHumidity, emissionLb, woodMoisture, withoutHoles }: LimitsInForce, w: Wording): string {
  const parts = [
    one(slabHumidity, (value) => `slab RH max ${w.share(value)}`),
    one(emissionLb, (value) => `MVER max ${w.emission(value)}`),
    one(woodMoisture, (value) => `wood moisture max ${w.share(value)}`),
    one(withoutHoles, (value) => `test without holes max ${w.share(value)}`),
  ].filter((part) => part !== '');
  if (parts.length === 0) return 'No published moisture limit.';
  return `Limits: ${parts.join(', ')}.`;
}
