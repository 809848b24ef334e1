/** Lines that take a coat off the surface: paint, wax, gloss, oil, and dirt in contaminated places. */
import type { CautionId } from '../substrate/cautions.ts';
import { isPaint, partAreaM2 } from '../substrate/exposed-layers.ts';
import {
  type ExposedFacts,
  exposedWithin,
  type FloorFacts,
  isLabFirst,
  isUntestedAtFace,
  type LayerFacts,
  mayHoldAsbestos,
  mayHoldLead,
  paintRemoved,
  removedLayers,
  underPaint,
} from '../substrate/floor-facts.ts';
import { isWood, LAYER_WORDS, machineOff, STRIP_SUSPECT_WET, STRIP_WET } from '../substrate/layer-words.ts';
import { isOverHeat } from '../substrate/radiant.ts';
import { type CoatParts, coatParts, coatTasks, paintTasks } from '../substrate/surface-coat.ts';
import { AFTER_LAB, abrasionCautions, afterLab, dustOf, marked, namesOf, onlyOn } from './cut-surface.ts';
import { type PrepDraft, type PrepInput, squareMeters } from './prep-input.ts';
import { type PrepItem, removalKey } from './prep-item.ts';
import { hoursFor } from './task-hours.ts';

/** The key of a line for some parts of the surface: the first line has that of the whole surface. */
const keyAt = (key: string, { work }: CoatParts, place: number): string => (place === 0 ? key : `${key}:${work}`);
const isLicensed = ({ work }: CoatParts): boolean => work === 'strip-suspect' || work === 'abate';
const whoOf = (group: CoatParts): PrepItem['who'] => (isLicensed(group) ? 'licensed-only' : 'own-crew');
/** No machine works over heat. */
const howOf = (facts: FloorFacts): 'by machine' | 'by hand' => (isOverHeat(facts) ? 'by hand' : 'by machine');
/** Size of some parts, m²; null while it is not known. */
const areaOf = (parts: readonly ExposedFacts[]): number | null =>
  parts.reduce<number | null>((sum, { areaM2 }) => (sum === null || areaM2 === null ? null : sum + areaM2), 0);
/** Cautions of wet work, which raises no silica, no wood dust and no sparks. */
const wetCautions = (facts: FloorFacts, { parts }: CoatParts): PrepItem['cautions'] =>
  abrasionCautions(facts, parts).filter((caution) => caution !== 'silica' && caution !== 'wood-dust' && caution !== 'sparks');
/** What is done to a coat that no machine takes off. @param what the coat or the place, `the resilient tile` */
function wetWords({ work }: CoatParts, what: string): string {
  if (work === 'abate') return `A licensed abatement contractor cleans ${what}`;
  return `Strip ${what} ${work === 'strip' ? STRIP_WET : STRIP_SUSPECT_WET}`;
}

function paintWords(group: CoatParts, isWhole: boolean, byHand: boolean): string {
  const name = LAYER_WORDS['paint-or-sealer'];
  const names = namesOf(group.parts);
  if (group.work === 'machine' && byHand)
    return `Take the ${name} off by hand down to the bare substrate${isWhole ? '' : `, only on ${names}`}. No machine over the heat`;
  if (group.work === 'abate') return `A licensed abatement contractor takes the ${name} off ${names}`;
  if (group.work !== 'machine') return wetWords(group, `the ${name} off ${names}`);
  const wood = group.parts.filter(({ layer }) => isWood(layer.material));
  const isMixed = wood.length > 0 && wood.length < group.parts.length;
  const verb = wood.length > 0 && !isMixed ? 'Sand' : 'Grind';
  const sanded = isMixed ? `. Sand it off ${namesOf(wood)}, and do not grind there` : '';
  return `${verb} off the ${name} down to the bare substrate${isWhole ? '' : `, only on ${names}`}${sanded}`;
}

/**
 * The lines that remove paint or sealer, one for each way it comes off. None for what leaves with a layer under it.
 * @param paint without asbestos detected in it
 */
