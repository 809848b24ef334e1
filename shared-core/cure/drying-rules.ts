/** Drying time by thickness: the data sheet's days, or the published rules for cement screeds where it gives none. */
import type { Milestone } from '../book/material.ts';

/** Hours for one thickness at the reference climate, with where they come from. */
export type DryingHours = {
  readonly least: number;
  readonly most: number;
  readonly from: 'sheet' | 'beyond-sheet' | 'published';
  readonly source: string;
};

export type ScreedRule = {
  readonly name: string;
  readonly source: string;
  /** Millimeters that dry at 1 mm per day. */
  readonly quickMm: number;
  /** Days for each millimeter above; null when the rule only says "longer". */
  readonly daysAMmAbove: number | null;
};

/** Published rules of thumb for cement screed at about 20 °C and 50 to 65 % humidity. They agree to 40 mm and part above. */
export const SCREED_RULES: readonly ScreedRule[] = [
  {
    name: 'one day a millimeter to 50 mm, longer above',
    // Clause from memory.
    source: 'BS 8203 and BS 8204-1',
    quickMm: 50,
    daysAMmAbove: null,
  },
  {
    name: 'one day a millimeter to 50 mm, two days a millimeter above',
    source: 'allaboutscreeds.com, how long should you wait for screed to dry',
    quickMm: 50,
    daysAMmAbove: 2,
  },
  {
    name: 'one day a millimeter to 40 mm, two days a millimeter above',
    source: 'screedscientist.com, what affects screed drying time (20 °C, 50 % humidity)',
    quickMm: 40,
    daysAMmAbove: 2,
  },
];

/** Days by one rule; null where the rule gives no number. */
export function screedDays(rule: ScreedRule, thicknessM: number): number | null {
  const mm = thicknessM * 1000;
  if (mm <= rule.quickMm) return mm;
  return rule.daysAMmAbove === null ? null : rule.quickMm + (mm - rule.quickMm) * rule.daysAMmAbove;
}

/** Least and most days over the published rules that give a number; where they disagree, that is the range. */
export function publishedScreedDays(thicknessM: number): { readonly least: number; readonly most: number; readonly hasLonger: boolean } {
  const days = SCREED_RULES.map((rule) => screedDays(rule, thicknessM));
  const numbers = days.filter((d) => d !== null);
  return { least: Math.min(...numbers), most: Math.max(...numbers), hasLonger: days.includes(null) };
}

const HOURS_A_DAY = 24;

function published(thicknessM: number): DryingHours {
  const { least, most } = publishedScreedDays(thicknessM);
  const source = 'typical: 1 day per mm (25 days per in.) up to 40 to 50 mm (2 in.), 2 days per mm above. The data sheet’s days replace it';
  return { least: least * HOURS_A_DAY, most: most * HOURS_A_DAY, from: 'published', source };
}

type Row = { readonly thicknessM: number; readonly least: number; readonly most: number };

/** How much longer a rule takes for one thickness than for another. */
function growth(toM: number, fromM: number): { least: number; most: number } {
  const ratios = SCREED_RULES.flatMap((rule) => {
    const [to, from] = [screedDays(rule, toM), screedDays(rule, fromM)];
    return to === null || from === null || from === 0 ? [] : [to / from];
  });
  return { least: Math.min(...ratios), most: Math.max(...ratios) };
}

/**
 * Hours until a thickness is dry at the reference climate. Between the sheet's thicknesses a straight line; under its
 * thinnest the thinnest's hours; over its thickest the hours grow as the published screed rules do.
 * @param milestones the sheet's drying milestones for one flooring; none leaves the published rules
 */
export function dryingHours(milestones: readonly Milestone[], thicknessM: number): DryingHours {
  const steady = milestones.find((m) => m.thicknessM === null);
  const rows: Row[] = milestones
    .flatMap((m) => (m.thicknessM === null ? [] : [{ thicknessM: m.thicknessM, least: m.hoursLeast, most: m.hoursMost }]))
    .sort((a, b) => a.thicknessM - b.thicknessM);
  const first = rows[0];
  const last = rows.at(-1);
  const source = 'the data sheet';
  if (first === undefined || last === undefined) {
    return steady === undefined ? published(thicknessM) : { least: steady.hoursLeast, most: steady.hoursMost, from: 'sheet', source };
  }
  if (thicknessM <= first.thicknessM) return { least: first.least, most: first.most, from: 'sheet', source };
  if (thicknessM > last.thicknessM) {
    const grows = growth(thicknessM, last.thicknessM);
    return {
      least: last.least * grows.least,
      most: last.most * grows.most,
      from: 'beyond-sheet',
      source: 'the data sheet’s thickest row, lengthened as the published screed rules lengthen',
    };
  }
  const next = rows.findIndex((r) => r.thicknessM >= thicknessM);
  const b = rows[next] ?? last;
  const a = rows[next - 1] ?? first;
  const share = b.thicknessM === a.thicknessM ? 1 : (thicknessM - a.thicknessM) / (b.thicknessM - a.thicknessM);
  return { least: a.least + (b.least - a.least) * share, most: a.most + (b.most - a.most) * share, from: 'sheet', source };
}
