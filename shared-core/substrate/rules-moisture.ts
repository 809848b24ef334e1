/** Rules about water in the slab, in the timber and through the ground. */
import { highestEmissionLb, highestHumidity } from './highest-moisture.ts';
import type { FloorFacts } from './floor-facts.ts';
import type { LimitInForce } from './flooring-demands.ts';
import { type Case, once, type Rule, rule } from './rule.ts';
import { isWood } from './layer-words.ts';
import { differenceLimit, moistureDifference, WOOD_OVER_AVERAGE_MOST } from './wood-moisture.ts';

type LimitCase = { readonly testId?: string; readonly value: number; readonly limit: LimitInForce };

const barrier = (facts: FloorFacts): boolean => facts.primerKind === 'moisture-barrier';
const humidCases = (facts: FloorFacts): readonly LimitCase[] => {
  const highest = highestHumidity(facts.humidity);
  const limit = facts.limits.slabHumidity;
  return highest === null || limit === null ? [] : [{ testId: highest.testId, value: highest.value, limit }];
};
const emissionCases = (facts: FloorFacts): readonly LimitCase[] => {
  const highest = highestEmissionLb(facts.dishes);
  const limit = facts.limits.emissionLb;
  return highest === null || limit === null ? [] : [{ testId: highest.testId, value: highest.value, limit }];
};
const woodCases = (facts: FloorFacts): readonly LimitCase[] => {
  const readings = [...facts.wood.boards, ...facts.wood.structure];
  const limit = facts.limits.woodMoisture;
  return readings.length === 0 || limit === null ? [] : [{ value: Math.max(...readings), limit }];
};
const over = ({ value, limit }: LimitCase): boolean => value > limit.value + 1e-9;
const whose = ({ limit }: LimitCase): string => (limit.fromManufacturer ? 'the limit of the covering’s maker' : 'the published limit');
const limitSource = ({ limit }: LimitCase, method: string): string =>
  limit.fromManufacturer ? `${method}; the covering’s maker: ${limit.source}` : `${method}; ${limit.source}`;
const onGround = (facts: FloorFacts): boolean => facts.kept.some((layer) => layer.material === 'concrete-on-ground');
const differenceCases = (
  facts: FloorFacts,
  a: 'boards',
  b: 'flooring' | 'structure',
  most: number,
): readonly (Case & { readonly difference: number })[] => {
  const difference = moistureDifference(facts.wood[a], facts.wood[b]);
  return difference !== null && difference > most ? [{ difference }] : [];
};

