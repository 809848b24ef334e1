/** Graduations and the drawings that hang from them: places on the line worked out by hand, days from the calendar of 2026. */
import { describe, expect, it } from 'vitest';
import { cureRoomMarks, cureRowYs } from '../../../shared-core/drawing/cure-bars.ts';
import {
  clearLabels,
  datumMarks,
  dayTicks,
  hourTicks,
  lengthTicks,
  logTimeTicks,
  minuteTicks,
  scaleX,
  type Scale,
  type Tick,
  weekendSpans,
  yearTicks,
} from '../../../shared-core/drawing/datum.ts';
import { hourStrip } from '../../../shared-core/drawing/hour-strip.ts';
import { CLOCK_LINE_PX, pourClock } from '../../../shared-core/drawing/pour-clock.ts';
import { textWidthPx } from '../../../shared-core/drawing/type-metrics.ts';
import { markWords } from './mark-words.ts';

const labels = (ticks: readonly Tick[]): string[] => ticks.flatMap(({ label }) => (label === null ? [] : [label]));
const majors = (ticks: readonly Tick[]): number[] => ticks.flatMap(({ isMajor, value }) => (isMajor ? [value] : []));
const linear: Scale = { from: 2, to: 12, x0: 100, x1: 600, isLog: false };

describe('a scale', () => {
  it('is in proportion, or in proportion to the logarithm', () => {
    expect([2, 7, 12, 13].map((v) => scaleX(linear, v))).toEqual([100, 350, 600, 650]);
    const log: Scale = { from: 10, to: 1000, x0: 0, x1: 200, isLog: true };
    expect(scaleX(log, 100)).toBeCloseTo(100, 9);
    expect(scaleX(log, 1000)).toBeCloseTo(200, 9);
    expect(scaleX(log, 1)).toBe(0);
  });

  it('drops a label closer than asked to the one before', () => {
    const half = textWidthPx('10', 15) / 2;
    const ticks = (dx: number): Tick[] => [0, dx].map((value) => ({ value, isMajor: true, label: '10' }));
    const px: Scale = { from: 0, to: 100, x0: 0, x1: 100, isLog: false };
    expect(labels(clearLabels(ticks(2 * half + 9.9), px, 10))).toHaveLength(1);
    expect(labels(clearLabels(ticks(2 * half + 10.1), px, 10))).toHaveLength(2);
  });
});

describe('graduations', () => {
  it('of a length are feet or meters, labeled at least 60 px apart, the first with its unit', () => {
    // 20 ft at 10 px a foot.
    const feet = lengthTicks(20 * 0.3048, 10 / 0.3048, 'us');
    expect(feet).toHaveLength(21);
    expect(labels(feet)).toEqual(['10 ft', '20']);
    expect(feet[10]?.value).toBeCloseTo(3.048, 9);
    const meters = lengthTicks(4, 100, 'metric');
    expect(meters).toHaveLength(41);
    expect(labels(meters)).toEqual(['1 m', '2', '3', '4']);
    expect(labels(lengthTicks(4, 130, 'metric'))).toEqual(['0.5 m', '1', '1.5', '2', '2.5', '3', '3.5', '4']);
    // At 2 px a foot every fifth foot is marked, and 50 ft is the first label 60 px or more apart.
    const far = lengthTicks(100 * 0.3048, 2 / 0.3048, 'us');
    expect(far).toHaveLength(21);
    expect(labels(far)).toEqual(['50 ft', '100']);
  });

  it('of days label Mondays, with the month where it changes', () => {
    // May 11, 2026 is a Monday; June 1 as well.
    const ticks = dayTicks('2026-05-13', 26, 'en-US');
    expect(ticks).toHaveLength(27);
    expect(labels(ticks)).toEqual(['May 13', '18', '25', 'Jun 1', '8']);
    expect(majors(ticks)).toEqual([0, 5, 12, 19, 26]);
    // Days of 10 px leave no room for each Monday: “May 13” needs about 45 px and 32 px of space.
    expect(labels(dayTicks('2026-05-11', 28, 'en-US', 10))).toEqual(['May 11', '25', 'Jun 8']);
    expect(labels(dayTicks('2026-05-30', 3, 'en-US', 50))).toEqual(['May 30', '31', 'Jun 1', '2']);
  });

  it('hatch Saturdays and Sundays', () => {
    expect(weekendSpans('2026-05-11', 14)).toEqual([
      [5, 7],
      [12, 14],
    ]);
    // From a Sunday, to a Saturday.
    expect(weekendSpans('2026-05-17', 7)).toEqual([
      [0, 1],
      [6, 7],
    ]);
  });

  it('of hours name noon and midnight, and am once', () => {
    expect(labels(hourTicks(7, 13, '12'))).toEqual(['7 am', '8', '9', '10', '11', 'noon', '1']);
    expect(labels(hourTicks(22.6, 25, '12'))).toEqual(['11 pm', 'midnight', '1']);
    expect(labels(hourTicks(8, 10, '24'))).toEqual(['08:00', '09:00', '10:00']);
    const ticks = hourTicks(7.3, 8, '12');
    expect(ticks.map(({ value }) => value)).toEqual([7.5, 7.75, 8]);
    expect(majors(ticks)).toEqual([8]);
  });

  it('of minutes are labeled each 5, 15 or 30', () => {
    expect(labels(minuteTicks(20.1))).toEqual(['0', '5', '10', '15', '20']);
    expect(minuteTicks(20.1)).toHaveLength(21);
    expect(majors(minuteTicks(31))).toEqual([0, 15, 30]);
    expect(majors(minuteTicks(90))).toEqual([0, 15, 30, 45, 60, 75, 90]);
    expect(majors(minuteTicks(91))).toEqual([0, 30, 60, 90]);
  });

  it('of years mark months up to eight years', () => {
    expect(yearTicks(2024.5, 2026)).toHaveLength(19);
    expect(labels(yearTicks(2024.5, 2026))).toEqual(['2025', '2026']);
    expect(yearTicks(2018, 2026)).toHaveLength(97);
    expect(yearTicks(2017, 2026)).toHaveLength(10);
  });

  it('of a logarithm of time keep to their range, in order', () => {
    const ticks = logTimeTicks(10, 1440);
    expect(labels(ticks)).toEqual(['10 min', '20', '30', '1 h', '2', '3', '6', '12', '1 day']);
    expect(ticks.filter((t) => !t.isMajor).map((t) => t.value)).toEqual([15, 40, 50, 90, 240, 300, 480, 600, 1080]);
    ticks.forEach((tick, i) => expect(tick.value).toBeGreaterThan(ticks[i - 1]?.value ?? 0));
  });
});

