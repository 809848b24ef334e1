/**
 * Cures, moisture tests and logger files of invented floors, figure by figure, as last approved: a guard against a change that nobody meant.
 * Whether a figure is right is checked in the other tests. After a change that was meant, run
 * `npx vitest run --config build/vitest.config.ts test/shared-core/cure/approved -u` and read the difference.
 */
import { describe, expect, it } from 'vitest';
import type { ClearanceTest, CureReading, Promised } from '../../../shared-core/book/cure-record.ts';
import { type Flooring, flooringSchema } from '../../../shared-core/book/flooring.ts';
import { type CoverQuestion, floorClearance, flooringRequirement } from '../../../shared-core/cure/clearance-tests.ts';
import type { CureInput } from '../../../shared-core/cure/cure-input.ts';
import { cureSchedule, isTooCold } from '../../../shared-core/cure/cure-schedule.ts';
import { guessLogChoice, type LogChoice } from '../../../shared-core/cure/log-choice.ts';
import { type LogKnown, NOTHING_KNOWN, previewLog } from '../../../shared-core/cure/log-preview.ts';
import { gravest } from '../../../shared-core/cure/promise-verdict.ts';
import { statedFor } from '../../../shared-core/cure/stated-date.ts';
import {
  clearanceWords,
  milestoneName,
  requirementWords,
  whoseLimit,
  withoutHolesWords,
} from '../../../shared-core/standing/cure-words.ts';
import { statedDateWords } from '../../../shared-core/standing/time-words.ts';
import { parseTable } from '../../../shared-core/table/cell-table.ts';
import { LOGGER_FILES } from '../../corpus/loggers.ts';
import { factLines } from '../fact-lines.ts';
import { limitsOf } from '../flooring-limits.ts';
import { clearanceTest, cover, INPUT, promised, SHEET } from './sheet-fixture.ts';

const HOUR = 3_600_000;
const PLACED = Date.parse(INPUT.placedAt);
const after = (hours: number): string => new Date(PLACED + hours * HOUR).toISOString();
const OWN = limitsOf({ slabHumidity: 0.65, emissionLb: 4, woodMoisture: 0.09 });
const approve = (lines: readonly string[], name: string) => expect(`${lines.join('\n')}\n`).toMatchFileSnapshot(`./approved/${name}.txt`);

const ASKED: CoverQuestion = {
  flooring: 'wood-glued',
  limits: null,
  materialKind: 'cement-underlayment',
  heated: false,
  overWood: false,
  drilling: 'allowed',
  areaM2: 15,
  sharing: [],
  country: 'US',
};
const test = (hours: number, value: number, over: Partial<ClearanceTest> = {}): ClearanceTest =>
  clearanceTest({ value, takenAt: after(hours), ...over });
/** The results of one visit. */
const tests = (hours: number, values: readonly number[], over: Partial<ClearanceTest> = {}): ClearanceTest[] =>
  values.map((value) => test(hours, value, over));
const DRY = [0.7, 0.72, 0.71];

