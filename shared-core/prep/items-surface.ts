/** Lines that make the substrate sound, and prepare its surface to bond. */
import type { Mark } from '../book/plan-fields.ts';
import { isCementitious, isWood, LAYER_WORDS } from '../substrate/layer-words.ts';
import type { CautionId } from '../substrate/cautions.ts';
import type { FloorFacts } from '../substrate/floor-facts.ts';
import { findingsOfRules, has, meters, type PrepDraft, type PrepInput, squareMeters } from './prep-input.ts';
import { hoursFor, type TYPICAL_HOURS } from './task-hours.ts';

/** A concrete surface profile where the data sheet gives none. Typical: CSP 2 to 3, toppings 3 to 5, ASTM F3010 systems 3. */
export const TYPICAL_PROFILE = {
  underlayment: { least: 2, most: 3 },
  topping: { least: 3, most: 5 },
  moistureSystem: { least: 3, most: 3 },
} as const;

const ids = (marks: readonly Mark[]): readonly string[] => marks.map((mark) => mark.id).toSorted();
const sumOf = (marks: readonly Mark[], sizes: Readonly<Record<string, number>>): number | null =>
  marks.every((mark) => sizes[mark.id] !== undefined)
    ? marks
        .map((mark) => sizes[mark.id] ?? 0)
        .toSorted((a, b) => a - b)
        .reduce((sum, size) => sum + size, 0)
    : null;
const timed = (work: keyof typeof TYPICAL_HOURS, value: number | null): number | null => (value === null ? null : hoursFor(work, value));
const onWood = (facts: FloorFacts): boolean => facts.top !== null && isWood(facts.top.material);
const topHasLead = (facts: FloorFacts): boolean =>
  facts.layerFacts.some(
    ({ layer, leadFinish, leadLab }) => layer === facts.top && (leadLab === 'found' || (leadFinish && leadLab !== 'none-found')),
  );
/** Cautions of abrading the top: silica on mineral floors, wood dust on wood, lead where its finish may hold it. */
const abrasionCautions = (facts: FloorFacts): readonly CautionId[] => [
  onWood(facts) ? 'wood-dust' : 'silica',
  ...(topHasLead(facts) ? (['lead'] as const) : []),
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
  const items: PrepDraft[] = [];
  const loose = facts.kept.filter((layer) => layer.sound === 'loose');
  if (loose.length > 0 || onWood(facts))
    items.push({
      key: 'refasten',
      phase: 'make-sound',
      what:
        loose.length > 0
          ? `Glue and screw the loose ${loose.map((layer) => LAYER_WORDS[layer.material]).join(' and ')} to the joists`
          : 'Screw down the subfloor, about every 6 in. at edges and 8 in. in the field, glue what moves',
      why: 'a moving substrate cracks the underlayment',
      amount: squareMeters(facts.areaM2),
      tasks: ['drill'],
      hours: timed('refasten', facts.areaM2),
    });
  if (has(input, 'wood-build-up'))
    items.push({
      key: 'plywood',
      phase: 'make-sound',
      what: `Glue and screw plywood over the ${facts.top === null ? 'subfloor' : LAYER_WORDS[facts.top.material]}, 1/2 in. or thicker, joints staggered`,
      why: 'the data sheet does not name this substrate. Add the plywood as a layer when it is down',
      amount: squareMeters(facts.areaM2),
      tasks: ['drill'],
      hours: timed('refasten', facts.areaM2),
    });
  const hollow = marksOf('hollow', 'loose');
  if (hollow.length > 0)
    items.push({
      key: 'hollow',
      phase: 'make-sound',
      what: 'Open the hollow places, remove loose material, and patch them',
      why: `${hollow.length} marked on the plan`,
      ...marked(hollow, 'openHollow', squareMeters, input.areasM2),
      tasks: ['drill', 'scrape'],
      cautions: onWood(facts) ? [] : ['silica'],
      dust: onWood(facts) ? null : 'chipping-hammer',
    });
  const dirty = marksOf('contaminated');
  if (dirty.length > 0)
    items.push({
      key: 'contaminated',
      phase: 'make-sound',
      what: 'Remove the contaminated places by machine until a water drop soaks in',
      why: `${dirty.length} marked on the plan`,
      ...marked(dirty, 'cleanContaminated', squareMeters, input.areasM2),
      tasks: ['grind'],
      cautions: abrasionCautions(facts),
      dust: onWood(facts) ? null : 'hand-grinder',
    });
  if (input.grind !== null)
    items.push({
      key: 'grind',
      phase: 'make-sound',
      what: onWood(facts) ? 'Sand down the high spots' : 'Grind down the high spots',
      why:
        input.grind.spots === 1 ? '1 high spot above the finish elevation' : `${input.grind.spots} high spots above the finish elevation`,
      amount: squareMeters(input.grind.areaM2),
      tasks: [onWood(facts) ? 'sand' : 'grind'],
      cautions: abrasionCautions(facts),
      dust: onWood(facts) ? null : 'hand-grinder',
      hours: hoursFor('grindSpot', input.grind.areaM2),
    });
  items.push(...lineItems(input, marksOf));
  return items;
}