describe('the datum', () => {
  it('has its ticks above the line, labels over them, weekends just below, and the pointer on it', () => {
    const marks = datumMarks({
      y: 50,
      fromX: 0,
      toX: 620,
      scale: linear,
      ticks: [
        { value: 2, isMajor: true, label: '2' },
        { value: 7, isMajor: false, label: null },
        { value: 13, isMajor: true, label: 'past the end' },
      ],
      hatched: [
        [0, 3],
        [12, 14],
      ],
      pointerAt: 7,
      pointerToY: 90,
    });
    expect(markWords(marks)).toEqual([
      'line 0,50 620,50',
      // From the start of the scale; the second span is past its end.
      'hatch wall 100,51 150,51 150,57 100,57',
      'line 100,50 100,40',
      'line 350,50 350,45',
      'text 100,35 middle 2',
      'ring 350,50 342.5,39.2 357.5,39.2',
      'filled 350,50 350,39.2 357.5,39.2',
      'line 350,50 350,90',
    ]);
  });

  it('keeps a label at an end on the drawing', () => {
    const half = textWidthPx('12 ft', 15) / 2;
    const at = (value: number) => {
      const mark = datumMarks({ y: 50, fromX: 90, toX: 605, scale: linear, ticks: [{ value, isMajor: true, label: '12 ft' }] });
      return Number(/^text ([\d.]+)/.exec(markWords(mark).find((line) => line.startsWith('text')) ?? '')?.[1]);
    };
    expect(at(12)).toBeCloseTo(605 - half - 2, 1);
    expect(at(2)).toBeCloseTo(90 + half + 2, 1);
  });
});

