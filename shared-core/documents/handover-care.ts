/** What may be done from which day, what not before, and how a new floor is looked after. */
import { listed } from '../standing/names.ts';
import { addDays, formatInstant, formatInstantDay } from '../measure/moment.ts';
import { formatTemperature, formatTemperatureDifference } from '../measure/temperature.ts';
import type { Visit } from '../book/cure-record.ts';
import type { HandoverPlace } from './handover-picture.ts';
import type { HandoverRoom } from './handover-rooms.ts';

/** The air a drying floor is kept in where its sheet allows: 60 to 75 °F. Common practice, no source. */
export const KEEP_ROOM_C = { least: 15.6, most: 23.9 } as const;

/**
 * Days before heating in the floor comes back, the water it starts with, and the days it stays there.
 * Source: EN 1264-4 (cement screed 21 days, calcium sulfate 7; 20 to 25 °C for three days), from memory; the data sheet and
 * the heating's own maker come first.
 */
export const HEATING_BACK = { cementDays: 21, calciumSulfateDays: 7, startC: 25, startDays: 3, stepK: 5 } as const;

/** One line of what may be done by date. */
export type DatedWord = {
  readonly at: string;
  readonly when: string;
  readonly where: string;
  readonly what: string;
  /** What is not done before; empty where nothing is to be said. */
  readonly spared: string;
};

type Raw = Omit<DatedWord, 'where'> & { readonly room: string };

/** What each milestone allows, and what the floor is spared until it. */
const DOES: Readonly<Record<string, { readonly what: string; readonly spared: string }>> = {
  'walk-on': { what: 'Light feet, soft soles.', spared: 'nobody on it, pets neither' },
  cart: { what: 'A light cart on soft wheels.', spared: '' },
  furniture: { what: 'Furniture, felt under its feet.', spared: 'no ladder, nothing heavy, nothing dragged' },
  full: { what: 'Everyday loads.', spared: '' },
};

/** When heating in the floor may come back. */
function heatingAt(at: HandoverRoom, zone: string): string {
  const days = at.material?.kind === 'calcium-sulfate' ? HEATING_BACK.calciumSulfateDays : HEATING_BACK.cementDays;
  return addDays(at.schedule.placedAt, days, zone);
}

/** Heating in the floor comes back by steps, each with its day. */
function heatingSteps(at: HandoverRoom, { zone, units, locale }: HandoverPlace): Omit<Raw, 'when' | 'room'>[] {
  const from = heatingAt(at, zone);
  const start = formatTemperature(HEATING_BACK.startC, units, locale);
  const step = formatTemperatureDifference(HEATING_BACK.stepK, units, locale);
  return [
    {
      at: from,
      what: `Floor heating back on: water at ${start}, left there for ${HEATING_BACK.startDays} days.`,
      spared: 'heating off, unless the data sheet lets it on sooner',
    },
    {
      at: addDays(from, HEATING_BACK.startDays, zone),
      what: `Its water ${step} warmer each day, up to what it usually runs at. The heating’s own instructions come first.`,
      spared: '',
    },
  ];
}

/** What a room may be used for, with the days still ahead; a covering that may be laid now is said with today's. */
function roomDates(at: HandoverRoom, place: HandoverPlace): Raw[] {
  const { schedule, room, jobRoom } = at;
  const { now, zone, locale } = place;
  const timed = (instant: string): string => formatInstant(instant, zone, 'weekday', locale);
  const day = (instant: string): string => formatInstantDay(instant, zone, 'weekday', locale);
  const out: Raw[] = [];
  // With the hour: the morning of a day that begins to count in its evening is too soon.
  for (const m of schedule.milestones) {
    const does = DOES[m.kind];
    if (does === undefined || m.likelyAt === null || m.likelyAt <= now) continue;
    out.push({ at: m.likelyAt, when: timed(m.likelyAt), room: room.name, ...does });
  }
  const { cover, clearance } = schedule;
  if (cover !== null && clearance?.cleared === true)
    out.push({ at: now, when: 'Now', room: room.name, what: `Released by test: ${cover.name} may go on it.`, spared: '' });
  else if (cover?.likelyAt != null) {
    const isDry = cover.likelyAt <= now;
    const what = `Test; ${cover.name} once it passes.`;
    const spared =
      jobRoom.flooring === 'bare-sealed' ? 'no rugs, no tape: it dries in blotches under them' : 'no rugs, tape or boards lying flat';
    out.push({ at: isDry ? now : cover.likelyAt, when: isDry ? 'Now' : day(cover.likelyAt), room: room.name, what, spared });
  }
  if (at.heated) for (const step of heatingSteps(at, place)) if (step.at > now) out.push({ when: day(step.at), room: room.name, ...step });
  return out;
}

/** Rooms that share a day and a word on one line, the first day first. */
function joinedRooms(raws: readonly Raw[]): DatedWord[] {
  const joined = new Map<string, DatedWord>();
  for (const raw of [...raws].sort((a, b) => a.at.localeCompare(b.at))) {
    const key = `${raw.when}|${raw.what}|${raw.spared}`;
    const known = joined.get(key);
    joined.set(
      key,
      known === undefined
        ? { at: raw.at, when: raw.when, where: raw.room, what: raw.what, spared: raw.spared }
        : { ...known, where: `${known.where}, ${raw.room}` },
    );
  }
  return [...joined.values()];
}

/** Everything by its day, rooms that share a day and a word on one line, visits to come among them. */
export function byDate(rooms: readonly HandoverRoom[], visits: readonly Visit[], place: HandoverPlace): DatedWord[] {
  const { now, zone, locale } = place;
  const name = (id: string): string | undefined => rooms.find((at) => at.room.id === id)?.room.name;
  const comeBack = visits
    .filter((v) => v.doneAt === null && v.cancelledAt === null && v.deletedAt === null && v.kind !== 'prep' && v.at > now)
    .map((v) => ({
      at: v.at,
      when: formatInstant(v.at, zone, 'weekday', locale),
      where: listed(v.roomIds.flatMap((id) => name(id) ?? [])),
      what: `We come back: ${v.title.charAt(0).toLowerCase()}${v.title.slice(1)}.`,
      spared: '',
    }));
  return [...joinedRooms(rooms.flatMap((at) => roomDates(at, place))), ...comeBack].sort((a, b) => a.at.localeCompare(b.at));
}

/** How the rooms are kept while they dry. */
export function whileItDries(rooms: readonly HandoverRoom[], { units, locale }: HandoverPlace): string {
  const spans = rooms.flatMap((at) => (at.material?.powder ? [at.material.powder.roomTempC.value] : []));
  const least = Math.max(KEEP_ROOM_C.least, ...spans.map((s) => s.least));
  const most = Math.max(least, Math.min(KEEP_ROOM_C.most, ...spans.map((s) => s.most)));
  return `Keep the rooms between ${formatTemperature(least, units, locale)} and ${formatTemperature(most, units, locale)}, windows ajar, no fan or heater blowing on the floor. No rugs, boards or tape lying flat; felt under chair legs; no wet cleaning.`;
}

/** Care of floors that stay bare; null when every floor is covered. */
export function bareCare(rooms: readonly HandoverRoom[]): string | null {
  const bare = rooms.filter((at) => at.jobRoom.flooring === 'bare-sealed');
  if (bare.length === 0) return null;
  const names = listed(bare.map((at) => at.room.name));
  return `${names} stays bare: its color goes on evening out for weeks. Sweep it or wipe it barely damp with a neutral cleaner, never acid or scouring powder; blot spills at once; seal it again when water no longer beads. The sealer’s own sheet comes first.`;
}
