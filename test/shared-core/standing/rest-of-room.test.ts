import { describe, expect, it } from 'vitest';
import { pourSchema, type Pour, type PourEvent, pourEventSchema } from '../../../shared-core/book/pour-record.ts';
import type { Point } from '../../../shared-core/book/fields.ts';
import { jobSchema } from '../../../shared-core/book/job.ts';
import { acceptedQuote, proposeOrder } from '../../../shared-core/price/change-order.ts';
import type { Room } from '../../../shared-core/book/room.ts';
import { discardedEntry, incidentEntry } from '../../../shared-core/pour/pour-commands.ts';
import { paperEntries } from '../../../shared-core/pour/paper-log.ts';
import { isPlacedAsPlanned } from '../../../shared-core/pour/placed-floor.ts';
import { pourState, type PourState } from '../../../shared-core/pour/pour-state.ts';
import { footWords } from '../../../renderer/stages/prep/prep-words.ts';
import { pourDaySheet } from '../../../shared-core/documents/pour-day-sheet.ts';
import { prepSheet } from '../../../shared-core/documents/prep-sheet.ts';
import { floorNotice, noticeMessage } from '../../../shared-core/documents/floor-notice.ts';
import { shoppingFor } from '../../../shared-core/standing/shopping-for.ts';
import { documentTreeSchema } from '../../../shared-core/documents/tree.ts';
import { type JobReading, readJob } from '../../../shared-core/standing/read-job.ts';
import { readPour, roomFloorOf } from '../../../shared-core/standing/read-pour.ts';
import { pouredPlanOf } from '../../../shared-core/standing/read-poured.ts';
import { restInPrice, type RestPayer, withRestPriced, workCost } from '../../../shared-core/standing/price-rest.ts';
import { restCost, restOfRoom, type RestOfRoom } from '../../../shared-core/standing/rest-of-room.ts';
import { finishOf } from '../../../shared-core/survey/settle-level.ts';
import { heightAt } from '../../../shared-core/survey/surface.ts';
import { at as onDay, family, logOf, nextPour, NOW, placed, ROOM } from '../documents/poured-family.ts';

const LATER = '2026-05-15T12:00:00.000Z';
const planned = readPour(readJob(family, NOW), [ROOM]);
if (!planned.ok || !planned.value.layout.ok) throw new Error('The family room can be laid out.');
const layout = planned.value.layout.value;
const firstPlan = planned.value.first;
const at = (min: number): string => onDay('13', min);

const pour: Pour = { ...nextPour(readJob(family, NOW), 'pour-1', '13'), finishedAt: at(90) };
const entries = (batches: number, more: readonly object[] = []): PourEvent[] =>
  logOf('pour-1', [
    ...Array.from({ length: batches }, (_, i) => placed(at(3 * (i + 1)), i + 1)),
    { kind: 'incident', what: 'power-lost', note: '', instant: at(80) },
    { kind: 'finished', bagsLeft: null, floor: 'partly', instant: at(90) },
    ...more.map((one) => ({ instant: at(200), ...one })),
  ]);
const readingOf = (events: readonly PourEvent[], how: (room: Room) => Room = (room) => room): JobReading =>
  readJob({ ...family, pours: [pour], pourEvents: [...events], rooms: family.rooms.map((r) => (r.id === ROOM ? how(r) : r)) }, LATER);
const partly = readingOf(entries(8));

/** Section 1 of the room poured as planned, and the job after it with another section chosen; null chooses none. */
function sectionPoured(joints: readonly { id: string; from: Point; to: Point }[]) {
  const wholeWith = (section: number | null) => {
    const pourPlan = { ...firstPlan, joints: [...joints], section };
    const rooms = family.job.rooms.map((r) => (r.roomId === ROOM ? { ...r, pourPlan } : r));
    return { ...family, job: { ...family.job, rooms, changedAt: at(500 + (section ?? 0)) } };
  };
  const read = readPour(readJob(wholeWith(1), NOW), [ROOM]);
  if (!read.ok || !read.value.layout.ok) throw new Error('A section can be planned.');
  const section = pourSchema.parse({ ...pour, asPoured: pouredPlanOf(read.value, []), bagsPlanned: read.value.bagsNeeded });
  const log = read.value.layout.value.batches.map((batch, i) =>
    pourEventSchema.parse({
      ...{ id: `section-${i}`, pourId: pour.id, seq: i + 1, estimated: false, instant: at(3 * i) },
      ...{ kind: 'placed', batch: batch.number, roomId: ROOM, lane: null, bags: batch.bags },
    }),
  );
  const after = (chosen: number | null) => readJob({ ...wholeWith(chosen), pours: [section], pourEvents: log }, LATER);
  return { section, log, after };
}

