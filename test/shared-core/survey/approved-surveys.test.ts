/**
 * What is read from three known floors and from the readings files of the corpus, as last approved: a guard against a change that nobody
 * meant. Volumes and gaps worked out by hand are checked in the other tests. After a change that was meant, run
 * `npx vitest run --config build/vitest.config.ts test/shared-core/survey/approved -u` and read the difference.
 */
import { describe, expect, it } from 'vitest';
import type { Plan, Survey } from '../../../shared-core/book/plan-fields.ts';
import { fLinePlaces } from '../../../shared-core/survey/f-lines.ts';
import { fNumbersOf } from '../../../shared-core/survey/f-numbers.ts';
import { endOf, levelFloor } from '../../../shared-core/survey/level-network.ts';
import { readingGrid } from '../../../shared-core/survey/reading-grid.ts';
import { columnProblems, readColumn } from '../../../shared-core/survey/reading-entry.ts';
import { guessReadings, type ReadingsInto } from '../../../shared-core/survey/readings-choice.ts';
import { previewReadings } from '../../../shared-core/survey/readings-table.ts';
import { sectionThrough, type SurveyOptions, surveyRoom } from '../../../shared-core/survey/survey-room.ts';
import { parseTable } from '../../../shared-core/table/cell-table.ts';
import { readingsAt, READINGS_FILES } from '../../corpus/readings.ts';
import { factLines } from '../fact-lines.ts';
import { opening } from '../plan/rooms.ts';
import { gridReadings, levelChoice, numbers, planOf, rectangle, surveyOf } from './floors.ts';
import { points } from '../../outlines.ts';

const OPTIONS: SurveyOptions = {
  units: 'us',
  grindPrices: { fillM3: 180_000, grindM2: 900, removeM3: 60_000 },
  flooringThicknessM: 0.012,
  straightedgeM: null,
  flooring: 'tile-large',
  flooringLimits: null,
  country: 'US',
};
const wavy = (x: number, y: number): number => 0.006 * Math.sin(1.3 * x) + 0.004 * Math.cos(2.1 * y) + 0.002 * x;
const L: Plan = {
  ...planOf(
    [
      [0, 0],
      [6, 0],
      [6, 2.5],
      [3.5, 2.5],
      [3.5, 4],
      [0, 4],
    ],
    [
      [
        [1, 1],
        [1.5, 1],
        [1.5, 1.5],
        [1, 1.5],
      ],
    ],
  ),
  openings: [
    opening({ id: 'door-in', wall: 0, fromM: 1, adjoiningM: 0.02 }),
    opening({ id: 'door-out', wall: 5, fromM: 1, adjoiningM: null, kind: 'exterior-door' }),
  ],
};
const next = numbers(11);
const rough = gridReadings(6, 4, 8, 6, (x, y) => wavy(x, y) + 0.003 * next()).filter(([x, y]) => x < 3.4 || y < 2.4);
const FLOORS: Readonly<Record<string, readonly [Plan, Survey]>> = {
  L: [L, surveyOf(rough)],
  'with a typo': [L, surveyOf(rough.map(([x, y, z], i) => [x, y, i === 20 ? z + 0.0254 : z]))],
  'read down': [
    planOf(rectangle(4, 3)),
    surveyOf(
      gridReadings(4, 3, 4, 3, (x, y) => 1.2 - wavy(x, y)),
      'distance-down',
    ),
  ],
  'few readings': [
    planOf(rectangle(4, 3)),
    surveyOf([
      [0.5, 0.5, 0],
      [3.5, 0.5, 0.004],
      [3.5, 2.5, 0.01],
      [0.5, 2.5, 0.002],
      [0.5, 2.5, 0.004],
      [9, 9, 0],
    ]),
  ],
  'two readings': [
    planOf(rectangle(4, 3)),
    surveyOf([
      [0.5, 0.5, 0],
      [3.5, 0.5, 0.004],
    ]),
  ],
};
const CHOICES = {
  level: levelChoice(),
  ground: levelChoice({ grindMostM: 0.005 }),
  high: levelChoice({ levelM: 0.04 }),
  follow: levelChoice({ mode: 'follow' }),
  ramp: levelChoice({
    mode: 'ramp',
    rampThrough: [
      { point: { xM: 0, yM: 0 }, heightM: 0.02 },
      { point: { xM: 3, yM: 0 }, heightM: 0.03 },
      { point: { xM: 0, yM: 3 }, heightM: 0.025 },
    ],
  }),
};
const RUNS = (['level', 'level-gaps', 'straightedge', 'water-level'] as const).map((tool, i) => ({
  id: `run-${tool}`,
  tool,
  from: { xM: 0, yM: i },
  angleDeg: i === 3 ? 90 : 0,
  stepM: 0.6,
  valuesM: [0.002, -0.001, 0.004, 0.003],
  againM: i === 0 ? 0.001 : null,
}));
const into: ReadingsInto = {
  units: 'us',
  locale: 'en-US',
  method: 'height',
  readings: [],
  plan: planOf(rectangle(6, 5)),
  places: points('0,0 1,0'),
};

describe('surveys', () => {
  it.each(Object.entries(FLOORS))('%s', async (name, [plan, survey]) => {
    const lines = Object.entries(CHOICES).flatMap(([choiceName, choice]) => {
      const read = surveyRoom(plan, survey, choice, OPTIONS);
      if (read.state === 'waiting') return factLines({ [choiceName]: read });
      const { floor, level } = read;
      return [
        ...(choiceName === 'level' ? factLines({ ...floor, flatness: read.flatness, numbers: fNumbersOf(floor.spots) }) : []),
        ...factLines({
          [`${choiceName}, level`]: level,
          [`${choiceName}, fill`]: level.fill,
          [`${choiceName}, section`]: sectionThrough(floor, level, choice, level.highSpotsAreGround, {
            from: { xM: -1, yM: 1.2 },
            to: { xM: 7, yM: 1.9 },
          }),
        }),
      ];
    });
    await expect(`${lines.join('\n')}\n`).toMatchFileSnapshot(`./approved/${name.replaceAll(' ', '-')}.txt`);
  });

  it('places, runs and files', async () => {
    const files = READINGS_FILES.flatMap(({ name, text, into: method = 'height', readings = [] }) => {
      const table = parseTable(text);
      const choice = guessReadings(table, { ...into, method });
      return factLines({
        [name]: choice === null ? null : [choice, previewReadings(table, choice, { ...into, method, readings: readingsAt(readings) })],
      });
    });
    const columns = ['1/4\n3/8\n-\n12', '0.25\n0.5\n400', '1 1/2"\n5 mm\nabc', '3\n\n4'].map((text) => {
      const column = readColumn(text, 'sixteenth', 'height');
      return factLines({ [`column ${JSON.stringify(text)}`]: [column, columnProblems(column, 'sixteenth', into.places)] });
    });
    const lines = [
      ...factLines({
        places: [fLinePlaces(L, 'us'), fLinePlaces(L, 'metric'), readingGrid(L), readingGrid(L, 0.9)],
        ends: RUNS.map(endOf),
        runs: levelFloor(RUNS),
        'one run': levelFloor(RUNS.slice(0, 1)),
      }),
      ...files,
      ...columns.flat(),
    ];
    await expect(`${lines.join('\n')}\n`).toMatchFileSnapshot('./approved/files.txt');
  });
});