describe('pour mode’s clock', () => {
  const CLOCK = { widthPx: 440, x0: 20, x1: 422, healingMinutes: 15, coldWords: 'cold', letteringPx: 16 };
  const clock = (ageMinutes: number | null) => markWords(pourClock({ ...CLOCK, ageMinutes }).marks);

  it('ends a third past the healing time, hatched from the bar at that minute on', () => {
    // 402 px for 20.1 minutes: 20 px a minute, so that minute 15 is at 320.
    const y = CLOCK_LINE_PX;
    const marks = clock(null);
    expect(marks.slice(0, 2)).toEqual([`line 0,${y} 440,${y}`, `hatch grind 320,${y - 13} 440,${y - 13} 440,${y - 2} 320,${y - 2}`]);
    expect(marks).toContain(`line 120,${y} 120,${y + 17}`);
    expect(marks).toContain(`line 140,${y} 140,${y + 9}`);
    expect(marks).toContain(`text 120,63 middle 5`);
    expect(marks).toContain('text 320,63 middle cold');
    // Minute 15 itself stands where the words are.
    expect(marks.some((line) => line.endsWith(' 15'))).toBe(false);
    expect(marks).toContain(`filled 318,${y - 26} 318,${y + 18} 322,${y + 18} 322,${y - 26}`);
  });

  it('fills to the age of the oldest wet edge, and stops at its end', () => {
    const y = CLOCK_LINE_PX;
    expect(clock(5)).toContain(`filled 0,${y - 9} 120,${y - 9} 120,${y + 1} 0,${y + 1}`);
    expect(clock(-1)).toContain(`filled 0,${y - 9} 20,${y - 9} 20,${y + 1} 0,${y + 1}`);
    expect(clock(90)).toContain(`filled 0,${y - 9} 422,${y - 9} 422,${y + 1} 0,${y + 1}`);
  });

  it('keeps the whole pointer within its width, however old the edge is', () => {
    const { marks, width } = pourClock({ ...CLOCK, ageMinutes: 90 });
    const across = marks
      .flatMap((mark) => (mark.kind === 'group' ? mark.marks : []))
      .flatMap((mark) => (mark.kind === 'path' ? mark.rings.flatMap(({ xy }) => xy.filter((_, i) => i % 2 === 0)) : []));
    expect(Math.max(...across) - Math.min(...across)).toBeGreaterThan(30);
    expect(Math.max(...across)).toBeLessThan(width);
  });
});

describe('the pour day by the hour', () => {
  // 60 px an hour from 6 am at 100; bars are 18 px high about y 70.
  const base = {
    widthPx: 800,
    x0: 100,
    x1: 700,
    datumY: 40,
    fromHour: 6,
    toHour: 16,
    clock: '12' as const,
    now: null,
    preparing: null,
    primed: null,
    dry: null,
    pour: null,
    latest: null,
  };

  it('places each hour on the line', () => {
    const strip = hourStrip({
      ...base,
      preparing: { from: 7, to: 8, text: 'prep' },
      primed: { hour: 9, text: 'primed' },
      dry: { hour: 11, text: 'dry' },
      pour: { from: 12, to: 13, text: 'pour' },
      latest: { hour: 15, text: 'latest', beyondText: 'prime again' },
    });
    const marks = markWords(strip.marks);
    expect(marks[0]).toBe('line 160,70 640,70');
    expect(marks).toContain('hatch prep 160,61 220,61 220,79 160,79');
    // A slash of 11 px at 11 am.
    expect(marks).toContain('line 394.5,75.5 405.5,64.5');
    expect(marks).toContain('not-yet 460,61 520,61 520,79 460,79');
    expect(marks).toContain('hatch grind 640,61 700,61 700,79 640,79');
    expect(marks).toContain('line 700,61 640,61 640,79 700,79');
    expect(marks).toContain('filled 638,55 638,85 642,85 642,55');
    expect(marks).toContain('text 160,102 start prep');
    expect(strip.height).toBe(116);
    // 60 px after the bar hold no “prime again”.
    expect(marks.some((line) => line.includes('prime again'))).toBe(false);
  });

  it('draws a pour at least 12 px long, and hours off the strip at its ends', () => {
    expect(markWords(hourStrip({ ...base, pour: { from: 12, to: 12, text: 'pour' } }).marks)).toContain(
      'not-yet 460,61 472,61 472,79 460,79',
    );
    expect(markWords(hourStrip({ ...base, dry: { hour: 20, text: 'dry' } }).marks)).toContain('line 694.5,75.5 705.5,64.5');
  });

  it('moves words that would overlap to the right, and drops those that would be far from their mark', () => {
    const words = (hours: readonly [number, number]) => {
      const strip = hourStrip({
        ...base,
        primed: { hour: hours[0], text: 'primed at nine' },
        dry: { hour: hours[1], text: 'dry from here on' },
      });
      return markWords(strip.marks).filter((line) => / (primed|dry)/.test(line));
    };
    const wide = textWidthPx('primed at nine', 15);
    const next = textWidthPx('dry from here on', 15);
    const [first = '', second = ''] = words([9, 9.8]);
    const xOf = (line: string) => Number(/^text ([\d.]+)/.exec(line)?.[1]);
    expect(xOf(first)).toBeCloseTo(280 - wide / 2, 0);
    // In steps of 7 px from its own place, as few as clear the word before.
    const steps = (xOf(second) - (328 - next / 2)) / 7;
    expect(steps).toBeCloseTo(Math.round(steps), 1);
    expect(xOf(second)).toBeGreaterThan(280 + wide / 2);
    expect(xOf(second)).toBeLessThan(280 + wide / 2 + 24);
    expect(xOf(words([9, 13])[1] ?? '')).toBeCloseTo(520 - next / 2, 0);
    expect(words([9, 9])).toHaveLength(1);
  });
});

