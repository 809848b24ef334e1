/**
 * Layouts, crews and pour logs of small floors, figure by figure, as last approved: a guard against a change that nobody meant. Whether a figure
 * is right is checked in the other tests. After a change that was meant, run
 * `npx vitest run --config build/vitest.config.ts test/shared-core/pour/approved -u` and read the difference.
 */
import { describe, expect, it } from 'vitest';
import { type Pour, type PourEvent, pourEventSchema, pourSchema } from '../../../shared-core/book/pour-record.ts';
import type { Region } from '../../../shared-core/plan/region.ts';
import { afterPour } from '../../../shared-core/pour/after-pour.ts';
import { badBatchPlan } from '../../../shared-core/pour/bad-batch.ts';
import { edgeSlackMin } from '../../../shared-core/pour/edge-slack.ts';
import { clocksAt } from '../../../shared-core/pour/clocks.ts';
import { pourModel, withoutChance } from '../../../shared-core/pour/crew-model.ts';
import { floorRest, pourJoints, restPoints } from '../../../shared-core/pour/floor-rest.ts';
import { forecastPour, TYPICAL_SPREAD } from '../../../shared-core/pour/forecast.ts';
import type { Bay } from '../../../shared-core/pour/layout.ts';
import { layOut } from '../../../shared-core/pour/layout.ts';
import { alarmBags, leakAlarm } from '../../../shared-core/pour/leak.ts';
import { facingDoorways, openDoorways, type DoorwayRoom } from '../../../shared-core/pour/open-doorways.ts';
import { outlookOf } from '../../../shared-core/pour/outlook.ts';
import { roomFloor } from '../../../shared-core/pour/placed-floor.ts';
import { type PourRecordPlan, pourState } from '../../../shared-core/pour/pour-state.ts';
import { runOutOf } from '../../../shared-core/pour/run-out.ts';
import { simulatePour, timelineOf } from '../../../shared-core/pour/simulate.ts';
import { loadWithin, startCrew } from '../../../shared-core/pour/start-crew.ts';
import { placeableBags, stopPlan } from '../../../shared-core/pour/stop-plan.ts';
import { storedLayout } from '../../../shared-core/pour/stored-layout.ts';
import { TYPICAL_CREW } from '../../../shared-core/pour/typical-crew.ts';
import { workClocks } from '../../../shared-core/pour/work-clock.ts';
import { points } from '../../outlines.ts';
import { factLines } from '../fact-lines.ts';
import { powder } from '../substrate/a-floor.ts';
import { barePlan } from './bare-plan.ts';
import { bay, box, laidOut, rectangle } from './floors.ts';

const approve = (lines: readonly string[], name: string) => expect(`${lines.join('\n')}\n`).toMatchFileSnapshot(`./approved/${name}.txt`);
const named = (name: string, facts: Readonly<Record<string, unknown>>): readonly string[] =>
  factLines(facts).map((line) => `${name} ${line}`);

const holed: Region = { ...box(0, 1, 5, 2), holes: [[...box(2, 1.2, 3, 1.8).outline]] };
const FLOORS: readonly (readonly [string, readonly Bay[]])[] = [
  ['three lanes', [bay('hall', rectangle(4, 3, 3))]],
  ['begun at the high end', [{ ...bay('hall', rectangle(4, 3, 3)), startAt: 'high' }]],
  ['lanes across', [{ ...bay('hall', [[box(0, 0, 1, 3)], [box(1, 0, 2, 3)], [box(2, 0, 3.5, 3)]]), angleDeg: 90 }]],
  ['at an angle', [{ ...bay('hall', [[box(0, 0, 3, 2)]]), angleDeg: 30 }]],
  ['a notch', [bay('hall', [[box(0, 0, 5, 1)], [box(0, 1, 3, 2)], [box(0, 2, 3, 3)]])]],
  ['a column', [bay('hall', [[box(0, 0, 5, 1)], [holed], [box(0, 2, 5, 3)]])]],
  ['a lane in two pieces', [bay('hall', [[box(0, 0, 5, 1)], [box(0, 1, 2, 2), box(3, 1, 5, 2)]])]],
  ['deeper to one end', [{ ...bay('hall', rectangle(4, 2, 2)), depth: ({ xM }) => 0.005 + 0.004 * xM }]],
  ['dry at one end', [{ ...bay('hall', rectangle(4, 2, 2)), depth: ({ xM }) => Math.max(0, 0.01 * (xM - 1)) }]],
  ['two rooms', [bay('hall', rectangle(3, 2, 2)), bay('closet', rectangle(1.5, 1, 1, 4), 0.02)]],
  ['two sections of one room', [bay('hall', rectangle(2, 2, 2)), bay('hall', rectangle(2, 2, 2, 2))]],
  ['no depth in one lane', [bay('hall', [[box(0, 0, 2, 1)], []])]],
];