export function paintItems(input: PrepInput, paint: LayerFacts): readonly PrepDraft[] {
  const { facts } = input;
  const { layer } = paint;
  const { parts: under, leavesWith } = underPaint(facts, layer);
  if (under.length === 0 && leavesWith.length > 0) return [];
  const surface = coatParts(facts, under);
  const isWhole = surface.length === 1 && leavesWith.length === 0;
  const wholeM2 = input.areasM2[layer.id] ?? facts.areaM2;
  const lead = mayHoldLead(paint) ? (['lead'] as const) : [];
  const byHand = isOverHeat(facts);
  return surface.map((group, place) => {
    const { work, parts } = group;
    const isMachine = work === 'machine';
    const labFirst = isLabFirst(paint, facts) || (isMachine && parts.some((part) => isUntestedAtFace(part, facts)));
    const areaM2 = isWhole ? wholeM2 : areaOf(parts);
    const known = isMachine ? abrasionCautions(facts, parts) : wetCautions(facts, group);
    return {
      key: keyAt(removalKey(layer), group, place),
      phase: 'remove',
      what: `${paintWords(group, isWhole, byHand)}${labFirst ? AFTER_LAB : ''}`,
      why:
        layer.sound === 'loose' || layer.sound === 'weak'
          ? `it is ${layer.sound}`
          : layer.fate === 'remove'
            ? 'planned for removal'
            : 'underlayment bonds no better than the paint under it',
      amount: squareMeters(areaM2),
      who: whoOf(group),
      tasks: paintTasks(facts, paint, parts),
      cautions: [...new Set<CautionId>([...(labFirst ? (['asbestos'] as const) : []), ...lead, ...known])],
      dust: isMachine && !byHand ? dustOf(parts) : null,
      hours: isMachine && areaM2 !== null ? hoursFor('abrade', areaM2) : null,
    };
  });
}

/** The lines that clean contaminated places, one for each way of the parts they lie on. */
export function dirtItems(input: PrepInput): readonly PrepDraft[] {
  const { facts } = input;
  const dirty = facts.marks.filter(({ kind }) => kind === 'contaminated');
  if (dirty.length === 0) return [];
  const places = dirty.map((mark) => ({ mark, parts: exposedWithin(facts, mark.points) }));
  const touched = facts.exposed.filter((part) => places.some(({ parts }) => parts.some(({ layer }) => layer === part.layer)));
  return coatParts(facts, touched).map((group, place) => {
    const { work, parts } = group;
    const shares = places
      .map(({ mark, parts: all }) => ({ mark, all, own: all.filter(({ layer }) => parts.some((part) => part.layer === layer)) }))
      .filter(({ all, own }) => all.length === own.length || own.length > 0);
    const marks = shares.map(({ mark }) => mark);
    const sizes = shares.flatMap(({ mark, all, own }) => {
      const wholeM2 = input.areasM2[mark.id];
      const ownM2 = all.length === own.length ? null : areaOf(own);
      return wholeM2 === undefined && ownM2 === null ? [] : [[mark.id, Math.min(wholeM2 ?? Infinity, ownM2 ?? Infinity)] as const];
    });
    const isMachine = work === 'machine';
    const size = marked(marks, 'cleanContaminated', squareMeters, Object.fromEntries(sizes));
    return {
      key: keyAt('contaminated', group, place),
      phase: 'make-sound',
      what: isMachine
        ? machineOff('the contaminated places', parts, `${onlyOn(facts, parts)}${afterLab(facts, parts)}`, howOf(facts))
        : wetWords(group, `the contaminated places${parts.length === facts.exposed.length ? '' : ` on ${namesOf(parts)}`}`),
      why: `${marks.length} marked on the plan`,
      ...size,
      who: whoOf(group),
      tasks: coatTasks(facts, parts),
      cautions: isMachine ? abrasionCautions(facts, parts) : wetCautions(facts, group),
      dust: isMachine && !isOverHeat(facts) ? dustOf(parts) : null,
      hours: isMachine ? (size.hours ?? null) : null,
    };
  });
}

