import { useState } from 'react';
import { type Material, type PrimerUse, primerUseSchema } from '../../shared-core/book/material.ts';
import { isTypicalUse } from '../../shared-core/material/primer.ts';
import type { Span } from '../../shared-core/material/sheet.ts';
import { formatCoverage } from '../../shared-core/measure/coverage.ts';
import { parseDilution } from '../../shared-core/measure/dilution.ts';
import { formatNumber } from '../../shared-core/measure/number.ts';
import { Field } from '../parts/Field.tsx';
import { Fields, NumberField, QuantityField } from '../parts/Fields.tsx';
import { SelectField } from '../parts/Choices.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import { useMeasure } from '../parts/use-measure.ts';
import { milestoneHours } from './powder-figures.ts';
import { SUBSTRATE_NAMES } from './sheet-words.ts';

interface PrimerPartProps {
  readonly material: Material;
  /** Saves a use, or changes the stored one. */
  readonly onPut: (use: PrimerUse, change?: Partial<PrimerUse>) => void;
  readonly onRemove: (use: PrimerUse) => void;
}

/** Starting values until the label's are entered. Common practice, no source. */
const BEGIN: Omit<PrimerUse, 'substrate'> = {
  coats: 1,
  coverageM2PerL: 7,
  waterParts: 0,
  dryHoursLeast: 3,
  dryHoursMost: 24,
  source: 'typical',
};
const MOST_COATS = 5;
/** Parts of water per part of primer. */
const MOST_WATER = 20;

export function PrimerPart({ material, onPut, onRemove }: PrimerPartProps) {
  const [next, setNext] = useState<PrimerUse['substrate'] | null>(null);
  const unused = primerUseSchema.shape.substrate.options.filter((s) => !material.primer.some((u) => u.substrate === s));
  return (
    <div className="stack-wide">
      {material.primer.length === 0 && <p>No substrates yet. Add the substrates on its label.</p>}
      {material.primer.map((use) => (
        <PrimerUseFields key={use.substrate} use={use} isTypical={isTypicalUse(material, use)} onPut={onPut} onRemove={onRemove} />
      ))}
      {unused.length > 0 && (
        <div className="primer-add">
          <SelectField
            label="Other substrate"
            value={next}
            options={unused.map((value) => ({ value, word: SUBSTRATE_NAMES[value] }))}
            onChange={setNext}
          />
          <TextButton
            kind="outlined"
            disabled={next === null}
            onPress={() => {
              if (next !== null) onPut({ substrate: next, ...BEGIN });
              setNext(null);
            }}
          >
            Add substrate
          </TextButton>
        </div>
      )}
    </div>
  );
}

interface UseProps {
  readonly use: PrimerUse;
  readonly isTypical: boolean;
  /** Saves a use, or changes the stored one. */
  readonly onPut: (use: PrimerUse, change?: Partial<PrimerUse>) => void;
  readonly onRemove: (use: PrimerUse) => void;
}

function PrimerUseFields({ use, isTypical, onPut, onRemove }: UseProps) {
  const { locale } = useMeasure();
  const hours = milestoneHours(locale);
  const name = SUBSTRATE_NAMES[use.substrate];
  return (
    <section className="primer-use" aria-label={name}>
      <div className="primer-use-head">
        <h2 className="materials-part-head">{name}</h2>
        <TextButton kind="plain" label={`Delete ${name}`} onPress={() => onRemove(use)}>
          Delete
        </TextButton>
      </div>
      <Fields>
        <NumberField
          label="Coats"
          whole
          least={1}
          most={MOST_COATS}
          typical={isTypical}
          value={use.coats}
          emptyMessage="Enter at least 1 coat."
          onChange={(coats) => onPut(use, { coats })}
        />
        <QuantityField
          kind="coverage"
          label="Coverage per coat"
          typical={isTypical}
          value={use.coverageM2PerL}
          check={(v) => (v > 0 ? null : 'Check this value. Enter the coverage from the label.')}
          emptyMessage="Enter the coverage from the label."
          onChange={(coverageM2PerL) => onPut(use, { coverageM2PerL })}
        />
        <Field<number>
          label="Dilution, water per part primer"
          parse={(text) => parseDilution(text, locale)}
          format={(parts) => formatNumber(parts, { most: 2 }, locale)}
          check={(parts) => (parts < 0 ? 'Enter 0 or more.' : parts > MOST_WATER ? `Enter ${MOST_WATER} or less.` : null)}
          unit={use.waterParts === 0 ? 'undiluted' : 'parts'}
          typical={isTypical}
          value={use.waterParts}
          emptyMessage="Enter the parts of water per part of primer, or 0 for undiluted."
          onChange={(waterParts) => onPut(use, { waterParts })}
        />
        <Field<Span>
          label="Drying time per coat"
          typical={isTypical}
          value={{ least: use.dryHoursLeast, most: use.dryHoursMost }}
          emptyMessage="Enter the earliest and the latest time to pour."
          parse={(text) => {
            const read = hours.read(text);
            return read.ok && !(read.value.most > 0)
              ? { ok: false, message: `“${text.trim()}”: this is too short. Check the value.` }
              : read;
          }}
          format={hours.show}
          same={(a, b) => !isTypical && a.least === b.least && a.most === b.most}
          onChange={(span) => onPut(use, { dryHoursLeast: span.least, dryHoursMost: span.most })}
        />
      </Fields>
    </section>
  );
}

export function primerSays(material: Material, units: 'us' | 'metric', locale: string): string {
  const use = material.primer[0];
  if (use === undefined) return 'No substrate is entered yet.';
  const water = use.waterParts === 0 ? 'undiluted' : `1 part primer to ${formatNumber(use.waterParts, { most: 1 }, locale)} water`;
  const coats = use.coats === 1 ? '1 coat' : `${use.coats} coats`;
  return `${SUBSTRATE_NAMES[use.substrate]}: ${coats}, ${water}, ${formatCoverage(use.coverageM2PerL, units, locale)} per coat.`;
}
