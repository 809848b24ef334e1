/** Lines that make the substrate sound, and prepare its surface to bond. */
import type { Mark } from '../book/plan-fields.ts';
import { formatListAnd } from '../measure/list.ts';
import { isHonored } from '../plan/honored-marks.ts';
import { isCementitious, isNeverGround, isWood, LAYER_WORDS, STRIP_SUSPECT_WET, STRIP_WET } from '../substrate/layer-words.ts';
import type { CautionId } from '../substrate/cautions.ts';
import { isAllWood, partAreaM2 } from '../substrate/exposed-layers.ts';
import type { Finding, Task } from '../substrate/rule.ts';
import { isSuspectAtFace } from '../substrate/asbestos.ts';
import {
  type ExposedFacts,
  type FloorFacts,
  isAbated,
  isLabFirst,
  isPouredOn,
  isStrippedWet,
  type LayerFacts,
  paintOff,
} from '../substrate/floor-facts.ts';
import { isHeatLaid } from '../substrate/radiant.ts';
import { fastenItems } from './items-fasten.ts';
import { AFTER_LAB } from './removal-items.ts';
import { findingsOfRules, isCutByHand, meters, type PrepDraft, type PrepInput, slabCaution, squareMeters } from './prep-input.ts';
import type { PrepItem } from './prep-item.ts';
import { type Abrasion, abrasionWords, profileReason } from './surface-profile.ts';
import { hoursFor, timed, type TYPICAL_HOURS } from './task-hours.ts';

const ids = (marks: readonly Mark[]): readonly string[] => marks.map((mark) => mark.id).toSorted();
const sumOf = (marks: readonly Mark[], sizes: Readonly<Record<string, number>>): number | null =>
  marks.every((mark) => sizes[mark.id] !== undefined)
    ? marks
        .map((mark) => sizes[mark.id] ?? 0)
        .toSorted((a, b) => a - b)
        .reduce((sum, size) => sum + size, 0)
    : null;
/** Whether all of the surface is wood, so that nothing mineral is cut. */
const onWood = (facts: FloorFacts): boolean => isAllWood(facts.exposed);
const namesOf = (parts: readonly ExposedFacts[]): string => `the ${formatListAnd(parts.map(({ layer }) => LAYER_WORDS[layer.material]))}`;
/** The parts of the surface that machines may work on; all of it where none may, which a finding then holds. */
function machinedParts({ exposed }: FloorFacts): readonly ExposedFacts[] {
  const parts = exposed.filter(({ layer }) => !isNeverGround(layer.material));
  return parts.length === 0 ? exposed : parts;
}
/** Names the parts of the surface that a line is for; empty where it is for all of it. */
const onlyOn = ({ exposed }: FloorFacts, parts: readonly ExposedFacts[]): string =>
  parts.length === exposed.length ? '' : `, only on ${namesOf(parts)}`;
/** What a machine may cut in these parts: the paint that was on them, too. */
const cutIn = ({ paintOnTop }: FloorFacts, parts: readonly ExposedFacts[]): readonly LayerFacts[] => [...parts, ...paintOnTop];
const isUntested = (facts: FloorFacts, part: LayerFacts): boolean => isSuspectAtFace(part.layer.material) && isLabFirst(part, facts);
/** What a line that cuts these parts waits for; empty where a lab need not see any of them. */
const afterLab = (facts: FloorFacts, parts: readonly ExposedFacts[]): string =>
  cutIn(facts, parts).some((part) => isUntested(facts, part)) ? AFTER_LAB : '';
/** What is known of asbestos in these parts: detected, or not ruled out. */
const asbestosCaution = (facts: FloorFacts, parts: readonly ExposedFacts[]): readonly CautionId[] => [
  ...(cutIn(facts, parts).some(isAbated) ? (['asbestos-found'] as const) : []),
  ...(cutIn(facts, parts).some((part) => isUntested(facts, part)) ? (['asbestos'] as const) : []),
];
/** Cautions of abrading a surface: silica where it is mineral, wood dust where it is wood, asbestos and lead where it may hold them. */
const abrasionCautions = (facts: FloorFacts, exposed: readonly ExposedFacts[]): readonly CautionId[] => [
  ...asbestosCaution(facts, exposed),
  ...(exposed.some(({ layer }) => isWood(layer.material)) ? (['wood-dust'] as const) : []),
  ...(isAllWood(exposed) ? [] : (['silica'] as const)),
  ...(cutIn(facts, exposed).some(({ leadFinish, leadLab }) => leadLab === 'found' || (leadFinish && leadLab !== 'none-found'))
    ? (['lead'] as const)
    : []),
];

