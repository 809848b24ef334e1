/**
 * Drawings mark by mark, as they were last looked at and approved: a guard against a change that nobody meant. Positions worked out by
 * hand are checked in the other tests. After a change that was meant, run
 * `npx vitest run --config build/vitest.config.ts test/shared-core/drawing/approved -u` and look at the drawings.
 */
import { describe, expect, it } from 'vitest';
import { crewTimeline, placementBands } from '../../../shared-core/drawing/crew-timeline.ts';
import { cureKey } from '../../../shared-core/drawing/cure-bars.ts';
import { curvesDrawing } from '../../../shared-core/drawing/curves.ts';
import { hourTicks, lengthTicks, logTimeTicks, minuteTicks, yearTicks } from '../../../shared-core/drawing/datum.ts';
import { houseDrawing, keyPlan } from '../../../shared-core/drawing/house.ts';
import { liftPicture } from '../../../shared-core/drawing/lift-picture.ts';
import type { Drawing } from '../../../shared-core/drawing/marks.ts';
import { planDrawing } from '../../../shared-core/drawing/plan.ts';
import { cutEdge } from '../../../shared-core/drawing/section.ts';
import { breakLine, featherWedges, notAgreedBar, rangeMark, stateShape } from '../../../shared-core/drawing/shapes.ts';
import { timeline } from '../../../shared-core/drawing/timeline.ts';
import { factLines } from '../fact-lines.ts';
import { drawingDump } from './mark-dump.ts';
import { hall, hallField, hallInput, lengthText } from './sample-room.ts';
import { samples } from './samples.ts';
import { points } from '../../outlines.ts';

const curves = (): Drawing =>
  curvesDrawing({
    widthPx: 420,
    heightPx: 200,
    curves: [
      {
        points: [
          { x: 0, y: 40 },
          { x: 3, y: 24 },
          { x: 6, y: 31 },
          { x: 12, y: 60 },
        ],
        pen: 'seen',
        dash: null,
        words: 'total',
        isStrong: true,
      },
      {
        points: [
          { x: 0, y: 0 },
          { x: 6, y: 20 },
          { x: 12, y: 52 },
        ],
        pen: 'thin',
        dash: 'not-yet',
        words: 'grinding',
        isStrong: false,
      },
    ],
    xLabels: [
      { x: 0, text: '0' },
      { x: 6, text: '6 mm' },
      { x: 12, text: '12 mm' },
    ],
    pointerAtX: 3.5,
    fromY: null,
  });
const lift = (): Drawing =>
  liftPicture({
    widthPx: 640,
    heightPx: 220,
    leastPx: 9,
    mostPx: 96,
    extendedPx: 140,
    leastText: '¼″',
    mostText: '1″',
    extendedText: '1½″',
    neatWords: 'without aggregate',
    extendedWords: 'with aggregate',
  });
const crew = (): Drawing =>
  crewTimeline({
    widthPx: 700,
    bars: [
      { actor: 'mixer', index: 1, doing: 'mix', fromMin: 0, toMin: 3, batch: 1 },
      { actor: 'mixer', index: 1, doing: 'hold', fromMin: 3, toMin: 4, batch: 1 },
      { actor: 'mixer', index: 2, doing: 'mix', fromMin: 1, toMin: 4, batch: 2 },
      { actor: 'carrier', index: 1, doing: 'carry', fromMin: 4, toMin: 6, batch: 1 },
      { actor: 'spreader', index: 1, doing: 'wait', fromMin: 0, toMin: 6, batch: 0 },
      { actor: 'spreader', index: 1, doing: 'spread', fromMin: 6, toMin: 11, batch: 1 },
    ],
    finishMin: 12,
  });
const scale = { from: 0, to: 96, x0: 200, x1: 760, isLog: false };
const moment = { id: 'm', year: 20, state: 'done', lead: 'May 12', text: 'leveled', isLate: false } as const;
const rows = (): Drawing =>
  timeline({
    widthPx: 800,
    datumY: 40,
    scale,
    ticks: [0, 24, 48].map((value) => ({ value, isMajor: value > 0, label: `${value} h` })),
    rows: [
      {
        id: 'a',
        name: 'Foot traffic',
        note: 'fine',
        ranges: [{ id: 'r', from: 4, to: 40, text: '4 to 40 h', isTypical: false }],
        moments: [],
        floors: [],
      },
      {
        id: 'b',
        name: 'Tile',
        note: '',
        ranges: [{ id: 's', from: 50, to: 60, text: '50 to 60 h', isTypical: true }],
        moments: [moment, { ...moment, id: 'n', year: 70, state: 'held', isLate: true, text: 'sealed' }],
        floors: [],
      },
      {
        id: 'c',
        name: 'Hall',
        note: '',
        ranges: [],
        moments: [],
        floors: [
          { from: 10, to: 30, isAgreed: true },
          { from: 60, to: 90, isAgreed: false },
        ],
      },
      {
        id: 'd',
        name: 'Stair, with words that meet its bars',
        note: 'late',
        ranges: [],
        moments: [
          { ...moment, id: 'o', year: 12, text: 'over its bar' },
          { ...moment, id: 'p', year: 93, lead: '', text: 'at the end of the line' },
        ],
        floors: [{ from: 8, to: 28, isAgreed: true }],
      },
    ],
    rowPx: 26,
    now: 30,
    lineWords: 'water in',
  });