describe('the moisture test of a flooring', () => {
  const places: readonly (readonly [string, Partial<CoverQuestion>, (readonly Flooring[])?])[] = [
    ['US slab', {}],
    ['US slab, own limits', { limits: OWN }],
    ['US wood', { overWood: true }],
    ['US wood, own limits', { overWood: true, limits: OWN }],
    ['GB', { country: 'GB' }],
    ['IE, own limits', { country: 'IE', limits: OWN }],
    ['DE', { country: 'DE' }],
    ['AT, heated', { country: 'AT', heated: true }],
    ['CH, gypsum', { country: 'CH', materialKind: 'calcium-sulfate' }],
    ['DE, own limits', { country: 'DE', limits: OWN }],
    ['FR', { country: 'FR' }],
    ['US slab, not drilled', { drilling: 'never' }, ['wood-glued', 'bare-sealed', 'tile-small']],
    ['US slab, over a moisture system', { drilling: 'over-system' }, ['wood-glued']],
    ['US slab, heat located', { drilling: 'heat-located' }, ['wood-glued']],
    ['US wood, heat located', { drilling: 'heat-located', overWood: true }, ['carpet']],
    ['DE, not drilled', { drilling: 'never', country: 'DE' }, ['wood-glued']],
  ];

  it('with its limit and whose it is', async () => {
    const lines = places.flatMap(([place, over, floorings = flooringSchema.options]) =>
      floorings.flatMap((flooring) => {
        const requirement = flooringRequirement({ ...ASKED, ...over, flooring });
        const methods = requirement.methods.map(
          (one) => `${one.method} ${one.limit} ${one.unit} ${whoseLimit(one)} ${one.hoursAfterPour} h`,
        );
        return [
          `${place}, ${flooring}${requirement.byHours ? ' by hours' : ''}: ${methods.join('; ')}`,
          `  ${requirementWords(requirement)}`,
          ...[withoutHolesWords(requirement)].flatMap((words) => (words === null ? [] : [`  ${words}`])),
        ];
      }),
    );
    await approve(lines, 'required-tests');
  });

  it('as it was passed or not', async () => {
    const beside = (values: readonly number[]): CoverQuestion['sharing'] => [{ areaM2: 60, tests: tests(101, values) }];
    const rounds: readonly (readonly [string, readonly ClearanceTest[], Partial<CoverQuestion>?])[] = [
      ['no test', []],
      ['before the pour', [test(-1, 0.5)]],
      ['at the pour', [test(0, 0.5)]],
      ['an hour too soon', [test(71, 0.5)]],
      ['just late enough', tests(72, DRY)],
      ['one of three', [test(100, 0.5)]],
      ['two of three', tests(100, [0.7, 0.72])],
      ['all three', tests(100, DRY)],
      ['four where 1,080 sq ft needs four', tests(100, [...DRY, 0.7]), { areaM2: 100 }],
      ['three where 1,080 sq ft needs four', tests(100, DRY), { areaM2: 100 }],
      ['one here, two in the room poured with it', [test(100, 0.7)], { sharing: beside([0.7, 0.71]) }],
      ['one here, one in the room poured with it', [test(100, 0.7)], { sharing: beside([0.7]) }],
      ['one here, one of two wet in the room poured with it', [test(100, 0.7)], { sharing: beside([0.7, 0.8]) }],
      ['none here, three in the room poured with it', [], { sharing: beside(DRY) }],
      ['wood, two of three', tests(100, [0.08, 0.09], { method: 'wood-moisture' }), { overWood: true }],
      [
        'wood, 400 sq ft',
        tests(100, [0.08, 0.09, 0.07, 0.08, 0.09, 0.07, 0.08, 0.09], { method: 'wood-moisture' }),
        { overWood: true, areaM2: 37.16 },
      ],
      ['at the limit', tests(100, [0.75, 0.75, 0.75])],
      ['over it', [test(100, 0.751)]],
      ['deleted', [test(100, 0.5, { deletedAt: after(101) })]],
      ['of other flooring', [test(100, 0.5, { flooring: 'carpet' })]],
      ['by a meter, at once', [test(1, 0.05, { method: 'meter' })]],
      ['by a meter, wet', [test(1, 0.06, { method: 'meter' })]],
      ['by a meter, after a wet hole', [test(124, 0.042, { method: 'meter' }), test(100, 0.85)]],
      ['in another unit', [test(100, 0.5, { unit: 'lb' })]],
      ['one hole wet, 12 hours before', [test(112, 0.7), test(100, 0.8)]],
      ['one hole wet, 13 hours before', [...tests(113, DRY), test(100, 0.8)]],
      ['all three, one more a week later', [test(268, 0.74), ...tests(100, DRY)]],
      ['all three, one wet a week later', [test(268, 0.76), ...tests(100, DRY)]],
      ['two dry, one more 13 hours later', [test(113, 0.7), ...tests(100, [0.7, 0.7])]],
      ['two methods, both within', [...tests(100, DRY), test(100, 0.049, { method: 'meter' })]],
      ['too soon after one that counts', [test(10, 0.5), test(90, 0.9)]],
      ['sealer without a limit', [test(100, 0.5, { flooring: 'bare-sealed', method: 'manufacturer-method' })], { flooring: 'bare-sealed' }],
      [
        'sealer with a limit',
        [test(100, 0.5, { flooring: 'bare-sealed', method: 'manufacturer-method' })],
        { flooring: 'bare-sealed', limits: OWN },
      ],
      ['without holes, no limit', [test(100, 0.71, { method: 'without-holes' })], { drilling: 'never' }],
      ['tile', [test(100, 0.9, { flooring: 'tile-small' })], { flooring: 'tile-small' }],
      ['carbide', [test(100, 2, { method: 'carbide', unit: 'cm-percent', by: 'Ada' })], { country: 'DE' }],
      ['calcium chloride after a dry hole', [test(100, 2, { method: 'vapor-emission', unit: 'lb' }), test(90, 0.6)]],
      ['calcium chloride alone', [test(100, 2, { method: 'vapor-emission', unit: 'lb' })]],
    ];
    const lines = rounds.flatMap(([name, tests, over]) => {
      const clearance = floorClearance({ ...ASKED, ...over }, tests, INPUT.placedAt);
      const { passed, finding, test: decided } = clearance;
      const by = decided === null ? 'none' : `${decided.value} ${decided.method}`;
      return [`${name}: ${passed ? 'passed' : 'not'} ${finding.kind} by ${by}`, `  ${clearanceWords(clearance)}`];
    });
    await approve(lines, 'clearances');
  });
});

