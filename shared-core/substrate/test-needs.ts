/** Which tests a floor needs, how many, and which are missing, too few or stale. */
import type { FloorTest, FloorTestKind, Layer } from '../book/layer.ts';
import type { PowderSheet } from '../book/material.ts';
import type { ExposedLayer } from './exposed-layers.ts';
import type { LimitsInForce } from './flooring-demands.ts';
import { hasSlab, isConcrete, isDropTested, isWood } from './layer-words.ts';
import { slabTests, SURFACE_TEST_PLACES, WOOD_READINGS_LEAST, woodReadingCount } from './test-counts.ts';
import type { CountContext, NeedId } from './test-kind.ts';
import { isStale, kindOf, lastVisit, TEST_KINDS, testKinds } from './test-kinds.ts';

/** A test a floor needs, and its state. */
export type TestNeed = {
  readonly id: NeedId;
  readonly what: string;
  readonly accepts: readonly FloorTestKind[];
  readonly wanted: number;
  /** Readings that count and are not stale; for a slab with several rooms, those of all of them. */
  readonly have: number;
  /** Readings still to be made in this room. */
  readonly toMake: number;
  /** The rooms that share the number: more than one on a slab with several. */
  readonly rooms: number;
  readonly state: 'enough' | 'few' | 'stale' | 'missing';
  /** Whether it is made on the day of the pour and does not hold the assessment. */
  readonly onTheDay: boolean;
  /** Why some readings do not count. */
  readonly refused: readonly { readonly testId: string; readonly why: string }[];
  /** As in a finding; a wood test names its part: `room.tests.wood-moisture.structure`. */
  readonly lifts: string;
  readonly source: string;
};

/** Facts that decide which tests are required. Layers are those that stay, top first. */
export type NeedInput = {
  readonly kept: readonly Layer[];
  readonly layers: readonly Layer[];
  readonly tests: readonly FloorTest[];
  readonly areaM2: number | null;
  /** The layers that are poured on; none when none stays. */
  readonly exposed: readonly Pick<ExposedLayer, 'layer'>[];
  /** Whether it is wood on joists, listed or presumed. */
  readonly isWoodFramed: boolean;
  readonly limits: LimitsInForce;
  /** The underlayment chosen, for the limits of its data sheet; null while none is. */
  readonly product: { readonly powder: Pick<PowderSheet, 'slabHumidityMost' | 'emissionMostLb'> } | null;
  readonly hasMoistureSystem: boolean;
  readonly now: string;
  /** The rooms on the slab, this one too, and its place among them; left out where it is alone. */
  readonly slab?: { readonly rooms: readonly SlabRecord[]; readonly place: number };
};

/** A room in the count of its slab's tests. */
export type SlabRecord = Pick<NeedInput, 'layers' | 'tests' | 'areaM2'>;

type Wanted = Pick<TestNeed, 'id' | 'what' | 'wanted' | 'onTheDay' | 'source'> & {
  readonly part?: 'boards' | 'structure';
  /** Kinds that cannot answer it on this floor, with the reason. */
  readonly without?: Partial<Record<FloorTestKind, string>>;
  /** Whether one method alone must reach the full number. */
  readonly byOneMethod?: boolean;
};

/** The limits that slab moisture is tested for, and whose they are; null where none is stated. `emissionLb` per 1,000 sq ft in 24 h. */
export type SlabLimits = {
  readonly slabHumidity: number | null;
  readonly emissionLb: number | null;
  readonly of: 'flooring' | 'underlayment';
};

/**
 * The flooring's limits. Where it has none, as under tile, those of the underlayment's data sheet over a concrete slab without a
 * moisture mitigation system.
 */
export function slabLimits({
  limits,
  product,
  hasMoistureSystem,
  kept,
}: Pick<NeedInput, 'limits' | 'product' | 'hasMoistureSystem' | 'kept'>): SlabLimits {
  const flooring: SlabLimits = {
    slabHumidity: limits.slabHumidity?.value ?? null,
    emissionLb: limits.emissionLb?.value ?? null,
    of: 'flooring',
  };
  const hasOwn = product !== null && !hasMoistureSystem && kept.some(({ material }) => isConcrete(material));
  if (flooring.slabHumidity !== null || flooring.emissionLb !== null || !hasOwn) return flooring;
  const { slabHumidityMost, emissionMostLb } = product.powder;
  return { slabHumidity: slabHumidityMost?.value ?? null, emissionLb: emissionMostLb?.value ?? null, of: 'underlayment' };
}

/** The slab moisture tests whose readings have no limit to be compared with. */
const withoutLimit = ({ slabHumidity, emissionLb, of }: SlabLimits): Partial<Record<FloorTestKind, string>> => ({
  ...(slabHumidity === null && {
    'slab-humidity': `This ${of} has no RH limit. Enter the manufacturer’s, or do calcium chloride tests.`,
  }),
  ...(emissionLb === null && {
    'moisture-dish': `This ${of} has no MVER limit. Enter the manufacturer’s, or test in-slab RH.`,
  }),
});

