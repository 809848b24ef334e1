/**
 * What is drawn of rooms of the sample, mark by mark, from assessment to the finished floor, as last approved: a guard against a change
 * that nobody meant. Positions worked out by hand are checked in the other tests. After a change that was meant, run
 * `npx vitest run --config build/vitest.config.ts test/shared-core/drawing/approved -u` and look at the drawings.
 */
import { describe, expect, it } from 'vitest';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { deviationOf, flatnessMarks } from '../../../shared-core/drawing/flatness-map.ts';
import { hatchLines } from '../../../shared-core/drawing/hatch.ts';
import { houseDrawing, type HouseRoom } from '../../../shared-core/drawing/house.ts';
import { layersSection } from '../../../shared-core/drawing/layers-section.ts';
import { type Drawing, hatchSchema, type Mark } from '../../../shared-core/drawing/marks.ts';
import { cornerOf, planDrawing } from '../../../shared-core/drawing/plan.ts';
import type { PlanInput } from '../../../shared-core/drawing/plan-input.ts';
import { edgeFigures, joinLetter, joinWatched, laneWays, roomOfJoin } from '../../../shared-core/drawing/pour-edges.ts';
import { type PourProgress, pourOnPlan, regionsForCustomer, regionsOnPlan } from '../../../shared-core/drawing/pour-plan.ts';
import { lineNumbers, prepPlan } from '../../../shared-core/drawing/prep-plan.ts';
import { qrCode } from '../../../shared-core/drawing/qr-code.ts';
import { roomLayers } from '../../../shared-core/drawing/room-layers.ts';
import { roomPlan, usualSection } from '../../../shared-core/drawing/room-plan.ts';
import { roomSection } from '../../../shared-core/drawing/room-section.ts';
import { sectionDrawing } from '../../../shared-core/drawing/section.ts';
import type { UnitSystem } from '../../../shared-core/measure/unit-system.ts';
import { joinAges } from '../../../shared-core/pour/joins.ts';
import type { FloorRegion } from '../../../shared-core/pour/pour-regions.ts';
import { type JobReading, readJob, type RoomReading } from '../../../shared-core/standing/read-job.ts';
import { readPour } from '../../../shared-core/standing/read-pour.ts';
import { worstGap } from '../../../shared-core/survey/flatness.ts';
import { factLines } from '../fact-lines.ts';
import { NOW, VARIANTS, wholeOf } from '../job-variants.ts';
import { drawingDump } from './mark-dump.ts';
import { lengthText } from './sample-room.ts';

const readings = new Map<string, JobReading>();
/** A job of the sample, or a variant of it by the words its name begins with. */
function jobOf(jobNumber: string, variant = ''): JobReading {
  const key = jobNumber + variant;
  const change = variant === '' ? (whole: WholeJob) => whole : VARIANTS.find(([name]) => name.startsWith(variant))?.[2];
  if (change === undefined) throw new Error(`No variant ${variant}`);
  const reading = readings.get(key) ?? readJob(change(wholeOf(jobNumber)), NOW);
  readings.set(key, reading);
  return reading;
}
function roomOf(reading: JobReading, name: string): RoomReading {
  const found = reading.rooms.find(({ room }) => room.name === name);
  if (found === undefined) throw new Error(`No room ${name}`);
  return found;
}
const hall = (variant = ''): RoomReading => roomOf(jobOf('26-031', variant), 'Hall');
const basement = (): RoomReading => roomOf(jobOf('26-029'), 'Basement');
const sheetOf = (marks: readonly Mark[]): Drawing => ({ width: 400, height: 300, marks: [...marks] });
/** The names of the marks that can be pressed or read out. */
const namesIn = (marks: readonly Mark[]): string[] =>
  marks.flatMap((mark) => (mark.kind === 'group' ? [...(mark.label === '' ? [] : [mark.name]), ...namesIn(mark.marks)] : []));