/** Cracks and joints: dormant ones are filled, active ones and every expansion joint are honored. */
function lineItems(input: PrepInput, marksOf: (...kinds: readonly Mark['kind'][]) => readonly Mark[]): readonly PrepDraft[] {
  const items: PrepDraft[] = [];
  const lines = marksOf('crack', 'joint');
  const dormant = lines.filter((mark) => mark.moves === 'still');
  if (dormant.length > 0)
    items.push({
      key: 'fill-cracks',
      phase: 'make-sound',
      what: 'Open dormant cracks and joints with a crack chaser, vacuum, and fill them',
      why: `${dormant.length} marked on the plan`,
      ...marked(dormant, 'fillCrack', meters, input.lengthsM),
      tasks: ['grind'],
      cautions: ['silica'],
      dust: 'hand-grinder',
    });
  const honored = [...lines.filter((mark) => mark.moves !== 'still'), ...marksOf('expansion-joint')];
  if (honored.length > 0)
    items.push({
      key: 'carry-joints',
      phase: 'make-sound',
      what: 'Mark joints and active cracks on the walls. Form them, or saw them through after foot traffic, then seal',
      why: honored.some((mark) => mark.kind === 'expansion-joint')
        ? 'expansion joints go through the underlayment and the flooring'
        : honored.some((mark) => mark.moves === 'unknown')
          ? 'active, or not known to be dormant'
          : 'active: a pour across it cracks',
      ...marked(honored, 'carryJoint', meters, input.lengthsM),
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

/** The profile wanted: the data sheet's, else the typical one for what goes on it. */
function profileOf(facts: FloorFacts): { readonly least: number; readonly most: number; readonly typical: boolean } {
  const own = facts.product?.powder.profileCsp?.value ?? null;
  if (facts.hasMoistureSystem) return { ...TYPICAL_PROFILE.moistureSystem, typical: true };
  if (own !== null) return { ...own, typical: facts.product?.powder.profileCsp?.source !== 'bag' };
  return { ...TYPICAL_PROFILE[facts.product?.kind === 'cement-topping' ? 'topping' : 'underlayment'], typical: true };
}

function abradeItem(input: PrepInput): readonly PrepDraft[] {
  const { facts } = input;
  if (facts.top === null || facts.topMayHoldAsbestos || facts.top.material === 'resilient-tile') return [];
  const reasons = findingsOfRules(input, ...ABRADED_FOR);
  const cement = isCementitious(facts.top.material);
  if (reasons.length === 0 && !cement) return [];
  const base = { key: 'abrade', phase: 'surface' as const, amount: squareMeters(facts.areaM2), hours: timed('abrade', facts.areaM2) };
  if (facts.heat === 'in-floor' || facts.kept[0]?.material === 'radiant-heating') {
    const work = 'Abrade lightly by hand. Do not grind over the heat';
    return [{ ...base, what: work, why: 'tubes or cables are close', tasks: ['sand'], cautions: abrasionCautions(facts) }];
  }
  const sanded = facts.top.material === 'gypsum' || onWood(facts);
  const { least, most, typical } = profileOf(facts);
  const csp = least === most ? `CSP ${least}` : `CSP ${least} to ${most}`;
  return [
    {
      ...base,
      what: cement
        ? `Abrade mechanically to ${csp}`
        : sanded
          ? 'Sand the whole surface to a dull, sound face'
          : 'Abrade the whole surface to a dull, sound face',
      why:
        reasons.length > 0
          ? reasons.map((finding) => finding.title).join(', ')
          : typical
            ? 'typical profile. No acid, no chemical remover, no oily sweeping compound'
            : 'the profile on the data sheet. No acid, no chemical remover',
      tasks: [sanded ? 'sand' : 'grind'],
      cautions: abrasionCautions(facts),
      dust: onWood(facts) ? null : 'hand-grinder',
    },
  ];
}

/** Tests that abrading makes void: the drops and the strength of the surface. Common practice, no source. */
function retestItem({ facts }: PrepInput, items: readonly PrepDraft[]): readonly PrepDraft[] {
  const isTested = facts.top !== null && (isCementitious(facts.top.material) || facts.top.material === 'gypsum');
  if (!isTested || !items.some(({ key }) => key === 'abrade' || key.startsWith('clean:'))) return [];
  return [
    {
      key: 'retest',
      phase: 'surface',
      what: 'Repeat the water drop test and the scratch or pull-off test on the prepared surface',
      why: 'the old results are void. Test slab moisture again if the slab got wet or the test is over 30 days old',
    },
  ];
}

/** Clean, abrade, vacuum, test again. A surface that may hold asbestos is only vacuumed and wiped. */
export function surfaceItems(input: PrepInput): readonly PrepDraft[] {
  const { facts } = input;
  const cleaning = facts.topMayHoldAsbestos ? [] : CLEANING.filter(({ is }) => facts.looks.includes(is));
  const items: PrepDraft[] = cleaning.map(({ is, what, why, grinds }) => ({
    key: `clean:${is}`,
    phase: 'surface',
    what,
    why,
    amount: squareMeters(facts.areaM2),
    tasks: grinds ? ['grind'] : [],
    cautions: abrasionCautions(facts),
    dust: grinds && !onWood(facts) ? 'hand-grinder' : null,
  }));
  items.push(...abradeItem(input));
  items.push({
    key: 'vacuum',
    phase: 'surface',
    what: facts.topMayHoldAsbestos
      ? 'HEPA vacuum and wipe with a damp cloth. Do not sweep, sand or abrade'
      : 'HEPA vacuum twice, then check with a dark cloth or clear tape',
    why: facts.topMayHoldAsbestos ? 'the surface may contain asbestos' : 'primer does not bond to dust',
    amount: squareMeters(facts.areaM2),
    cautions: facts.topMayHoldAsbestos ? ['asbestos'] : onWood(facts) ? [] : ['silica'],
    hours: timed('vacuum', facts.areaM2),
  });
  items.push(...retestItem(input, items));
  return items;
}