/** A drawing too narrow for its words. */
const narrow = (): Drawing =>
  timeline({
    widthPx: 70,
    datumY: 40,
    scale: { ...scale, x0: 20, x1: 60 },
    ticks: [],
    rows: [],
    rowPx: 26,
    now: null,
    lineWords: 'water in',
  });

const square = (xM: number, yM: number, turnDeg = 0) => ({
  outline: points('0,0 4,0 4,3 0,3'),
  holes: [],
  openings: [],
  placedAt: { xM, yM, turnDeg },
});
const rooms = [
  { id: 'a', plan: square(0, 0), look: 'now', hatch: null, lines: ['Hall', '12 m²', '*poured in May'], isPicked: true, label: 'Hall' },
  { id: 'b', plan: square(4, 0), look: 'covered', hatch: 'tile', lines: ['Bath'], label: 'Bath' },
  { id: 'c', plan: square(8, 3, 90), look: 'ours', hatch: null, gapPx: 8, lines: ['Den'], label: 'Den' },
] as const;
const house = (mayTurn: boolean): Drawing =>
  houseDrawing({
    rooms,
    notes: [{ id: 'n', roomId: 'a', xM: 1, yM: 1, letter: 'A', text: 'crack' }],
    hasDimensions: true,
    mayTurn,
    dimensions: mayTurn ? 'chain' : 'overall',
    lengthText,
    widthPx: mayTurn ? 320 : 720,
    heightPx: mayTurn ? 620 : 460,
    scale: { lengthM: 3, text: '3 m' },
    key: { ours: 'poured', now: 'this job', plain: 'other' },
  });

const shapes = (): Drawing => ({
  width: 200,
  height: 200,
  marks: [
    ...rangeMark(10, 50, 90, 20),
    ...rangeMark(10, 15, 20, 40),
    ...stateShape('under-way', 20, 60),
    ...stateShape('held', 40, 60),
    ...breakLine(100, 60, 80),
    featherWedges({ x0: 20, y0: 100, x1: 80, y1: 100, nx: 0, ny: -1 }),
    ...notAgreedBar({ x: 20, y: 120, width: 100, height: 10 }, 40, 60),
    ...cutEdge([20, 160, 120, 150, 180, 160], 12),
  ],
});

const drawings: Readonly<Record<string, () => Drawing>> = {
  ...Object.fromEntries(
    ['hall', 'section', 'layers', 'ribbon', 'cure', 'hours', 'clock'].map((name) => [name, () => samples()[name] as Drawing]),
  ),
  curves,
  lift,
  crew,
  'cure-key': () => ({ width: 60, height: 60, marks: Object.values(cureKey(30, 30)).flat() }),
  placement: () =>
    placementBands({
      widthPx: 400,
      heightPx: 120,
      placedMin: [
        { p10: 2, p50: 3, p90: 5 },
        { p10: 6, p50: 8, p90: 11 },
      ],
    }),
  timeline: rows,
  'narrow-timeline': narrow,
  house: () => house(false),
  'house-turned': () => house(true),
  'key-plan': () =>
    keyPlan(rooms, 120, 90, [
      { xM: 0, yM: 1 },
      { xM: 8, yM: 1 },
    ]),
  shapes,
  'hall-sparse': () =>
    planDrawing({ ...hallInput(), isSparse: true, mayTurn: true, widthPx: 420, heightPx: 760, hasKey: false, scale: null }),
  'hall-prep': () =>
    planDrawing({
      plan: hall,
      widthPx: 700,
      heightPx: 480,
      shows: 'prep',
      lengthText,
      hasPerimeterStrip: true,
      hasDimensions: true,
      floor: hallField(),
      floorMarks: [
        {
          id: 'k',
          kind: 'crack',
          moves: 'moving',
          shape: 'line',
          points: [
            { xM: 0.5, yM: 3 },
            { xM: 3, yM: 3.6 },
          ],
          widthM: 0.002,
          note: '',
        },
        {
          id: 'h',
          kind: 'hollow',
          moves: 'unknown',
          shape: 'area',
          points: [
            { xM: 3, yM: 3 },
            { xM: 4, yM: 3 },
            { xM: 4, yM: 4 },
          ],
          widthM: null,
          note: '',
        },
        { id: 'd', kind: 'drain', moves: 'still', shape: 'spot', points: [{ xM: 1, yM: 2 }], widthM: null, note: '' },
      ],
    }),
};

describe('drawings', () => {
  it.each(Object.keys(drawings))('%s', async (name) => {
    await expect(drawingDump((drawings[name] as () => Drawing)())).toMatchFileSnapshot(`./approved/${name}.txt`);
  });

  it('have ticks', async () => {
    const lines = factLines({
      years: [yearTicks(1926, 2026), yearTicks(2010, 2026), yearTicks(2024, 2026)],
      hours: [hourTicks(7, 17, '12'), hourTicks(0, 24, '24')],
      minutes: [minuteTicks(20), minuteTicks(90)],
      lengths: [lengthTicks(8.5, 20, 'us'), lengthTicks(8.5, 120, 'us'), lengthTicks(8.5, 20, 'metric')],
      'log times': [logTimeTicks(10, 600), logTimeTicks(10, 60 * 24 * 30)],
    });
    await expect(`${lines.join('\n')}\n`).toMatchFileSnapshot('./approved/ticks.txt');
  });
});
