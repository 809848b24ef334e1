import type { FloorTest } from '../book/layer.ts';
import { newRoom } from '../book/new-records.ts';
import type { Room } from '../book/room.ts';
import { door, rectangle, ring, samplePlan, sampleSurvey, surveyAfter } from './sample-floor.ts';
import type { SampleClock } from './sample-time.ts';
import { atThreePlaces, layers, CONCRETE_GROUND, drops, scratch, air, alkali, humid, QUIET, looked } from './sample-tests.ts';

/** Lindqvist: a large family room ready to pour, and a sunroom over tile that is drying. */
export function lindqvistRooms(clock: SampleClock): Room[] {
  const now = clock.instantAt(-20, '09:00');
  const read = clock.instantAt(-20, '13:20');
  const house = 'sample-coopers-wharf';
  const family = samplePlan(
    rectangle(21, 17),
    [0, 0],
    [
      door('sample-family-out', 'patio door', [2, 4, 4, 1.2], { kind: 'sliding-door', adjoiningFlooring: 'sill', isWayOut: false }),
      door('sample-family-door', 'hallway', [1, 11, 3, 0.4], { adjoiningFlooring: 'tile' }),
    ],
    [{ id: 'sample-family-hearth', kind: 'hearth', name: 'hearth', corners: ring([8, 0], [13, 0], [13, 1.5], [8, 1.5]) }],
  );
  const sun = samplePlan(
    rectangle(12, 10.5),
    [21, 0],
    [door('sample-sun-door', 'patio door', [1, 3, 5, 0.9], { kind: 'sliding-door', adjoiningFlooring: 'sill' })],
  );
  const dry = (id: string): FloorTest[] => [
    humid(`${id}-t1`, read, 0.7),
    humid(`${id}-t2`, read, 0.68),
    humid(`${id}-t3`, read, 0.71),
    alkali(`${id}-t8`, read),
    ...atThreePlaces(scratch(`${id}-t5`, read)),
    looked(`${id}-t6`, read, 'sound-clean'),
  ];
  return [
    {
      ...newRoom({ id: 'sample-family', now }, house, 'Family room'),
      plan: family,
      layers: layers('sample-family', [
        { material: 'floating-plank', yearInstalled: 2009, inches: 0.31, fate: 'remove' },
        { material: 'foam-pad', yearInstalled: 2009, inches: 0.12, fate: 'remove' },
        { ...CONCRETE_GROUND, yearInstalled: 1994 },
      ]),
      survey: sampleSurvey(
        family,
        {
          tiltXIn: 0.1,
          tiltYIn: -0.12,
          swells: [
            { xFt: 7, yFt: 11, radiusFt: 6, heightIn: -0.6 },
            { xFt: 16, yFt: 5, radiusFt: 4, heightIn: -0.45 },
          ],
        },
        read,
        'sample-family',
      ),
      tests: [
        ...dry('sample-family'),
        ...atThreePlaces(drops('sample-family-t4', read, 25)),
        air('sample-family-t7', clock.past(0, '06:30'), 67, 0.46, 65),
      ],
      circumstances: { ...QUIET },
    },
    {
      ...newRoom({ id: 'sample-sunroom', now }, house, 'Sunroom'),
      plan: sun,
      layers: layers('sample-sunroom', [
        { material: 'ceramic-tile', yearInstalled: 1994, inches: 0.35, fate: 'keep' },
        { material: 'thinset', yearInstalled: 1994, inches: 0.2, fate: 'keep' },
        { ...CONCRETE_GROUND, yearInstalled: 1994 },
      ]),
      survey: sampleSurvey(
        sun,
        { tiltXIn: 0.2, tiltYIn: 0.15, swells: [{ xFt: 6, yFt: 6, radiusFt: 3.5, heightIn: -0.3 }] },
        read,
        'sample-sunroom',
      ),
      surveyAfter: surveyAfter(sun, clock.instantAt(-2, '09:20'), 'sample-sunroom'),
      tests: [
        ...dry('sample-sunroom'),
        ...atThreePlaces(drops('sample-sunroom-t4', read, null)),
        air('sample-sunroom-t7', clock.instantAt(-4, '06:30'), 66, 0.5, 64),
      ],
      circumstances: { ...QUIET, vaporRetarder: 'present' },
    },
  ];
}
