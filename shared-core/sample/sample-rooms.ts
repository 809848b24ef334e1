/* eslint-disable max-lines -- one scenario, told room by room */
/** The sample's rooms: what they look like, what lies in them, what was read and tested. */
import type { FloorTest, Layer } from '../book/layer.ts';
import type { Mark } from '../book/plan-fields.ts';
import { newRoom } from '../book/new-records.ts';
import type { Room } from '../book/room.ts';
import { celsiusFromFahrenheit } from '../measure/temperature.ts';
import { FOOT_M, INCH_M } from '../measure/length-units.ts';
import { door, rectangle, ring, samplePlan, sampleSurvey } from './sample-floor.ts';
import type { SampleClock } from './sample-time.ts';

type LayerWords = Pick<Layer, 'material' | 'yearInstalled' | 'fate'> & { readonly inches: number | null; readonly sound?: Layer['sound'] };
const layers = (roomId: string, of: readonly LayerWords[]): Layer[] =>
  of.map((l, i) => ({
    id: `${roomId}-l${i + 1}`,
    material: l.material,
    thicknessM: l.inches === null ? null : l.inches * INCH_M,
    yearInstalled: l.yearInstalled,
    sound: l.sound ?? 'sound',
    fate: l.fate,
    area: null,
    note: '',
  }));

type TestBody<K extends FloorTest['kind']> = Omit<Extract<FloorTest, { kind: K }>, 'id' | 'takenAt' | 'by' | 'at' | 'note'>;
const tested = <K extends FloorTest['kind']>(id: string, takenAt: string, body: TestBody<K>): FloorTest => {
  const stamps = { id, takenAt, by: 'RT', at: null, note: '' };
  // Rebuilds the member of the union that `body` was taken from.
  return { ...stamps, ...body } as unknown as FloorTest;
};

const CONCRETE_GROUND: LayerWords = { material: 'concrete-on-ground', yearInstalled: 1951, inches: 4, fate: 'keep' };
const feet = (x: number, y: number) => ({ xM: x * FOOT_M, yM: y * FOOT_M });

const drops = (id: string, at: string, seconds: number | null): FloorTest =>
  tested<'drop-absorption'>(id, at, { kind: 'drop-absorption', seconds, watchedSeconds: 60 });
const scratch = (id: string, at: string): FloorTest => tested<'scratch'>(id, at, { kind: 'scratch', result: 'firm' });
const air = (id: string, at: string, airF: number, humidity: number, floorF: number): FloorTest =>
  tested<'air'>(id, at, {
    kind: 'air',
    airTempC: celsiusFromFahrenheit(airF),
    relativeHumidity: humidity,
    surfaceTempC: celsiusFromFahrenheit(floorF),
    airSpeedMPerS: 0.2,
  });
const alkali = (id: string, at: string): FloorTest => tested<'surface-ph'>(id, at, { kind: 'surface-ph', ph: 9 });
const humid = (id: string, at: string, share: number): FloorTest =>
  tested<'slab-humidity'>(id, at, {
    kind: 'slab-humidity',
    relativeHumidity: share,
    depthM: 1.6 * INCH_M,
    slabThicknessM: 4 * INCH_M,
    dryingSides: 1,
    settledHours: 30,
    slabTempC: 18,
  });
const wood = (id: string, at: string, part: 'boards' | 'structure', readings: number[]): FloorTest =>
  tested<'wood-moisture'>(id, at, { kind: 'wood-moisture', part, readings });

const QUIET = {
  paintedTrim: 'none',
  paintDisturbedM2: null,
  radiantHeat: 'none',
  belowGrade: false,
  vaporRetarder: 'present',
  slopeToDrain: false,
  movementGap: 'present',
  allowedExtraLoadPa: null,
  texturedCoating: false,
  notes: '',
} as const;