const approve = (name: string, drawings: Readonly<Record<string, Drawing | null>>, more: readonly string[] = []): Promise<void> => {
  // On the screen a mark is found again by its name: of two with one name, an old one would stay.
  for (const [title, one] of Object.entries(drawings)) {
    const names = namesIn(one?.marks ?? []);
    expect(
      names.filter((n, i) => names.indexOf(n) !== i),
      `${name}: ${title}`,
    ).toEqual([]);
  }
  return expect(
    [...Object.entries(drawings).map(([title, one]) => `= ${title}\n${one === null ? 'nothing\n' : drawingDump(one)}`), ...more].join('\n'),
  ).toMatchFileSnapshot(`./approved/room-${name}.txt`);
};

/** The plan and the section of a room's estimate, and the input of both. */
function estimated({ room, estimate }: RoomReading, units: UnitSystem, more: Partial<PlanInput> = {}) {
  if (estimate === null || estimate.survey.state !== 'surveyed') throw new Error(`${room.name} is not surveyed.`);
  const { survey, level } = estimate;
  const cut = usualSection(room, survey);
  if (cut === null) throw new Error(`${room.name} has no section.`);
  const plans = (['depth', 'height', 'read'] as const).map(
    (shows) =>
      [
        `${shows} in ${units}`,
        roomPlan({
          room,
          survey,
          level,
          shows,
          units,
          locale: 'en-US',
          widthPx: 640,
          heightPx: 420,
          section: [...cut],
          isSparse: shows === 'read',
        }),
      ] as const,
  );
  const section = roomSection({ room, survey, level, cut, units, widthPx: 900, heightPx: 170, datumY: 60, x0: 120, x1: 800 });
  const drawings: Record<string, Drawing | null> = {
    ...Object.fromEntries(plans.map(([title, input]) => [title, planDrawing({ ...input, ...more })])),
    [`section in ${units}`]: section === null ? null : sectionDrawing(section),
  };
  return { drawings, lines: factLines({ cut, section, ...Object.fromEntries(plans) }) };
}

/** The pour of a room alone, with everything the plan can show of it. */
function pourOf(reading: JobReading, name: string) {
  const { room } = roomOf(reading, name);
  const read = readPour(reading, [room.id]);
  if (!read.ok || !read.value.layout.ok) throw new Error(`${name} has no layout.`);
  const layout = read.value.layout.value;
  // A batch every four minutes, placed for three.
  const ages = joinAges(layout.joins, { startMin: layout.batches.map((_, i) => 4 * i), endMin: layout.batches.map((_, i) => 4 * i + 3) });
  const watched = ages
    .filter(({ mostMin }) => mostMin > 15)
    .map(({ join, ...age }, i) => joinWatched({ ...join, ...age, roomId: room.id }, joinLetter(i)));
  const extras = {
    ways: laneWays(layout, room.id),
    figures: edgeFigures(layout, room.id, ages, 15, (min) => `${Math.round(min)} min`),
    watched,
  };
  const done = Math.ceil(layout.batches.length / 3);
  const progress: PourProgress = {
    placed: new Map(layout.batches.slice(0, done).map(({ number }) => [number, number])),
    next: layout.batches[done]?.number ?? null,
    nextToLand: done + 1,
    lanesDone: new Set([1]),
  };
  const regions = layout.batches.map(
    ({ number, pieces, areaM2, roomId, lane }, i): FloorRegion => ({
      roomId,
      state: (['placed', 'suspect', 'not-placed', 'taken-out', 'placed'] as const)[i % 5] ?? 'placed',
      floor: pieces.flatMap(({ floor }) => floor),
      areaM2,
      lane,
      batch: i % 5 === 4 ? null : number,
      pourId: 'p',
      placedAt: null,
      thicknessM: null,
      reasons: [],
      notes: [],
      mark: null,
    }),
  );
  const drawn = (pour: NonNullable<PlanInput['pour']>, more: Partial<PlanInput> = {}): Drawing =>
    planDrawing({ plan: room.plan, widthPx: 640, heightPx: 420, shows: 'lanes', lengthText, pour, openingWords: (o) => [o.name], ...more });
  const finished = { ...pourOnPlan(layout, room.id, progress, false), wetEdges: [] };
  const outline = room.plan.outline;
  const joints = [{ id: 'j', from: outline[0] ?? { xM: 0, yM: 0 }, to: outline[2] ?? { xM: 1, yM: 1 } }];
  const drawings = {
    planned: drawn({ ...pourOnPlan(layout, room.id, null, false), ...extras }, { hasDimensions: true }),
    'in pour mode': drawn(
      { ...pourOnPlan(layout, room.id, progress, true), joints },
      { marginPx: { left: 3, top: 3, right: 112, bottom: 40 } },
    ),
    'half done': drawn({ ...pourOnPlan(layout, room.id, progress, false), letteringPx: 20 }),
    done: drawn({ ...finished, batches: regionsOnPlan(regions) }),
    'for the customer': drawn({ ...finished, lanes: [], batches: regionsForCustomer(regions) }, { openingWords: () => [] }),
  };
  const lines = factLines({
    ...extras,
    rooms: layout.joins.map((join) => roomOfJoin(layout, join)),
    letters: [0, 25, 26].map(joinLetter),
    ...Object.fromEntries(
      [null, progress, { placed: new Map([[1, 1]]), next: null, nextToLand: 2, lanesDone: new Set<number>() }].flatMap((one, i) =>
        [false, true].map((isPourMode) => [`pour ${i} ${String(isPourMode)}`, pourOnPlan(layout, room.id, one, isPourMode)]),
      ),
    ),
    regions: [regionsOnPlan(regions), regionsForCustomer(regions)],
  });
  return { drawings, lines };
}

