import { describe, expect, it } from 'vitest';
import type { Point } from '../../../shared-core/book/fields.ts';
import { centroidOf } from '../../../shared-core/plan/polygon.ts';
import { regionAreaM2 } from '../../../shared-core/plan/region.ts';
import type { Depth } from '../../../shared-core/pour/lane-profile.ts';
import { layOut, type PlannedBatch } from '../../../shared-core/pour/layout.ts';
import { hasExit, planPour } from '../../../shared-core/pour/room-bays.ts';
import { bay, box, laidOut, rectangle } from './floors.ts';
import { opening } from '../plan/rooms.ts';

/** The middle of a batch that is one piece of one lane. */
const middleOf = (batch: PlannedBatch | undefined) =>
  centroidOf(batch?.pieces[0]?.floor[0]?.outline ?? []) ?? { xM: Number.NaN, yM: Number.NaN };

describe('layOut', () => {
  // 4 m by 3 m, three lanes of 1 m, 10 mm deep: 0.12 m³. Batches of 0.02 m³ cover 2 m²: two per lane. Calculated by hand.
  const layout = laidOut([bay('hall', rectangle(4, 3, 3))], 0.02);

  it('numbers batches in placing order, turning at each end', () => {
    expect(layout.batches.map((b) => [b.lane, middleOf(b).xM, middleOf(b).yM].map((n) => Math.round(n * 1000) / 1000))).toEqual([
      [1, 1, 0.5],
      [1, 3, 0.5],
      [2, 3, 1.5],
      [2, 1, 1.5],
      [3, 1, 2.5],
      [3, 3, 2.5],
    ]);
  });

  it('starts every lane from the same side on request', () => {
    const oneWay = laidOut([bay('hall', rectangle(4, 3, 3))], 0.02, 'one-way');
    expect(oneWay.batches.map((b) => Math.round(middleOf(b).xM))).toEqual([1, 3, 1, 3, 1, 3]);
  });

  it('names the earlier batches whose edge each batch meets', () => {
    expect(layout.batches.map((b) => b.meets)).toEqual([[], [1], [2], [1, 3], [4], [3, 5]]);
  });

  it('lets a batch end one lane and begin the next', () => {
    const uneven = laidOut([bay('hall', rectangle(4, 3, 3))], 0.03);
    expect(uneven.batches).toHaveLength(4);
    expect(uneven.batches[1]?.pieces.map((p) => [p.lane, Math.round(p.areaM2 * 1000) / 1000])).toEqual([
      [1, 1],
      [2, 2],
    ]);
  });

  it('covers an L with a column exactly, whatever the batch', () => {
    const column = { outline: box(0, 0, 5, 1.2).outline, holes: [box(2, 0.4, 2.3, 0.7).outline] };
    const lanes = [[column], [box(0, 1.2, 5, 2.4)], [box(0, 2.4, 2, 3.6)]];
    const floor = lanes.flat().reduce((sum, r) => sum + regionAreaM2(r), 0);
    for (const batchM3 of [0.0131, 0.02, 0.05]) {
      const l = laidOut([bay('ell', lanes)], batchM3);
      expect(l.batches.reduce((sum, b) => sum + b.areaM2, 0)).toBeCloseTo(floor, 9);
      for (const b of l.batches.slice(0, -1)) expect(b.areaM2).toBeCloseTo(batchM3 / 0.01, 6);
    }
  });

  it('gives a batch less floor where the pour is deeper', () => {
    const deeper = { ...bay('hall', rectangle(4, 1, 1)), depth: (point: { xM: number }) => 0.01 + 0.01 * (point.xM / 4) };
    const l = laidOut([deeper], 0.015);
    // Volume before x is 0.01 x + 0.00125 x^2, by hand: 0.015 m3 is reached at x = 1.2915 m.
    expect(l.volumeM3).toBeCloseTo(0.06, 6);
    expect(l.batches[0]?.pieces[0]?.toM).toBeCloseTo((-0.01 + Math.sqrt(0.0001 + 4 * 0.00125 * 0.015)) / 0.0025, 3);
  });

  it('says why there is no layout', () => {
    const choice = {
      bays: [bay('hall', rectangle(4, 3, 3))],
      doorways: [],
      pattern: 'one-way',
      bagYieldM3: 0.02,
      bagsPerBatch: 1,
    } as const;
    expect(layOut({ ...choice, bays: [] })).toMatchObject({ problem: { kind: 'no-floor' } });
    expect(layOut({ ...choice, bagsPerBatch: 0 })).toMatchObject({ problem: { kind: 'no-batch-size' } });
    expect(layOut({ ...choice, bagYieldM3: 1e-9 })).toMatchObject({ problem: { kind: 'too-many-batches' } });
  });
});

