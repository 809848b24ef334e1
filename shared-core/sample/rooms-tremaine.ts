import { newRoom } from '../book/new-records.ts';
import type { Room } from '../book/room.ts';
import { door, rectangle, samplePlan, sampleSurvey } from './sample-floor.ts';
import type { SampleClock } from './sample-time.ts';
import { atThreePlaces, layers, CONCRETE_GROUND, drops, scratch, humid, QUIET, looked } from './sample-tests.ts';

/** Tremaine: a workshop whose quote is with the customer. */
export function tremaineRooms(clock: SampleClock): Room[] {
  const now = clock.instantAt(-34, '09:00');
  const read = clock.instantAt(-29, '09:40');
  const plan = samplePlan(
    rectangle(24, 15),
    [0, 0],
    [door('sample-workshop-door', 'garage door', [0, 8, 7, 0.6], { kind: 'exterior-door', adjoiningFlooring: 'concrete apron' })],
  );
  return [
    {
      ...newRoom({ id: 'sample-workshop', now }, 'sample-old-orchard', 'Workshop'),
      plan,
      layers: layers('sample-workshop', [{ ...CONCRETE_GROUND, yearInstalled: 2003, inches: 5 }]),
      survey: sampleSurvey(
        plan,
        {
          tiltXIn: 0.2,
          tiltYIn: -0.15,
          swells: [
            { xFt: 9, yFt: 8, radiusFt: 5, heightIn: -0.45 },
            { xFt: 19, yFt: 11, radiusFt: 3, heightIn: 0.25 },
          ],
        },
        read,
        'sample-workshop',
      ),
      tests: [
        humid('sample-workshop-t1', read, 0.73),
        humid('sample-workshop-t2', read, 0.7),
        humid('sample-workshop-t3', read, 0.72),
        ...atThreePlaces(drops('sample-workshop-t4', read, 20)),
        ...atThreePlaces(scratch('sample-workshop-t5', read)),
        looked('sample-workshop-t6', read, 'sound-clean', 'dusty'),
      ],
      circumstances: { ...QUIET },
    },
  ];
}