describe('the rest of a room after a pour that stopped', () => {
  const found = restOfRoom(partly, ROOM);
  if (found === null) throw new Error('Eight of nineteen batches leave a rest.');

  it('has its edges, bags and prep lines; priming and staging are open again', () => {
    const { rest, left } = found;
    expect(rest.openShare).toBeGreaterThan(0.4);
    expect(rest.jointM).toBeGreaterThan(1);
    const next = readPour(partly, [ROOM]);
    expect(next.ok && next.value.lifts[0]).toMatchObject({ number: 1, isRest: true });
    // Placed and remaining bags add up to the plan, within one of rounding.
    expect(next.ok ? next.value.bagsNeeded + 16 : 0).toBeGreaterThanOrEqual(pour.bagsPlanned - 1);
    expect(next.ok ? next.value.bagsNeeded + 16 : 0).toBeLessThanOrEqual(pour.bagsPlanned + 2);
    expect(left?.takeoff.bags?.quotedBags ?? 0).toBeGreaterThanOrEqual(next.ok ? next.value.bagsNeeded : 99);
    const lines = partly.rooms.find((r) => r.room.id === ROOM)?.preparation.lines ?? [];
    const asked = lines.filter((line) => line.item !== null && line.state !== 'signed').map((line) => line.key);
    expect(asked).toEqual(expect.arrayContaining(['rest-edge', 'rest-clean', 'rest-read', 'rest-prime-edge', 'prime', 'stage']));
    expect(lines.find((line) => line.key === 'rest-edge')?.item?.why).toContain('hours ago');
    // Grinding the edge makes silica dust, and primer has its own data sheet.
    expect(lines.find((line) => line.key === 'rest-edge')?.item?.cautions).toContain('silica');
    expect(lines.find((line) => line.key === 'rest-prime-edge')?.item?.cautions).toContain('primer');
  });

  // Common practice, no source: cables in a pour are not cut into.
  it('knows that the placed part covers heat that was to be laid in the pour', () => {
    const mats = (how: 'electric-in-pour' | 'none') => (room: Room) => ({
      ...room,
      circumstances: { ...room.circumstances, radiantHeat: how },
    });
    const holds = (reading: JobReading) =>
      reading.rooms.find((r) => r.room.id === ROOM)?.assessment.findings.find(({ ruleId }) => ruleId === 'heat-laid')?.holds;
    expect(holds(readingOf(entries(8), mats('electric-in-pour')))).toEqual(['drill', 'grind']);
    expect(holds(readingOf(entries(8), mats('none')))).toBeUndefined();
    const before = family.rooms.map((room) => (room.id === ROOM ? mats('electric-in-pour')(room) : room));
    expect(holds(readJob({ ...family, rooms: before }, LATER))).toBeUndefined();
  });

  it('has no date before one is set for it: the old date was for the pour that stopped', () => {
    const rooms = (pourAt: string | null) => family.job.rooms.map((room) => ({ ...room, pourAt }));
    const worded = (pourAt: string | null): string => {
      const reading = readJob({ ...partly.whole, job: { ...family.job, rooms: rooms(pourAt) } }, LATER);
      const roomReading = reading.rooms.find(({ room }) => room.id === ROOM);
      const day = pourDaySheet({ reading, roomIds: [ROOM], madeAt: LATER, revision: 1 });
      if (roomReading === undefined || !day.ok) throw new Error('The rest can be laid out.');
      const prep = prepSheet({ reading, roomReading, madeAt: LATER, revision: 1 });
      const place = { now: LATER, zone: family.property.timeZone, locale: 'en-US' };
      return JSON.stringify([prep.blocks, day.value.blocks, footWords(roomReading, null, place)]);
    };
    // The pour that stopped was on Wednesday, May 13.
    const old = worded(at(0));
    expect(old).not.toContain('Wed, May 13, 10 am');
    expect(old.match(/No pour date/g)).toHaveLength(3);
    expect(worded('2026-05-18T14:00:00.000Z').match(/Mon, May 18, 10 am/g)).toHaveLength(3);
  });

  it('has a price, and only its own bags are on the shopping list', () => {
    const cost = restCost(partly, found.left, LATER);
    expect(cost.totalMinor).toBe(cost.lines.reduce((sum, line) => sum + line.costMinor, 0));
    expect(cost.lines.map((line) => line.kind)).toEqual(expect.arrayContaining(['material', 'labor']));
    const bagsOf = (reading: JobReading): number =>
      shoppingFor(reading, reading.estimate.base).list.items.reduce(
        (sum, item) => sum + (item.materialId === pour.materialId ? (item.containers ?? 0) : 0),
        0,
      );
    expect(bagsOf(readJob(family, LATER)) - bagsOf(partly)).toBeGreaterThanOrEqual(14);
  });

  it('prices only what the price of the floor does not include', () => {
    const keys = ({ lines }: ReturnType<typeof restCost>) => lines.map((line) => line.key.split('/').at(-1));
    // Eight batches as planned: the other bags are paid for. Edges, priming, setup and a trip are not.
    expect(found.extra?.days).toBe(1);
    const extra = restCost(partly, found.extra, LATER);
    expect(keys(extra)).toEqual(expect.arrayContaining(['labor-prep', 'labor-pour', 'travel']));
    expect(keys(extra)).not.toContain('bags');
    expect(extra.totalMinor).toBeLessThan(restCost(partly, found.left, LATER).totalMinor);
    // Two batches of two bags scraped out, and a smaller reserve: the other bags and their floor are extra.
    const scraped = readingOf(
      entries(
        8,
        [7, 8].map((batch) => ({ kind: 'discarded', batch, by: 'MP', why: 'wrong water' })),
      ),
    );
    const again = restOfRoom(scraped, ROOM);
    const all = scraped.rooms.find((r) => r.room.id === ROOM)?.estimate?.takeoff.bags;
    const reserve = (all?.quotedBags ?? 0) - (all?.exactBags ?? 0);
    expect(again?.extra?.takeoff.bags?.quotedBags).toBe(Math.round(Math.max(0, 4 - reserve)));
    // The floor of four bags is poured twice.
    const hours = (of: RestOfRoom | null) => of?.extra?.takeoff.hours.find((task) => task.key === 'pour')?.ownHours ?? 0;
    const pourHours =
      scraped.rooms.find((r) => r.room.id === ROOM)?.estimate?.takeoff.hours.find((task) => task.key === 'pour')?.ownHours ?? 0;
    const floorM2 = roomFloorOf(scraped, ROOM).lift?.areaM2 ?? 0;
    expect(again?.rest.takenOutM2).toBeGreaterThan(1);
    expect(hours(again)).toBeCloseTo((pourHours * (again?.rest.takenOutM2 ?? 0)) / floorM2, 9);
    expect(hours(found)).toBe(0);
  });

  it('costs the check of suspect floor, and sets up again for each section on its own day', () => {
    const suspect = readingOf(entries(19, [{ kind: 'incident', what: 'wrong-water', batch: 5, note: '' }]));
    const check = restOfRoom(suspect, ROOM);
    expect(check?.rest).toMatchObject({ openM2: 0, toCheckBatches: [5] });
    const lines = restCost(suspect, check?.extra ?? null, LATER).lines;
    expect(lines.map((line) => line.key.split('/').at(-1))).toEqual(['labor-prep', 'travel']);
    const setUp = (section: number | null): number => {
      const joints = [{ id: 'joint', from: { xM: 0, yM: 2 }, to: { xM: 6, yM: 2 } }];
      const rooms = family.job.rooms.map((r) => (r.roomId === ROOM ? { ...r, pourPlan: { ...firstPlan, joints, section } } : r));
      const { base } = readJob({ ...family, job: { ...family.job, rooms, changedAt: at(400) } }, LATER).estimate;
      return base.takeoff.rooms.find((r) => r.room.roomId === ROOM)?.hours.find((task) => task.key === 'set-up')?.ownHours ?? 0;
    };
    expect(setUp(1)).toBeCloseTo(2 * setUp(null), 9);
  });

  it('asks no second set-up, day or priming for a section that was planned for another day', () => {
    // The joint runs through the hearth at the wall.
    const joints = [{ id: 'joint', from: { xM: 3.2, yM: 0 }, to: { xM: 3.2, yM: 5.1816 } }];
    const { section, log, after } = sectionPoured(joints);
    const of = restOfRoom(after(1), ROOM);
    // The pour placed all it was to place, and not where its last two batches are missing.
    expect([isPlacedAsPlanned(section, log), isPlacedAsPlanned(section, log.slice(0, -2))]).toEqual([true, false]);
    expect(of?.rest.openShare).toBeGreaterThan(0.2);
    expect(of?.left).toMatchObject({ days: 1, takeoff: { setUps: 1 } });
    expect(of?.extra).toMatchObject({ days: 0, takeoff: { setUps: 0 } });
    const tasks = of?.extra?.takeoff.hours.map(({ key }) => key) ?? [];
    for (const key of ['set-up', 'prime', 'vacuum', 'pour', 'stage']) expect(tasks).not.toContain(key);
  });

  it('has the bags of every open section, whichever is poured next', () => {
    const joints = [2, 4].map((xM) => ({ id: `joint-${xM}`, from: { xM, yM: 0 }, to: { xM, yM: 6 } }));
    const { after } = sectionPoured(joints);
    const [all, second, third] = [null, 2, 3].map((chosen) => restOfRoom(after(chosen), ROOM)?.left?.takeoff.bags);
    expect(second).toEqual(all);
    expect(third).toEqual(all);
    // Each section by itself takes its part of them, whole bags up.
    const [apart, together] = [[2, 3], [null]].map((chosen) =>
      chosen.reduce<number>((sum, one) => {
        const next = readPour(after(one), [ROOM]);
        return sum + (next.ok ? next.value.bagsNeeded : 0);
      }, 0),
    );
    expect(Math.ceil(all?.exactBags ?? Number.NaN)).toBe(together);
    expect((apart ?? 0) - (together ?? 0)).toBeGreaterThanOrEqual(0);
    expect((apart ?? 0) - (together ?? 0)).toBeLessThanOrEqual(1);
    const bought = (reading: JobReading) => shoppingFor(reading, reading.estimate.base).list.items;
    expect(bought(after(3))).toEqual(bought(after(null)));
  });

  it('asks the customer by a change order with a day more, or keeps the cost and asks nothing', () => {
    const quote = acceptedQuote(partly.whole.quotes);
    if (quote === null) throw new Error('The family room is under contract.');
    let made = 0;
    const priced = (payer: RestPayer, from: JobReading): JobReading => {
      const job = {
        ...from.whole.job,
        estimate: withRestPriced(from, {
          ...{ roomId: ROOM, rest: found, payer, now: LATER, freeNote: 'no charge' },
          nameOf: (line) => line.name,
          newId: () => `line-${++made}`,
        }),
      };
      jobSchema.parse(job);
      return readJob({ ...from.whole, job: { ...job, changedAt: at(300 + made) } }, LATER);
    };
    const place = { currency: quote.currency, locale: 'en-US', units: 'us' } as const;
    const before = proposeOrder(quote, partly.whole, [], place, LATER.slice(0, 10));
    const asked = priced('customer', partly);
    const order = proposeOrder(quote, asked.whole, [], place, LATER.slice(0, 10));
    const inPrice = restInPrice(asked, ROOM);
    expect(inPrice?.costMinor).toBe(workCost(restCost(partly, found.extra, LATER).lines));
    expect(order.addedDays - before.addedDays).toBe(1);
    expect(order.netMinor - before.netMinor).toBeGreaterThanOrEqual(inPrice?.netMinor ?? 0);
    expect(order.differences.map(({ text }) => text).join(' ')).toContain('prepare the floor: added');
    // Pricing it again replaces the lines and adds no second day.
    const twice = priced('customer', asked);
    expect(proposeOrder(quote, twice.whole, [], place, LATER.slice(0, 10)).netMinor).toBe(order.netMinor);
    expect(twice.whole.job.estimate.added).toHaveLength(asked.whole.job.estimate.added.length);
    const free = priced('business', twice);
    expect(restInPrice(free, ROOM)).toMatchObject({
      payer: 'business',
      netMinor: 0,
      costMinor: inPrice?.costMinor,
      heldMinor: restCost(partly, found.extra, LATER).totalMinor,
    });
    expect(proposeOrder(quote, free.whole, [], place, LATER.slice(0, 10))).toMatchObject({
      netMinor: before.netMinor,
      addedDays: before.addedDays,
    });
    expect(free.estimate.base.price.costMinor).toBeGreaterThan(partly.estimate.base.price.costMinor);
  });

  it('takes the placed floor as the known surface, whatever the laser was set to', () => {
    const estimate = partly.rooms.find((r) => r.room.id === ROOM)?.estimate;
    if (estimate?.survey.state !== 'surveyed') throw new Error('The family room is surveyed.');
    const { floor, level } = estimate.survey;
    const finish = finishOf(level, estimate.level, level.highSpotsAreGround);
    const openM2 = found.rest.openM2;
    const volume = (reading: JobReading): number => {
      const read = readPour(reading, [ROOM]);
      return read.ok && read.value.layout.ok ? read.value.layout.value.volumeM3 : Number.NaN;
    };
    /** The open floor lowered by this, read with the laser 0.7 m higher than before. */
    const readAgain = (lowerM: number) =>
      readingOf(entries(8), (room) => {
        const placed = roomFloorOf(partly, ROOM).lift?.regions.filter((r) => r.state === 'placed') ?? [];
        const ties = placed.slice(0, 3).flatMap((region) => {
          const ring = region.floor[0]?.outline ?? [];
          const middle = { xM: ring.reduce((s, p) => s + p.xM, 0) / ring.length, yM: ring.reduce((s, p) => s + p.yM, 0) / ring.length };
          const { finishedM } = finish(middle.xM, middle.yM, heightAt(floor.surface, middle.xM, middle.yM).zM);
          return [{ id: `tie-${region.batch ?? 0}`, ...middle, valueM: finishedM + 0.7, note: null, confirmed: false }];
        });
        const open = room.survey.readings.map((r, i) => ({
          ...r,
          id: `open-${i}`,
          valueM: heightAt(floor.surface, r.xM, r.yM).zM - lowerM + 0.7,
        }));
        return { ...room, surveyRest: { ...room.survey, method: 'height', readings: [...ties, ...open.filter(isOpen)] } };
      });
    const openRings = roomFloorOf(partly, ROOM).lift?.regions.filter((r) => r.state === 'not-placed') ?? [];
    const isOpen = ({ xM, yM }: { xM: number; yM: number }): boolean =>
      openRings.some((region) =>
        region.floor.some(({ outline }) => {
          const xs = outline.map((p) => p.xM);
          const ys = outline.map((p) => p.yM);
          return xM > Math.min(...xs) && xM < Math.max(...xs) && yM > Math.min(...ys) && yM < Math.max(...ys);
        }),
      );
    const same = volume(readAgain(0));
    expect(Math.abs(same / volume(partly) - 1)).toBeLessThan(0.15);
    // A floor 5 mm lower takes 5 mm more over all of it.
    expect((volume(readAgain(0.005)) - same) / openM2 / 0.005).toBeCloseTo(1, 1);
  });

  it('is told to the customer in plain words, without minutes or lanes', () => {
    const message = noticeMessage(partly, LATER);
    expect(message?.body).toContain('We stopped because the power failed.');
    expect(message?.body).toMatch(/Keep off the part that is not placed/);
    expect(message?.body).toMatch(/We will call you to set the day for the rest/);
    expect(message?.body).not.toMatch(/lane|batch|null|undefined|NaN/);
    const tree = floorNotice({ reading: partly, photos: [], now: LATER, revision: 1, changes: [] });
    expect(documentTreeSchema.safeParse(tree).error).toBeUndefined();
    expect(tree.blocks.filter((block) => block.kind === 'drawing')).toHaveLength(1);
    expect(noticeMessage(readJob(family, LATER), LATER)).toBeNull();
  });

  it.each([
    ['leak', null, 'because material leaked through a gap', 0],
    // A bad batch is taken out while the pour goes on, so it is no reason to stop.
    ['wrong-water', 5, 'before all of it was placed', 2],
    ['power-lost', null, 'because the power failed', 0],
    ['short-of-bags', null, 'because the material ran short', 0],
    ['crew-lost', null, 'because a crew member could not continue', 0],
  ] as const)('entered from paper with %s, is partly poured with the reason, and its bags are counted', (what, batch, why, bagsLost) => {
    const paper: Pour = { ...pour, fromPaper: true };
    const plan = { layout, hasLater: false, healingMin: 30, workingTimeMin: 30, bagsPerBatch: 2 };
    const lines = Array.from({ length: 8 }, (_, i) => ({ batch: i + 1, bags: 2, placedAt: at(3 * (i + 1)) }));
    let made = 0;
    const read = paperEntries(plan, pour.id, 1, lines, () => `paper-${++made}`);
    if (!read.ok) throw new Error(read.problem.kind);
    let log: PourEvent[] = [...read.value];
    const add = (make: (state: PourState, stamp: { id: string; pourId: string; instant: string }) => { readonly event: PourEvent }) => {
      const state = pourState(plan, paper, log, at(120));
      log = [...log, pourEventSchema.parse(make(state, { id: `added-${log.length}`, pourId: pour.id, instant: at(120) }).event)];
    };
    add((state, stamp) => incidentEntry(state, stamp, { what, batch, note: 'from the log sheet' }));
    if (batch !== null) add((state, stamp) => discardedEntry(state, stamp, batch, { by: 'MP', why: 'wrong water' }));
    const reading = readJob({ ...family, pours: [paper], pourEvents: log }, LATER);
    expect(roomFloorOf(reading, ROOM).extent).toBe('partly');
    expect(noticeMessage(reading, LATER)?.body).toContain(`We stopped ${why}.`);
    const of = restOfRoom(reading, ROOM);
    const all = reading.rooms.find((r) => r.room.id === ROOM)?.estimate?.takeoff.bags;
    const reserve = (all?.quotedBags ?? 0) - (all?.exactBags ?? 0);
    expect(of?.extra?.takeoff.bags?.quotedBags).toBe(Math.round(Math.max(0, bagsLost - reserve)));
    // Their floor is open: a bag lost is a bag more to place.
    expect(of?.left?.takeoff.bags?.exactBags ?? 0).toBeGreaterThanOrEqual((found.left?.takeoff.bags?.exactBags ?? 0) + bagsLost - 1);
  });

  it('lists patches with what they ask for, and holds no pour for them', () => {
    const outline = layout.lanes[0]?.pieces[0]?.outline ?? [];
    const marked = readingOf(
      entries(8, [{ kind: 'marked', roomId: ROOM, state: 'suspect', defect: 'ridge', outline, by: 'MP', why: 'felt with the edge' }]),
    );
    const line = marked.rooms.find((r) => r.room.id === ROOM)?.preparation.lines.find((one) => one.key === 'patch-ridge');
    expect(line?.item).toMatchObject({ holdsPour: false, dust: 'hand-grinder', cautions: ['silica'] });
    expect(noticeMessage(marked, LATER)?.body).toContain('We found a ridge');
  });
});