describe('planPour', () => {
  const room = {
    roomId: 'hall',
    name: 'Hall',
    plan: {
      outline: [...box(0, 0, 4, 3).outline],
      holes: [],
      openings: [opening({ id: 'door', name: '', wall: 2, fromM: 0.2, widthM: 0.8, isWayOut: true })],
    },
    pourPlan: { laneWidthM: 1, angleDeg: 0, wayOutId: null, joints: [] },
    depth: 0.01,
  };
  const choice = { pattern: 'back-and-forth', bagYieldM3: 0.02, bagsPerBatch: 1, doorways: [] } as const;

  it('has an exit where a doorway is one or the room has a single one, and none between two or without any', () => {
    const [door] = room.plan.openings;
    if (door === undefined) throw new Error('The room has a door.');
    const exits = [
      [door],
      [{ ...door, isWayOut: false }],
      [
        { ...door, isWayOut: false },
        { ...door, id: 'other', isWayOut: false, wall: 0 },
      ],
      [],
    ];
    expect(exits.map((openings) => hasExit({ ...room, plan: { ...room.plan, openings } }))).toEqual([true, true, false, false]);
  });

  it('starts at the wall farthest from the exit, at the end away from it', () => {
    const found = planPour([room], choice);
    // The door is at the right of the far (y = 3) wall: lanes begin at y = 0, from x = 0.
    if (!found.ok) throw new Error(found.problem.kind);
    expect(middleOf(found.value.batches[0]).xM).toBeCloseTo(1, 9);
    expect(middleOf(found.value.batches[0]).yM).toBeCloseTo(0.5, 9);
  });

  // Depth orders the lanes: common practice, no source.
  it('starts on the deep side, at the deep end of it, where there is no exit', () => {
    const noDoor = { ...room, plan: { ...room.plan, openings: [] } };
    const startOf = (depth: Depth, angleDeg = 0) => {
      const found = planPour([{ ...noDoor, pourPlan: { ...noDoor.pourPlan, angleDeg }, depth }], choice);
      if (!found.ok) throw new Error(found.problem.kind);
      const { xM, yM } = middleOf(found.value.batches[0]);
      return `${xM < 2 ? 'left' : 'right'} ${yM < 1.5 ? 'front' : 'back'}`;
    };
    const toward =
      (x: number, y: number) =>
      ({ xM, yM }: Point) =>
        0.01 + 0.002 * (x * (xM - 2) + y * (yM - 1.5));
    for (const angleDeg of [0, 90]) {
      expect(startOf(toward(1, 1), angleDeg)).toBe('right back');
      expect(startOf(toward(-1, 1), angleDeg)).toBe('left back');
      expect(startOf(toward(1, -1), angleDeg)).toBe('right front');
    }
    // An even floor starts as it always did.
    expect(startOf(0.01)).toBe('left front');
  });

  it('pours the section beyond a dammed joint first, and counts no joint across it', () => {
    const joint = { id: 'joint', from: { xM: 0, yM: 1.5 }, to: { xM: 4, yM: 1.5 } };
    const found = planPour([{ ...room, pourPlan: { ...room.pourPlan, laneWidthM: 0.75, joints: [joint] } }], choice);
    if (!found.ok) throw new Error(found.problem.kind);
    expect(found.value.lanes.map((s) => s.bay)).toEqual([0, 0, 1, 1]);
    expect(middleOf(found.value.batches[0]).yM).toBeLessThan(1.5);
    expect(found.value.joins.filter((s) => s.kind === 'lane').map((s) => [s.older, s.newer])).toEqual([
      [1, 2],
      [3, 4],
    ]);
  });

  it('pours several rooms in the given order', () => {
    const found = planPour([room, { ...room, roomId: 'den', name: 'Den' }], choice);
    expect(found.ok && found.value.lanes.map((s) => `${s.roomId} ${s.inRoom}`)).toEqual([
      'hall 1',
      'hall 2',
      'hall 3',
      'den 1',
      'den 2',
      'den 3',
    ]);
  });

  it('requires an outline', () => {
    const found = planPour([{ ...room, plan: { outline: [], holes: [], openings: [] } }], choice);
    expect(found).toMatchObject({ problem: { kind: 'not-drawn' } });
  });
});