const CLEANING: readonly {
  readonly is: 'oily' | 'waxed' | 'efflorescence';
  readonly what: (parts: readonly ExposedFacts[], tail: string, how: ReturnType<typeof howOf>) => string;
  readonly why: string;
  readonly grinds: boolean;
}[] = [
  { is: 'oily', what: (parts, tail, how) => machineOff('oil', parts, tail, how), why: 'oil comes back through a pour', grinds: true },
  {
    is: 'waxed',
    what: (_, tail, how) => `Remove the wax ${how === 'by hand' ? how : 'mechanically'}${tail}`,
    why: 'strippers and acid leave residue that breaks the bond',
    grinds: true,
  },
  {
    is: 'efflorescence',
    what: (_, tail) => `HEPA vacuum the salts with a brush head, and find the water${tail}`,
    why: 'primer does not bond to salts',
    grinds: false,
  },
];

/** Looks that are stripped from a surface that no machine may work on. */
const STRIPPED: readonly FloorFacts['looks'][number][] = ['waxed', 'glossy', 'oily', 'painted', 'curing-compound'];

/** The lines for parts of the surface that no machine may work on; none where nothing is on it. Recorded paint has lines of its own. */
function stripItems(facts: FloorFacts, surface: readonly CoatParts[]): readonly PrepDraft[] {
  const isPaintRecorded = facts.paintOnTop.length > 0 || removedLayers(facts).some(({ layer }) => isPaint(layer));
  const looks = facts.looks.filter((look) => STRIPPED.includes(look) && (look !== 'painted' || !isPaintRecorded));
  if (looks.length === 0) return [];
  const stripped = surface.filter(({ work }) => work !== 'machine');
  return stripped.map((group, place): PrepDraft => {
    const reason = group.work === 'abate' ? 'no machine runs on a floor that may contain asbestos' : 'this surface is never ground';
    return {
      key: keyAt('clean:wet', group, place),
      phase: 'surface',
      what: wetWords(group, namesOf(group.parts)),
      who: whoOf(group),
      why: `nothing bonds to wax, gloss, oil or paint, and ${reason}`,
      amount: squareMeters(partAreaM2(facts.exposed, facts.areaM2, (part) => group.parts.includes(part))),
      tasks: looks.includes('painted') ? ['disturb-paint'] : [],
      cautions: wetCautions(facts, group),
    };
  });
}

/** The lines for what the inspection notes: machines clean what they may work on, and the rest is stripped or left to a contractor. */
export function cleanItems({ facts }: PrepInput): readonly PrepDraft[] {
  const surface = coatParts(facts);
  const machined = surface.find(({ work }) => work === 'machine')?.parts;
  const vacuumed = facts.exposed.filter((part) => !mayHoldAsbestos(part));
  const rows = CLEANING.filter(({ is }) => facts.looks.includes(is));
  const byMachine = rows.flatMap(({ is, what, why, grinds }): PrepDraft[] => {
    const parts = grinds ? machined : vacuumed;
    if (parts === undefined || (parts.length === 0 && facts.exposed.length > 0)) return [];
    return [
      {
        key: `clean:${is}`,
        phase: 'surface',
        what: what(parts, `${onlyOn(facts, parts)}${grinds ? afterLab(facts, parts) : ''}`, howOf(facts)),
        why,
        amount: squareMeters(
          parts.length === facts.exposed.length ? facts.areaM2 : partAreaM2(facts.exposed, facts.areaM2, (part) => parts.includes(part)),
        ),
        tasks: grinds ? coatTasks(facts, parts) : [],
        cautions: abrasionCautions(facts, parts),
        dust: grinds && !isOverHeat(facts) ? dustOf(parts) : null,
      },
    ];
  });
  return [...stripItems(facts, surface), ...byMachine];
}

/** All lines that take a coat off what stays. */
export const coatItems = (input: PrepInput): readonly PrepDraft[] => [
  ...paintRemoved(input.facts).flatMap((paint) => paintItems(input, paint)),
  ...dirtItems(input),
  ...cleanItems(input),
];
