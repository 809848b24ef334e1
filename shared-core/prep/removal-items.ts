/** Lines for protection and removal. */
import type { Layer } from '../book/layer.ts';
import { partAreaM2 } from '../substrate/exposed-layers.ts';
import {
  abatedWith,
  asbestosKept,
  coatsLeaving,
  type FloorFacts,
  isAbated,
  isLabFirst,
  isRefastened,
  type LayerFacts,
  mayHoldAsbestos,
  mayHoldLead,
  paintOff,
  scrapedAdhesive,
} from '../substrate/floor-facts.ts';
import { isAdhesive, isConcrete, isSoft, isWood, LAYER_WORDS } from '../substrate/layer-words.ts';
import { countsAsOld } from '../substrate/asbestos.ts';
import { isLeadPresumed } from '../substrate/lead-paint.ts';
import { formatListAnd } from '../measure/list.ts';
import type { CautionId } from '../substrate/cautions.ts';
import type { Task } from '../substrate/rule.ts';
import type { DustTask } from '../substrate/silica.ts';
import { AFTER_LAB, asbestosCaution } from './cut-surface.ts';
import { paintItems } from './items-coat.ts';
import { removalKey, scrapingKey } from './prep-item.ts';
import { has, meters, type PrepDraft, type PrepInput, squareMeters } from './prep-input.ts';
import { hoursFor, removalWork, timed } from './task-hours.ts';

/** Clear, control dust, remove or cover the baseboard, shut off gas. */
export function protectItems(input: PrepInput): readonly PrepDraft[] {
  const { facts } = input;
  const items: PrepDraft[] = [
    {
      key: 'clear',
      phase: 'protect',
      what: 'Clear the room and protect the path in',
      why: 'the floor must be empty, and dust travels',
      amount: squareMeters(facts.areaM2),
      hours: facts.areaM2 === null ? null : hoursFor('clear', facts.areaM2),
    },
  ];
  if (facts.circumstances.gasAppliance === true)
    items.push({
      key: 'gas',
      phase: 'protect',
      what: 'Have gas pilots and unvented heaters shut off, and gas equipment moved off the floor',
      why: 'dust and fumes meet flames',
      who: 'licensed-only',
      cautions: ['gas'],
    });
  if (has(input, 'asbestos-coating', 'asbestos-coating-found'))
    items.push({
      key: 'coating',
      phase: 'protect',
      what: 'Fasten, tape and lean nothing on the textured coating, and do not shake it',
      why: 'it contains asbestos or is presumed to',
      holdsPour: false,
    });
  items.push(...trimItems(input));
  items.push({
    key: 'dust',
    phase: 'protect',
    what: 'Turn forced air off, seal registers and doors, set up shroud and HEPA vacuum',
    why: 'silica dust: written exposure control plan, competent person, fit-tested respirators',
    cautions: input.onGenerator === true ? ['silica', 'carbon-monoxide'] : ['silica'],
    hours: hoursFor('dustControl', 1),
  });
  return items;
}

function trimItems(input: PrepInput): readonly PrepDraft[] {
  const { facts } = input;
  const trim = facts.circumstances.paintedTrim;
  const isOld = isLeadPresumed(facts.yearBuilt) && facts.paintLab !== 'none-found';
  const lead: readonly CautionId[] = isOld ? ['lead'] : [];
  if (trim === 'to-be-disturbed') {
    const lengthM = facts.baseboardM;
    const certified = has(input, 'lead-paint', 'lead-found');
    return [
      {
        key: 'baseboard',
        phase: 'protect',
        what: certified ? 'An EPA-certified firm removes the baseboard' : 'Remove the baseboard and number the pieces',
        why: certified ? 'its paint contains or is presumed to contain lead' : 'the isolation strip goes behind it, and the floor rises',
        amount: meters(lengthM),
        who: certified ? 'licensed-only' : 'own-crew',
        holdsPour: false,
        tasks: certified ? [] : ['disturb-paint'],
        // Cove base and its adhesive are on the lists of suspect materials.
        cautions: [...lead, ...(countsAsOld(facts.yearBuilt) ? (['asbestos'] as const) : [])],
        hours: certified || lengthM === null ? null : hoursFor('baseboard', lengthM),
      },
    ];
  }
  if (trim !== 'stays-untouched') return [];
  return [
    {
      key: 'cover-trim',
      phase: 'protect',
      what: 'Cover baseboard and trim with film and tape',
      why: isOld ? 'its paint is presumed to contain lead, and cement stains' : 'cement stains',
      amount: meters(facts.baseboardM ?? input.perimeterM),
      cautions: lead,
    },
  ];
}

