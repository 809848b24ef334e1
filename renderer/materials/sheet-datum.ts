/** What the datum of a data sheet shows: for a mix the time since mixing, for a primer its drying, otherwise the price over the years. */
import { isTypicalUse } from '../../shared-core/material/primer.ts';
import type { Flooring } from '../../shared-core/book/flooring.ts';
import type { Material, Milestone } from '../../shared-core/book/material.ts';
import { containerOf } from '../../shared-core/material/containers.ts';
import { FLOORING_NAME } from '../../shared-core/standing/cure-words.ts';
import { logTimeTicks, type Scale, yearTicks } from '../../shared-core/drawing/datum.ts';
import type { Drawing } from '../../shared-core/drawing/marks.ts';
import { pointer } from '../../shared-core/drawing/shapes.ts';
import { timeline, type TimelineRange, type TimelineRow } from '../../shared-core/drawing/timeline.ts';
import { SANS_BOLD, textWidthPx } from '../../shared-core/drawing/type-metrics.ts';
import type { EffectiveSheet } from '../../shared-core/material/sheet.ts';
import { daysBetween } from '../../shared-core/measure/day.ts';
import { formatDepth } from '../../shared-core/measure/length-format.ts';
import type { UnitSystem } from '../../shared-core/measure/unit-system.ts';
import { formatMoney } from '../../shared-core/price/money.ts';
import { MILESTONE_WORDS, SUBSTRATE_NAMES } from './sheet-words.ts';

/** Distance of the line from the drawing's top. */
export const SHEET_DATUM_Y = 40;
/** Below this width labels would overlap, so the drawing pans. */
const LEAST_WIDTH_PX = 900;
const EDGE_PX = 36;
const FROM_MIN = 9;
const SIX_WEEKS_MIN = 42 * 24 * 60;
const LEAST_X0_PX = 176;

const range = (id: string, from: number, to: number, text: string, isTypical: boolean): TimelineRange => ({
  id,
  from,
  to,
  text,
  isTypical,
});
const row = (id: string, name: string, ranges: readonly TimelineRange[]): TimelineRow => ({
  id,
  name,
  note: '',
  ranges: [...ranges].sort((a, b) => a.from - b.from),
  moments: [],
  floors: [],
});

/** The floorings with drying times, in the data sheet's order, without repeats. */
export function dryingFloorings(milestones: readonly Milestone[]): Flooring[] {
  const alike = new Map<string, Flooring>();
  for (const flooring of new Set(milestones.flatMap((m) => (m.kind === 'cover' && m.flooring !== null ? [m.flooring] : [])))) {
    const dryingHours = milestones.filter((m) => m.flooring === flooring).map((m) => `${m.thicknessM}/${m.hoursLeast}/${m.hoursMost}`);
    // Large and small tile, or glued and nailed wood, share a row while their hours are equal.
    const family = flooring.split('-')[0] ?? flooring;
    const key = `${family}:${dryingHours.join()}`;
    if (!alike.has(key)) alike.set(key, flooring);
  }
  return [...alike.values()];
}

/** Rows of a mix: working time, set, and dry for each flooring. */
export function mixRows(sheet: EffectiveSheet, floorings: readonly Flooring[], units: UnitSystem, locale: string): TimelineRow[] {
  const [healing, flow] = [sheet.healingMin, sheet.workingTimeMin];
  const hours = (m: Milestone, text: string): TimelineRange =>
    range(`${m.kind}-${m.flooring ?? ''}-${m.thicknessM ?? ''}`, m.hoursLeast * 60, m.hoursMost * 60, text, m.source === 'typical');
  return [
    row('wet', 'Wet', [
      range('healing', healing.value.least, healing.value.most, 'healing time', healing.source === 'typical'),
      range('flow', flow.value.least, flow.value.most, 'working time', flow.source === 'typical'),
    ]),
    row(
      'set',
      'Set',
      sheet.milestones.filter((m) => m.kind !== 'cover').map((m) => hours(m, MILESTONE_WORDS[m.kind])),
    ),
    ...floorings.map((flooring) =>
      row(
        `dry-${flooring}`,
        `Ready for ${FLOORING_NAME[flooring]}`,
        sheet.milestones
          .filter((m) => m.flooring === flooring)
          .map((m) => hours(m, m.thicknessM === null ? 'any' : formatDepth(m.thicknessM, units, locale))),
      ),
    ),
  ];
}

