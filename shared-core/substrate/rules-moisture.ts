/** Rules about moisture in the slab, in wood and from the ground. */
import { highestEmissionLb, highestHumidity } from './highest-moisture.ts';
import type { LayerMaterial } from '../book/layer.ts';
import type { FigureSource } from '../book/material.ts';
import { type FloorFacts, hasDrain, isPouredOn } from './floor-facts.ts';
import type { LimitInForce } from './flooring-demands.ts';
import { type Case, once, type Rule, rule } from './rule.ts';
import { isSlab, isWood, LAYER_WORDS } from './layer-words.ts';
import {
  PLANK_DIFFERENCE_MOST,
  JOIST_HOLD_SHARE,
  JOIST_WARN_SHARE,
  moistureDifference,
  unevenBy,
  WOOD_OVER_AVERAGE_MOST,
} from './measured-tests.ts';
import { capital } from '../measure/first-letter.ts';
import { isHeatBuried, isHeatFoundLaid } from './radiant.ts';
import { whose } from './whose-figure.ts';

type LimitCase = { readonly testId?: string; readonly value: number; readonly limit: LimitInForce };
type OwnCase = Case & { readonly value: number; readonly limit: Figure<number> };
type Figure<T> = { readonly value: T; readonly source: FigureSource };

const system = (facts: FloorFacts): boolean => facts.hasMoistureSystem;
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
const subfloorCases = (facts: FloorFacts): readonly LimitCase[] => {
  const limit = facts.limits.woodMoisture;
  return facts.wood.boards.length === 0 || limit === null ? [] : [{ value: Math.max(...facts.wood.boards), limit }];
};
const isOver = ({ value, limit }: LimitCase): boolean => value > limit.value + 1e-9;
const limitOwner = ({ limit }: LimitCase): string => (limit.fromManufacturer ? 'the flooring manufacturer’s limit' : 'the usual limit');
const limitSource = ({ limit }: LimitCase, method: string): string =>
  limit.fromManufacturer ? `${method}; flooring manufacturer: ${limit.source}` : `${method}; ${limit.source}`;
const onGrade = (facts: FloorFacts): boolean => facts.kept.some((layer) => layer.material === 'concrete-on-ground');
/** What to do about a slab over the flooring's limit. On the ground without a vapor retarder it does not dry. ASTM F710, common practice. */
const mitigate = (facts: FloorFacts): string =>
  onGrade(facts) && facts.circumstances.vaporRetarder === 'absent'
    ? 'Without a vapor retarder, moisture keeps rising and the slab does not dry. Choose a moisture mitigation system, or flooring that allows this reading.'
    : 'Choose a moisture mitigation system, or let the slab dry and test again.';
/** Readings over the underlayment's own limit, from its data sheet and independent of the flooring. */
const ownHumid = (facts: FloorFacts): readonly OwnCase[] => {
  const highest = highestHumidity(facts.humidity);
  const limit = facts.product?.powder.slabHumidityMost ?? null;
  return highest === null || limit === null || highest.value <= limit.value + 1e-9
    ? []
    : [{ testId: highest.testId, value: highest.value, limit }];
};
const ownEmits = (facts: FloorFacts): readonly OwnCase[] => {
  const highest = highestEmissionLb(facts.dishes);
  const limit = facts.product?.powder.emissionMostLb ?? null;
  return highest === null || limit === null || highest.value <= limit.value + 1e-9
    ? []
    : [{ testId: highest.testId, value: highest.value, limit }];
};
const silentSheet = (facts: FloorFacts): boolean =>
  facts.product !== null &&
  (facts.product.powder.slabHumidityMost ?? null) === null &&
  (facts.product.powder.emissionMostLb ?? null) === null;

/** Each material that is poured on besides bare concrete, where a moisture mitigation system is to go. An override is for one of them. */
const underSystem = (facts: FloorFacts): readonly (Case & { readonly key: LayerMaterial })[] => {
  const others = facts.exposed.map(({ layer }) => layer.material).filter((material) => !isSlab(material));
  return system(facts) ? [...new Set(others)].map((key) => ({ key })) : [];
};