type Removal = {
  readonly verb: string;
  readonly tasks: readonly Task[];
  readonly dust: DustTask | null;
  readonly cautions: readonly CautionId[];
};

function removalOf(layer: Layer): Removal {
  const { material } = layer;
  const plain = { dust: null, cautions: [] };
  if (isAdhesive(material)) return { ...plain, verb: 'Scrape off', tasks: ['scrape'] };
  if (material === 'ceramic-tile' || material === 'stone-tile' || material === 'thinset')
    return { verb: 'Chip out', tasks: ['lift-out', 'scrape'], dust: 'chipping-hammer', cautions: ['silica'] };
  if (isSoft(material)) return { ...plain, verb: 'Pull up', tasks: ['pull-up'] };
  if (material === 'sheet-flooring' || material === 'resilient-tile' || material === 'underlay-felt')
    return { ...plain, verb: 'Remove', tasks: ['lift-out'] };
  if (isWood(material))
    return {
      verb: 'Remove',
      tasks: material === 'wood-flooring' ? ['lift-out', 'disturb-paint'] : ['lift-out'],
      dust: null,
      cautions: ['wood-dust'],
    };
  const cautions: readonly CautionId[] = isConcrete(material) ? ['silica', 'tendons'] : ['silica'];
  return { verb: 'Remove', tasks: ['lift-out', 'grind'], dust: 'chipping-hammer', cautions };
}

/** What may hold asbestos under a textile or loose layer. With any, a test pull comes first. */
const underTestPull = (facts: readonly LayerFacts[], place: number, removal: Removal): readonly LayerFacts[] =>
  removal.tasks.includes('pull-up') ? facts.slice(place + 1).filter(mayHoldAsbestos) : [];

/** Whether a layer that stays is loose and cannot be fastened again. Heat laid on the floor has rules of its own. */
export const isRemovedLoose = (layer: Layer, facts: Pick<FloorFacts, 'isWoodFramed'>): boolean =>
  layer.fate === 'keep' && layer.sound === 'loose' && layer.material !== 'radiant-heating' && !isRefastened(layer, facts);

