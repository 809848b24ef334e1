import { newRoom } from '../book/new-records.ts';
import type { Room } from '../book/room.ts';
import { door, rectangle, samplePlan, sampleSurvey, surveyAfter } from './sample-floor.ts';
import type { SampleClock } from './sample-time.ts';
import { air, atThreePlaces, layers, CONCRETE_GROUND, drops, scratch, alkali, humid, QUIET, looked, noAsbestos } from './sample-tests.ts';

/** Abara and Finch: three rooms in a row, poured on three days, now curing. */
export function abaraRooms(clock: SampleClock): Room[] {
  const now = clock.instantAt(-30, '09:00');
  const read = clock.instantAt(-27, '11:00');
  const house = 'sample-sallow-lane';
  /** Pour day of each room, in days from today. */
  const poured = { 'sample-living': -1, 'sample-back-hall': -8, 'sample-dining': -6 } as const;
  type RoomId = keyof typeof poured;
  const make = (
    id: RoomId,
    name: string,
    {
      widthFt,
      placedX,
      sag,
      sample,
      doors,
    }: {
      readonly widthFt: number;
      readonly placedX: number;
      readonly sag: number;
      readonly sample: number;
      readonly doors: Parameters<typeof samplePlan>[2];
    },
  ): Room => {
    const plan = samplePlan(rectangle(widthFt, 14), [placedX, 0], doors);
    return {
      ...newRoom({ id, now }, house, name),
      plan,
      layers: layers(id, [
        { material: 'wood-flooring', yearInstalled: 1974, inches: 0.4, fate: 'remove' },
        { ...CONCRETE_GROUND, yearInstalled: 1974 },
      ]),
      survey: sampleSurvey(
        plan,
        {
          tiltXIn: 0.12,
          tiltYIn: 0.08,
          swells: [
            { xFt: widthFt * 0.4, yFt: 8, radiusFt: 4, heightIn: -sag },
            { xFt: widthFt * 0.8, yFt: 3, radiusFt: 3, heightIn: -sag / 2 },
          ],
        },
        read,
        id,
      ),
      // The living room was poured yesterday and is not read yet.
      surveyAfter: poured[id] < -2 ? surveyAfter(plan, clock.instantAt(poured[id] + 2, '09:20'), id) : null,
      tests: [
        humid(`${id}-t1`, read, 0.66),
        humid(`${id}-t2`, read, 0.64),
        humid(`${id}-t3`, read, 0.67),
        alkali(`${id}-t8`, read),
        // Of the paper under the wood flooring, before the quote.
        noAsbestos(`${id}-t9`, `${id}-l1`, `SL-117-${sample}`, read, clock.day(-25)),
        ...atThreePlaces(drops(`${id}-t4`, read, 30)),
        ...atThreePlaces(scratch(`${id}-t5`, read)),
        looked(`${id}-t6`, read, 'sound-clean'),
        air(`${id}-t7`, clock.instantAt(poured[id], '06:30'), 66, 0.5, 64),
      ],
      circumstances: { ...QUIET },
    };
  };
  return [
    make('sample-living', 'Living room', {
      widthFt: 18,
      placedX: 0,
      sag: 0.75,
      sample: 1,
      doors: [door('sample-living-hall', 'back hall', [1, 5, 3, 0.2])],
    }),
    make('sample-back-hall', 'Back hall', {
      widthFt: 4,
      placedX: 18,
      sag: 0.25,
      sample: 2,
      doors: [door('sample-back-hall-out', 'back door', [2, 0.5, 3, 0.3], { kind: 'exterior-door', adjoiningFlooring: 'stone sill' })],
    }),
    make('sample-dining', 'Dining room', {
      widthFt: 13,
      placedX: 22,
      sag: 0.4,
      sample: 3,
      doors: [door('sample-dining-hall', 'back hall', [3, 6, 3, 0.1])],
    }),
  ];
}
