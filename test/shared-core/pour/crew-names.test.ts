import { describe, expect, it } from 'vitest';
import type { Crew } from '../../../shared-core/book/job.ts';
import { crewSchema } from '../../../shared-core/book/job.ts';
import { stationsOf } from '../../../shared-core/documents/pour-day-sheet.ts';
import { LITER_M3 } from '../../../shared-core/measure/volume.ts';
import { batchesHeld, cartOverload } from '../../../shared-core/pour/cart.ts';
import { helperCount, helpersOf, isTypicalCrew, namesAt, stationsOver, withStation } from '../../../shared-core/pour/crew-names.ts';
import { startCrew } from '../../../shared-core/pour/start-crew.ts';
import { TYPICAL_CREW } from '../../../shared-core/pour/typical-crew.ts';
import { lastMinutes } from '../../../shared-core/prep/last-minutes.ts';

const NAMES = ['Ros Teague', 'Bea Lorne', 'Ike Marsh'];
const named = [
  ['Bea Lorne', 'mixing'],
  ['Ike Marsh', 'mixing'],
  ['Ros Teague', 'spreading'],
] as const;
const crew = named.reduce<Crew>((crew, [name, station]) => withStation(crew, name, station), TYPICAL_CREW);

describe('who is on site', () => {
  it('are the owner and the helpers, and the owner is no helper', () => {
    expect(helpersOf(NAMES, ' ros teague ')).toEqual(['Bea Lorne', 'Ike Marsh']);
    expect(helpersOf(['Bea Lorne'], 'Ros Teague')).toEqual(['Bea Lorne']);
    expect(helpersOf([], 'Ros Teague')).toEqual([]);
  });

  it('have one station each, and the pour-day sheet names them there', () => {
    expect(namesAt(crew, NAMES, 'mixing')).toEqual(['Bea Lorne', 'Ike Marsh']);
    expect(namesAt(withStation(crew, 'Ike Marsh', 'spreading'), NAMES, 'mixing')).toEqual(['Bea Lorne']);
    expect(namesAt(withStation(crew, 'Ike Marsh', null), NAMES, 'mixing')).toEqual(['Bea Lorne']);
    const lines = stationsOf(crew, NAMES, 'en-US');
    expect(lines[0]).toMatchObject({ who: 'Mixing: Bea Lorne and Ike Marsh', task: expect.stringMatching(/^1 bag per batch\./) });
    expect(lines.at(-1)).toMatchObject({ who: 'Spreading: Ros Teague', task: expect.stringMatching(/^Back toward the exit/) });
    expect(stationsOf(withStation(crew, 'Ike Marsh', null), NAMES, 'en-US')[0]?.who).toBe('Mixing: Bea Lorne and 1 more');
    expect(stationsOf(TYPICAL_CREW, NAMES, 'en-US')[0]?.who).toBe('Mixing: 2 people');
    expect(crewSchema.safeParse(crew).success).toBe(true);
  });

  // Common practice, no source: four on a pour by hand, three mixing and one placing.
  it('are as many as the job names, else as the company has, else the typical crew, which is told', () => {
    const [own, unasked] = [{ ownerName: 'Ros Teague', crewSize: 2 }, { ownerName: 'Ros Teague' }];
    expect([helperCount(null, NAMES, own), helperCount(null, [], own), helperCount(null, [], unasked)]).toEqual([2, 1, 3]);
    expect([isTypicalCrew(null, [], unasked), isTypicalCrew(null, [], own), isTypicalCrew(null, NAMES, unasked)]).toEqual([
      true,
      false,
      false,
    ]);
    for (const carry of ['by-hand', 'cart'] as const)
      expect(startCrew(carry, { workingTimeMin: 20 }, undefined, 1), carry).toMatchObject({ mixers: 1, carriers: 0, spreaders: 1 });
  });

  it('are questioned when more are named for a station than the plan has there', () => {
    expect(stationsOver(crew, NAMES)).toEqual([]);
    expect(stationsOver({ ...crew, mixers: 1 }, NAMES)).toEqual([{ station: 'mixing', named: 2, planned: 1 }]);
    // A name that was removed from those on site does not count.
    expect(stationsOver({ ...crew, mixers: 1 }, ['Ros Teague', 'Bea Lorne'])).toEqual([]);
  });
});

// A 50 lb bag with its water makes 0.45 cu ft, 12.7 L (common practice, no source).
const BATCH_M3 = 12.7 * LITER_M3;

describe('the cart', () => {
  it('takes as many whole batches as fit, and one that is too small says how many to load', () => {
    expect(batchesHeld({ ...crew, cartHoldsL: 64 }, BATCH_M3)).toBe(5);
    expect(cartOverload({ ...crew, cartHoldsL: 64 }, BATCH_M3)).toBeNull();
    expect(batchesHeld({ ...crew, cartHoldsL: 63 }, BATCH_M3)).toBe(4);
    expect(cartOverload({ ...crew, cartHoldsL: 63 }, BATCH_M3)).toEqual({ batches: 5, loadL: 63.5, holdsL: 63, fit: 4 });
    expect(cartOverload({ ...crew, cartHoldsL: 12 }, BATCH_M3)?.fit).toBe(0);
    expect(cartOverload({ ...crew, cartHoldsL: null }, BATCH_M3)).toBeNull();
    expect(cartOverload({ ...crew, carry: 'by-hand', cartHoldsL: 12 }, BATCH_M3)).toBeNull();
  });

  // Common practice, no source.
  it('has an outlet that the pre-pour checklist describes by how it closes', () => {
    const note = (outlet: Crew['outlet']) =>
      lastMinutes({
        damHeight: null,
        bagsPlanned: 12,
        buckets: 12,
        mixers: 2,
        helpers: 2,
        lanes: 4,
        dams: 1,
        carry: 'cart',
        outlet,
        heatedFloor: false,
        overHeat: false,
        nothingStuckIn: false,
        deepOnly: false,
        withAggregate: false,
      }).find((line) => line.key === 'outlet')?.note;
    expect(note('cap')).toMatch(/^Wipe the thread of the cap/);
    expect(note('valve')).toMatch(/binds on sand/);
    expect(note('gate')).toMatch(/slide gate/);
    expect(note(null)).toMatch(/ball valve.*cap/);
  });
});
