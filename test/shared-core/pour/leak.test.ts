import { describe, expect, it } from 'vitest';
import { type PourEvent, pourEventSchema } from '../../../shared-core/book/pour-record.ts';
import { TYPICAL_SPREAD } from '../../../shared-core/pour/forecast.ts';
import { alarmBags, leakAlarm } from '../../../shared-core/pour/leak.ts';
import { pourState, type PourRecordPlan } from '../../../shared-core/pour/pour-state.ts';
import { leakWords } from '../../../renderer/stages/pour/pour-mode-words.ts';
import { bay, laidOut, rectangle } from './floors.ts';

/** Four lanes of 4 m by 1 m, 10 mm deep, bags of 10 L: four bags a lane, a bag a batch. */
const layout = laidOut([bay('room-hall', rectangle(4, 4, 4))], 0.01, 'one-way', 1);
const PLAN: PourRecordPlan = { layout, hasLater: false, healingMin: 30, workingTimeMin: 20, bagsPerBatch: 1 };
const START = Date.parse('2026-05-12T14:00:00Z');
const instantOf = (min: number): string => new Date(START + min * 60_000).toISOString();

/** `p` places a batch, a digit finishes that lane. */
const alarmAfter = (log: string) => {
  let batch = 0;
  const events: PourEvent[] = [...log].map((sign, i) =>
    pourEventSchema.parse({
      ...{ id: `event-${i}`, pourId: 'pour-1', seq: i + 1, instant: instantOf(2 * i), estimated: false },
      ...(sign === 'p'
        ? { kind: 'placed', batch: (batch += 1), roomId: 'room-hall', lane: null, bags: 1 }
        : { kind: 'lane-finished', roomId: 'room-hall', lane: Number(sign) }),
    }),
  );
  return leakAlarm(PLAN, pourState(PLAN, { bagsOnSite: 60 }, events, instantOf(2 * log.length)), TYPICAL_SPREAD);
};

describe('the leak alarm', () => {
  it('is raised where a lane took more than yield and depth explain, by the logged ends of lanes', () => {
    expect(alarmAfter('pppp1pppp2')).toBeNull();
    expect(alarmAfter('pppp1ppppppppp2')).toMatchObject({ lane: 2, usedBags: 9, plannedBags: expect.closeTo(4, 6), upTo: 'lane' });
    expect(alarmAfter('pppp1ppppppppp')).toMatchObject({ lane: 2, upTo: 'open' });
  });

  it('works without logged ends: each planned end is reported once, when the bags pass it, without blaming a lane', () => {
    const alarms = Array.from({ length: 16 }, (_, i) => alarmAfter('p'.repeat(i + 1)));
    // By the plan lanes are full at 4, 8, 12 and 16 bags; each is told in order, for one batch.
    const lanes = alarms.flatMap((alarm) => (alarm === null ? [] : [alarm.lane]));
    expect(lanes).toEqual([1, 2, 3]);
    for (const alarm of alarms) if (alarm !== null) expect(alarm.upTo).toBe('plan');
    const first = alarms.findIndex((alarm) => alarm !== null) + 1;
    expect(first).toBe(Math.floor(alarmBags(4, 1, TYPICAL_SPREAD)) + 1);
    const [alarm] = alarms.flatMap((one) => one ?? []);
    if (alarm === undefined) throw new Error('One is told.');
    expect(leakWords(alarm, 'en-US')).toMatch(
      /^Lane 1 is full by the plan: 4 bags to its end, \d bags placed\. If it is not, look for a leak\./,
    );
    // Under a slab on the ground there is nothing to look at.
    expect(leakWords(alarm, 'en-US')).toMatch(/Check gaps at walls, pipe holes, cracks, and dams\.$/);
    expect(leakWords(alarm, 'en-US', { isOverOpen: true })).toMatch(/cracks, dams, and below the floor\.$/);
    // More than the whole floor takes: that stays.
    for (const more of [22, 26, 30]) expect(alarmAfter('p'.repeat(more))).toMatchObject({ lane: 4, upTo: 'plan' });
  });
});