describe('a layout', () => {
  it('of small floors', async () => {
    const lines = FLOORS.flatMap(([name, bays]) =>
      (['back-and-forth', 'one-way'] as const).flatMap((pattern) => {
        const found = layOut({ bays, doorways: [], pattern, bagYieldM3: 0.0125, bagsPerBatch: 2 });
        if (!found.ok) return [`${name} ${found.problem.kind}`];
        const { lanes, batches, joins, areaM2, volumeM3 } = found.value;
        return named(`${name} ${pattern}`, {
          whole: [areaM2, volumeM3],
          ...Object.fromEntries(lanes.map(({ pieces: _, ...lane }) => [`lane ${lane.number}`, lane])),
          ...Object.fromEntries(batches.map((batch) => [`batch ${batch.number}`, batch])),
          ...Object.fromEntries(joins.map((join, i) => [`join ${i + 1}`, join])),
        });
      }),
    );
    const refused = [
      { bays: [], bagYieldM3: 0.0125 },
      { bays: [bay('hall', rectangle(4, 3, 3), 0)], bagYieldM3: 0.0125 },
      { bays: [bay('hall', rectangle(4, 3, 3))], bagYieldM3: 0 },
      { bays: [bay('hall', rectangle(4, 3, 3))], bagYieldM3: 1e-6 },
      { bays: [bay('hall', rectangle(4, 3, 3))], bagYieldM3: Number.NaN },
    ].map((one) => JSON.stringify(layOut({ ...one, doorways: [], pattern: 'one-way', bagsPerBatch: 1 })));
    await approve([...lines, ...refused], 'layouts');
  });

  it('through doorways that face each other', async () => {
    const doorway = (id: string, wall: number, fromM: number) => ({
      ...{ id, kind: 'doorway' as const, name: '', wall, fromM, widthM: 0.9, adjoiningM: null, adjoiningFlooring: '' },
      ...{ edge: 'dam' as const, isWayOut: false },
    });
    const room = (roomId: string, outline: string, openings: DoorwayRoom['plan']['openings'], xM: number, turnDeg = 0): DoorwayRoom => ({
      roomId,
      plan: { outline: points(outline), openings, placedAt: { xM, yM: 0, turnDeg } },
    });
    const hall = room('hall', '0,0 4,0 4,3 0,3', [doorway('east', 1, 1), doorway('south', 2, 1)], 0);
    const beside = (offM: number) => room('kitchen', '0,0 3,0 3,3 0,3', [doorway('west', 3, 1.1)], 4 + offM);
    const cases: readonly (readonly [string, readonly DoorwayRoom[]])[] = [
      ['a wall apart', [hall, beside(0.12)]],
      ['0.6 m apart', [hall, beside(0.59)]],
      ['farther apart', [hall, beside(0.7)]],
      ['drawn the other way round', [hall, room('kitchen', '0,0 0,3 3,3 3,0', [doorway('west', 0, 1)], 4.1)]],
      ['turned half way round', [hall, room('kitchen', '0,-3 3,-3 3,0 0,0', [doorway('east', 1, 1)], 7.1, 180)]],
      ['turned by a quarter', [hall, room('kitchen', '0,0 3,0 3,3 0,3', [doorway('south', 2, 1)], 7.1, 90)]],
      ['two to choose from', [hall, room('kitchen', '0,0 3,0 3,3 0,3', [doorway('west', 3, 0.8), doorway('west2', 3, 1.3)], 4.1)]],
    ];
    const lines = cases.flatMap(([name, rooms]) => {
      const pairs = facingDoorways(rooms);
      return named(name, { pairs, open: openDoorways(rooms, pairs), gone: openDoorways(rooms.slice(0, 1), pairs) });
    });
    await approve(lines, 'doorways');
  });
});