/** Rows of a primer: drying time of a coat on each kind of substrate. */
export function primerRows(material: Material): TimelineRow[] {
  return material.primer.map((use) =>
    row(use.substrate, SUBSTRATE_NAMES[use.substrate], [
      range(
        use.substrate,
        Math.max(FROM_MIN, use.dryHoursLeast * 60),
        use.dryHoursMost * 60,
        'one coat dries',
        isTypicalUse(material, use),
      ),
    ]),
  );
}

/** Ten minutes to six weeks on a logarithmic scale. */
export function timeSinceWater(rows: readonly TimelineRow[], widthPx: number, rowPx: number, lineWords: string): Drawing {
  const width = Math.max(widthPx, LEAST_WIDTH_PX);
  const last = Math.max(SIX_WEEKS_MIN, ...rows.flatMap((r) => r.ranges.map((x) => x.to)));
  const names = Math.max(0, ...rows.map((r) => textWidthPx(r.name, 15, SANS_BOLD)));
  const scale: Scale = {
    from: FROM_MIN,
    to: last * 1.02,
    x0: Math.max(LEAST_X0_PX, EDGE_PX + names + 24),
    x1: width - EDGE_PX,
    isLog: true,
  };
  const drawing = timeline({
    widthPx: width,
    datumY: SHEET_DATUM_Y,
    scale,
    ticks: logTimeTicks(10, last * 1.02),
    rows,
    rowPx,
    now: null,
    lineWords,
    nameX: EDGE_PX,
  });
  // The pointer is before the first graduation, because a logarithmic scale has no zero.
  return { ...drawing, marks: [...drawing.marks, ...pointer(EDGE_PX + 11, SHEET_DATUM_Y, 15)] };
}

const DAYS_A_YEAR = 365.25;
/** Shown with the price of a typical data sheet. */
const TYPICAL_NOTE = 'Typical';
const yearOf = (day: string): number => Number(day.slice(0, 4)) + daysBetween(`${day.slice(0, 4)}-01-01`, day) / DAYS_A_YEAR;

export function priceYears(
  material: Material,
  today: string,
  currency: string,
  locale: string,
  { widthPx, rowPx }: { readonly widthPx: number; readonly rowPx: number },
): Drawing {
  const width = Math.max(widthPx, LEAST_WIDTH_PX);
  const prices = material.prices.toSorted((a, b) => a.from.localeCompare(b.from));
  const now = yearOf(today);
  const from = Math.min(now - 2, ...prices.map((p) => yearOf(p.from))) - 0.1;
  const to = Math.max(now, ...prices.map((p) => yearOf(p.from))) + 1;
  const rows = [
    row(
      'price',
      `Per ${containerOf(material).name}`,
      prices.map((p, i) => {
        const next = prices[i + 1];
        return range(
          p.from,
          yearOf(p.from),
          next === undefined ? to : yearOf(next.from),
          formatMoney(p.minor, currency, locale),
          p.note === TYPICAL_NOTE,
        );
      }),
    ),
  ];
  return timeline({
    widthPx: width,
    datumY: SHEET_DATUM_Y,
    scale: { from, to, x0: LEAST_X0_PX, x1: width - EDGE_PX, isLog: false },
    ticks: yearTicks(from, to),
    rows,
    rowPx,
    now,
    lineWords: '',
    nameX: EDGE_PX,
  });
}

/** The rows as a sentence for screen readers. */
export function rowsInWords(subject: string, rows: readonly TimelineRow[], show: (minutes: number) => string): string {
  const rowTexts = rows.map(
    (r) =>
      `${r.name}: ${r.ranges.map((x) => `${x.text} ${show(x.from)} to ${show(x.to)}${x.isTypical ? ', typical' : ''}`).join('; ') || 'not given'}`,
  );
  return `${subject}. ${rowTexts.join('. ')}.`;
}
