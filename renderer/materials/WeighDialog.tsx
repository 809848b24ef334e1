import { useState } from 'react';
import type { PowderSheet } from '../../shared-core/book/material.ts';
import { WEIGH_WORDS, waterProblemWords } from '../../shared-core/documents/material-words.ts';
import { measuredYield } from '../../shared-core/material/mass-balance.ts';
import { checkWater } from '../../shared-core/material/sheet.ts';
import { formatDensity } from '../../shared-core/measure/density.ts';
import { formatYield, LITER_M3 } from '../../shared-core/measure/volume.ts';
import { whose } from '../../shared-core/substrate/whose-figure.ts';
import { Dialog } from '../parts/Dialog.tsx';
import { Fields, QuantityField } from '../parts/Fields.tsx';
import { UnitText } from '../parts/UnitText.tsx';
import { useMeasure } from '../parts/use-measure.ts';

interface WeighDialogProps {
  readonly name: string;
  readonly powder: PowderSheet;
  readonly onSave: (yieldM3: number) => void;
  readonly onClose: () => void;
}

/** Calculates the yield per bag from a bucket of known volume, weighed empty and full. */
export function WeighDialog({ name, powder, onSave, onClose }: WeighDialogProps) {
  const { units, locale } = useMeasure();
  const [waterL, setWater] = useState<number | null>(powder.waterL.value.least);
  const [bucketL, setBucket] = useState<number | null>(null);
  const [emptyKg, setEmpty] = useState<number | null>(null);
  const [fullKg, setFull] = useState<number | null>(null);
  const [asked, setAsked] = useState(false);
  const whole = waterL !== null && bucketL !== null && emptyKg !== null && fullKg !== null;
  const water = waterL === null ? null : checkWater(powder, waterL);
  const weighed = whole ? measuredYield({ bagKg: powder.bagKg.value, waterL, bucketVolumeM3: bucketL * LITER_M3, emptyKg, fullKg }) : null;
  const needed = (value: number | null, message: string): string | null => (asked && value === null ? message : null);
  const text =
    weighed === null
      ? WEIGH_WORDS['not-entered']
      : weighed.ok
        ? `The mix weighs ${formatDensity(weighed.value.densityKgM3, units, locale)}: a bag makes ${formatYield(weighed.value.yieldM3, units, locale)}. The ${whose(powder.yieldM3)} yield is ${formatYield(powder.yieldM3.value, units, locale)}.`
        : WEIGH_WORDS[weighed.problem.kind];
  return (
    <Dialog
      onClose={onClose}
      title="Weigh a mixed bag"
      onSave={() => {
        setAsked(true);
        if (weighed?.ok === true && water === null) onSave(weighed.value.yieldM3);
      }}
      saveWord="Use this yield"
    >
      <p>
        Mix one whole bag with its water. Fill a bucket of known volume to the line, and weigh it. Wear gloves and goggles: wet cement
        burns.
      </p>
      <Fields wide>
        <QuantityField
          kind="liquid"
          label="Mix water"
          value={waterL}
          emptyMessage="Enter the mix water."
          onChange={setWater}
          problem={water !== null ? waterProblemWords(water, name, units, locale) : needed(waterL, 'Enter the mix water.')}
        />
        <QuantityField
          kind="liquid"
          label="Bucket volume to the line"
          value={bucketL}
          placeholder={units === 'us' ? '1 gal' : '5 L'}
          onChange={setBucket}
          problem={needed(bucketL, 'Enter the bucket volume. Fill it with measured water to find out.')}
        />
        <QuantityField
          kind="mass"
          label="Bucket, empty"
          value={emptyKg}
          onChange={setEmpty}
          problem={needed(emptyKg, 'Enter the weight of the empty bucket.')}
        />
        <QuantityField
          kind="mass"
          label="Bucket, full"
          value={fullKg}
          onChange={setFull}
          problem={needed(fullKg, 'Enter the weight of the full bucket.')}
        />
      </Fields>
      <p className={weighed !== null && !weighed.ok ? 'field-problem' : 'speech weigh-result'} role="status">
        <UnitText>{text}</UnitText>
      </p>
    </Dialog>
  );
}