describe('a crew', () => {
  it('at the start, and over a pour', async () => {
    const layout = laidOut([bay('hall', rectangle(6, 3, 3))], 0.025, 'back-and-forth', 2);
    const clocks = clocksAt(null, 21.1);
    const starts = (['by-hand', 'cart'] as const).flatMap((carry) =>
      [0, 1, 2, 3, 4, 6].flatMap((helpers) =>
        [8, 12, 20, 40].flatMap((workingTimeMin) => {
          const { mixers, carriers, cartBatches } = startCrew(carry, { workingTimeMin }, undefined, helpers);
          return [`${carry} ${helpers} helpers ${workingTimeMin} min: ${mixers} mixers, ${carriers} carriers, ${cartBatches} a load`];
        }),
      ),
    );
    // The longest load by the working time, with three mixers: each step is where one more batch still fits.
    const loads = Array.from({ length: 60 }, (_, i) => loadWithin({ ...TYPICAL_CREW, mixers: 3 }, { workingTimeMin: i / 2 })).join(' ');
    const slow = { least: 3, usual: 4, most: 8 };
    const crews: readonly (readonly [string, typeof TYPICAL_CREW])[] = [
      ['typical by cart', { ...TYPICAL_CREW, carry: 'cart', cartBatches: 2 }],
      ['one batch a load', { ...TYPICAL_CREW, carry: 'cart', cartBatches: 1 }],
      ['three a load', { ...TYPICAL_CREW, carry: 'cart', cartBatches: 3, mixers: 3 }],
      ['by hand', { ...TYPICAL_CREW, carry: 'by-hand', carriers: 0, mixers: 1 }],
      ['by hand, two stations and a carrier', { ...TYPICAL_CREW, carry: 'by-hand', carriers: 1, mixers: 2 }],
      ['by hand, two spreaders', { ...TYPICAL_CREW, carry: 'by-hand', carriers: 2, mixers: 2, spreaders: 2, spreadMin: slow }],
      ['slow to mix', { ...TYPICAL_CREW, carry: 'cart', cartBatches: 2, mixMin: slow }],
      ['slow to push', { ...TYPICAL_CREW, carry: 'cart', cartBatches: 2, carryMin: slow, emptyMin: slow }],
      ['often stopped', { ...TYPICAL_CREW, carry: 'cart', cartBatches: 2, stoppagesPerHour: 6, stoppageMin: slow }],
    ];
    const lines = crews.flatMap(([name, crew]) => {
      const model = pourModel(layout, crew, clocks);
      if (!model.ok) return [`${name} ${model.problem.kind}`];
      const steady = withoutChance(model.value);
      return named(name, {
        steady: timelineOf(steady, 1, 0),
        placed: simulatePour(steady, { runs: 1, from: 0, seed: 1 }),
        chance: timelineOf(model.value, 7, 3),
        outlook: outlookOf(model.value, simulatePour(model.value, { runs: 20, from: 5, seed: 7 })),
      });
    });
    await approve([...starts, `loads ${loads}`, ...lines], 'crews');
  });
});

// Three lanes of two batches each, two bags a batch.
const LAYOUT = laidOut([bay('room-hall', rectangle(4, 3, 3))], 0.02, 'back-and-forth', 2);
const PLAN: PourRecordPlan = { layout: LAYOUT, hasLater: false, healingMin: 15, workingTimeMin: 12, bagsPerBatch: 2 };
const BARE: PourRecordPlan = { ...PLAN, layout: null };
const START = Date.parse('2026-05-12T14:00:00Z');
const instantOf = (min: number): string => new Date(START + min * 60_000).toISOString();

/**
 * A log in letters, an entry every two minutes: `s` start, `m` mix, `p` place, `e` place at once, `d3` discard a batch, `l1` lane done, `u` undo
 * the entry before, `x5` undo an entry, `t5` move it 4 minutes, `b5` give it 3 bags, `c9` count the stack, `a4` more bags, `i` an incident, `i2` of a
 * batch, `j` a dam, `k` suspect floor, `h` a hollow place, `o` floor taken out, `r` a reading, `n` a lot, `f` finish, `g` resume, `w` wait, `z` the
 * clock goes back.
 */