/** The floor assembly with a line to each test. */
function assembly(roomReading: RoomReading, change: Partial<Parameters<typeof roomLayers>[0]> = {}): ReturnType<typeof roomLayers> {
  const { room, estimate } = roomReading;
  const probes = (
    ['slab-moisture', 'wood-boards', 'wood-structure', 'absorption', 'surface-strength', 'surface-look', 'deflection', 'air'] as const
  ).map((id, i) => ({ id, x: 90 + 70 * i, label: id }));
  return roomLayers({
    room,
    survey: estimate?.survey ?? null,
    heldIds: new Set(room.layers.slice(0, 1).map(({ id }) => id)),
    units: 'us',
    widthPx: 760,
    x0: 130,
    x1: 700,
    probes,
    ...change,
  });
}

describe('the rooms of the sample', () => {
  it('estimated', async () => {
    const asItIs = estimated(hall(), 'us');
    const turned = estimated(basement(), 'metric', { mayTurn: true, widthPx: 380, heightPx: 620 });
    const following = estimated(hall('following'), 'us');
    const uneven = estimated(roomOf(jobOf('26-022', 'three times'), 'Workshop'), 'metric');
    await approve('estimated', { ...asItIs.drawings, ...turned.drawings }, [
      ...asItIs.lines,
      ...turned.lines,
      ...following.lines,
      ...uneven.lines,
    ]);
  });

  it('assessed', async () => {
    const { room } = hall();
    const outline = room.plan.outline;
    const part = room.layers.map((layer, i) => (i === 0 ? { ...layer, area: outline.slice(0, 3) } : layer));
    const inputs = {
      hall: assembly(hall()),
      basement: assembly(basement(), { units: 'metric', x0: 60 }),
      'part covered': assembly(hall(), { room: { ...room, layers: part } }),
      'not surveyed': assembly(hall(), { survey: null }),
      'not drawn': assembly(hall(), { room: { ...room, plan: { ...room.plan, outline: [] } }, survey: null }),
    };
    await approve(
      'assessed',
      Object.fromEntries(Object.entries(inputs).map(([name, input]) => [name, layersSection(input)])),
      factLines(inputs),
    );
  });

  it('prepared', async () => {
    const roomReading = hall();
    const numberOf = lineNumbers(roomReading.preparation.lines);
    const input = prepPlan({ roomReading, units: 'us', locale: 'en-US', widthPx: 640, heightPx: 420, numberOf });
    const [first] = input.plan.openings;
    const corner = { widthPx: 180, heightPx: 60 };
    const more: PlanInput = {
      ...input,
      areas: (['grind', null] as const).map((hatch, i) => ({
        id: `area-${i}`,
        label: 'an area',
        corners: input.plan.outline.slice(0, 3),
        hatch,
        isDashed: i === 0,
      })),
      keepClear: input.plan.outline.map((p) => ({ ...p, byPx: 30 })),
      corner,
      hasKey: true,
      title: { text: 'Prep', caption: 'with a caption that runs over more than one line of the corner' },
      names: ['Hall', 'primed'],
      pouredGapPx: 9,
      openingWords: (o) => (o === first ? ['first', 'door'] : []),
    };
    const place = cornerOf({ ...more, corner });
    await approve('prepared', { hall: planDrawing(input), 'with more on it': planDrawing(more) }, factLines({ input, place }));
  });

  it('poured', async () => {
    const shown = pourOf(jobOf('26-031'), 'Hall');
    const many = pourOf(jobOf('26-029'), 'Basement');
    await approve('poured', { ...shown.drawings, 'many, planned': many.drawings.planned, 'many, done': many.drawings.done }, [
      ...shown.lines,
      ...many.lines,
    ]);
  });

  it('measured for flatness', async () => {
    const maps = [hall(), basement()].flatMap(({ room, estimate }) => {
      if (estimate === null || estimate.survey.state !== 'surveyed') return [];
      const { floor } = estimate.survey;
      const deviation = deviationOf(room.plan, floor);
      const steps = { everyM: 0.003, heavyEveryM: 0.006, text: (m: number) => String(Math.round(m * 1000)) };
      const { contacts, point, gapM } = worstGap(floor.profiles, 3);
      const straightedge =
        contacts === null || point === null ? null : { ends: contacts, at: point, words: `${Math.round(gapM * 1000)} mm` };
      const box = { x: 10, y: 20, width: 300, height: 200 };
      return [
        [room.name, sheetOf(flatnessMarks({ plan: room.plan, deviation, steps, straightedge }, box))],
        [
          `${room.name} small`,
          sheetOf(flatnessMarks({ plan: room.plan, deviation, steps, straightedge }, { ...box, width: 60, height: 40 })),
        ],
        [`${room.name} not measured`, sheetOf(flatnessMarks({ plan: room.plan, deviation: null, steps, straightedge: null }, box))],
      ] as const;
    });
    await approve('flatness', Object.fromEntries(maps));
  });

  it('in their house', async () => {
    const rooms = jobOf('26-031').rooms.map(({ room }, i): HouseRoom => {
      const [a, b, c] = room.plan.outline;
      return {
        id: room.id,
        plan: room.plan,
        look: i === 0 ? 'now' : 'ours',
        hatch: null,
        lines: [room.name, '*poured'],
        label: room.name,
        ...(i === 0 && a !== undefined && b !== undefined && c !== undefined ? { placed: [[a, b, c]], joints: [{ from: a, to: c }] } : {}),
      };
    });
    const sheet = {
      notes: [],
      hasDimensions: true,
      lengthText,
      scale: { lengthM: 3, text: '3 m' },
      key: { ours: 'poured', now: 'this job', plain: 'other' },
    };
    await approve('house', {
      wide: houseDrawing({ ...sheet, rooms, widthPx: 640, heightPx: 400 }),
      tall: houseDrawing({ ...sheet, rooms, mayTurn: true, dimensions: 'chain', widthPx: 320, heightPx: 600 }),
    });
  });
});

it('the hatches', async () => {
  const rings = [
    [10, 10, 60, 10, 60, 40, 10, 40],
    [70, 10, 120, 20, 110, 60, 90, 70, 66, 40],
  ].map((xy) => ({ xy, closed: true }));
  const lines = hatchSchema.options.flatMap((hatch) =>
    rings.flatMap((ring, i) => factLines({ [`${hatch} ${i}`]: hatchLines({ hatch, rings: [ring] }) })),
  );
  await expect(`${lines.join('\n')}\n${drawingDump(qrCode('Straightedge', 200))}`).toMatchFileSnapshot('./approved/hatches.txt');
});