/** Odell: an L-shaped hall over boards, its laundry, and a back entry nobody has read. */
function odellRooms(clock: SampleClock): Room[] {
  const now = clock.at(-9, '09:00');
  const read = clock.at(-6, '10:15');
  const house = 'sample-pennant-hill';
  const hall = samplePlan(
    ring([0, 0], [6.5, 0], [6.5, 8], [20.5, 8], [20.5, 13.667], [0, 13.667]),
    [0, 0],
    [
      door('sample-hall-front', {
        kind: 'exterior-door',
        name: 'front door',
        wall: 0,
        fromFt: 1.6,
        widthFt: 3,
        stepIn: 1.4,
        adjoiningCovering: 'stone sill',
        edge: 'dam',
        isWayOut: true,
      }),
      door('sample-hall-dining', {
        kind: 'doorway',
        name: 'dining room',
        wall: 3,
        fromFt: 1.3,
        widthFt: 2.7,
        stepIn: 0.5,
        adjoiningCovering: 'oak',
        edge: 'dam',
        isWayOut: false,
      }),
      door('sample-hall-kitchen', {
        kind: 'doorway',
        name: 'kitchen',
        wall: 4,
        fromFt: 7.4,
        widthFt: 2.7,
        stepIn: 0.1,
        adjoiningCovering: 'tile',
        edge: 'feather',
        isWayOut: false,
      }),
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
  const laundry = samplePlan(
    rectangle(7, 8),
    [7, 0],
    [
      door('sample-laundry-door', {
        kind: 'doorway',
        name: 'hall',
        wall: 2,
        fromFt: 2.2,
        widthFt: 2.7,
        stepIn: 0,
        adjoiningCovering: '',
        edge: 'feather',
        isWayOut: true,
      }),
    ],
  );
  const laundryFloor = { tiltXIn: 0.3, tiltYIn: 0.2, swells: [{ xFt: 5.5, yFt: 6, radiusFt: 2.5, heightIn: -0.6 }] };
  const boards: LayerWords[] = [
    { material: 'carpet', yearInstalled: 1996, inches: 0.4, fate: 'remove' },
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
        tested<'floor-bounce'>('sample-hall-t5', read, {
          kind: 'floor-bounce',
          spanM: 11 * FOOT_M,
          joistWidthM: 1.5 * INCH_M,
          joistDepthM: 9.25 * INCH_M,
          spacingM: 16 * INCH_M,
          modulusPa: 11.03e9,
          liveLoadPa: 1915,
          deadLoadPa: 479,
        }),
        tested<'surface-look'>('sample-hall-t6', read, { kind: 'surface-look', is: ['sound-clean'] }),
        air('sample-hall-t7', clock.at(0, '06:50'), 68, 0.48, 66),
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
      circumstances: { ...QUIET, vaporRetarder: null, paintedTrim: 'stays-untouched', allowedExtraLoadPa: 1200 },
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
        drops('sample-laundry-t4', read, null),
        scratch('sample-laundry-t5', read),
        air('sample-laundry-t6', clock.at(0, '06:55'), 68, 0.5, 65),
        tested<'surface-look'>('sample-laundry-t7', read, { kind: 'surface-look', is: ['painted'] }),
      ],
      circumstances: { ...QUIET },
    },
    { ...newRoom({ id: 'sample-back-entry', now }, house, 'Back entry'), plan: samplePlan(rectangle(6, 6.5), [14, 1], []) },
  ];
}

/** Abara and Finch: three rooms in a row, poured on three days, drying. */
function abaraRooms(clock: SampleClock): Room[] {
  const now = clock.at(-30, '09:00');
  const read = clock.at(-27, '11:00');
  const house = 'sample-sallow-lane';
  const make = (id: string, name: string, widthFt: number, placedX: number, sag: number, doors: Parameters<typeof samplePlan>[2]): Room => {
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
      tests: [
        humid(`${id}-t1`, read, 0.66),
        humid(`${id}-t2`, read, 0.64),
        humid(`${id}-t3`, read, 0.67),
        alkali(`${id}-t8`, read),
        drops(`${id}-t4`, read, 30),
        scratch(`${id}-t5`, read),
        tested<'surface-look'>(`${id}-t6`, read, { kind: 'surface-look', is: ['sound-clean'] }),
      ],
      circumstances: { ...QUIET },
    };
  };
  return [
    make('sample-living', 'Living room', 18, 0, 0.75, [
      door('sample-living-hall', {
        kind: 'doorway',
        name: 'back hall',
        wall: 1,
        fromFt: 5,
        widthFt: 3,
        stepIn: 0.2,
        adjoiningCovering: '',
        edge: 'dam',
        isWayOut: true,
      }),
    ]),
    make('sample-back-hall', 'Back hall', 4, 18, 0.25, [
      door('sample-back-hall-out', {
        kind: 'exterior-door',
        name: 'back door',
        wall: 2,
        fromFt: 0.5,
        widthFt: 3,
        stepIn: 0.3,
        adjoiningCovering: 'stone sill',
        edge: 'dam',
        isWayOut: true,
      }),
    ]),
    make('sample-dining', 'Dining room', 13, 22, 0.4, [
      door('sample-dining-hall', {
        kind: 'doorway',
        name: 'back hall',
        wall: 3,
        fromFt: 6,
        widthFt: 3,
        stepIn: 0.1,
        adjoiningCovering: '',
        edge: 'dam',
        isWayOut: true,
      }),
    ]),
  ];
}