/** The rows, slab first. */
export const MOISTURE_RULES: readonly Rule[] = [
  rule({
    id: 'slab-humid',
    title: 'humid slab',
    reads: 'humidity in the slab over the covering’s limit, and no moisture barrier chosen',
    verdict: 'hold',
    when: (facts) => humidCases(facts).filter((found) => over(found) && !barrier(facts)),
    says: (found, w, facts) =>
      `${w.share(found.value)} is over ${w.share(found.limit.value)}, ${whose(found)} for ${facts.demand?.name ?? 'this covering'}. Choose a moisture barrier, or let it dry and read again.`,
    holds: ['pour'],
    lifts: 'jobRoom.primerId',
    source: (found) => limitSource(found, 'ASTM F2170'),
  }),
  rule({
    id: 'slab-humid-barrier',
    title: 'humid slab',
    reads: 'humidity in the slab over the covering’s limit, and a moisture barrier chosen',
    verdict: 'go-with-work',
    when: (facts) => humidCases(facts).filter((found) => over(found) && barrier(facts)),
    says: (found, w, facts) =>
      `${w.share(found.value)} is over ${w.share(found.limit.value)}, ${whose(found)}. Seal ${facts.areaM2 === null ? 'the floor' : w.area(facts.areaM2)} with the moisture barrier, whose sheet must allow so much.`,
    holds: [],
    lifts: 'room.tests.slab-humidity',
    source: (found) => limitSource(found, 'ASTM F2170'),
  }),
  rule({
    id: 'slab-dry',
    title: 'humidity in the slab',
    reads: 'humidity in the slab within the covering’s limit',
    verdict: 'go',
    when: (facts) => humidCases(facts).filter((found) => !over(found)),
    says: (found, w) => `${w.share(found.value)} at most; ${w.share(found.limit.value)} is ${whose(found)}.`,
    holds: [],
    lifts: 'room.tests.slab-humidity',
    source: (found) => limitSource(found, 'ASTM F2170'),
  }),
  rule({
    id: 'slab-emits',
    title: 'moisture from the slab',
    reads: 'emission from the dish over the covering’s limit, and no moisture barrier chosen',
    verdict: 'hold',
    when: (facts) => emissionCases(facts).filter((found) => over(found) && !barrier(facts)),
    says: (found, w, facts) =>
      `${w.emission(found.value)} is over ${w.emission(found.limit.value)}, ${whose(found)} for ${facts.demand?.name ?? 'this covering'}. Choose a moisture barrier, or let it dry and test again.`,
    holds: ['pour'],
    lifts: 'jobRoom.primerId',
    source: (found) => limitSource(found, 'ASTM F1869'),
  }),
  rule({
    id: 'slab-emits-barrier',
    title: 'moisture from the slab',
    reads: 'emission from the dish over the covering’s limit, and a moisture barrier chosen',
    verdict: 'go-with-work',
    when: (facts) => emissionCases(facts).filter((found) => over(found) && barrier(facts)),
    says: (found, w) =>
      `${w.emission(found.value)} is over ${w.emission(found.limit.value)}, ${whose(found)}. Seal it with the moisture barrier, whose sheet must allow so much.`,
    holds: [],
    lifts: 'room.tests.moisture-dish',
    source: (found) => limitSource(found, 'ASTM F1869'),
  }),
  rule({
    id: 'slab-emits-little',
    title: 'moisture from the slab',
    reads: 'emission from the dish within the covering’s limit',
    verdict: 'go',
    when: (facts) => emissionCases(facts).filter((found) => !over(found)),
    says: (found, w) => `${w.emission(found.value)} at most; ${w.emission(found.limit.value)} is ${whose(found)}.`,
    holds: [],
    lifts: 'room.tests.moisture-dish',
    source: (found) => limitSource(found, 'ASTM F1869'),
  }),
  rule({
    id: 'slab-on-ground',
    title: 'slab on the ground',
    reads: 'concrete on the ground, with the vapor retarder missing or unknown, or below grade',
    verdict: 'go-with-work',
    when: (facts) =>
      once(
        onGround(facts) && !barrier(facts) && (facts.circumstances.vaporRetarder !== 'present' || facts.circumstances.belowGrade !== false),
      ),
    says: () =>
      'Damp may rise from the ground for as long as the house stands. See that the product’s sheet allows it here, or plan a moisture barrier.',
    holds: [],
    lifts: 'room.circumstances.vaporRetarder',
    source: 'ASTM F2873 clause 1.5; ASTM F710',
  }),
  rule({
    id: 'wood-wet',
    title: 'wet timber',
    reads: 'a reading of boards or joists over the limit',
    verdict: 'hold',
    when: (facts) => woodCases(facts).filter(over),
    says: (found, w) =>
      `${w.share(found.value)} at the wettest; ${w.share(found.limit.value)} is ${whose(found)}. Find the water, let it dry, read again.`,
    holds: ['pour'],
    lifts: 'room.tests.wood-moisture',
    source: (found) => limitSource(found, 'moisture meter'),
  }),
  rule({
    id: 'wood-dry',
    title: 'boards and joists',
    reads: 'every reading of boards and joists within the limit',
    verdict: 'go',
    when: (facts) => woodCases(facts).filter((found) => !over(found)),
    says: (found, w) => `Dry: ${w.share(found.value)} at the wettest, ${w.share(found.limit.value)} is ${whose(found)}.`,
    holds: [],
    lifts: 'room.tests.wood-moisture',
    source: (found) => limitSource(found, 'moisture meter'),
  }),
  rule({
    id: 'wood-apart',
    title: 'new boards and subfloor',
    reads: 'flooring and subfloor differ by more than 2 % (planks)',
    verdict: 'hold',
    when: (facts) => differenceCases(facts, 'boards', 'flooring', differenceLimit(null)),
    says: (found, w) =>
      `They differ by ${w.share(found.difference)}; planks allow ${w.share(differenceLimit(null))}, strips twice that. Let them come together before laying.`,
    holds: ['cover'],
    lifts: 'room.tests.wood-moisture',
    source: 'NWFA, from memory',
  }),
  rule({
    id: 'wood-uneven',
    title: 'boards and joists differ',
    reads: 'boards and joists differ by more than 4 %',
    verdict: 'go-with-work',
    when: (facts) => differenceCases(facts, 'boards', 'structure', WOOD_OVER_AVERAGE_MOST),
    says: (found, w) =>
      `Boards and joists differ by ${w.share(found.difference)}: water comes from somewhere. Look underneath before the floor is closed.`,
    holds: [],
    lifts: 'room.tests.wood-moisture',
    source: 'trade guideline, 4 % over the area’s average, second-hand',
  }),
  rule({
    id: 'wood-wet-pour',
    title: 'water over timber',
    reads: 'the pour lies on timber',
    verdict: 'go-with-work',
    when: (facts) => once(facts.top !== null && isWood(facts.top.material) && facts.top.material !== 'joists'),
    says: () => 'A pour finds every gap between boards. Close gaps, knots and pipe holes, refasten what rocks, and prime as for wood.',
    holds: [],
    lifts: 'room.layers',
    source: 'ASTM F2873; common practice',
  }),
];
