/** Lines that make the substrate sound, and prepare its surface to bond. */
import type { Layer } from '../book/layer.ts';
import type { Mark } from '../book/plan-fields.ts';
import { isHonored } from '../plan/honored-marks.ts';
import { isPaint, partAreaM2 } from '../substrate/exposed-layers.ts';
import { asbestosKept, type ExposedFacts, isAbated, isPouredOn, paintRemoved, scrapedAdhesive } from '../substrate/floor-facts.ts';
import { isCementitious, isDropTested, isNeverGround, isOpenConcrete, isWood } from '../substrate/layer-words.ts';
import { isOverHeat } from '../substrate/radiant.ts';
import type { Finding, Task } from '../substrate/rule.ts';
import { isFilledUnopened } from '../substrate/rules-joints.ts';
import { abrasionCautions, afterLab, asbestosCaution, dustOf, marked, namesOf, onWood } from './cut-surface.ts';
import { cleanItems, coatItems, dirtItems, paintItems } from './items-coat.ts';
import { fastenItems } from './items-fasten.ts';
import { findingsOfRules, isCutByHand, meters, type PrepDraft, type PrepInput, slabCaution, squareMeters } from './prep-input.ts';
import { type PrepItem, removalKey } from './prep-item.ts';
import { type Abrasion, abrasionWords, profileReason } from './surface-profile.ts';
import { hoursFor, timed } from './task-hours.ts';

/** Fasten, open hollow places, grind high spots, fill cracks, honor joints. */
export function soundItems(input: PrepInput): readonly PrepDraft[] {
  const { facts } = input;
  const marksOf = (...kinds: readonly Mark['kind'][]): readonly Mark[] => facts.marks.filter((mark) => kinds.includes(mark.kind));
  const items: PrepDraft[] = [...fastenItems(input)];
  const hollow = marksOf('hollow', 'loose');
  if (hollow.length > 0) items.push(hollowItem(input, hollow));
  items.push(...dirtItems(input));
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
      dust: dustOf(facts.exposed),
      hours: hoursFor('grindSpot', input.grind.areaM2),
    });
  items.push(...lineItems(input, marksOf));
  return items;
}

/** Hollow places are opened by the crew, or by a licensed abatement contractor where a layer that stays may contain asbestos. */
function hollowItem(input: PrepInput, hollow: readonly Mark[]): PrepDraft {
  const { facts } = input;
  const kept = asbestosKept(facts);
  const asbestos = asbestosCaution(facts, [...facts.exposed, ...kept]);
  const isOurs = kept.length === 0;
  const byHand = isOverHeat(facts) ? ' by hand' : '';
  const isChipped = isOurs && !onWood(facts);
  return {
    key: 'hollow',
    phase: 'make-sound',
    what: isOurs
      ? `Open the hollow places${byHand}, remove loose material, and patch them${afterLab(facts, facts.exposed)}`
      : 'A licensed abatement contractor opens the hollow places and removes loose material. Patch them after the clearance',
    why: `${hollow.length} marked on the plan`,
    ...marked(hollow, 'openHollow', squareMeters, input.areasM2),
    ...(isOurs ? { tasks: byHand === '' ? ['drill', 'scrape'] : ['scrape'] } : { who: 'licensed-only', hours: null }),
    cautions: isChipped ? [...asbestos, 'silica', ...slabCaution(facts)] : asbestos,
    dust: isChipped && byHand === '' ? 'chipping-hammer' : null,
  };
}

/** Cracks and joints: dormant ones are filled, active ones and every expansion joint are honored. */
function lineItems(input: PrepInput, marksOf: (...kinds: readonly Mark['kind'][]) => readonly Mark[]): readonly PrepDraft[] {
  const { facts } = input;
  const items: PrepDraft[] = [];
  const lines = marksOf('crack', 'joint', 'expansion-joint');
  const dormant = lines.filter((mark) => !isHonored(mark));
  const asbestos = asbestosCaution(facts, [...facts.exposed, ...asbestosKept(facts)]);
  const byHand = isFilledUnopened(facts);
  if (dormant.length > 0)
    items.push({
      key: 'fill-cracks',
      phase: 'make-sound',
      what: byHand
        ? 'Clean dormant cracks and joints with a HEPA vacuum, and fill them by hand. Do not open or cut them here'
        : `Open dormant cracks and joints with a crack chaser, vacuum, and fill them${afterLab(facts, facts.exposed)}`,
      why: `${dormant.length} marked on the plan`,
      ...marked(dormant, 'fillCrack', meters, input.lengthsM),
      ...(byHand
        ? { cautions: asbestos }
        : { tasks: ['grind'], cautions: [...asbestos, 'silica', ...slabCaution(facts)], dust: 'hand-grinder' }),
    });
  const honored = lines.filter(isHonored);
  const isFormed = isCutByHand(input);
  if (honored.length > 0)
    items.push({
      key: 'carry-joints',
      phase: 'make-sound',
      afterLift: 'stays',
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
  return ruleId !== 'beads-water' || isOpenConcrete(layer.material);
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
    if (isOverHeat(facts)) {
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
        dust: dustOf(exposed),
      },
    ];
  });
}