/** How much is marked on the plan, its time, and which marks. */
function marked(
  marks: readonly Mark[],
  work: keyof typeof TYPICAL_HOURS,
  unit: typeof meters,
  sizes: Readonly<Record<string, number>>,
): Pick<PrepDraft, 'amount' | 'hours' | 'on'> {
  const size = sumOf(marks, sizes);
  return { amount: unit(size), hours: timed(work, size), on: ids(marks) };
}

/** Fasten, open hollow places, grind high spots, fill cracks, honor joints. */
export function soundItems(input: PrepInput): readonly PrepDraft[] {
  const { facts } = input;
  const marksOf = (...kinds: readonly Mark['kind'][]): readonly Mark[] => facts.marks.filter((mark) => kinds.includes(mark.kind));
  const items: PrepDraft[] = [...fastenItems(input)];
  const hollow = marksOf('hollow', 'loose');
  if (hollow.length > 0)
    items.push({
      key: 'hollow',
      phase: 'make-sound',
      what: `Open the hollow places, remove loose material, and patch them${afterLab(facts, facts.exposed)}`,
      why: `${hollow.length} marked on the plan`,
      ...marked(hollow, 'openHollow', squareMeters, input.areasM2),
      tasks: ['drill', 'scrape'],
      cautions: onWood(facts) ? [] : [...asbestosCaution(facts, facts.exposed), 'silica', ...slabCaution(facts)],
      dust: onWood(facts) ? null : 'chipping-hammer',
    });
  const dirty = marksOf('contaminated');
  const machined = machinedParts(facts);
  const isWet = isStrippedWet(facts);
  if (dirty.length > 0)
    items.push({
      key: 'contaminated',
      phase: 'make-sound',
      what: isWet
        ? `Strip the contaminated places ${STRIP_WET}`
        : `Remove the contaminated places by machine until a water drop soaks in${onlyOn(facts, machined)}${afterLab(facts, machined)}`,
      why: `${dirty.length} marked on the plan`,
      ...marked(dirty, 'cleanContaminated', squareMeters, input.areasM2),
      tasks: isWet ? [] : ['grind'],
      cautions: isWet ? [] : abrasionCautions(facts, machined),
      dust: isWet || isAllWood(machined) ? null : 'hand-grinder',
    });
  if (input.grind !== null)
    items.push({
      key: 'grind',
      phase: 'make-sound',
      what: `${onWood(facts) ? 'Sand' : 'Grind'} down the high spots${afterLab(facts, facts.exposed)}`,
      why:
        input.grind.spots === 1 ? '1 high spot above the finish elevation' : `${input.grind.spots} high spots above the finish elevation`,
      amount: squareMeters(input.grind.areaM2),
      tasks: [onWood(facts) ? 'sand' : 'grind'],
      cautions: abrasionCautions(facts, facts.exposed),
      dust: onWood(facts) ? null : 'hand-grinder',
      hours: hoursFor('grindSpot', input.grind.areaM2),
    });
  items.push(...lineItems(input, marksOf));
  return items;
}

/** Cracks and joints: dormant ones are filled, active ones and every expansion joint are honored. */
function lineItems(input: PrepInput, marksOf: (...kinds: readonly Mark['kind'][]) => readonly Mark[]): readonly PrepDraft[] {
  const { facts } = input;
  const items: PrepDraft[] = [];
  const lines = marksOf('crack', 'joint', 'expansion-joint');
  const dormant = lines.filter((mark) => !isHonored(mark));
  if (dormant.length > 0)
    items.push({
      key: 'fill-cracks',
      phase: 'make-sound',
      what: `Open dormant cracks and joints with a crack chaser, vacuum, and fill them${afterLab(facts, facts.exposed)}`,
      why: `${dormant.length} marked on the plan`,
      ...marked(dormant, 'fillCrack', meters, input.lengthsM),
      tasks: ['grind'],
      cautions: [...asbestosCaution(facts, facts.exposed), 'silica', ...slabCaution(facts)],
      dust: 'hand-grinder',
    });
  const honored = lines.filter(isHonored);
  const isFormed = isCutByHand(input);
  if (honored.length > 0)
    items.push({
      key: 'carry-joints',
      phase: 'make-sound',
      what: isFormed
        ? 'Mark joints and active cracks on the walls, and form them before the pour. Do not saw here. Seal them later'
        : 'Mark joints and active cracks on the walls. Form them, or saw them through after foot traffic, then seal',
      why: honored.some((mark) => mark.kind === 'expansion-joint')
        ? 'expansion joints go through the underlayment and the flooring'
        : honored.some((mark) => mark.moves === 'unknown')
          ? 'active, or not known to be dormant'
          : 'active: a pour across it cracks',
      ...marked(honored, 'carryJoint', meters, input.lengthsM),
      ...(isFormed ? {} : { tasks: ['grind'], cautions: ['silica', ...slabCaution(facts)], dust: 'hand-saw' }),
    });
  return items;
}