function logOf(text: string): { readonly events: readonly PourEvent[]; readonly nowAt: string } {
  const events: PourEvent[] = [];
  let min = 0;
  let batches = 0;
  let mixed = 0;
  const why = { by: 'RT', why: '' };
  const mark = (state: string, defect: string | undefined, outline: string) => ({
    ...{ kind: 'marked', roomId: 'room-hall', state, outline: points(outline), ...(defect === undefined ? {} : { defect }) },
    ...why,
  });
  const made: Readonly<Record<string, (n: number) => object>> = {
    s: () => ({ kind: 'started' }),
    m: () => ({ kind: 'mixed', batch: (mixed += 1), bags: 2, waterL: 9.5 }),
    p: (n) => ({ kind: 'placed', batch: n || (batches += 1), roomId: 'room-hall', lane: null, bags: 2 }),
    e: () => ({ kind: 'placed', batch: (batches += 1), roomId: 'room-hall', lane: null, bags: 2, sameCart: true }),
    d: (n) => ({ kind: 'discarded', batch: n, ...why }),
    l: (n) => ({ kind: 'lane-finished', roomId: 'room-hall', lane: n }),
    u: () => ({ kind: 'undone', eventId: `event-${events.length}` }),
    x: (n) => ({ kind: 'undone', eventId: `event-${n}`, ...why }),
    t: (n) => ({ kind: 'corrected', eventId: `event-${n}`, toAt: instantOf(2 * n + 4), toBags: null, ...why }),
    b: (n) => ({ kind: 'corrected', eventId: `event-${n}`, toAt: null, toBags: 3, ...why }),
    c: (n) => ({ kind: 'counted', bags: n, ...why }),
    a: (n) => ({ kind: 'bags-added', bags: n }),
    i: (n) => ({ kind: 'incident', what: 'lumps', note: '', ...(n > 0 ? { batch: n } : {}) }),
    j: () => ({ kind: 'joint', roomId: 'room-hall', from: { xM: 2, yM: 0 }, to: { xM: 2, yM: 3 }, note: '' }),
    k: () => mark('suspect', undefined, '0,0 1,0 1,1 0,1'),
    h: () => mark('suspect', 'hollow', '1,0 3,0 3,1 1,1'),
    o: () => mark('taken-out', undefined, '3,0 4,0 4,2 3,2'),
    r: () => ({
      kind: 'reading',
      airTempC: 20,
      surfaceTempC: 18,
      waterTempC: null,
      powderTempC: null,
      relativeHumidity: 0.5,
      spreadM: 0.14,
    }),
    n: (n) => ({ kind: 'lot', lot: `L${n}` }),
    f: () => ({ kind: 'finished', bagsLeft: null, floor: null }),
    g: () => ({ kind: 'resumed', ...why }),
  };
  for (const [, letter = '', digits = ''] of text.matchAll(/([a-z])(\d*)/g)) {
    const n = Number(digits);
    if (letter === 'w') min += n === 0 ? 10 : n;
    if (letter === 'z') min -= 6;
    const event = made[letter];
    if (event === undefined) continue;
    const seq = events.length + 1;
    events.push(
      pourEventSchema.parse({ id: `event-${seq}`, pourId: 'pour-1', seq, instant: instantOf(min), estimated: false, ...event(n) }),
    );
    if (letter !== 'e') min += 2;
  }
  return { events, nowAt: instantOf(min) };
}

const pourOf = (id: string, { lift = 1, liftsPlanned = 1 }: { readonly lift?: number; readonly liftsPlanned?: number } = {}): Pour =>
  pourSchema.parse({
    ...{ id, createdAt: instantOf(0), changedAt: instantOf(0), deletedAt: null, jobId: 'job-1', roomIds: ['room-hall'], lift },
    ...{ materialId: 'powder-1', startedAt: instantOf(0), finishedAt: instantOf(90), bagsOnSite: 14, bagsPlanned: 12 },
    ...{ fromPaper: false, notes: '' },
    asPoured: {
      ...barePlan(['room-hall'], lift, liftsPlanned),
      rooms: [
        {
          ...{ roomId: 'room-hall', name: 'Hall', lift, liftsPlanned, depth: { meanM: 0.01, deepestM: 0.01 }, isRest: false },
          plan: { outline: points('0,0 4,0 4,3 0,3'), holes: [], openings: [] },
        },
      ],
      layout: storedLayout(LAYOUT),
      material: { ...barePlan([]).material, powder: powder() },
      bagYieldM3: 0.01,
    },
  });