const readings = (temps: readonly (number | null)[], everyHours: number, humidity: number | null = null): CureReading[] =>
  temps.flatMap((tempC, i) => (tempC === null ? [] : [{ instant: after(i * everyHours), tempC, relativeHumidity: humidity }]));
const promise = (hours: number, over: Partial<Promised> = {}): Promised =>
  promised({ id: `prom${hours}`, promisedFor: after(hours), madeAt: INPUT.placedAt, ...over });
const strength = { ...cover('carpet', 0.01, 2, 3), by: 'strength' as const, thicknessM: null };
const steady = { ...cover('resilient', 0.01, 3, 5), thicknessM: null };
const cold = [14, 12, 9, 6, 8, 12, 15, 10, 10, 9.5, 16];

const CURES: readonly (readonly [string, Partial<CureInput>])[] = [
  ['as assumed', {}],
  ['warm and dry', { assumedTempC: 28, assumedHumidity: 0.3 }],
  ['cool and damp', { assumedTempC: 13, assumedHumidity: 0.7, assumedSpreadC: 1 }],
  ['just too cold in the colder room', { assumedTempC: 11.5 }],
  ['too cold', { assumedTempC: 5 }],
  ['too damp', { assumedHumidity: 0.9995 }],
  ['a night in the cold', { readings: readings(cold, 3, 0.6) }],
  ['before and after', { readings: [...readings([18, 19], 2), { instant: after(-3), tempC: 16, relativeHumidity: 0.4 }] }],
  ['read long after', { readings: readings([null, 18, 19, 20], 9, 0.55) }],
  ['read with a gap', { readings: readings([18, 19, null, null, null, 12, 17], 4) }],
  ['read with a gap, as assumed', { readings: readings([18, 19, null, null, null, 12, 17], 4), gaps: 'assumed' }],
  ['all before the pour', { readings: [{ instant: after(-2), tempC: 25, relativeHumidity: 0.3 }] }],
  ['twice at one time', { readings: [...readings([18, 19, 20], 2), ...readings([21], 1)] }],
  ['another lift to come', { isLastLift: false, promises: [promise(90), promise(3, { milestone: 'walk-on', flooring: null })] }],
  ['second lift over a wet one', { lift: 2, wetBelowM: 0.012 }],
  ['deeper than the data sheet', { depth: { meanM: 0.03, deepestM: 0.055 } }],
  ['thinner than the data sheet', { depth: { meanM: 0.004, deepestM: 0.009 } }],
  ['of one thickness', { depth: { meanM: 0.01, deepestM: 0.02 } }],
  ['no flooring', { flooring: null }],
  ['no flooring, too cold', { flooring: null, assumedTempC: 5 }],
  ['tile by hours', { flooring: 'tile-small' }],
  ['sealer', { flooring: 'bare-sealed', flooringLimits: OWN }],
  ['flooring by strength', { flooring: 'carpet', sheet: { ...SHEET, milestones: [...SHEET.milestones, strength] } }],
  ['flooring of any depth', { flooring: 'resilient', sheet: { ...SHEET, milestones: [...SHEET.milestones, steady] } }],
  ['carpet by the published rules, 60 mm', { flooring: 'carpet', depth: { meanM: 0.045, deepestM: 0.06 } }],
  ['passed', { tests: tests(400, DRY) }],
  ['passed by the own limit of other flooring', { flooringLimits: OWN, tests: [test(400, 0.7)] }],
  ['over wood in Britain', { overWood: true, place: { ...INPUT.place, week: { days: [1, 2, 3, 4, 5, 6], country: 'GB' } } }],
  [
    'promised',
    {
      promises: [
        promise(500),
        promise(200, { id: 'newer', madeAt: after(1) }),
        promise(5, { milestone: 'walk-on', flooring: null }),
        promise(30, { milestone: 'cart', flooring: null }),
        promise(60, { milestone: 'furniture', flooring: null, deletedAt: after(2) }),
        promise(400, { flooring: null }),
        promise(400, { flooring: 'carpet' }),
      ],
    },
  ],
];

