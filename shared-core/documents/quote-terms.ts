/** What a quote assumes and what it leaves out, from the record. */
import { isSealed } from '../book/flooring.ts';
import type { WholeJob } from '../book/whole-job.ts';
import { isByHours } from '../cure/clearance-tests.ts';
import { isOldFlooring, isWood } from '../substrate/layer-words.ts';
import { isLeadPresumed } from '../substrate/lead-paint.ts';
import { isSurfacingPresumed } from '../substrate/asbestos.ts';
import { asbestosLeftLines } from './asbestos-left.ts';
import { heatOffWords, KEEP_ROOM_PERIOD } from './handover-care.ts';
import { roomsInWords } from './quote-words.ts';
import { isHeated, isHeatInPour, isHeatLaid, isHeatUnder, roomHeat } from '../substrate/radiant.ts';

/** What the price rests on; rooms without readings are named. */
function measuredWords(rooms: WholeJob['rooms']): string {
  const open = rooms.filter(({ survey }) => survey.readings.length === 0);
  if (open.length === rooms.length) return 'The floor is not measured yet. The price can change once it is.';
  const measured = 'The price is based on the floor as we measured it';
  if (open.length === 0) return `${measured}.`;
  const [are, they] = open.length === 1 ? ['is', 'it is'] : ['are', 'they are'];
  return `${measured}, except ${roomsInWords(open)}, which ${are} not measured yet. The price can change once ${they}.`;
}

/** The installer's moisture test, for the rooms whose flooring needs one or is not chosen yet. */
function testWords(covered: WholeJob['job']['rooms'], country: string): string[] {
  const tested = covered.filter(({ flooring }) => flooring === null || !isByHours(flooring, country));
  if (tested.length === 0) return [];
  const where = tested.length === covered.length ? '' : ', where the flooring needs a moisture test';
  return [`The flooring installer tests the floor for moisture before flooring goes down${where}. ${dampWords(tested)}`];
}

/** What a floor that is too damp gets: only rooms without a moisture mitigation system may still need one. */
function dampWords(rooms: WholeJob['job']['rooms']): string {
  const open = rooms.filter(({ moistureSystemId }) => (moistureSystemId ?? null) === null);
  if (open.length === 0) return 'If it is too damp, it dries longer.';
  const where = open.length === rooms.length ? '' : ', in a room without one,';
  return `If it is too damp, it dries longer or${where} gets a moisture mitigation system at a price agreed first.`;
}

/** True whatever was looked at on site and whoever stated an allowance. */
export const NO_STRUCTURAL_CHECK = 'Our work is not a structural check.';

/** In the order they are printed. */
export function quoteTerms(frozen: Pick<WholeJob, 'business' | 'rooms' | 'property' | 'job' | 'materials'>): {
  readonly assumptions: readonly string[];
  readonly excluded: readonly string[];
} {
  const { business, rooms, property, job, materials } = frozen;
  // A topping that is sealed is the finished floor: nothing goes over it.
  const covered = job.rooms.filter(({ flooring }) => !isSealed(flooring));
  const removes = rooms.some((room) => room.layers.some((layer) => layer.fate === 'remove' && isOldFlooring(layer.material)));
  const wood = rooms.some((room) => room.layers.some(({ material, fate }) => fate !== 'remove' && isWood(material)));
  const isToLay = rooms.some((room) => isHeatInPour(roomHeat(room)) && !isHeatLaid(room.layers.filter(({ fate }) => fate === 'keep')));
  const isHeatLaidForPour = rooms.some((room) => isHeatInPour(roomHeat(room)));
  const heated = rooms.filter((room) => isHeated(roomHeat(room))).map(({ id }) => id);
  const overHeat = job.rooms.filter(({ roomId }) => heated.includes(roomId)).map(({ materialId }) => materialId);
  const isWet = rooms.some(
    ({ circumstances: { belowGrade, outdoorsOrWet, fixtures } }) => belowGrade || outdoorsOrWet || fixtures.includes('tub-or-shower'),
  );
  const lead = isLeadPresumed(property.yearBuilt);
  return {
    assumptions: [
      measuredWords(rooms),
      'Flat is not the same as level. We make the floor as flat as this quote promises, and level only where it says level.',
      `The rooms are empty, with power, water, and normal heating and cooling, ${KEEP_ROOM_PERIOD}.`,
      ...testWords(covered, business.address.country),
      ...(removes ? ['The old flooring comes up without damage to the floor below it.'] : []),
      ...(wood
        ? [`The wood floor is sound and can carry the added weight. ${NO_STRUCTURAL_CHECK} Hairline cracks over wood are normal.`]
        : []),
      ...(rooms.some(isHeatUnder) ? ['Radiant heat is off, and tested by its installer, before we pour.'] : []),
      ...(isToLay ? ['The radiant heat in the pour is laid, and tested by its installer, before we pour.'] : []),
      ...(heated.length > 0 ? [`Radiant heat stays ${heatOffWords(materials.filter(({ id }) => overHeat.includes(id)))}`] : []),
      ...(isSurfacingPresumed(property.yearBuilt) ? ['The work does not disturb asbestos.'] : []),
      ...asbestosLeftLines(
        rooms.map((room) => ({ room, jobRoom: job.rooms.find(({ roomId }) => roomId === room.id) ?? { overrides: [] } })),
      ),
      ...(lead
        ? ['Old paint and varnish, on floors and trim, may contain lead. It is disturbed only under the federal lead-safe rules.']
        : []),
    ],
    excluded: [
      covered.length > 0 ? 'New flooring. The poured floor is made to be covered.' : 'Flooring over the new floor.',
      'Removing, resetting or cutting baseboards, doors, thresholds, appliances, toilets, and registers, unless listed.',
      ...(isHeatLaidForPour ? ['Supplying, laying, and connecting the radiant heat in the pour, unless listed.'] : []),
      ...(isWet ? ['Waterproofing and drainage. The new floor does not keep water out.'] : []),
      'Repairs to plumbing, wiring, heating, or the structure.',
      'Testing for asbestos, lead, or mold, which takes an accredited inspector or lab.',
      `Abatement of asbestos, lead, or mold, which takes a licensed abatement contractor.${lead ? ' Work under the federal lead-safe rules is not abatement.' : ''}`,
      'Moving and storing furniture.',
    ],
  };
}
