import type { Mark } from '../book/plan-fields.ts';
import { newRoom } from '../book/new-records.ts';
import type { Room } from '../book/room.ts';
import { door, rectangle, ring, samplePlan, sampleSurvey } from './sample-floor.ts';
import type { SampleClock } from './sample-time.ts';
import {
  atThreePlaces,
  type LayerWords,
  layers,
  CONCRETE_GROUND,
  feet,
  drops,
  scratch,
  air,
  humid,
  wood,
  QUIET,
  looked,
  joists,
} from './sample-tests.ts';

/** Odell: an L-shaped hall over boards, its laundry, and a back entry without readings. */
export function odellRooms(clock: SampleClock): Room[] {
  const now = clock.instantAt(-9, '09:00');
  const read = clock.instantAt(-6, '10:15');
  const house = 'sample-pennant-hill';
  const hall = samplePlan(
    ring([0, 0], [6.5, 0], [6.5, 8], [20.5, 8], [20.5, 13.667], [0, 13.667]),
    [0, 0],
    [
      door('sample-hall-front', 'front door', [0, 1.6, 3, 1.4], { kind: 'exterior-door', adjoiningFlooring: 'stone sill' }),
      door('sample-hall-dining', 'dining room', [3, 1.3, 2.7, 0.5], { adjoiningFlooring: 'oak', isWayOut: false }),
      door('sample-hall-kitchen', 'kitchen', [4, 7.4, 2.7, 0.1], { adjoiningFlooring: 'tile', edge: 'feather', isWayOut: false }),
    ],
  );
  const hallFloor = {
    tiltXIn: 0.15,
    tiltYIn: -0.1,
    swells: [
      { xFt: 2.6, yFt: 9.6, radiusFt: 4.2, heightIn: -1.15 },
      { xFt: 9.6, yFt: 10.6, radiusFt: 2.4, heightIn: 0.35 },
      { xFt: 15, yFt: 13, radiusFt: 2.6, heightIn: -0.4 },
    ],
  };
  const laundry = samplePlan(rectangle(7, 8), [7, 0], [door('sample-laundry-door', 'hall', [2, 2.2, 2.7, 0], { edge: 'feather' })]);
  const laundryFloor = { tiltXIn: 0.3, tiltYIn: 0.2, swells: [{ xFt: 5.5, yFt: 6, radiusFt: 2.5, heightIn: -0.6 }] };
  const boards: LayerWords[] = [
    { material: 'carpet', yearInstalled: 1996, inches: 0.4, fate: 'remove' },
    { material: 'plywood', yearInstalled: 1996, inches: 0.75, fate: 'keep' },
    { material: 'boards', yearInstalled: 1951, inches: 0.75, fate: 'keep' },
    { material: 'joists', yearInstalled: 1951, inches: 9.25, fate: 'keep' },
  ];
  return [
    {
      ...newRoom({ id: 'sample-hall', now }, house, 'Hall'),
      plan: hall,
      layers: layers('sample-hall', boards),
      survey: sampleSurvey(hall, hallFloor, read, 'sample-hall', 2.75),
      tests: [
        wood('sample-hall-t1', read, 'boards', [0.102, 0.105, 0.099, 0.108, 0.104, 0.1]),
        wood('sample-hall-t2', read, 'structure', [0.11, 0.112, 0.108, 0.111]),
        drops('sample-hall-t3', read, 40),
        scratch('sample-hall-t4', read),
        joists('sample-hall-t5', read),
        looked('sample-hall-t6', read, 'sound-clean'),
        air('sample-hall-t7', clock.past(0, '06:50'), 68, 0.48, 66),
      ],
      marks: [
        {
          id: 'sample-hall-m1',
          kind: 'gap',
          moves: 'still',
          shape: 'line',
          points: [feet(0.8, 4), feet(5.6, 4)],
          widthM: 0.006,
          note: 'open between boards',
        },
        {
          id: 'sample-hall-m2',
          kind: 'loose',
          moves: 'unknown',
          shape: 'area',
          points: [feet(8, 12), feet(10, 12), feet(10, 13.4), feet(8, 13.4)],
          widthM: null,
          note: 'boards rock underfoot',
        },
      ] satisfies Mark[],
      circumstances: {
        ...QUIET,
        vaporRetarder: null,
        paintedTrim: 'stays-untouched',
        allowedExtraLoadPa: 1200,
        loadStatedBy: 'structural engineer’s letter 2214',
      },
    },
    {
      ...newRoom({ id: 'sample-laundry', now }, house, 'Laundry'),
      plan: laundry,
      layers: layers('sample-laundry', [
        { material: 'paint-or-sealer', yearInstalled: 1988, inches: 0.02, fate: 'keep' },
        { ...CONCRETE_GROUND, yearInstalled: 1988 },
      ]),
      survey: sampleSurvey(laundry, laundryFloor, read, 'sample-laundry'),
      tests: [
        humid('sample-laundry-t1', read, 0.71),
        humid('sample-laundry-t2', read, 0.69),
        humid('sample-laundry-t3', read, 0.72),
        ...atThreePlaces(drops('sample-laundry-t4', read, null)),
        ...atThreePlaces(scratch('sample-laundry-t5', read)),
        air('sample-laundry-t6', clock.past(0, '06:55'), 68, 0.5, 65),
        looked('sample-laundry-t7', read, 'painted'),
      ],
      circumstances: { ...QUIET },
    },
    { ...newRoom({ id: 'sample-back-entry', now }, house, 'Back entry'), plan: samplePlan(rectangle(6, 6.5), [14, 1], []) },
  ];
}