function wantedTests(input: NeedInput): readonly Wanted[] {
  const hasLayer = (test: (layer: Layer) => boolean): boolean => input.kept.some(test);
  const slab = hasSlab(input.kept);
  const wood = hasLayer((layer) => isWood(layer.material) && layer.material !== 'joists');
  const mineral = input.exposed.some(({ layer }) => isDropTested(layer.material));
  // A room without a drawing needs the minimum number of tests; the missing plan is a separate finding.
  const areaM2 = input.areaM2 ?? 0;
  const onSlab = input.slab?.rooms ?? [input];
  const limits = slabLimits(input);
  const list: (Wanted | false)[] = [
    slab &&
      (limits.slabHumidity !== null || limits.emissionLb !== null) && {
        id: 'slab-moisture',
        what: 'slab moisture',
        wanted: slabTests(
          onSlab.map((room) => ({ areaM2: room.areaM2 ?? 0, have: 0 })),
          0,
        ).wanted,
        without: withoutLimit(limits),
        byOneMethod: true,
        onTheDay: false,
        source:
          'ASTM F710: every slab; number by ASTM F1869 and F2170, one within 3 ft of an outside wall, room at service conditions 48 h before',
      },
    wood && {
      id: 'wood-boards',
      what: 'subfloor moisture',
      part: 'boards',
      wanted: woodReadingCount(areaM2),
      onTheDay: false,
      source: 'NWFA: 20 readings in 1,000 sq ft',
    },
    input.isWoodFramed && {
      id: 'wood-structure',
      what: 'joist moisture',
      part: 'structure',
      wanted: WOOD_READINGS_LEAST,
      onTheDay: false,
      source: 'common practice',
    },
    mineral && {
      id: 'absorption',
      what: 'porosity (water drop)',
      wanted: SURFACE_TEST_PLACES,
      onTheDay: false,
      source: 'ASTM F3191; test again after any grinding',
    },
    mineral && {
      id: 'surface-strength',
      what: 'surface strength',
      wanted: SURFACE_TEST_PLACES,
      onTheDay: false,
      source: 'ASTM F710: sound; number common practice',
    },
    input.exposed.length > 0 && {
      id: 'surface-look',
      what: 'visual inspection',
      wanted: 1,
      onTheDay: false,
      source: 'ASTM F710: clean, smooth, sound',
    },
    input.isWoodFramed && {
      id: 'deflection',
      what: 'joist deflection',
      wanted: 1,
      onTheDay: false,
      source: 'IRC R301.7; ASTM F2873 leaves the structure to others',
    },
    {
      id: 'air',
      what: 'ambient conditions',
      wanted: 1,
      onTheDay: true,
      source: 'the data sheet; common practice',
    },
  ];
  return list.filter((wanted) => wanted !== false);
}

/** Number of readings in one test: a wood test has several. */
const readingsIn = (test: FloorTest): number => (test.kind === 'wood-moisture' ? test.readings.length : 1);

type OnSlab = Pick<TestNeed, 'wanted' | 'have' | 'toMake' | 'rooms'> & { readonly own: number };

/** The tests of a slab by one method, over the rooms on it. @param own those of this room */
function onSlabBy(input: NeedInput, kind: FloorTestKind, own: number, context: CountContext): OnSlab {
  const { rooms, place } = input.slab ?? { rooms: [input], place: 0 };
  const counted = rooms.map(({ areaM2, tests, layers }, i) => {
    const good = tests.filter(
      (test) => !isStale(test.kind, test.takenAt, input.now) && kindOf(test).doesNotCount(test, layers, context) === null,
    );
    return { areaM2: areaM2 ?? 0, have: i === place ? own : lastVisit(good, kind).length };
  });
  return { ...slabTests(counted, place), own, rooms: rooms.length };
}

/** Each method requires the full number: the one that comes closest counts, first of all one that was tested here. */
const fullestMethod = (methods: readonly OnSlab[]): OnSlab =>
  methods.reduce((best, one) => ((Math.sign(one.own) - Math.sign(best.own) || one.have - best.have) > 0 ? one : best));

/** The tests a floor needs, each with its state, in order of work. */
export function testNeeds(input: NeedInput, context: CountContext): readonly TestNeed[] {
  return wantedTests(input).map(({ part, without = {}, byOneMethod = false, ...wanted }) => {
    const answering = testKinds().filter((kind) => TEST_KINDS[kind].answers.includes(wanted.id));
    const accepts = answering.filter((kind) => without[kind] === undefined);
    const made = input.tests.filter(
      (test) => answering.includes(test.kind) && (part === undefined || (test.kind === 'wood-moisture' && test.part === part)),
    );
    const judged = made.map((test) => ({ test, why: without[test.kind] ?? kindOf(test).doesNotCount(test, input.layers, context) }));
    const counted = judged.filter((entry) => entry.why === null).map((entry) => entry.test);
    const recent = counted.filter((test) => !isStale(test.kind, test.takenAt, input.now));
    const countOf = (tests: readonly FloorTest[], kind: FloorTestKind): number =>
      lastVisit(tests, kind).reduce((sum, test) => sum + readingsIn(test), 0);
    const counts = accepts.map((kind) => countOf(recent, kind));
    const sum = counts.reduce((all, count) => all + count, 0);
    const alone = { own: sum, wanted: wanted.wanted, have: sum, toMake: Math.max(0, wanted.wanted - sum), rooms: 1 };
    const { own, ...number } = byOneMethod
      ? fullestMethod(accepts.map((kind, k) => onSlabBy(input, kind, counts[k] ?? 0, context)))
      : alone;
    const state = own === 0 ? (counted.length > 0 ? 'stale' : 'missing') : number.have >= number.wanted ? 'enough' : 'few';
    return {
      ...wanted,
      ...number,
      accepts,
      state,
      refused: judged.flatMap(({ test, why }) => (why === null ? [] : [{ testId: test.id, why }])),
      lifts: `room.tests.${accepts[0] ?? wanted.id}${part === undefined ? '' : `.${part}`}`,
    };
  });
}
