/**
 * Questions and problems of a pour, of a logger's file and of a data sheet, each kind in words, as last approved: a guard against a change
 * that nobody meant. After a change that was meant, run
 * `npx vitest run --config build/vitest.config.ts test/shared-core/documents/approved -u` and read the difference.
 */
import { expect, it } from 'vitest';
import type { LogProblem, RowProblem } from '../../../shared-core/cure/log-preview.ts';
import type { LogQuestion } from '../../../shared-core/cure/log-questions.ts';
import { logProblemWords, logQuestionWords, rowProblemWords } from '../../../shared-core/documents/logger-words.ts';
import { carryingWords, contradictionWords, waterProblemWords } from '../../../shared-core/documents/material-words.ts';
import {
  cartOverloadWords,
  paperProblemWords,
  pourProblemWords,
  questionWords,
  stationOverWords,
} from '../../../shared-core/documents/pour-words.ts';
import type { Disagreement } from '../../../shared-core/material/contradictions.ts';
import type { PourProblem } from '../../../shared-core/pour/layout.ts';
import type { PaperProblem } from '../../../shared-core/pour/paper-log.ts';
import type { PourQuestion } from '../../../shared-core/pour/pour-commands.ts';
import type { ReadPourProblem } from '../../../shared-core/standing/read-pour.ts';
import { CU_FT_M3, IN_M, LB_KG } from '../../reference/material-facts.ts';
import { eachKind, wordsText } from '../each-kind.ts';

const SAY = ['metric', 'en-US'] as const;

it('pour mode and the plan of a pour', async () => {
  const short = { batch: 7, bags: 2, bagsLeft: 1 };
  const count = { bagsBrought: 10, bagsUsed: 13, bagsLeft: -3, counted: 5 };
  const questions = eachKind<PourQuestion>(questionWords, {
    'mixed-twice': [{ batch: 4 }],
    'placed-twice': [{ batch: 5 }],
    'mixed-short': [short],
    'placed-short': [short],
    'undone-before': [
      { batch: 3, minutesAgo: 1 },
      { batch: 3, minutesAgo: 0 },
    ],
    'none-placed': [{}],
    'lane-late': [{ lane: 1, batch: 3 }],
    'count-differs': [count, { ...count, bagsLeft: 1 }],
    'still-mixed': [{ batch: 6 }],
    'end-count-differs': [count, { bagsBrought: 40, bagsUsed: 10, bagsLeft: 24, counted: 23 }],
  });
  const room = { room: 'Hall' };
  const two = { ...room, lead: 'Laundry' };
  const problems = eachKind<PourProblem | ReadPourProblem>(pourProblemWords, {
    'no-rooms': [{}],
    'no-product': [room],
    'no-estimate': [room],
    'other-product': [two],
    'other-mix': [two],
    'depth-unknown': [
      { ...room, why: null },
      { ...room, why: 'Close the loop.' },
    ],
    'lifts-apart': [
      {
        rooms: [
          { name: 'Hall', lift: 1 },
          { name: 'Laundry', lift: 2 },
        ],
      },
    ],
    'no-sheet-stored': [{}],
    'rooms-removed': [{}],
    'no-batch-size': [{}],
    'no-floor': [{}],
    'no-depth': [{}],
    'no-mixer': [{}],
    'no-spreader': [{}],
    'no-batch': [{}],
    'no-load': [{}],
    'no-times': [{}],
    'no-layout-stored': [{}],
    'too-many-batches': [{ batches: 2001 }],
    'not-drawn': [room],
    'lanes-do-not-fit': [room],
  });
  const at = [{ line: 2, batch: 3, repeated: 4 }] as const;
  const handwritten = eachKind<PaperProblem>(paperProblemWords, {
    ...{ 'not-numbered': at, 'range-backward': at, 'no-bags': at, 'no-time': at, 'out-of-order': at, repeated: at },
  });
  const load = { batches: 5, loadL: 63.5, holdsL: 63, fit: 4 };
  const crew = [
    cartOverloadWords(load, ...SAY),
    cartOverloadWords({ ...load, holdsL: 12, fit: 0 }, ...SAY),
    stationOverWords({ station: 'mixing', named: 2, planned: 1 }),
    stationOverWords({ station: 'carrying', named: 1, planned: 0 }),
  ];
  await expect(wordsText({ questions, problems, handwritten, crew })).toMatchFileSnapshot('./approved/pour-words.txt');
});