describe('the rows of a cure', () => {
  // 20 px a day from 100; two milestones in rows of 30 px, then the log.
  const scale: Scale = { from: 0, to: 20, x0: 100, x1: 500, isLog: false };
  const milestone = { promised: [], isDone: false, isLate: false, isDrying: false, label: 'open' };
  const room = {
    id: 'hall',
    pouredAt: 2,
    milestones: [
      { ...milestone, id: 'walk-on', earliest: 3, likely: 4, latest: 6, promised: [5, 7] },
      { ...milestone, id: 'cover', earliest: 8, likely: 30, latest: 40, isDone: true },
    ],
    log: null,
  };

  it('stand below each other, the log after them', () => {
    expect(cureRowYs(room, { topY: 60, rowPx: 30 })).toEqual({ milestones: [75, 105], logTop: 126, bottom: 126 });
  });

  it('run from the pour to each likely date, with a peg for each date promised', () => {
    const marks = markWords(cureRoomMarks(room, { topY: 60, rowPx: 30, scale, now: 3 }));
    expect(marks).toContain('line 140,75 180,75');
    // From the earliest to the latest day, 4 px past both.
    expect(marks).toContain('line 156,75 224,75');
    expect(marks).toContain('ring 200,66 196,61 196,49 204,49 204,61');
    expect(marks).toContain('ring 240,66 236,61 236,49 244,49 244,61');
    // Day 30 is past the end of the scale.
    expect(marks).toContain('line 140,105 500,105');
    expect(marks.at(-1)).toBe('line 140,60 140,117');
  });

  it('fill the pegs of dates that come too early when the floor is late', () => {
    const pegs = (promised: readonly number[]) => {
      const late = { ...milestone, id: 'walk-on', earliest: 3, likely: 6, latest: 9, promised, isLate: true };
      return markWords(cureRoomMarks({ ...room, milestones: [late] }, { topY: 60, rowPx: 30, scale, now: 3 }))
        .filter((line) => / \d+,61 .*49/.test(line))
        .map((line) => line.split(' ')[0]);
    };
    expect(pegs([5, 7])).toEqual(['filled', 'filled']);
    expect(pegs([7, 8])).toEqual(['ring', 'filled']);
  });

  it('draw the log to a scale of at least ten degrees', () => {
    const log = {
      readings: [
        { day: 1, tempC: 30 },
        { day: 2, tempC: 20 },
        { day: 4, tempC: 22 },
      ],
      assumedC: 21,
      assumedTo: 12,
      assumedText: '70 °F assumed',
      leastC: 12,
      leastText: '50 °F',
      stoodStill: [{ from: 3, to: 3 }],
    };
    const marks = markWords(cureRoomMarks({ ...room, milestones: [], log }, { topY: 60, rowPx: 30, scale, now: 5 }));
    // Before the pour a reading sets the scale and is not drawn: 30 to 12 °C over 30 px from y 70.
    const y = (c: number) => Math.round((70 + ((30 - c) / 18) * 30) * 10) / 10;
    expect(marks).toContain(`line 140,${y(20)} 180,${y(22)}`);
    expect(marks).toContain(`dots 140,${y(12)} 340,${y(12)}`);
    expect(marks).toContain(`not-yet 200,${y(21)} 340,${y(21)}`);
    expect(marks).toContain(`text 350,${y(21) + 5} start 70 °F assumed`);
    expect(marks).toContain('ring 160,65 163,65 163,107 160,107');
    // From x 410 there is no room beside the line before the scale ends at 500: the words go above it.
    const long = markWords(
      cureRoomMarks({ ...room, milestones: [], log: { ...log, assumedTo: 15.5 } }, { topY: 60, rowPx: 30, scale, now: 5 }),
    );
    expect(long).toContain(`text 398,${y(21) - 7} end 70 °F assumed`);
    const steady = { ...log, readings: [], assumedC: 20, leastC: 18, stoodStill: [] };
    const even = markWords(cureRoomMarks({ ...room, milestones: [], log: steady }, { topY: 60, rowPx: 30, scale, now: 1 }));
    // 2 degrees of 10 are 6 of 30 px; with no readings the assumption begins at the pour.
    expect(even).toContain('dots 140,76 340,76');
    expect(even).toContain('not-yet 140,70 340,70');
    // Too close to name both.
    expect(even.some((line) => line.endsWith('50 °F'))).toBe(false);
  });
});
