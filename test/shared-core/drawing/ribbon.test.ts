/** The lettering of Today's ribbon is apart, off every bar and line, and on the drawing, at any width and for any dates. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ribbonHeightPx, todayRibbon, type RibbonRoom } from '../../../shared-core/drawing/ribbon.ts';
import { checkLabels, textsOf } from './check-labels.ts';
import { markWords } from './mark-words.ts';
import { RIBBON_ROOM } from './samples.ts';

const days = fc.option(
  fc
    .tuple(fc.double({ min: -20, max: 45, noNaN: true }), fc.double({ min: 0.2, max: 30, noNaN: true }))
    .map(([from, length]) => ({ from, to: from + length })),
);
const room: fc.Arbitrary<RibbonRoom> = fc.record({
  id: fc.uuid(),
  name: fc.constantFrom('Hall', 'Family room', 'Lower back entry'),
  state: fc.constant('under-way' as const),
  letter: fc.constantFrom('A', null),
  isAgreed: fc.boolean(),
  prep: days,
  pours: days.map((pour) => (pour === null ? [] : [pour, { from: pour.to + 2, to: pour.to + 3 }])),
  drying: days,
  ready: days,
  held: days,
  note: fc.constantFrom('', 'quote', 'on hold: depth over wood', 'foot traffic today, 4 pm, glued wood May 28'),
  isNoteLate: fc.boolean(),
  label: fc.constant('a room'),
});

/** A row of one room on a desk: the days begin at 392 px and are 24 px wide, today is at 416. */
const rowOf = (change: Partial<RibbonRoom>) =>
  todayRibbon({
    widthPx: 1436,
    fromDay: '2026-05-11',
    days: 42,
    today: 1,
    locale: 'en-US',
    x0: 392,
    x1: 1400,
    datumY: 40,
    jobs: [
      {
        id: 'j',
        name: 'Odell',
        place: '',
        rooms: [
          {
            ...RIBBON_ROOM,
            ...{ id: 'r', name: 'Hall', state: 'held', note: 'quote', ...change },
          },
        ],
      },
    ],
  });
/** The left and right edges of a row's hold, the only bar 6 px high. */
const holdOf = (change: Partial<RibbonRoom>): number[] =>
  markWords(rowOf(change).marks).flatMap((words) => {
    const [, x0, y0, x1, y1] = /^filled ([\d.]+),([\d.]+) ([\d.]+),[\d.]+ [\d.]+,([\d.]+)/.exec(words) ?? [];
    return Number(y1) - Number(y0) === 6 && Number(x1) - Number(x0) !== 18 ? [Number(x0), Number(x1)] : [];
  });

describe('the ribbon', () => {
  it('writes beside today what a room without a bar waits for', () => {
    expect(textsOf(rowOf({})).find(({ mark }) => mark.text === 'quote')?.mark.x).toBe(416 + 14);
  });

  it('breaks a bar that goes on past either edge over its whole height, 3 px beyond it', () => {
    const row = rowOf({ isAgreed: true, pours: [{ from: -20, to: -19 }], drying: { from: -19, to: 60 } });
    // A break is a line of six points; a bar is 17 px high.
    const breaks = markWords(row.marks).flatMap((words) => {
      const points = words.startsWith('line ')
        ? words
            .slice(5)
            .split(' ')
            .map((pair) => pair.split(',').map(Number))
        : [];
      const [[x, y0] = [], [, y1] = []] = [points[0], points.at(-1)];
      return points.length === 6 ? [[x, (y1 ?? 0) - (y0 ?? 0)]] : [];
    });
    expect(breaks).toEqual([
      [392, 23],
      [1400, 23],
    ]);
  });

  it('draws a hold up to the next bar, never over one', () => {
    const endless = { from: 1, to: 60 };
    // Day 11 is at 392 + 11 × 24 = 656 px; a hold keeps 8 px from a bar.
    expect(holdOf({ held: endless, prep: { from: 11, to: 12 } })).toEqual([416, 648]);
    expect(holdOf({ held: endless, pours: [{ from: 11, to: 12 }] })).toEqual([416, 648]);
    expect(holdOf({ held: endless, isAgreed: false, drying: { from: 11, to: 20 } })).toEqual([416, 648]);
    expect(holdOf({ held: { from: 1, to: 5 }, prep: { from: 11, to: 12 } })).toEqual([416, 512]);
    // Work that has begun goes first: the hold follows its bar.
    expect(holdOf({ held: endless, prep: { from: 0, to: 2 }, pours: [{ from: 11, to: 12 }] })).toEqual([448, 648]);
    expect(holdOf({ held: endless, drying: { from: 0, to: 60 } })).toEqual([]);
  });

  for (const isNarrow of [false, true])
    it(`keeps its lettering clear, ${isNarrow ? 'narrow' : 'wide'}`, () => {
      const jobs = fc.array(
        fc.record({
          name: fc.constantFrom('Lindqvist', 'Abara and Abara-Holloway, Mr. and Mrs.', ''),
          place: fc.constantFrom('8 Cooper’s Wharf', '1204 Old Quarry Road, rear building', ''),
          rooms: fc.array(room, { maxLength: 4 }),
        }),
        { minLength: 1, maxLength: 3 },
      );
      fc.assert(
        fc.property(jobs, fc.integer(isNarrow ? { min: 320, max: 799 } : { min: 900, max: 2000 }), (drawn, widthPx) => {
          const input = {
            widthPx,
            fromDay: '2026-05-11',
            days: isNarrow ? 14 : 42,
            today: 1.3,
            locale: 'en-US',
            x0: isNarrow ? 18 : 392,
            x1: widthPx - (isNarrow ? 18 : 36),
            datumY: 40,
            isNarrow,
            jobs: drawn.map((job, i) => ({ ...job, id: String(i) })),
          };
          const drawing = todayRibbon(input);
          expect(drawing.height).toBe(ribbonHeightPx(input));
          checkLabels(drawing);
          const names = drawn.flatMap((job) => [job.name, ...job.rooms.map((r) => r.name)]).filter((name) => name !== '');
          expect(textsOf(drawing).filter(({ group }) => group.startsWith('job:')).length).toBeGreaterThanOrEqual(names.length);
        }),
        { numRuns: 60 },
      );
    });
});
