/** The likely intended value when a reading differs much from its neighbors: the usual slips when reading a rod. */
import { formatDepth } from '../measure/length-format.ts';
import type { UnitSystem } from '../measure/unit-system.ts';

/** A likely slip: its cause, and the value that would fit, meters. */
export type Slip = { readonly what: string; readonly meantM: number };

const FACTORS: readonly (readonly [number, string])[] = [
  [10, 'the decimal point slipped one place'],
  [0.1, 'the decimal point slipped one place'],
  [100, 'the decimal point slipped two places'],
  [0.01, 'the decimal point slipped two places'],
  [25.4, 'inches were typed as millimeters'],
  [1 / 25.4, 'millimeters were typed as inches'],
  [12, 'feet were typed as inches'],
  [1 / 12, 'inches were typed as feet'],
  [-1, 'the sign is reversed'],
];

/** Offsets of a misread rod, meters. */
const OFFSETS: Readonly<Record<UnitSystem, readonly (readonly [number, string])[]>> = {
  metric: [
    [0.1, 'the decimeter was misread'],
    [0.01, 'the centimeter was misread'],
    [1, 'the meter was misread'],
  ],
  us: [
    [0.0254, 'the inch was misread'],
    [0.3048, 'the foot was misread'],
  ],
};

/** The likely slip behind a value, given the value its neighbors predict and the tolerance for a fit; null when none fits. */
export function likelySlip(valueM: number, predictedM: number, fitsWithinM: number, units: UnitSystem): Slip | null {
  for (const [factor, what] of FACTORS) {
    const meantM = valueM * factor;
    if (Math.abs(meantM - predictedM) <= fitsWithinM) return { what, meantM };
  }
  const swapped = swappedDigits(valueM).find((meantM) => Math.abs(meantM - predictedM) <= fitsWithinM);
  if (swapped !== undefined) return { what: 'two digits changed places', meantM: swapped };
  for (const [offset, what] of OFFSETS[units]) {
    for (const meantM of [valueM + offset, valueM - offset]) {
      if (Math.abs(meantM - predictedM) <= Math.min(fitsWithinM, offset / 3)) return { what, meantM };
    }
  }
  return null;
}

function swappedDigits(valueM: number): number[] {
  const digits = String(Math.round(Math.abs(valueM) * 1000));
  const meant: number[] = [];
  for (let i = 0; i + 1 < digits.length; i += 1) {
    if (digits[i] === digits[i + 1]) continue;
    const other = `${digits.slice(0, i)}${digits[i + 1] ?? ''}${digits[i] ?? ''}${digits.slice(i + 2)}`;
    meant.push((Math.sign(valueM) * Number(other)) / 1000);
  }
  return meant;
}

/** The end of the sentence for a slip, or an empty text. */
export function slipSentence(slip: Slip | null, units: UnitSystem): string {
  return slip ? ` Possible typo: ${slip.what}. ${formatDepth(slip.meantM, units)} would fit.` : '';
}
