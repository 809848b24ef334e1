/** Which tests a floor needs, how many, and which are missing, too few or too old. A missing reading is a missing test. */
import type { FloorTest, FloorTestKind, Layer } from '../book/layer.ts';
import { whyTestDoesNotCount } from './counting-tests.ts';
import type { FlooringDemand, LimitsInForce } from './flooring-demands.ts';
import { isCementitious, isWood } from './layer-words.ts';
import { isStale, phTestCount, slabTestCount, SURFACE_TEST_PLACES, WOOD_READINGS_LEAST, woodReadingCount } from './test-counts.ts';
import { lastVisit } from './tests-of.ts';
import type { Wording } from './wording.ts';

/** One thing a floor has to be tested for. */
export type NeedId =
  | 'slab-moisture'
  | 'wood-boards'
  | 'wood-structure'
  | 'absorption'
  | 'surface-strength'
  | 'surface-ph'
  | 'surface-look'
  | 'bounce'
  | 'air';

/** A test a floor needs and how it stands. */
export type TestNeed = {
  readonly id: NeedId;
  readonly what: string;
  readonly accepts: readonly FloorTestKind[];
  readonly wanted: number;
  /** Readings that count and are not too old. */
  readonly have: number;
  readonly state: 'enough' | 'few' | 'stale' | 'missing';
  /** Taken on the day of the pour, so that its want does not hold the assessment. */
  readonly onTheDay: boolean;
  /** Why some readings do not count. */
  readonly refused: readonly { readonly testId: string; readonly why: string }[];
  readonly lifts: string;
  readonly source: string;
};

/** What decides the needs. Layers are those that stay, top first. */
export type NeedInput = {
  readonly kept: readonly Layer[];
  readonly layers: readonly Layer[];
  readonly tests: readonly FloorTest[];
  readonly areaM2: number | null;
  readonly demand: FlooringDemand | null;
  readonly limits: LimitsInForce;
  readonly now: string;
};

type Wanted = Pick<TestNeed, 'id' | 'what' | 'accepts' | 'wanted' | 'onTheDay' | 'source'> & { readonly part?: 'boards' | 'structure' };

function wantedTests(input: NeedInput): readonly Wanted[] {
  const top = input.kept[0]?.material ?? null;
  const has = (test: (layer: Layer) => boolean): boolean => input.kept.some(test);
  const slab = has(
    (layer) => layer.material === 'concrete-on-ground' || layer.material === 'concrete-suspended' || layer.material === 'screed',
  );
  const wood = has((layer) => isWood(layer.material) && layer.material !== 'joists');
  const joists = has((layer) => layer.material === 'joists');
  const drinks = top !== null && (isCementitious(top) || top === 'gypsum');
  // An area not yet drawn asks for the fewest tests of any room, and the plan is a finding of its own.
  const areaM2 = input.areaM2 ?? 0;
  const list: (Wanted | false)[] = [
    slab &&
      (input.limits.slabHumidity !== null || input.limits.emissionLb !== null) && {
        id: 'slab-moisture',
        what: 'moisture of the slab',
        accepts: ['slab-humidity', 'moisture-dish'],
        wanted: slabTestCount(areaM2),
        onTheDay: false,
        source: 'ASTM F710: every slab; number by ASTM F1869 and F2170',
      },
    wood && {
      id: 'wood-boards',
      what: 'moisture of the boards',
      accepts: ['wood-moisture'],
      part: 'boards',
      wanted: woodReadingCount(areaM2),
      onTheDay: false,
      source: 'NWFA: 20 readings in 1000 ft²',
    },
    joists && {
      id: 'wood-structure',
      what: 'moisture of the joists',
      accepts: ['wood-moisture'],
      part: 'structure',
      wanted: WOOD_READINGS_LEAST,
      onTheDay: false,
      source: 'common practice',
    },
    drinks && {
      id: 'absorption',
      what: 'drops of water on the floor',
      accepts: ['drop-absorption'],
      wanted: SURFACE_TEST_PLACES,
      onTheDay: false,
      source: 'ASTM F3191',
    },
    drinks && {
      id: 'surface-strength',
      what: 'strength of the surface',
      accepts: ['scratch', 'pull-off'],
      wanted: SURFACE_TEST_PLACES,
      onTheDay: false,
      source: 'ASTM F710: sound; number common practice',
    },
    drinks &&
      input.demand?.glued === true && {
        id: 'surface-ph',
        what: 'alkalinity of the surface',
        accepts: ['surface-ph'],
        wanted: phTestCount(areaM2),
        onTheDay: false,
        source: 'ASTM F710',
      },
    top !== null && {
      id: 'surface-look',
      what: 'a look at the surface',
      accepts: ['surface-look'],
      wanted: 1,
      onTheDay: false,
      source: 'ASTM F710: clean, smooth, sound',
    },
    joists && {
      id: 'bounce',
      what: 'span and size of the joists',
      accepts: ['floor-bounce'],
      wanted: 1,
      onTheDay: false,
      source: 'IRC R301.7; ASTM F2873 leaves the structure to others',
    },
    {
      id: 'air',
      what: 'air and floor temperature with humidity',
      accepts: ['air'],
      wanted: 1,
      onTheDay: true,
      source: 'the product’s sheet; common practice',
    },
  ];
  return list.filter((wanted) => wanted !== false);
}

/** Readings one test brings: a wood test carries several. */
const readingsIn = (test: FloorTest): number => (test.kind === 'wood-moisture' ? test.readings.length : 1);

/** The tests a floor needs, each with how it stands, in the order a person would make them. */
export function testNeeds(input: NeedInput, wording: Pick<Wording, 'depth'>): readonly TestNeed[] {
  return wantedTests(input).map(({ part, ...wanted }) => {
    const made = input.tests.filter(
      (test) => wanted.accepts.includes(test.kind) && (part === undefined || (test.kind === 'wood-moisture' && test.part === part)),
    );
    const judged = made.map((test) => ({ test, why: whyTestDoesNotCount(test, input.layers, wording) }));
    const counted = judged.filter((one) => one.why === null).map((one) => one.test);
    const recent = counted.filter((test) => !isStale(test.kind, test.takenAt, input.now));
    const fresh = wanted.accepts.flatMap((kind) => lastVisit(recent, kind));
    const have = fresh.reduce((sum, test) => sum + readingsIn(test), 0);
    const state = have >= wanted.wanted ? 'enough' : have > 0 ? 'few' : counted.length > 0 ? 'stale' : 'missing';
    return {
      ...wanted,
      have,
      state,
      refused: judged.flatMap(({ test, why }) => (why === null ? [] : [{ testId: test.id, why }])),
      lifts: `room.tests.${wanted.accepts[0] ?? wanted.id}`,
    };
  });
}