/** Lindqvist: a large family room made ready to pour, and a sunroom over tile that is drying. */
function lindqvistRooms(clock: SampleClock): Room[] {
  const now = clock.at(-20, '09:00');
  const read = clock.at(-12, '13:20');
  const house = 'sample-coopers-wharf';
  const family = samplePlan(
    rectangle(21, 17),
    [0, 0],
    [
      door('sample-family-out', {
        kind: 'sliding-door',
        name: 'to the terrace',
        wall: 2,
        fromFt: 4,
        widthFt: 4,
        stepIn: 1.2,
        adjoiningCovering: 'sill',
        edge: 'dam',
        isWayOut: false,
      }),
      door('sample-family-door', {
        kind: 'doorway',
        name: 'passage',
        wall: 1,
        fromFt: 11,
        widthFt: 3,
        stepIn: 0.4,
        adjoiningCovering: 'tile',
        edge: 'dam',
        isWayOut: true,
      }),
    ],
    [{ id: 'sample-family-hearth', kind: 'hearth', name: 'hearth', corners: ring([8, 0], [13, 0], [13, 1.5], [8, 1.5]) }],
  );
  const sun = samplePlan(
    rectangle(12, 10.5),
    [21, 0],
    [
      door('sample-sun-door', {
        kind: 'sliding-door',
        name: 'to the terrace',
        wall: 1,
        fromFt: 3,
        widthFt: 5,
        stepIn: 0.9,
        adjoiningCovering: 'sill',
        edge: 'dam',
        isWayOut: true,
      }),
    ],
  );
  const dry = (id: string): FloorTest[] => [
    humid(`${id}-t1`, read, 0.7),
    humid(`${id}-t2`, read, 0.68),
    humid(`${id}-t3`, read, 0.71),
    alkali(`${id}-t8`, read),
    scratch(`${id}-t5`, read),
    tested<'surface-look'>(`${id}-t6`, read, { kind: 'surface-look', is: ['sound-clean'] }),
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
      tests: [...dry('sample-family'), drops('sample-family-t4', read, 25), air('sample-family-t7', clock.at(0, '06:30'), 67, 0.46, 65)],
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
      tests: [...dry('sample-sunroom'), drops('sample-sunroom-t4', read, null)],
      circumstances: { ...QUIET, vaporRetarder: 'present' },
    },
  ];
}

/** Rusk: a basement over old adhesive that waits for a laboratory, and a scullery nobody has read. */
function ruskRooms(clock: SampleClock): Room[] {
  const now = clock.at(-8, '09:00');
  const read = clock.at(-4, '14:30');
  const house = 'sample-ferry-street';
  const basement = samplePlan(
    rectangle(18.5, 14),
    [0, 0],
    [
      door('sample-basement-door', {
        kind: 'doorway',
        name: 'stair',
        wall: 3,
        fromFt: 9,
        widthFt: 2.8,
        stepIn: 2,
        adjoiningCovering: 'oak tread',
        edge: 'stop',
        isWayOut: true,
      }),
    ],
    [{ id: 'sample-basement-post', kind: 'column', name: 'post', corners: ring([9, 6.6], [9.6, 6.6], [9.6, 7.2], [9, 7.2]) }],
  );
  return [
    {
      ...newRoom({ id: 'sample-basement', now }, house, 'Basement'),
      plan: basement,
      layers: layers('sample-basement', [
        { material: 'resilient-tile', yearInstalled: null, inches: 0.125, fate: 'remove' },
        { material: 'adhesive-cutback', yearInstalled: null, inches: 0.04, fate: 'remove', sound: 'unknown' },
        { ...CONCRETE_GROUND, yearInstalled: 1926 },
      ]),
      survey: sampleSurvey(
        basement,
        { tiltXIn: 0.35, tiltYIn: 0.1, swells: [{ xFt: 12, yFt: 5, radiusFt: 4, heightIn: -0.5 }] },
        read,
        'sample-basement',
      ),
      tests: [
        {
          id: 'sample-basement-t1',
          takenAt: read,
          by: 'RT',
          at: null,
          note: '',
          kind: 'laboratory',
          question: 'asbestos',
          layerId: 'sample-basement-l2',
          state: 'sent',
          laboratory: 'county laboratory',
          sample: 'FS-260-1',
          resultOn: null,
          dueOn: clock.day(3),
        },
        humid('sample-basement-t2', read, 0.84),
      ],
      circumstances: { ...QUIET, belowGrade: true, vaporRetarder: 'unknown', paintedTrim: 'stays-untouched', radiantHeat: 'none' },
    },
    { ...newRoom({ id: 'sample-scullery', now }, house, 'Scullery'), plan: samplePlan(rectangle(8, 7), [18.5, 0], []) },
  ];
}

/** Tremaine: a workshop whose quote is with the customer. */
function tremaineRooms(clock: SampleClock): Room[] {
  const now = clock.at(-34, '09:00');
  const read = clock.at(-29, '09:40');
  const plan = samplePlan(
    rectangle(24, 15),
    [0, 0],
    [
      door('sample-workshop-door', {
        kind: 'exterior-door',
        name: 'yard door',
        wall: 0,
        fromFt: 8,
        widthFt: 7,
        stepIn: 0.6,
        adjoiningCovering: 'concrete apron',
        edge: 'dam',
        isWayOut: true,
      }),
    ],
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
        drops('sample-workshop-t4', read, 20),
        scratch('sample-workshop-t5', read),
        tested<'surface-look'>('sample-workshop-t6', read, { kind: 'surface-look', is: ['sound-clean', 'dusty'] }),
      ],
      circumstances: { ...QUIET },
    },
  ];
}

/** Every room of the sample. */
export function sampleRooms(clock: SampleClock): Room[] {
  return [...odellRooms(clock), ...abaraRooms(clock), ...lindqvistRooms(clock), ...ruskRooms(clock), ...tremaineRooms(clock)];
}