/** A line for each layer to be removed, whole or where it is loose, from the top down. */
export function removalItems(input: PrepInput): readonly PrepDraft[] {
  const { layerFacts } = input.facts;
  const removed = layerFacts.flatMap((layerFact, place): readonly PrepDraft[] => {
    const { layer } = layerFact;
    const isPaint = paintOff(input.facts).includes(layerFact);
    const isLoose = !isPaint && isRemovedLoose(layer, input.facts);
    if (layer.fate !== 'remove' && !isLoose && !isPaint) return [];
    const detected = isAbated(layerFact);
    // What is loose comes off beside another layer that stays and may contain asbestos.
    const beside = isLoose ? asbestosKept(input.facts).filter((one) => one !== layerFact) : [];
    const kept = [...new Set([...beside, ...abatedWith(input.facts, layer)])];
    const abated = detected || kept.length > 0;
    if (layer.material === 'paint-or-sealer' && !abated) return paintItems(input, layerFact);
    const areaM2 = input.areasM2[layer.id] ?? input.facts.areaM2;
    const removal = removalOf(layer);
    const name = isLoose ? `loose ${LAYER_WORDS[layer.material]}` : LAYER_WORDS[layer.material];
    const under = underTestPull(layerFacts, place, removal);
    const testPull = under.length > 0;
    const isUnderFound = under.some(isAbated);
    const coats = coatsLeaving(input.facts, layer);
    const labFirst = [layerFact, ...coats].some((one) => isLabFirst(one, input.facts));
    const maybe = layerFact.presumed || labFirst || under.some((one) => !isAbated(one));
    const asbestos: readonly CautionId[] = [
      ...(isUnderFound ? (['asbestos-found'] as const) : []),
      ...(maybe ? (['asbestos'] as const) : []),
    ];
    const lead: readonly CautionId[] = [layerFact, ...coats].some(mayHoldLead) ? ['lead'] : [];
    return [
      {
        key: removalKey(layer),
        phase: 'remove',
        what: abated
          ? `A licensed abatement contractor removes the ${name}${detected ? ' and gives a clearance' : ''}`
          : `${isLoose ? 'Remove' : removal.verb} the ${name}${isLoose ? ' down to a sound layer' : ''}${labFirst ? AFTER_LAB : testPull ? ', after a test pull' : ''}`,
        why: abated
          ? detected
            ? 'asbestos was detected in it'
            : kept.every(isAbated)
              ? `asbestos was detected in the ${formatListAnd([...new Set(kept.map((one) => LAYER_WORDS[one.layer.material]))])}`
              : 'a layer that stays may contain asbestos'
          : testPull
            ? `if the flooring under it lifts or breaks, stop: it ${isUnderFound ? 'contains' : 'may contain'} asbestos. A licensed abatement contractor takes over`
            : layer.sound === 'loose' || layer.sound === 'weak'
              ? `it is ${layer.sound}`
              : 'planned for removal',
        amount: squareMeters(areaM2),
        who: abated ? 'licensed-only' : 'own-crew',
        tasks: abated ? [] : [...new Set<Task>([...removal.tasks, ...(coats.length > 0 ? (['disturb-paint'] as const) : [])])],
        cautions: detected
          ? ['asbestos-found']
          : kept.length > 0
            ? asbestosCaution(input.facts, kept)
            : [...asbestos, ...lead, ...removal.cautions],
        dust: abated ? null : removal.dust,
        hours: abated || areaM2 === null ? null : hoursFor(removalWork(layer.material), areaM2),
      },
    ];
  });
  return [...removed, ...scrapingItems(input)];
}

/** Adhesive that stays is scraped down to what may stay. What is loose has a line of its own. */
function scrapingItems({ facts }: PrepInput): readonly PrepDraft[] {
  const kept = asbestosKept(facts);
  return scrapedAdhesive(facts)
    .filter(({ layer }) => !isRemovedLoose(layer, facts))
    .map((part): PrepDraft => {
      const name = LAYER_WORDS[part.layer.material];
      const areaM2 = partAreaM2(facts.exposed, facts.areaM2, (one) => one === part);
      const line = { key: scrapingKey(part.layer), phase: 'remove' as const, amount: squareMeters(areaM2) };
      const why = 'only a thin film that the data sheet names may stay. No chemical remover';
      if (kept.length > 0)
        return {
          ...line,
          what: `A licensed abatement contractor takes the ${name} off`,
          why,
          who: 'licensed-only',
          cautions: asbestosCaution(facts, kept),
        };
      const labFirst = isLabFirst(part, facts);
      return {
        ...line,
        what: `Scrape the ${name} down to a thin film, and off completely where it is water-soluble${labFirst ? AFTER_LAB : ''}`,
        why,
        tasks: ['scrape'],
        cautions: labFirst ? ['asbestos'] : [],
        hours: timed(removalWork(part.layer.material), areaM2),
      };
    });
}