const SLAB_RULES: readonly Rule[] = [
  rule({
    id: 'slab-humid',
    title: 'slab RH',
    reads: 'in-slab relative humidity over the flooring’s limit, and no moisture mitigation system chosen',
    verdict: 'hold',
    when: (facts) => humidCases(facts).filter((match) => isOver(match) && !system(facts)),
    text: (match, w, facts) =>
      `Slab RH is ${w.share(match.value)}. For ${facts.demand?.name ?? 'this flooring'} ${limitOwner(match)} is ${w.share(match.limit.value)}. ${mitigate(facts)}`,
    holds: ['pour'],
    lifts: 'jobRoom.moistureSystemId',
    source: (match) => limitSource(match, 'ASTM F2170'),
  }),
  rule({
    id: 'slab-humid-system',
    title: 'slab RH',
    reads: 'in-slab relative humidity over the flooring’s limit, and a moisture mitigation system chosen',
    when: (facts) => humidCases(facts).filter((match) => isOver(match) && system(facts)),
    text: (match, w, facts) =>
      `Slab RH is ${w.share(match.value)}, over ${w.share(match.limit.value)}. Apply the moisture mitigation system to ${
        facts.areaM2 === null ? 'the whole floor' : w.area(facts.areaM2)
      }. Its data sheet must allow this reading.`,
    lifts: 'room.tests.slab-humidity',
    source: (match) => limitSource(match, 'ASTM F2170, F3010'),
  }),
  rule({
    id: 'slab-dry',
    title: 'slab RH',
    reads: 'in-slab relative humidity within the flooring’s limit',
    verdict: 'go',
    when: (facts) => humidCases(facts).filter((match) => !isOver(match)),
    text: (match, w) => `Highest slab RH is ${w.share(match.value)}. ${capital(limitOwner(match))} is ${w.share(match.limit.value)}.`,
    lifts: 'room.tests.slab-humidity',
    source: (match) => limitSource(match, 'ASTM F2170'),
  }),
  rule({
    id: 'slab-emits',
    title: 'moisture vapor emission',
    reads: 'moisture vapor emission over the flooring’s limit, and no moisture mitigation system chosen',
    verdict: 'hold',
    when: (facts) => emissionCases(facts).filter((match) => isOver(match) && !system(facts)),
    text: (match, w, facts) =>
      `MVER is ${w.emission(match.value)}. For ${facts.demand?.name ?? 'this flooring'} ${limitOwner(match)} is ${w.emission(match.limit.value)}. ${mitigate(facts)}`,
    holds: ['pour'],
    lifts: 'jobRoom.moistureSystemId',
    source: (match) => limitSource(match, 'ASTM F1869'),
  }),
  rule({
    id: 'slab-emits-system',
    title: 'moisture vapor emission',
    reads: 'moisture vapor emission over the flooring’s limit, and a moisture mitigation system chosen',
    when: (facts) => emissionCases(facts).filter((match) => isOver(match) && system(facts)),
    text: (match, w) =>
      `MVER is ${w.emission(match.value)}, over ${w.emission(match.limit.value)}. Apply the moisture mitigation system. Its data sheet must allow this reading.`,
    lifts: 'room.tests.moisture-dish',
    source: (match) => limitSource(match, 'ASTM F1869, F3010'),
  }),
  rule({
    id: 'slab-emits-little',
    title: 'moisture vapor emission',
    reads: 'moisture vapor emission within the flooring’s limit',
    verdict: 'go',
    when: (facts) => emissionCases(facts).filter((match) => !isOver(match)),
    text: (match, w) => `Highest MVER is ${w.emission(match.value)}. ${capital(limitOwner(match))} is ${w.emission(match.limit.value)}.`,
    lifts: 'room.tests.moisture-dish',
    source: (match) => limitSource(match, 'ASTM F1869'),
  }),
  rule({
    id: 'underlayment-humid',
    title: 'underlayment’s moisture limit',
    reads: 'in-slab relative humidity over the underlayment’s own limit, and no moisture mitigation system chosen',
    verdict: 'hold',
    when: (facts) => (system(facts) ? [] : ownHumid(facts)),
    text: (match: OwnCase, w) =>
      `Slab RH is ${w.share(match.value)}. The ${whose(match.limit)} limit for this underlayment is ${w.share(match.limit.value)}. Choose a moisture mitigation system, or another underlayment.`,
    holds: ['pour'],
    lifts: 'jobRoom.moistureSystemId',
    source: 'ASTM F2170; the underlayment’s data sheet, typical until its figure is entered',
  }),
  rule({
    id: 'underlayment-emits',
    title: 'underlayment’s moisture limit',
    reads: 'moisture vapor emission over the underlayment’s own limit, and no moisture mitigation system chosen',
    verdict: 'hold',
    when: (facts) => (system(facts) ? [] : ownEmits(facts)),
    text: (match: OwnCase, w) =>
      `MVER is ${w.emission(match.value)}. The ${whose(match.limit)} limit for this underlayment is ${w.emission(match.limit.value)}. Choose a moisture mitigation system, or another underlayment.`,
    holds: ['pour'],
    lifts: 'jobRoom.moistureSystemId',
    source: 'ASTM F1869; the underlayment’s data sheet, typical until its figure is entered',
  }),
  rule({
    id: 'system-substrate',
    title: ({ key }) => `moisture mitigation over ${LAYER_WORDS[key]}`,
    reads: 'a moisture mitigation system over anything but bare concrete or a cement mortar bed',
    verdict: 'hold',
    when: underSystem,
    text: ({ key }) =>
      `A moisture mitigation system goes on bare, profiled concrete. Remove the ${LAYER_WORDS[key]} down to the slab, or choose no system.`,
    holds: ['pour'],
    does: ['scrape', 'grind'],
    lifts: 'jobRoom.moistureSystemId',
    source: 'ASTM F3010 4.3: not over gypsum or other moisture-sensitive substrates',
  }),
  rule({
    id: 'slab-no-retarder',
    title: 'no vapor retarder',
    reads: 'slab on grade without a vapor retarder, no moisture mitigation system, and a data sheet without a moisture limit',
    verdict: 'hold',
    when: (facts) => once(onGrade(facts) && !system(facts) && facts.circumstances.vaporRetarder === 'absent' && silentSheet(facts)),
    text: () =>
      'Ground moisture will keep rising, and the underlayment’s data sheet gives no limit. Enter its limit, or choose a moisture mitigation system.',
    holds: ['pour'],
    lifts: 'jobRoom.moistureSystemId',
    source: 'ASTM F2873 clause 1.5; ASTM F710',
  }),
  rule({
    id: 'slab-on-ground',
    title: 'slab on grade',
    reads: 'slab on grade, vapor retarder missing or unknown, or below grade; no moisture mitigation system',
    when: (facts) =>
      once(
        onGrade(facts) &&
          !system(facts) &&
          (facts.circumstances.vaporRetarder !== 'present' || facts.circumstances.belowGrade !== false) &&
          !(facts.circumstances.vaporRetarder === 'absent' && silentSheet(facts)),
      ),
    text: () =>
      'Moisture can rise from the ground for the life of the house. Check that the underlayment’s data sheet allows it here, or plan a moisture mitigation system.',
    lifts: 'room.circumstances.vaporRetarder',
    source: 'ASTM F2873 clause 1.5; ASTM F710',
  }),
  rule({
    id: 'slab-under-water',
    title: 'water below grade',
    reads: 'slab below grade, with or without a moisture mitigation system',
    when: (facts) => once(onGrade(facts) && facts.circumstances.belowGrade === true),
    text: () =>
      'Water under pressure can come up through a slab below grade. Neither underlayment nor a moisture mitigation system holds it back. Look for seepage, stains and a running sump. Drainage or waterproofing comes first.',
    lifts: 'room.circumstances.belowGrade',
    source: 'common practice; the system’s data sheet',
  }),
];

