/** What may be done from which day, what not before, and how a new floor is looked after. */
import { listed } from '../agenda/names.ts';
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
export type DatedWord = { readonly at: string; readonly when: string; readonly where: string; readonly what: string };

type Raw = { readonly at: string; readonly when: string; readonly room: string; readonly what: string };

const DOES: Readonly<Record<string, string>> = {
  'walk-on': 'Light feet, soft soles. Nothing dragged, no ladders.',
  cart: 'A light cart on soft wheels; lift what would scrape.',
  furniture: 'Furniture, set down and not slid, felt under its feet.',
  full: 'Everyday loads.',
};

/** When heating in the floor may come back. */
function heatingAt(at: HandoverRoom, zone: string): string {
  const days = at.material?.kind === 'calcium-sulfate' ? HEATING_BACK.calciumSulfateDays : HEATING_BACK.cementDays;
  return addDays(at.schedule.placedAt, days, zone);
}

function heatingWords({ units, locale }: HandoverPlace): string {
  const start = formatTemperature(HEATING_BACK.startC, units, locale);
  const step = formatTemperatureDifference(HEATING_BACK.stepK, units, locale);
  return `Floor heating back on by steps: water at ${start} for ${HEATING_BACK.startDays} days, then ${step} more a day. The heating’s own instructions come first.`;
}

/** What a room may be used for, with the days still ahead; a covering that may be laid now is said with today's. */
function roomDates(at: HandoverRoom, place: HandoverPlace): Raw[] {
  const { schedule, room } = at;
  const { now, zone, locale } = place;
  const timed = (instant: string): string => formatInstant(instant, zone, 'weekday', locale);
  const day = (instant: string): string => formatInstantDay(instant, zone, 'weekday', locale);
  const out: Raw[] = [];
  // With the hour: the morning of a day that begins to count in its evening is too soon.
  for (const m of schedule.milestones) {
    const what = DOES[m.kind];
    if (what === undefined || m.likelyAt === null || m.likelyAt <= now) continue;
    out.push({ at: m.likelyAt, when: timed(m.likelyAt), room: room.name, what });
  }
  const { cover, release } = schedule;
  if (cover !== null && release?.released === true)
    out.push({ at: now, when: 'Now', room: room.name, what: `Released by test: ${cover.name} may go on it.` });
  else if (cover?.likelyAt != null) {
    const isDry = cover.likelyAt <= now;
    const what = `Test; ${cover.name} once it passes. Until then nothing lies flat on it.`;
    out.push({ at: isDry ? now : cover.likelyAt, when: isDry ? 'Now' : day(cover.likelyAt), room: room.name, what });
  }
  if (at.heated && heatingAt(at, zone) > now)
    out.push({ at: heatingAt(at, zone), when: day(heatingAt(at, zone)), room: room.name, what: heatingWords(place) });
  return out;
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
    }));
  const joined = new Map<string, DatedWord>();
  for (const raw of rooms.flatMap((at) => roomDates(at, place)).sort((a, b) => a.at.localeCompare(b.at))) {
    const key = `${raw.when}|${raw.what}`;
    const known = joined.get(key);
    joined.set(
      key,
      known === undefined
        ? { at: raw.at, when: raw.when, where: raw.room, what: raw.what }
        : { ...known, where: `${known.where}, ${raw.room}` },
    );
  }
  return [...joined.values(), ...comeBack].sort((a, b) => a.at.localeCompare(b.at));
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
  const bare = rooms.filter((at) => at.jobRoom.covering === 'bare-sealed');
  if (bare.length === 0) return null;
  const names = listed(bare.map((at) => at.room.name));
  return `${names} stays bare: its color goes on evening out for weeks. Sweep it or wipe it barely damp with a neutral cleaner, never acid or scouring powder; blot spills at once; seal it again when water no longer beads. The sealer’s own sheet comes first.`;
}
