/** What a customer may do from which day, and how a new floor is looked after, in plain words. */
import { isHeated } from '../substrate/radiant.ts';
import { heatOffDays } from '../cure/heat-back.ts';
import { isVehicleDoor } from '../substrate/slope-to-drain.ts';
import { AFTER_HEAT } from '../standing/cure-words.ts';
import { listed } from '../standing/names.ts';
import { lowerFirst } from '../measure/first-letter.ts';
import { addDays, formatInstant, formatInstantDay } from '../measure/moment.ts';
import { formatTemperature, formatTemperatureDifference } from '../measure/temperature.ts';
import type { UnitSystem } from '../book/business.ts';
import type { Material } from '../book/material.ts';
import type { Visit } from '../book/cure-record.ts';
import { isSealed } from '../book/flooring.ts';
import type { HandoverRoom } from './handover-rooms.ts';
import { type HandoverPlace, statedAt, statedWords } from './handover-tables.ts';

/** The air a drying floor is kept in where its data sheet allows: 60 to 75 °F. Common practice, no source. */
export const KEEP_ROOM_C = { least: 15.6, most: 23.9 } as const;

/** The same air as it is written before a pour: `60 °F to 75 °F`. */
export const keepRoomWords = (units: UnitSystem, locale: string): string =>
  `${formatTemperature(KEEP_ROOM_C.least, units, locale)} to ${formatTemperature(KEEP_ROOM_C.most, units, locale)}`;

/** When the rooms are kept at that temperature, within a sentence of the quote, its terms, and the letter. Common practice, no source. */
export const KEEP_ROOM_PERIOD = 'from two days before the pour until three days after it';

/**
 * Radiant heat that comes back on: warmer by 5 °F a day, the floor surface never over 85 °F. Common practice; 85 °F from a summary
 * of ASTM F710. The heating manufacturer's instructions come first.
 */
const HEATING_BACK = { stepK: 5 / 1.8, surfaceMostC: 29.4 } as const;

/** Days after the pour in which drafts and sun dry the surface too fast. Common practice, no source. */
const FRESH_DAYS = 3;

/** One line of what a customer may do by date. */
export type DatedWord = {
  readonly instant: string;
  readonly when: string;
  readonly where: string;
  readonly what: string;
  /** What not to do before; empty where there is nothing to say. */
  readonly before: string;
};

type Raw = Omit<DatedWord, 'where'> & { readonly room: string };

/** What each milestone allows, and what to avoid until then. */
const ALLOWS: Readonly<Record<string, { readonly what: string; readonly before: string }>> = {
  'walk-on': { what: 'Light foot traffic, soft-soled shoes.', before: 'Keep people and pets off.' },
  furniture: { what: 'Furniture with felt pads.', before: 'No ladders, nothing heavy.' },
};

/** Where vehicles come in, the day of normal use is theirs. Common practice, no source; the data sheet comes first. */
const VEHICLES = { what: 'Vehicles, only if the product’s data sheet allows them. Ask us first.', before: 'No vehicles.' };

/** What a household asks about; carts and full loads are the contractor's. */
const LISTED: ReadonlySet<string> = new Set(['walk-on', 'furniture']);

/** How long radiant heat stays off, said before the pour: `off for 28 days after the pour, …`. @param materials those of the floor */
export const heatOffWords = (materials: readonly Pick<Material, 'kind'>[]): string =>
  `off for ${heatOffDays(materials.map(({ kind }) => kind))} days after the pour, unless the product’s data sheet allows it sooner. Heat the rooms another way.`;

/** When radiant floor heat may come back. */
function heatingAt({ materials, schedule }: HandoverRoom, zone: string): string {
  const days = heatOffDays(materials.map(({ kind }) => kind));
  return addDays(schedule.placedAt, days, zone);
}

/** What wood flooring over radiant heat waits for, after a space; empty for other flooring, without heat, and once it is down. */
export const woodAfterHeat = ({ schedule: { cover, laidOn } }: Pick<HandoverRoom, 'schedule'>): string =>
  cover?.afterHeat === true && laidOn === null ? ` ${AFTER_HEAT}` : '';

/** The day radiant floor heat comes back on, and how. */
function heatingSteps(handoverRoom: HandoverRoom, { zone, units, locale }: HandoverPlace): Omit<Raw, 'when' | 'room'>[] {
  const from = heatingAt(handoverRoom, zone);
  const most = formatTemperature(HEATING_BACK.surfaceMostC, units, locale);
  const step = formatTemperatureDifference(HEATING_BACK.stepK, units, locale);
  return [
    {
      instant: from,
      what: `Turn radiant heat on low, then up to ${step} warmer each day. Keep the floor surface at ${most} or below.${woodAfterHeat(handoverRoom)}`,
      before: 'Leave radiant heat off, unless the product’s data sheet allows it sooner. Heat the room another way.',
    },
  ];
}

