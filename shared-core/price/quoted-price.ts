/** The price of an estimate as stored in an issued quote: lines, rooms, tax, payments and totals, fully calculated. */
import type { Material } from '../book/material.ts';
import type { Depths } from '../material/lifts.ts';
import type { Quote, QuotedOption, QuotedPrice, QuotedRoom } from '../book/quote.ts';
import type { JobEstimate, OptionEstimate } from './estimate-job.ts';
import type { RoomEstimate } from './estimate-room.ts';
import { taskName } from './hours-words.ts';
import { BASE_OPTION_ID } from './quote-state.ts';

/**
 * Pour depths as a quote states them, meters; null while they are not known. A pour that follows the floor has its thickness: the allowance
 * for texture only takes material.
 */
export function quotedDepths({ survey, level, takeoff }: Pick<RoomEstimate, 'survey' | 'level' | 'takeoff'>): Depths | null {
  const { mode, followThicknessM: m } = level;
  return survey.state === 'surveyed' && mode === 'follow' ? { leastM: m, meanM: m, mostM: m } : takeoff.room.depths;
}

function quotedRoom(option: OptionEstimate, room: OptionEstimate['rooms'][number], materials: readonly Material[]): QuotedRoom {
  const { takeoff } = room;
  const { volume } = takeoff.room;
  const depths = quotedDepths(room);
  return {
    roomId: room.roomId,
    name: room.name,
    mode: room.level.mode,
    grindMaxM: room.level.grindMostM,
    material: materials.find((material) => material.id === takeoff.materialId)?.name ?? '',
    areaM2: takeoff.room.areaM2,
    volumeM3: volume?.likelyM3 ?? null,
    meanDepthM: depths?.meanM ?? null,
    maxDepthM: depths?.mostM ?? null,
    bags: takeoff.bags?.quotedBags ?? 0,
    lifts: takeoff.lifts?.count ?? 0,
    priceMinor: option.price.rooms.find((price) => price.roomId === room.roomId)?.allInMinor ?? 0,
  };
}

function quotedOption(option: OptionEstimate, materials: readonly Material[]): QuotedOption {
  const { price } = option;
  return {
    id: option.id,
    name: option.name,
    days: option.days,
    bags: option.takeoff.bags,
    gapM: option.flatnessReachedM,
    meetsFlooring: option.flatEnough,
    rooms: option.rooms.map((room) => quotedRoom(option, room, materials)),
    lines: price.lines
      .filter((line) => !line.leftOut)
      .map(({ key, name, roomId, quantityWords, priceMinor }) => ({ key, name, roomId, quantity: quantityWords, priceMinor })),
    discountMinor: price.discountMinor,
    netMinor: price.netMinor,
    taxes: price.taxes.map(({ taxId, name, rate, baseMinor, taxMinor }) => ({ taxId, name, rate, baseMinor, taxMinor })),
    taxMinor: price.taxMinor,
    totalMinor: price.totalMinor,
    stages: price.stages.map(({ name, share, due, amountMinor }) => ({ name, share, due, amountMinor })),
    depositMinor: price.depositMinor,
    planned: { costMinor: price.costMinor, hours: plannedHours(option) },
  };
}

/** Hours by task over all rooms. */
function plannedHours({ rooms }: OptionEstimate): QuotedOption['planned']['hours'] {
  const tasks = new Map<string, QuotedOption['planned']['hours'][number]>();
  for (const task of rooms.flatMap(({ takeoff }) => takeoff.hours)) {
    const { key, ownHours, helperHours } = task;
    const before = tasks.get(key) ?? { task: key, name: taskName(task), ownHours: 0, helperHours: 0 };
    tasks.set(key, { ...before, ownHours: before.ownHours + ownHours, helperHours: before.helperHours + helperHours });
  }
  return [...tasks.values()];
}

/** Every option of an estimate as a quote keeps it. Money in minor units, lengths in meters. */
export function quotedPrice(estimate: JobEstimate, materials: readonly Material[]): QuotedPrice {
  return { suggestedId: estimate.suggested.id, options: estimate.options.map((option) => quotedOption(option, materials)) };
}

/** The option a quote recommends. */
export function suggestedOption({ options, suggestedId }: QuotedPrice): QuotedOption {
  const suggested = options.find((option) => option.id === suggestedId) ?? options[0];
  if (suggested === undefined) throw new RangeError('A quoted price has no option.');
  return suggested;
}

/** The option a quote is about: the one the customer accepted, else the one it recommends. */
export function standingOption({ priced, acceptedOptionId }: Pick<Quote, 'priced' | 'acceptedOptionId'>): QuotedOption {
  return suggestedOption({ ...priced, suggestedId: acceptedOptionId ?? priced.suggestedId });
}

/** A quoted price with one option left, under the keys its lines have once that option is the job's own. */
export function priceAsAccepted(priced: QuotedPrice, optionId: string): QuotedPrice {
  const chosen = priced.options.find((option) => option.id === optionId) ?? suggestedOption(priced);
  const own = `${chosen.id}/`;
  const lines = chosen.lines.map((line) => (line.key.startsWith(own) ? { ...line, key: line.key.slice(own.length) } : line));
  return { suggestedId: BASE_OPTION_ID, options: [{ ...chosen, id: BASE_OPTION_ID, name: 'As accepted', lines }] };
}