const CLEANING: readonly {
  readonly is: 'oily' | 'waxed' | 'efflorescence';
  readonly what: string;
  readonly why: string;
  readonly grinds: boolean;
}[] = [
  { is: 'oily', what: 'Remove oil by machine until a water drop soaks in', why: 'oil comes back through a pour', grinds: true },
  {
    is: 'waxed',
    what: 'Remove the wax mechanically',
    why: 'strippers and acid leave residue that breaks the bond',
    grinds: true,
  },
  {
    is: 'efflorescence',
    what: 'HEPA vacuum the salts with a brush head, and find the water',
    why: 'primer does not bond to salts',
    grinds: false,
  },
];

const ABRADED_FOR = [
  'smooth-top',
  'surface-glossy',
  'surface-painted',
  'surface-curing-compound',
  'beads-water',
  'scratch-weak',
  'scratch-crumbles',
  'gypsum-named',
] as const;

const isReasonFor = ({ ruleId, key }: Finding, { layer }: ExposedFacts): boolean => {
  if (ruleId === 'smooth-top') return key === `smooth-top:${layer.id}`;
  if (ruleId === 'gypsum-named') return layer.material === 'gypsum';
  return ruleId !== 'beads-water' || isCementitious(layer.material);
};
function abrasionOf({ layer: { material } }: ExposedFacts, reasons: readonly Finding[]): Abrasion | null {
  if (isNeverGround(material) || material === 'paint-or-sealer') return null;
  if (isCementitious(material)) return 'profile';
  if (reasons.length === 0) return null;
  return material === 'gypsum' || isWood(material) ? 'sand' : 'dull';
}

const isMachining = (task: Task): boolean => task === 'grind' || task === 'sand';

/** A line for each kind of abrasion, on the whole surface or on the parts of it. */
function abradeItems(input: PrepInput): readonly PrepDraft[] {
  const { facts } = input;
  if (facts.surfaceMayHoldAsbestos) return [];
  const findings = findingsOfRules(input, ...ABRADED_FOR);
  const parts = facts.exposed.map((part) => {
    const reasons = findings.filter((finding) => isReasonFor(finding, part));
    return { part, reasons, abrasion: abrasionOf(part, reasons) };
  });
  const isOverHeat = facts.isHeatInFloor || isHeatLaid(facts.kept);
  return (['profile', 'sand', 'dull'] as const).flatMap((abrasion): readonly PrepDraft[] => {
    const own = parts.filter((one) => one.abrasion === abrasion);
    if (own.length === 0) return [];
    const exposed = own.map(({ part }) => part);
    const isWhole = own.length === parts.length;
    const areaM2 = partAreaM2(facts.exposed, facts.areaM2, (part) => exposed.includes(part));
    const where = isWhole ? null : namesOf(exposed);
    const base = {
      key: isWhole || abrasion === 'profile' ? 'abrade' : `abrade:${abrasion}`,
      phase: 'surface' as const,
      amount: squareMeters(areaM2),
      hours: timed('abrade', areaM2),
      cautions: abrasionCautions(facts, exposed),
    };
    const lab = afterLab(facts, exposed);
    if (isOverHeat) {
      const what = `Abrade ${where === null ? '' : `${where} `}lightly by hand${lab}. Do not grind over the heat`;
      return [{ ...base, what, why: 'tubes or cables are close', tasks: ['sand'] }];
    }
    const reasons = new Set(own.flatMap((one) => one.reasons.map(({ title }) => title)));
    return [
      {
        ...base,
        what: `${abrasionWords(facts, abrasion, where)}${lab}`,
        why: reasons.size > 0 ? [...reasons].join(', ') : profileReason(facts),
        tasks: [abrasion === 'sand' ? 'sand' : 'grind'],
        dust: isAllWood(exposed) ? null : 'hand-grinder',
      },
    ];
  });
}

/** Tests that abrading makes void: the drops and the strength of the surface. Common practice, no source. */
function retestItem({ facts }: PrepInput, items: readonly PrepDraft[]): readonly PrepDraft[] {
  const isTested = isPouredOn(facts, (material) => isCementitious(material) || material === 'gypsum');
  if (paintOff(facts).length === 0 && !(isTested && items.some(({ key }) => /^(?:abrade|clean)\b/.test(key)))) return [];
  return [
    {
      key: 'retest',
      phase: 'surface',
      what: 'Repeat the water drop test and the scratch or pull-off test on the prepared surface',
      why: 'the old results are void. Test slab moisture again if the slab got wet or the test is over 30 days old',
    },
  ];
}