const joistCases = (facts: FloorFacts, from: number, to: number): readonly (Case & { readonly value: number })[] => {
  const value = Math.max(0, ...facts.wood.structure);
  return facts.wood.structure.length > 0 && value > from + 1e-9 && value <= to + 1e-9 ? [{ value }] : [];
};
const apart = (facts: FloorFacts): readonly (Case & { readonly difference: number })[] => {
  const difference = moistureDifference(facts.wood.boards, facts.wood.flooring);
  return difference !== null && difference > PLANK_DIFFERENCE_MOST ? [{ difference }] : [];
};
const uneven = (facts: FloorFacts): readonly (Case & { readonly by: number })[] => {
  const excess = unevenBy(facts.wood.boards);
  return excess !== null && excess > WOOD_OVER_AVERAGE_MOST ? [{ by: excess }] : [];
};
const overWood = (facts: FloorFacts): boolean => isPouredOn(facts, (material) => isWood(material) && material !== 'joists');

const WOOD_RULES: readonly Rule[] = [
  rule({
    id: 'wood-wet',
    title: 'wet subfloor',
    reads: 'a subfloor moisture reading over the limit',
    verdict: 'hold',
    when: (facts) => subfloorCases(facts).filter(isOver),
    text: (match, w) =>
      `The wettest reading is ${w.share(match.value)}. ${capital(limitOwner(match))} is ${w.share(match.limit.value)}. Find the water, let the wood dry, test again.`,
    holds: ['pour'],
    lifts: 'room.tests.wood-moisture.boards',
    source: (match) => limitSource(match, 'moisture meter'),
  }),
  rule({
    id: 'wood-dry',
    title: 'subfloor moisture',
    reads: 'every subfloor moisture reading within the limit',
    verdict: 'go',
    when: (facts) => subfloorCases(facts).filter((match) => !isOver(match)),
    text: (match, w) => `The wettest reading is ${w.share(match.value)}. ${capital(limitOwner(match))} is ${w.share(match.limit.value)}.`,
    lifts: 'room.tests.wood-moisture.boards',
    source: (match) => limitSource(match, 'moisture meter'),
  }),
  rule({
    id: 'joists-damp',
    title: 'damp joists',
    reads: 'a joist reading over 16% and up to 19%',
    when: (facts) => joistCases(facts, JOIST_WARN_SHARE, JOIST_HOLD_SHARE),
    text: (match, w) =>
      `The wettest joist reads ${w.share(match.value)}. Look for water and air out the crawl space before the floor is covered.`,
    lifts: 'room.tests.wood-moisture.structure',
    source: 'common practice: joists 13 to 16% over a crawl space',
  }),
  rule({
    id: 'joists-wet',
    title: 'wet joists',
    reads: 'a joist reading over 19%',
    verdict: 'hold',
    when: (facts) => joistCases(facts, JOIST_HOLD_SHARE, 2),
    text: (match, w) =>
      `The wettest joist reads ${w.share(match.value)}, over ${w.share(JOIST_HOLD_SHARE)}. Wood this wet shrinks and can rot. Find the water, let it dry, test again.`,
    holds: ['pour'],
    lifts: 'room.tests.wood-moisture.structure',
    source: 'common practice: 19% is the limit of dry framing lumber',
  }),
  rule({
    id: 'wood-apart',
    title: 'new wood flooring and subfloor',
    reads: 'flooring and subfloor differ by more than 2% (planks)',
    verdict: 'hold',
    when: apart,
    text: (match, w) =>
      `They differ by ${w.share(match.difference)}. The limit is ${w.share(PLANK_DIFFERENCE_MOST)} for planks, twice that for strips under ${w.inches(3)}${w.units === 'us' ? '' : '.'} Let them acclimate before installation.`,
    holds: ['cover'],
    lifts: 'room.tests.wood-moisture.flooring',
    source: 'NWFA installation guidelines, as quoted in a trade guide',
  }),
  rule({
    id: 'wood-uneven',
    title: 'one wet place in the subfloor',
    reads: 'a subfloor reading more than 4% over the average of the subfloor',
    when: uneven,
    text: (match, w) =>
      `One reading is ${w.share(match.by)} over the average. Find the source of the water under the floor before the pour.`,
    lifts: 'room.tests.wood-moisture.boards',
    source: 'trade guideline: no more than 4% over the area’s average',
  }),
  rule({
    id: 'wood-wet-pour',
    title: 'pour over wood',
    reads: 'the pour is on wood',
    when: (facts) => once(overWood(facts)),
    text: () => 'The mix runs through every gap. Seal gaps and knots, and prime for wood.',
    lifts: 'room.layers',
    source: 'ASTM F2873; common practice, the data sheet first',
  }),
  rule({
    id: 'wood-fastening',
    title: 'fasteners in wood',
    reads: 'the pour is on wood, which is fastened and covered with lath',
    when: (facts) => once(overWood(facts) && !isHeatFoundLaid(facts.kept)),
    text: (_, w) =>
      `Wood moves. Screw the subfloor about every ${w.inches(6)} at edges and ${w.inches(8)} in the field, then fasten lath over the primer. Check the order on the data sheet.`,
    does: ['drill'],
    lifts: 'room.layers',
    source: 'ASTM F2873; common practice, the data sheet first',
  }),
  rule({
    id: 'wood-under-heat',
    title: 'wood under the heat',
    reads: 'the pour is on wood, and mats or tubing lay on it before this work',
    verdict: 'hold',
    when: (facts) => once(overWood(facts) && isHeatFoundLaid(facts.kept)),
    text: (_, __, facts) =>
      `No screws or lath can go in now. Ask whoever laid the heat whether the subfloor was fastened and reinforced first, as the data sheet asks, and record the answer. If it was not, get the manufacturer’s approval in writing${isHeatBuried(facts) ? '' : ', or have the heat taken up first'}.`,
    holds: ['pour'],
    lifts: 'room.layers',
    source: 'ASTM F2873; common practice, the data sheet first',
  }),
];