// A letter for each entry, with its figure after it.
// cspell:ignoreRegExp /'[a-z][a-z\d]*'/g
const LOGS = [
  '',
  's',
  'sm',
  'smp',
  'smmpmpmp',
  'smmmppp',
  'smpw',
  'smpw14',
  'pppp',
  'pppl1',
  'pppl1l2',
  'ppl1ppl2ppl3f',
  'ppl1pppppl2',
  'ppppppf',
  'ppppppppf',
  'ppppppfg',
  'pppf',
  'pppfu',
  'pu',
  'ppux2',
  'pppx2',
  'ppux3',
  'ppppt2b3',
  'pppb2u',
  'pppd2',
  'mppd1w',
  'mmd1p2',
  'mmw14p',
  'ppc10pp',
  'ppc3a6p',
  'ppppppppp',
  'pi2ii1d1',
  'ppjp',
  'pppjw16',
  'ppkhof',
  'ppppppkhf',
  'pppppphhof',
  'rpprn7n8n7',
  'pzp',
  'pw40p',
  'pep3',
  'peep',
  'ppp2',
  'a2c0',
] as const;

describe('a pour log', () => {
  it.each([
    ['logs', PLAN, LOGS],
    ['logs-without-layout', BARE, ['', 's', 'smmpmpmp', 'smpw14', 'pppl1', 'ppppppfg', 'pppd2', 'mppd1w', 'ppjp', 'ppc3a6p']],
  ] as const)('read and forecast: %s', async (file, plan, logs) => {
    const lines = logs.flatMap((text) => {
      const { events, nowAt } = logOf(text);
      const state = pourState(plan, { bagsOnSite: 14 }, events, nowAt);
      const { entries, undoable, redoable, incidents, covered, batches, ...rest } = state;
      const forecast = forecastPour(plan, state, TYPICAL_SPREAD);
      const limits = { leastM: 0.004, fetchMin: 9 };
      return named(text === '' ? 'nothing' : text, {
        state: rest,
        ...Object.fromEntries(batches.map((batch) => [`batch ${batch.number}`, batch])),
        entries: entries.map(({ event, min, undone }) => [event.kind, min, undone, event.instant]),
        mark: [undoable?.id, redoable?.undo.id, redoable?.voided.id, incidents.length, [...covered]],
        forecast,
        leak: leakAlarm(plan, state, TYPICAL_SPREAD),
        runOut: forecast === null ? null : [0, 9, null].map((fetchMin) => runOutOf(PLAN, state, forecast, { ...limits, fetchMin })),
        bad: [1, 2, 9].map((number) => badBatchPlan(plan, state, number)),
        slack: edgeSlackMin(plan, state),
        stop: [null, 2, 30].map((outageMin) => stopPlan(plan, state, { bags: placeableBags(state), outageMin })),
        stopLater: [1, 4, 20].map((bags) => stopPlan(plan, state, { bags, outageMin: null })),
        clocks: workClocks(plan, state),
        after: plan.layout === null ? undefined : afterPour(LAYOUT, state, { healingMin: 6, hasLater: false }, [1, 3, 5, 7, 9, 11]),
      });
    });
    const alarms = [0, 1, 4, 12].map((bags) => alarmBags(bags, 2, TYPICAL_SPREAD).toFixed(4));
    await approve([...lines, `alarms at ${alarms.join(' ')}`], file);
  });

  it('as floor placed, suspect and still to place', async () => {
    const grid = points('0.5,0.5 2,0.5 3.5,0.5 0.5,1.5 2,1.5 3.5,1.5 0.5,2.5 2,2.5 3.5,2.5');
    const floors = LOGS.filter((text) => text.includes('p')).flatMap((text) => {
      const floor = roomFloor([pourOf('pour-1')], logOf(text).events, 'room-hall');
      const { lift, pours, running, ...rest } = floor;
      return named(text, {
        floor: { ...rest, pours: pours.length, running: running?.id },
        lift: lift === null ? null : { ...lift, regions: lift.regions.length },
        ...Object.fromEntries((lift?.regions ?? []).map((region, i) => [`region ${i + 1}`, region])),
        rest: floorRest(floor),
        joints: pourJoints(floor),
        points: restPoints(grid, floor),
      });
    });
    await approve(floors, 'floors');
  });
});