const hoursOf = ({ fromMs, toMs }: { readonly fromMs: number; readonly toMs: number }) => [
  (fromMs - PLACED) / HOUR,
  (toMs - PLACED) / HOUR,
];

function cureFacts(input: CureInput): readonly string[] {
  const schedule = cureSchedule(input);
  const { milestones, log, verdicts, clearance, clearedFrom, cover: own, leastCureTempC } = schedule;
  return factLines({
    ...Object.fromEntries(
      milestones.map((one) => [`${one.key} ${milestoneName(one)}`, [one.earliestAt, one.likelyAt, one.latestAt, one.statedAt, one.by]]),
    ),
    ...Object.fromEntries(milestones.map((one) => [`why ${one.key}`, one.reason])),
    tests: milestones.map((one) => one.clearanceTest?.methods.map(({ method, limit }) => `${method} ${limit}`) ?? null),
    own: own?.key,
    isTooCold: isTooCold(schedule),
    leastCureTempC,
    log: {
      ...log,
      gaps: log.gaps.map(hoursOf),
      stoodStill: log.stoodStill.map(hoursOf),
    },
    verdicts: verdicts.map((one) => [one.promise.id, one.state, one.lateByMs]),
    gravest: gravest(verdicts)?.promise.id,
    clearance: clearance?.finding,
    clearedFrom,
  });
}

describe('a cure', () => {
  it('with its dates, reasons and promises', async () => {
    const usual = new Set(cureFacts(INPUT));
    const lines = CURES.flatMap(([name, over]) =>
      cureFacts({ ...INPUT, ...over }).flatMap((line) => (name !== 'as assumed' && usual.has(line) ? [] : [`${name} ${line}`])),
    );
    await approve(lines, 'cures');
  });
});

describe('a stated date', () => {
  it('within working hours and days', async () => {
    const kinds = ['walk-on', 'next-lift', 'furniture', 'cover'] as const;
    const hours = [0, 4.3, 5, 9, 10.99, 14, 19, 30, 72, 96.5, 110, 300];
    const zones = ['America/New_York', 'Europe/Berlin'];
    const lines = zones.flatMap((zone) =>
      hours.map((h) => {
        const place = { ...INPUT.place, zone };
        const words = kinds.map((kind) => {
          const stated = statedFor(kind, after(h), place);
          return `${stated} ${statedDateWords(kind, stated, place, 'weekday', 'en-US')}`;
        });
        return `${zone} ${after(h)}: ${words.join(' | ')}`;
      }),
    );
    // Clocks are set forward at 2 am on March 8, 2026: a business that begins at 2:30 has no such time that day.
    const early = { ...INPUT.place, from: '02:30' };
    const skipped = ['2026-03-08T06:00:00.000Z', '2026-03-08T07:30:00.000Z'].map((at) => `${at}: ${statedFor('furniture', at, early)}`);
    await approve([...lines, ...skipped], 'stated-dates');
  });
});

const HOME = { unit: 'F', dateOrder: 'mdy', timeZone: 'America/New_York' } as const;
const NOW = Date.parse('2026-05-20T18:00:00Z');
const day = (from: string, to: string) => ({ fromMs: Date.parse(from), toMs: Date.parse(to) });
const KNOWN: LogKnown = {
  placedAtMs: Date.parse('2026-05-12T18:30:00Z'),
  logs: [{ name: 'hall.csv', ...day('2026-05-12T19:00:00Z', '2026-05-12T20:00:00Z') }],
};
const HALL = { ...day('2026-05-12T19:00:00Z', '2026-05-12T20:00:00Z'), otherLog: 'hall.csv' };
const hourly = (from: string, temps: readonly (number | string)[], head = 'Time,Temp °F'): string =>
  [head, ...temps.map((t, i) => `${new Date(Date.parse(from) + i * HOUR).toISOString().slice(0, 16).replace('T', ' ')},${t}`)].join('\n');