it('a file of a logger', async () => {
  const hours = { fromMs: 0, toMs: 1, otherLog: null };
  const other = { ...hours, otherLog: 'hall.csv' };
  const suggest = {};
  const questions = eachKind<LogQuestion>(logQuestionWords, {
    unit: [
      { suggest, readAs: 'C' },
      { suggest, readAs: 'F' },
    ],
    'humidity-unit': [
      { suggest, most: 0 },
      { suggest, most: 0.0055 },
    ],
    clock: [
      { suggest, minutesAhead: 2000, hoursFast: null },
      { suggest, minutesAhead: 50, hoursFast: 1 },
      { suggest, minutesAhead: 90, hoursFast: 2 },
    ],
    'skipped-hour': [
      { suggest, readings: 1, timeZone: 'America/New_York' },
      { suggest, readings: 1200, timeZone: 'America/New_York' },
    ],
    'date-order': [
      { suggest, readAs: 'mdy' },
      { suggest, readAs: 'dmy' },
    ],
    wide: [
      { suggest, rows: 1, of: 9 },
      { suggest, rows: 2, of: 9 },
    ],
    unreadable: [{ suggest, rows: 40, of: 1200 }],
    differing: [
      { suggest, rows: 1, of: 9 },
      { suggest, rows: 3, of: 9 },
    ],
    'before-pour': [
      { suggest, readings: 1 },
      { suggest, readings: 5 },
    ],
    overlap: [
      {
        suggest,
        logs: [
          { name: 'hall.csv', count: 4, hours },
          { name: 'old.csv', count: 1000, hours },
        ],
      },
    ],
  });
  const rows = eachKind<RowProblem>(rowProblemWords, {
    'no-time': [{}],
    'no-temperature': [{}],
    'not-a-time': [{ cell: 'soon' }],
    'not-a-temperature': [{ cell: 'warm' }],
    'not-in-a-room': [{ cell: '400' }],
    humidity: [{ percent: 120.5 }],
    wide: [{ cells: 4, headings: 3 }],
    hours: [{ hours }, { hours: other }],
  });
  const files = eachKind<LogProblem>(logProblemWords, {
    zone: [{ message: 'Enter a zone.' }],
    'all-excluded': [{ hours: [hours, other] }],
    'no-rows': [{ first: null }, { first: { row: 3, problem: { kind: 'no-time' } } }],
    'too-many': [{ readings: 500_100, most: 500_000 }],
  });
  await expect(wordsText({ questions, rows, files })).toMatchFileSnapshot('./approved/logger-words.txt');
});

it('a data sheet', async () => {
  // Quarts of the US, NIST Handbook 44, appendix C.
  const QT_L = 0.946352946;
  const PCF = LB_KG / CU_FT_M3;
  const statedM3 = 0.45 * CU_FT_M3;
  const bagKg = 50 * LB_KG;
  const METRIC: ReadonlySet<Disagreement['kind']> = new Set(['cure-temperature', 'designation-strength']);
  const contradictions = eachKind((what: Disagreement) => contradictionWords(what, METRIC.has(what.kind) ? 'metric' : 'us', 'en-US'), {
    askew: [{ figure: 'waterL' }],
    'yield-zero': [{}],
    // 60.43 lb at 125 lb/cu ft are 0.483 cu ft; of 14 bags at 0.45 cu ft one is more than needed, by hand.
    'yield-mass': [{ bagKg, waterL: 5 * QT_L, densityKgM3: 125 * PCF, byMassM3: (60.43 / 125) * CU_FT_M3, statedM3 }],
    'yield-measured': [
      { measuredM3: 0.52 * CU_FT_M3, statedM3, source: 'bag' },
      { measuredM3: 0.52 * CU_FT_M3, statedM3, source: 'typical' },
    ],
    'measured-missing': [{}],
    'water-share': [{ waterL: 10 * QT_L, bagKg }],
    'healing-flow': [{}],
    'mix-flow': [{}],
    'milestone-order': [{}],
    'extended-share': [{}],
    'extended-thin': [{ extendedM: IN_M, neatM: 2 * IN_M }],
    'hard-fresh': [{ hardKgM3: 130 * PCF, freshKgM3: 120 * PCF }],
    designation: [{ designation: 'CT-C25' }],
    // EN 13813: C25 is 25 N/mm².
    'designation-strength': [{ designation: 'CT-C25-F5', declaredPa: 25e6, statedPa: 20e6 }],
    'cure-temperature': [{ leastC: 20, referenceC: 20 }],
  });
  const water = [
    waterProblemWords({ kind: 'too-much', waterL: 6, limitL: 5 }, 'Fine', ...SAY),
    waterProblemWords({ kind: 'too-little', waterL: 4, limitL: 4.5 }, 'Fine', ...SAY),
  ];
  // Over an index of 1 some people are at risk, over 3 nearly all: NIOSH publication 94-110.
  const way = (index: number | null) => ({ loadKg: 25, limitKg: 10, index });
  const carrying = [0.9, 2, 3.1].map((index) =>
    carryingWords({ totalKg: 1200, lifts: 90, ways: { alone: way(index), cart: way(1.5), two: way(null) } }, ...SAY),
  );
  await expect(wordsText({ contradictions, water, carrying })).toMatchFileSnapshot('./approved/material-words.txt');
});