/** Looks that are stripped wet from a surface that is never ground. */
const STRIPPED: readonly FloorFacts['looks'][number][] = ['waxed', 'glossy', 'oily', 'painted', 'curing-compound'];

/**
 * The line for a surface that is stripped wet; none where nothing is on it. Where it may contain asbestos, it is for trained people alone;
 * what is no resilient flooring there, such as adhesive, has no finish to strip.
 */
function stripItems(facts: FloorFacts): readonly PrepDraft[] {
  if (!facts.looks.some((look) => STRIPPED.includes(look))) return [];
  const isSuspect = facts.surfaceMayHoldAsbestos;
  const names = namesOf(facts.exposed);
  const isFlooring = !isPouredOn(facts, (material) => !isNeverGround(material));
  return [
    {
      key: 'clean:wet',
      phase: 'surface',
      what: isFlooring
        ? `Strip ${names} ${isSuspect ? STRIP_SUSPECT_WET : STRIP_WET}`
        : `A licensed abatement contractor cleans ${names}, and tests the bond of the primer`,
      who: isSuspect ? 'licensed-only' : 'own-crew',
      why: 'nothing bonds to wax, gloss, oil or paint, and this surface is never ground',
      amount: squareMeters(facts.areaM2),
      tasks: facts.looks.includes('painted') ? ['disturb-paint'] : [],
      cautions: abrasionCautions(facts, facts.exposed).filter((caution) => caution !== 'silica'),
    },
  ];
}

/** A line for each kind of dirt. Where a part of the surface is never ground, machines clean the other parts; where one may contain asbestos, none do. */
function cleanItems({ facts }: PrepInput): readonly PrepDraft[] {
  if (facts.surfaceMayHoldAsbestos) return stripItems(facts);
  const isWet = isStrippedWet(facts);
  const rows = CLEANING.filter(({ is, grinds }) => facts.looks.includes(is) && !(isWet && grinds));
  const byMachine = rows.map(({ is, what, why, grinds }): PrepDraft => {
    const parts = grinds ? machinedParts(facts) : facts.exposed;
    const isWhole = parts.length === facts.exposed.length;
    return {
      key: `clean:${is}`,
      phase: 'surface',
      what: `${what}${onlyOn(facts, parts)}${grinds ? afterLab(facts, parts) : ''}`,
      why,
      amount: squareMeters(isWhole ? facts.areaM2 : partAreaM2(facts.exposed, facts.areaM2, (part) => parts.includes(part))),
      tasks: grinds ? ['grind'] : [],
      cautions: abrasionCautions(facts, parts),
      dust: grinds && !isAllWood(parts) ? 'hand-grinder' : null,
    };
  });
  return isWet ? [...stripItems(facts), ...byMachine] : byMachine;
}

/**
 * Area of the surface that is abraded, or cleaned by machine, m². A cleaned surface holds all of the abraded parts.
 * @param roomM2 the area of a line while the room is not drawn
 */
export function machinedM2(items: readonly PrepItem[], roomM2: number): number {
  const areas = (pattern: RegExp): readonly number[] =>
    items.flatMap(({ key, tasks, amount }) => (pattern.test(key) && tasks.some(isMachining) ? [amount?.value ?? roomM2] : []));
  return Math.max(
    areas(/^abrade\b/).reduce((sum, areaM2) => sum + areaM2, 0),
    ...areas(/^clean:/),
  );
}

/** Clean, abrade, vacuum, test again. A surface that may hold asbestos is only stripped wet, vacuumed and wiped. */
export function surfaceItems(input: PrepInput): readonly PrepDraft[] {
  const { facts } = input;
  const items: PrepDraft[] = [...cleanItems(input), ...abradeItems(input)];
  items.push({
    key: 'vacuum',
    phase: 'surface',
    what: facts.surfaceMayHoldAsbestos
      ? 'HEPA vacuum and wipe with a damp cloth. Do not sweep, sand or abrade'
      : 'HEPA vacuum twice, then check with a dark cloth or clear tape',
    why: facts.exposed.some(isAbated)
      ? 'the surface contains asbestos'
      : facts.surfaceMayHoldAsbestos
        ? 'the surface may contain asbestos'
        : 'primer does not bond to dust',
    amount: squareMeters(facts.areaM2),
    cautions: facts.surfaceMayHoldAsbestos ? asbestosCaution(facts, facts.exposed) : onWood(facts) ? [] : ['silica'],
    hours: timed('vacuum', facts.areaM2),
  });
  return [...items, ...retestItem(input, items)];
}