/** What a room may be used for, with the days still ahead. */
function roomDates(handoverRoom: HandoverRoom, place: HandoverPlace): Raw[] {
  const { schedule, room } = handoverRoom;
  const { now, zone, locale } = place;
  const lines: Raw[] = [];
  for (const m of schedule.milestones) {
    const allows = ALLOWS[m.kind];
    const stated = statedAt(m);
    if (allows === undefined || stated === null || stated <= now || !LISTED.has(m.kind)) continue;
    lines.push({ instant: stated, when: statedWords(m, place, 'weekday'), room: room.name, ...allows });
  }
  const full = schedule.milestones.find(({ kind }) => kind === 'full');
  const drivenAt = full === undefined || !room.plan.openings.some(isVehicleDoor) ? null : statedAt(full);
  if (full !== undefined && drivenAt !== null && drivenAt > now)
    lines.push({ instant: drivenAt, when: statedWords(full, place, 'weekday'), room: room.name, ...VEHICLES });
  if (isHeated(handoverRoom.heat))
    for (const step of heatingSteps(handoverRoom, place))
      if (step.instant > now) lines.push({ when: formatInstantDay(step.instant, zone, 'weekday', locale), room: room.name, ...step });
  return lines;
}

/** Rooms with the same day and sentence on one line, the first day first. */
function joinedRooms(raws: readonly Raw[]): DatedWord[] {
  const joined = new Map<string, DatedWord>();
  for (const raw of [...raws].sort((a, b) => a.instant.localeCompare(b.instant))) {
    const key = `${raw.when}|${raw.what}|${raw.before}`;
    const known = joined.get(key);
    joined.set(
      key,
      known === undefined
        ? { instant: raw.instant, when: raw.when, where: raw.room, what: raw.what, before: raw.before }
        : { ...known, where: `${known.where}, ${raw.room}` },
    );
  }
  return [...joined.values()];
}

/** Everything by its day, visits to come among it. */
export function byDate(rooms: readonly HandoverRoom[], visits: readonly Visit[], place: HandoverPlace): DatedWord[] {
  const { now, zone, locale } = place;
  const name = (id: string): string | undefined => rooms.find((handoverRoom) => handoverRoom.room.id === id)?.room.name;
  const comeBack = visits
    .filter((v) => v.doneAt === null && v.cancelledAt === null && v.deletedAt === null && v.kind !== 'prep' && v.instant > now)
    .map((v) => ({
      instant: v.instant,
      when: formatInstant(v.instant, zone, 'weekday', locale),
      where: listed(v.roomIds.flatMap((id) => name(id) ?? [])),
      what: `We come back: ${v.title}.`,
      before: '',
    }));
  return [...joinedRooms(rooms.flatMap((handoverRoom) => roomDates(handoverRoom, place))), ...comeBack].sort((a, b) =>
    a.instant.localeCompare(b.instant),
  );
}

/** The heat and air of poured rooms while their floors dry, one point per line; nothing before a pour. */
export function airWhileItDries(
  all: readonly Pick<HandoverRoom, 'materials' | 'schedule'>[],
  { now, zone, units, locale }: Pick<HandoverPlace, 'now' | 'zone' | 'units' | 'locale'>,
): string[] {
  const rooms = all.filter(({ materials }) => materials.length > 0);
  if (rooms.length === 0) return [];
  const spans = rooms.flatMap(({ materials }) => materials.flatMap(({ powder }) => powder?.roomTempC.value ?? []));
  const least = Math.max(KEEP_ROOM_C.least, ...spans.map((s) => s.least));
  const most = Math.max(least, Math.min(KEEP_ROOM_C.most, ...spans.map((s) => s.most)));
  const isFresh = rooms.some(({ schedule }) => now < addDays(schedule.placedAt, FRESH_DAYS, zone));
  return [
    `Keep the rooms at ${formatTemperature(least, units, locale)} to ${formatTemperature(most, units, locale)}. Do not point fans, heaters or dehumidifiers at the floor.`,
    ...(isFresh ? [`For the first ${FRESH_DAYS} days, also keep windows closed, and keep drafts and direct sun off the floor.`] : []),
  ];
}

/** What nobody may do to a floor with radiant heat in it. Common practice, no source. */
export const HEAT_CARE = 'Do not drill, nail or cut this floor. It has radiant heat. Have the installer of the heat locate it first.';

/** {@link HEAT_CARE} for the rooms with heat, on one line; none without. */
export function heatCare(rooms: readonly HandoverRoom[]): string[] {
  const heated = rooms.filter(({ heat }) => isHeated(heat));
  return heated.length === 0 ? [] : [`${listed(heated.map(({ room }) => room.name))}: ${lowerFirst(HEAT_CARE)}`];
}

/** How to keep the rooms while the floor dries, one point per line. */
export function whileItDries(rooms: readonly HandoverRoom[], place: HandoverPlace): string[] {
  return [
    ...airWhileItDries(rooms, place),
    'Do not wet-clean it. No rugs, tape, or boards on it. For other trades, cover it with breathable paper and hardboard.',
  ];
}

/** Care of floors that stay bare; null where every floor gets flooring. */
export function bareCare(rooms: readonly HandoverRoom[]): string | null {
  const bare = rooms.filter((handoverRoom) => isSealed(handoverRoom.jobRoom.flooring));
  if (bare.length === 0) return null;
  const names = listed(bare.map((handoverRoom) => handoverRoom.room.name));
  return `${names}: the color evens out over some weeks. Sweep the floor, or wipe it with a damp cloth and a neutral cleaner. Never use acid or scouring powder. Blot spills at once. Seal the floor again when water no longer beads. Follow the sealer’s instructions.`;
}