const WATER_RULES: readonly Rule[] = [
  rule({
    id: 'outdoors-or-wet',
    title: 'outdoors or often wet',
    reads: 'the floor is outdoors or often wet',
    verdict: 'hold',
    when: (facts) => once(facts.circumstances.outdoorsOrWet === true),
    text: () =>
      'Underlayment is for dry floors indoors: standing water and frost break it up. A shower floor takes a sloped mortar bed and a waterproof lining instead. Elsewhere pour only with the manufacturer’s approval in writing for this use, and record it.',
    holds: ['pour'],
    lifts: 'room.circumstances.outdoorsOrWet',
    source: 'common practice; the data sheet; IRC P2709 on shower floors' /* second-hand */,
  }),
  rule({
    id: 'wet-unasked',
    title: 'wet use',
    reads: 'a drain is drawn or recorded as a fixture, and not recorded whether the floor is outdoors or often wet',
    when: (facts) => once(facts.circumstances.outdoorsOrWet === null && hasDrain(facts)),
    text: () => 'A drain may mean a wet floor. Record whether this floor is outdoors or often wet, like a shower floor.',
    holds: ['pour'],
    lifts: 'room.circumstances.outdoorsOrWet',
    source: 'common practice',
  }),
];

/** The rows: slab, wood, and water on the floor in use. */
export const MOISTURE_RULES: readonly Rule[] = [...SLAB_RULES, ...WOOD_RULES, ...WATER_RULES];
