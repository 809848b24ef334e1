/** Lines that protect what stays, and take out what does not. */
import type { Layer } from '../book/layer.ts';
import { isAdhesive, isWood, LAYER_WORDS } from '../substrate/layer-words.ts';
import { isLeadPresumed } from '../substrate/lead-paint.ts';
import type { Task } from '../substrate/rule.ts';
import { silicaAnswer } from '../substrate/silica.ts';
import { found, item, meters, type PrepInput, squareMeters } from './prep-input.ts';
import type { PrepItem } from './prep-item.ts';
import { hoursFor, type TYPICAL_HOURS } from './task-hours.ts';

/** Hours a day over which a floor is ground, for the respirator: the longer column, to be on the safe side. */
const GRINDING_HOURS = 4.5;

const openingsM = (input: PrepInput): number => input.facts.openings.reduce((sum, opening) => sum + opening.widthM, 0);

/** Clear, cover, take off skirting, keep the dust in. */
export function protectItems(input: PrepInput): readonly PrepItem[] {
  const { facts } = input;
  const items: PrepItem[] = [
    item({
      key: 'clear',
      phase: 'protect',
      what: 'Clear the room, cover the way in',
      why: 'nothing may stand on the floor, and powder travels',
      amount: squareMeters(facts.areaM2),
      hours: facts.areaM2 === null ? null : hoursFor('clear', facts.areaM2),
    }),
  ];
  const trim = facts.circumstances.paintedTrim;
  if (trim === 'to-be-disturbed') {
    const lengthM = input.perimeterM === null ? null : Math.max(0, input.perimeterM - openingsM(input));
    const licensed = facts.paintLab === 'found' || found(input, 'lead-paint').length > 0;
    items.push(
      item({
        key: 'baseboard',
        phase: 'protect',
        what: licensed ? 'Have the skirting taken off by a certified renovator' : 'Take off the skirting, number it',
        why: licensed ? 'its paint holds lead or counts as lead' : 'the strip goes behind it, and the floor rises',
        amount: meters(lengthM),
        who: licensed ? 'licensed-only' : 'own-crew',
        holdsPour: false,
        tasks: licensed ? [] : ['disturb-paint'],
        cautions: isLeadPresumed(facts.yearBuilt) ? ['lead'] : [],
        hours: licensed || lengthM === null ? null : hoursFor('baseboard', lengthM),
      }),
    );
  }
  if (trim === 'stays-untouched') {
    items.push(
      item({
        key: 'cover-trim',
        phase: 'protect',
        what: 'Cover skirting and trim with film and tape',
        why:
          isLeadPresumed(facts.yearBuilt) && facts.paintLab !== 'none-found'
            ? 'its paint counts as lead, and cement stains'
            : 'cement stains',
        amount: meters(input.perimeterM),
        cautions: isLeadPresumed(facts.yearBuilt) ? ['lead'] : [],
      }),
    );
  }
  const grinding = silicaAnswer('hand-grinder', 'indoors', GRINDING_HOURS);
  items.push(
    item({
      key: 'dust',
      phase: 'protect',
      what: 'Seal doors and vents, set up shroud, HEPA vacuum and masks',
      why: `dust of stone and cement${grinding.inTable ? `; past 4 h with a hand grinder indoors, a respirator of APF ${grinding.apf}` : ''}`,
      cautions: ['silica'],
      hours: hoursFor('dustControl', 1),
    }),
  );
  return items;
}

type Way = { readonly verb: string; readonly hours: keyof typeof TYPICAL_HOURS; readonly tasks: readonly Task[] };

function wayOut(layer: Layer): Way {
  const { material } = layer;
  if (isAdhesive(material)) return { verb: 'Scrape off', hours: 'scrapeAdhesive', tasks: ['scrape'] };
  if (material === 'ceramic-tile' || material === 'stone-tile' || material === 'thinset')
    return { verb: 'Chip out', hours: 'liftTile', tasks: ['lift-out', 'scrape'] };
  if (material === 'carpet' || material === 'foam-pad') return { verb: 'Lift out', hours: 'liftCarpet', tasks: [] };
  if (material === 'floating-plank') return { verb: 'Lift out', hours: 'liftPlank', tasks: [] };
  if (material === 'sheet-flooring' || material === 'resilient-tile' || material === 'underlay-felt')
    return { verb: 'Lift out', hours: 'liftSheet', tasks: ['lift-out'] };
  if (material === 'paint-or-sealer') return { verb: 'Grind off', hours: 'abrade', tasks: ['grind'] };
  if (isWood(material)) return { verb: 'Take up', hours: 'liftBoards', tasks: ['lift-out'] };
  return { verb: 'Take out', hours: 'liftOther', tasks: ['lift-out', 'grind'] };
}

/** A line for each layer that comes out, from the top down. */
export function removalItems(input: PrepInput): readonly PrepItem[] {
  return input.facts.layerFacts
    .filter(({ layer }) => layer.fate === 'remove')
    .map(({ layer, presumed, lab }) => {
      const areaM2 = input.areasM2[layer.id] ?? input.facts.areaM2;
      const way = wayOut(layer);
      const licensed = lab === 'found';
      return item({
        key: `take-out:${layer.id}`,
        phase: 'take-out',
        what: licensed
          ? `Have the ${LAYER_WORDS[layer.material]} removed by licensed removers, with their clearance`
          : `${way.verb} the ${LAYER_WORDS[layer.material]}`,
        why: licensed
          ? 'asbestos was found in it'
          : layer.sound === 'sound'
            ? 'it is not to stay'
            : `it is ${layer.sound === 'unknown' ? 'not to stay' : layer.sound}`,
        amount: squareMeters(areaM2),
        who: licensed ? 'licensed-only' : 'own-crew',
        tasks: licensed ? [] : way.tasks,
        cautions: presumed || licensed ? ['asbestos'] : way.tasks.length > 0 ? ['silica'] : [],
        hours: licensed || areaM2 === null ? null : hoursFor(way.hours, areaM2),
      });
    });
}