const steps = (minutes: readonly number[]): string =>
  [
    'Time,Temp °F',
    ...minutes.map((m) => `${new Date(Date.UTC(2026, 4, 12, 8) + m * 60_000).toISOString().slice(0, 16).replace('T', ' ')},68`),
  ].join('\n');

const LOGS: readonly (readonly [string, string, Partial<LogChoice>?, LogKnown?])[] = [
  ...LOGGER_FILES.map(({ name, text }) => [name, text] as const),
  ['hours before the pour and of another', hourly('2026-05-12T12:00:00Z', [68, 67, 66, 65, 64, 63]), {}, KNOWN],
  ['hours of another left out', hourly('2026-05-12T12:00:00Z', [68, 67, 66, 65, 64, 63]), { leavesOut: [HALL] }, KNOWN],
  ['all left out', hourly('2026-05-12T15:00:00Z', [68, 67]), { leavesOut: [HALL] }, KNOWN],
  ['nothing in the column', hourly('2026-05-12T12:00:00Z', ['', 'warm', 4000]), { temperatureColumn: 1 }],
  ['every ten minutes, then silent for half an hour', steps([0, 10, 20, 30, 60, 70])],
  ['every ten minutes, then silent for an hour', steps([0, 10, 20, 30, 90, 100])],
  ['every ten minutes, then silent for more', steps([0, 10, 20, 30, 91, 100])],
  ['every half hour, then silent for more', steps([0, 30, 60, 90, 180, 271])],
  ['every four hours, then silent for nine', steps([0, 240, 480, 1020])],
  ['a clock a day and more ahead', hourly('2026-05-21T15:00:00Z', [68])],
  ['a clock five minutes ahead', 'Time,Temp °F\n2026-05-20 14:05,68'],
  ['a clock six minutes ahead', 'Time,Temp °F\n2026-05-20 14:06,68'],
  ['a clock ahead, told', 'Time,Temp °F\n2026-05-20 14:06,68', { clockAheadMin: 60 }],
  ['spring, skipped', hourly('2026-03-08T01:30:00Z', [68, 68, 68])],
  ['autumn, repeated', 'Time,Temp °F\n2026-11-01 00:30,68\n2026-11-01 01:30,68\n2026-11-01 01:30,67\n2026-11-01 02:30,68'],
  ['half a year in Lord Howe', hourly('2026-10-04T01:45:00Z', [68, 68]), { timeZone: 'Australia/Lord_Howe' }],
  ['split decimals joined', 'Time,Temp °C,RH %\n2026-05-12 14:00,18,9,50\n2026-05-12 15:00,19,1,51', { joinsDecimals: true }],
  ['out of order', 'Time,Temp °F\n2026-05-12 15:00,68\n2026-05-12 14:00,50\n2026-05-12 16:00,70'],
  ['one bad row in fifty', hourly('2026-05-12T00:00:00Z', [...Array.from({ length: 49 }, () => 68), 'x'])],
  ['one bad row in forty-nine', hourly('2026-05-12T00:00:00Z', [...Array.from({ length: 48 }, () => 68), 'x'])],
  ['at the ends of a room', hourly('2026-05-12T00:00:00Z', [-60, 90, -61, 91], 'Time,Temp °C')],
  ['just not hot', hourly('2026-05-12T00:00:00Z', [45, 60], 'Time,Temp °C')],
  ['just not cold', hourly('2026-05-12T00:00:00Z', [30, 44.96])],
  ['just cold', hourly('2026-05-12T00:00:00Z', [30, 44.9])],
];

describe('a logger’s file', () => {
  it('with its columns, questions and rows left out', async () => {
    const lines = LOGS.flatMap(([name, text, over, known]) => {
      const from = parseTable(text);
      const choice = guessLogChoice(from.table, HOME);
      if (choice === null) return [`${name}: no columns`];
      const shares: number[] = [];
      const found = previewLog(from, { ...choice, ...over }, known ?? NOTHING_KNOWN, NOW, (share) => shares.push(share));
      const preview = found.ok ? { ...found.value, gaps: found.value.gaps.map(hoursOf) } : found.problem;
      return factLines({ choice, preview, shares: shares.length > 0 ? shares : undefined }).map((line) => `${name} ${line}`);
    });
    await approve(lines, 'logs');
  });
});