/** Whether adhesive is scraped off a layer that is tested: what it leaves was never tested. */
const isScrapedBare = (facts: PrepInput['facts']): boolean =>
  scrapedAdhesive(facts).some(({ layer }) => {
    const under = facts.kept[facts.kept.indexOf(layer) + 1];
    return under !== undefined && isDropTested(under.material);
  });

/** Tests that abrading and scraping make void: the drops and the strength of the surface. Common practice, no source. */
function retestItem(input: PrepInput, items: readonly PrepDraft[]): readonly PrepDraft[] {
  const { facts } = input;
  const isBared = paintRemoved(facts).some((paint) => paintItems(input, paint).some(({ tasks = [] }) => tasks.some(isMachining)));
  const isWorked = isBared || items.some(({ key }) => /^(?:abrade|clean)\b/.test(key));
  if (!isScrapedBare(facts) && !(isWorked && isPouredOn(facts, isDropTested))) return [];
  return [
    {
      key: 'retest',
      phase: 'surface',
      what: 'Repeat the water drop test and the scratch or pull-off test on the prepared surface',
      why: 'the old results are void. Test slab moisture again if the slab got wet or the test is over 30 days old',
    },
  ];
}

/** The test of the primer where an abatement contractor cleans: that is the own crew's. Common practice, no source. */
function bondItem(input: PrepInput): readonly PrepDraft[] {
  if (!coatItems(input).some(({ who }) => who === 'licensed-only')) return [];
  return [
    {
      key: 'bond-test',
      phase: 'surface',
      what: 'Test the bond of the primer on the cleaned surface. Do not cut into what may contain asbestos',
      why: 'this surface is not abraded',
    },
  ];
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

/** Areas that one paint or sealer is taken off, m². `machined` is null where it is not known, and for other layers. */
export type PaintAreas = { readonly machined: number | null; readonly stripped: number; readonly byContractor: number };

/**
 * How much of one paint or sealer machines, the own crew by wet stripping, and a licensed abatement contractor take off. Only machine
 * work has typical hours. What leaves with the layer under it counts in none.
 */
export function paintAreasM2(items: readonly PrepItem[], layer: Layer): PaintAreas {
  if (!isPaint(layer)) return { machined: null, stripped: 0, byContractor: 0 };
  const key = removalKey(layer);
  const lines = items.filter((one) => one.key === key || one.key.startsWith(`${key}:`));
  const sumOf = (own: readonly PrepItem[]): number => own.reduce((sum, { amount }) => sum + (amount?.value ?? 0), 0);
  const machined = lines.filter(({ tasks }) => tasks.some(isMachining));
  const others = lines.filter((one) => !machined.includes(one));
  return {
    machined: machined.some(({ amount }) => amount === null) ? null : sumOf(machined),
    stripped: sumOf(others.filter(({ who }) => who === 'own-crew')),
    byContractor: sumOf(others.filter(({ who }) => who === 'licensed-only')),
  };
}

/** Clean, abrade, vacuum, test again. A surface that may hold asbestos is only stripped wet, vacuumed and wiped. */
export function surfaceItems(input: PrepInput): readonly PrepDraft[] {
  const { facts } = input;
  const items: PrepDraft[] = [...cleanItems(input), ...abradeItems(input)];
  items.push(...bondItem(input));
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
    cautions: facts.surfaceMayHoldAsbestos ? asbestosCaution(facts, facts.exposed) : dustOf(facts.exposed) === null ? [] : ['silica'],
    hours: timed('vacuum', facts.areaM2),
  });
  return [...items, ...retestItem(input, items)];
}
