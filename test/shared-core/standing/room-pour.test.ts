import { describe, expect, it } from 'vitest';
import type { Pour } from '../../../shared-core/book/pour-record.ts';
import { liftsLeftShare } from '../../../shared-core/standing/room-pour.ts';
import { sampleAt } from '../../sample-at.ts';

const [sample] = sampleAt('2026-05-12T15:00:00.000Z').pours;
if (sample === undefined) throw new Error('The sample has a pour.');
const { asPoured } = sample;
const { layout } = asPoured;
if (layout === null) throw new Error('The pour has a layout.');
const [lane] = layout.lanes;
if (lane === undefined) throw new Error('The layout has a lane.');

/** A pour that placed so much of a room, cubic meters. */
const pourOf = (lift: number, volumeM3: number): Pour => ({
  ...sample,
  lift,
  asPoured: { ...asPoured, layout: { ...layout, lanes: [{ ...lane, roomId: 'den', volumeM3 }] } },
});
const corner = (xM: number, yM: number) => ({ xM, yM });
/** 4 m by 5 m; 30 mm on average is 0.6 cubic meters. */
const plan = { outline: [corner(0, 0), corner(4, 0), corner(4, 5), corner(0, 5)], holes: [] };
const floor = { roomId: 'den', liftsWhole: 1, liftsPlanned: 2 };

describe('what is left after a lift', () => {
  it('is the volume that the whole lifts have not placed', () => {
    expect(liftsLeftShare({ ...floor, pours: [pourOf(1, 0.45)] }, plan, 0.03)).toBeCloseTo(0.25, 9);
  });

  it('counts no lift that is still open', () => {
    expect(liftsLeftShare({ ...floor, pours: [pourOf(1, 0.45), pourOf(2, 0.1)] }, plan, 0.03)).toBeCloseTo(0.25, 9);
    expect(liftsLeftShare({ ...floor, liftsWhole: 0, pours: [pourOf(1, 0.1)] }, plan, 0.03)).toBe(1);
  });

  it('is all where the depth is unknown, and never less than nothing', () => {
    expect(liftsLeftShare({ ...floor, pours: [pourOf(1, 0.45)] }, plan, null)).toBe(1);
    expect(liftsLeftShare({ ...floor, pours: [pourOf(1, 0.7)] }, plan, 0.03)).toBe(0);
  });
});
