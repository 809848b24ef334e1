/** Lines that make the floor sound, and its face ready to hold. */
import type { Mark } from '../book/plan-fields.ts';
import { isCementitious, isWood, LAYER_WORDS } from '../substrate/layer-words.ts';
import type { CautionId } from '../substrate/cautions.ts';
import { found, item, meters, type PrepInput, squareMeters } from './prep-input.ts';
import type { PrepItem } from './prep-item.ts';
import { hoursFor, type TYPICAL_HOURS } from './task-hours.ts';

const ids = (marks: readonly Mark[]): readonly string[] => marks.map((mark) => mark.id).toSorted();
const sumOf = (marks: readonly Mark[], sizes: Readonly<Record<string, number>>): number | null =>
  marks.every((mark) => sizes[mark.id] !== undefined)
    ? marks
        .map((mark) => sizes[mark.id] ?? 0)
        .toSorted((a, b) => a - b)
        .reduce((sum, size) => sum + size, 0)
    : null;
const timed = (work: keyof typeof TYPICAL_HOURS, value: number | null): number | null => (value === null ? null : hoursFor(work, value));

/** Refasten, open hollow places, grind spots, fill cracks, carry joints. */
export function soundItems(input: PrepInput): readonly PrepItem[] {
  const { facts } = input;
  const of = (...kinds: readonly Mark['kind'][]): readonly Mark[] => facts.marks.filter((mark) => kinds.includes(mark.kind));
  const items: PrepItem[] = [];
  const loose = facts.kept.filter((layer) => layer.sound === 'loose');
  if (loose.length > 0 || (facts.top !== null && isWood(facts.top.material))) {
    items.push(
      item({
        key: 'refasten',
        phase: 'make-sound',
        what:
          loose.length > 0
            ? `Refasten the ${loose.map((layer) => LAYER_WORDS[layer.material]).join(' and ')}`
            : 'Refasten every board that rocks',
        why: 'what moves under a pour cracks it',
        amount: squareMeters(facts.areaM2),
        hours: timed('refasten', facts.areaM2),
      }),
    );
  }
  const hollow = of('hollow', 'loose');
  if (hollow.length > 0) {
    const areaM2 = sumOf(hollow, input.areasM2);
    items.push(
      item({
        key: 'hollow',
        phase: 'make-sound',
        what: 'Open up the hollow places and make them good',
        why: `${hollow.length} drawn on the plan`,
        amount: squareMeters(areaM2),
        tasks: ['drill', 'scrape'],
        cautions: ['silica'],
        hours: timed('openHollow', areaM2),
        on: ids(hollow),
      }),
    );
  }
  const dirty = of('contaminated');
  if (dirty.length > 0) {
    const areaM2 = sumOf(dirty, input.areasM2);
    items.push(
      item({
        key: 'contaminated',
        phase: 'make-sound',
        what: 'Take off the contaminated places by machine',
        why: `${dirty.length} drawn on the plan; a drop of water must drink in after`,
        amount: squareMeters(areaM2),
        tasks: ['grind'],
        cautions: ['silica'],
        hours: timed('cleanContaminated', areaM2),
        on: ids(dirty),
      }),
    );
  }
  if (input.grind !== null) {
    const wood = facts.top !== null && isWood(facts.top.material);
    items.push(
      item({
        key: 'grind',
        phase: 'make-sound',
        what: wood ? 'Sand down the high spots' : 'Grind down the high spots',
        why: `${input.grind.spots} ${input.grind.spots === 1 ? 'spot stands' : 'spots stand'} over the level`,
        amount: squareMeters(input.grind.areaM2),
        tasks: [wood ? 'sand' : 'grind'],
        cautions: ['silica'],
        hours: hoursFor('grindSpot', input.grind.areaM2),
      }),
    );
  }
  const lines = of('crack', 'joint');
  const still = lines.filter((mark) => mark.moves === 'still');
  if (still.length > 0) {
    const lengthM = sumOf(still, input.lengthsM);
    items.push(
      item({
        key: 'fill-cracks',
        phase: 'make-sound',
        what: 'Rake out, vacuum and fill the still cracks and joints',
        why: `${still.length} drawn on the plan, none of them moves`,
        amount: meters(lengthM),
        tasks: ['scrape'],
        hours: timed('fillCrack', lengthM),
        on: ids(still),
      }),
    );
  }
  const moving = lines.filter((mark) => mark.moves !== 'still');
  if (moving.length > 0) {
    const lengthM = sumOf(moving, input.lengthsM);
    items.push(
      item({
        key: 'carry-joints',
        phase: 'make-sound',
        what: 'Set a joint strip over what moves, up through the new floor',
        why: moving.some((mark) => mark.moves === 'unknown') ? 'it moves, or nobody knows' : 'it moves',
        amount: meters(lengthM),
        hours: timed('carryJoint', lengthM),
        on: ids(moving),
      }),
    );
  }
  return items;
}

const CLEANING: readonly {
  readonly is: 'oily' | 'waxed' | 'efflorescence';
  readonly what: string;
  readonly why: string;
  readonly grinds: boolean;
}[] = [
  { is: 'oily', what: 'Take out oil by machine until drops of water drink in', why: 'oil comes back through a pour', grinds: true },
  { is: 'waxed', what: 'Strip the wax, rinse, try with drops of water', why: 'nothing holds on wax', grinds: false },
  { is: 'efflorescence', what: 'Brush off the salts, dry', why: 'primer does not hold on salts', grinds: false },
];

/** Clean, abrade, vacuum. */
export function surfaceItems(input: PrepInput): readonly PrepItem[] {
  const { facts } = input;
  const items: PrepItem[] = CLEANING.filter(({ is }) => facts.looks.includes(is)).map(({ is, what, why, grinds }) =>
    item({
      key: `clean:${is}`,
      phase: 'surface',
      what,
      why,
      amount: squareMeters(facts.areaM2),
      tasks: grinds ? ['grind'] : [],
      cautions: grinds ? ['silica'] : ['solvents'],
    }),
  );
  const abrading = found(
    input,
    'smooth-top',
    'surface-glossy',
    'surface-painted',
    'surface-curing-compound',
    'scratch-weak',
    'scratch-crumbles',
    'gypsum-named',
  );
  const profile = facts.product?.powder.profileCsp?.value ?? null;
  const cement = facts.top !== null && isCementitious(facts.top.material);
  if (abrading.length > 0 || (profile !== null && cement)) {
    const silica: readonly CautionId[] = ['silica'];
    items.push(
      item({
        key: 'abrade',
        phase: 'surface',
        what:
          profile !== null && cement
            ? `Abrade to profile CSP ${profile.least} to ${profile.most}`
            : 'Abrade the whole face to a dull, sound skin',
        why: abrading.length > 0 ? abrading.map((finding) => finding.title).join(', ') : 'the product’s sheet asks for this profile',
        amount: squareMeters(facts.areaM2),
        tasks: [facts.top?.material === 'gypsum' ? 'sand' : 'grind'],
        cautions: silica,
        hours: timed('abrade', facts.areaM2),
      }),
    );
  }
  items.push(
    item({
      key: 'vacuum',
      phase: 'surface',
      what: 'Vacuum twice, wipe with a damp hand',
      why: 'primer on dust holds the dust',
      amount: squareMeters(facts.areaM2),
      hours: timed('vacuum', facts.areaM2),
    }),
  );
  return items;
}
