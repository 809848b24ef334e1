/** Entries of a pour log in words, as pour mode, the job record and undo name them. */
import type { Defect, IncidentKind, MarkedState, PourEvent } from '../book/pour-record.ts';
import { formatDepth } from '../measure/length-format.ts';
import { joined } from '../measure/list.ts';
import { formatInstantsOn } from '../measure/moment.ts';
import { formatNumber } from '../measure/number.ts';
import { formatPercent } from '../measure/percent.ts';
import { formatTemperature } from '../measure/temperature.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { formatLiquid } from '../measure/volume.ts';
import type { PourLayout } from '../pour/layout.ts';
import type { LogNotice } from '../pour/log-time.ts';

export type LogWordsPlace = {
  readonly units: UnitSystem;
  readonly locale: string;
  /** Time zone of the property. */
  readonly zone: string;
  /** Lane numbers of several rooms are those of the layout; null takes the room's own. */
  readonly layout: PourLayout | null;
  /** A room's name; empty where one room is poured. */
  readonly roomName: (roomId: string | null) => string;
};

export const INCIDENT_WORDS: Readonly<Record<IncidentKind, string>> = {
  'blocked-outlet': 'Blocked outlet',
  spill: 'Spill',
  'dry-spot': 'Dry spot',
  leak: 'Leak',
  'wrong-water': 'Wrong water',
  lumps: 'Lumps in the mix',
  'old-batch': 'Batch past its working time',
  'power-lost': 'Power lost',
  'water-lost': 'Water lost',
  'crew-lost': 'Crew member out',
  'mixer-down': 'Mixer down',
  'short-of-bags': 'Short of bags',
  'cold-edge': 'Edge past healing',
  other: 'Other trouble',
};

export const MARKED_WORDS: Readonly<Record<MarkedState, string>> = {
  placed: 'placed',
  suspect: 'suspect',
  'not-placed': 'not placed',
  'taken-out': 'removed',
};

const DEFECT_MARKS: Readonly<Record<Defect, string>> = {
  pinholes: 'pinholes',
  ridge: 'ridge',
  hollow: 'hollow spot',
  'low-spot': 'low spot',
};

/** `2 bags`, `1 bag`, to a tenth. */
export function bagsWords(bags: number, locale: string): string {
  return `${formatNumber(bags, { most: 1 }, locale)} ${Math.round(bags * 10) === 10 ? 'bag' : 'bags'}`;
}

/** `3 minutes`, `1 minute`. */
export const minutesWords = (minutes: number): string => (minutes === 1 ? '1 minute' : `${minutes} minutes`);

/** What is odd about a log or its clock, and what to do. */
export function noticeWords(notice: LogNotice): string {
  switch (notice.kind) {
    case 'clock-back':
      return `The computer clock went back ${minutesWords(notice.minutes)}. Entries stay in the order they were made. Judge the time between them yourself.`;
    case 'long-gap':
      return `Nothing was logged for ${minutesWords(notice.minutes)}. If the clock was set forward, the ages shown are too high.`;
    case 'asleep':
      return `The computer was asleep for ${minutesWords(notice.minutes)}. All clocks kept counting. Log now what was placed in between.`;
    case 'placed-twice':
      return `Batch ${notice.batch} is logged as placed twice and counts once. Undo one of the entries.`;
    case 'same-key':
      return `Batch ${notice.batch} was logged within a second of the batch before. Undo it if the key was hit twice.`;
    case 'more-than-on-site':
      return 'The log has more bags mixed than were on site. Count the stack, or log the bags that were added.';
    case 'stack-low':
      return 'The log shows less than a full batch left on site. Count the stack before you mix the next batch.';
  }
}

function readingWords(event: Extract<PourEvent, { kind: 'reading' }>, { units, locale }: LogWordsPlace): string {
  const temp = (word: string, value: number | null): string => (value === null ? '' : `${word} ${formatTemperature(value, units, locale)}`);
  return joined([
    temp('air', event.airTempC),
    temp('surface', event.surfaceTempC),
    temp('water', event.waterTempC),
    temp('powder', event.powderTempC),
    event.relativeHumidity === null ? '' : `RH ${formatPercent(event.relativeHumidity, 0, locale)}`,
    event.spreadM === null ? '' : `flow ${formatDepth(event.spreadM, units, locale)}`,
  ]);
}

/** A lane's number through the whole pour: entries know it by its room. */
export function laneNumber(layout: PourLayout | null, roomId: string | null, lane: number): number {
  return layout?.lanes.find((s) => s.roomId === roomId && s.inRoom === lane)?.number ?? lane;
}

const because = (why: string): string => (why === '' ? '' : `: ${why}`);
/** Words with who said them; the period that ends them goes. */
const saidBy = (words: string, name: string): string => (name === '' ? words : `${words.replace(/\.\s*$/, '')}, ${name}`);

/** One entry, as the log lists it and as Undo names it: `Batch 4 placed`. */
export function entryWords(event: PourEvent, { layout, locale }: Pick<LogWordsPlace, 'layout' | 'locale'>): string {
  switch (event.kind) {
    case 'started':
      return 'Pour started';
    case 'mixed':
      return `Batch ${event.batch} mixed`;
    case 'placed':
      return `Batch ${event.batch} placed`;
    case 'lane-finished':
      return `Lane ${laneNumber(layout, event.roomId, event.lane)} finished`;
    case 'incident':
      return event.batch == null ? INCIDENT_WORDS[event.what] : `${INCIDENT_WORDS[event.what]}, batch ${event.batch}`;
    case 'discarded':
      return `Batch ${event.batch} discarded`;
    case 'corrected':
      return 'Entry corrected';
    case 'counted':
      return `${bagsWords(event.bags, locale)} counted`;
    case 'marked':
      return `Area marked ${event.defect === undefined ? MARKED_WORDS[event.state] : DEFECT_MARKS[event.defect]}`;
    case 'joint':
      return 'Dam set';
    case 'reading':
      return 'Readings logged';
    case 'lot':
      return `Lot ${event.lot}`;
    case 'bags-added':
      return `${bagsWords(event.bags, locale)} added`;
    case 'note':
      return event.photoIds.length > 0 ? 'Photo added' : 'Note added';
    case 'undone':
      return 'Entry voided';
    case 'finished':
      // A pour finishes with its last batch (`pourEnd`), before its log ends.
      return 'Log ended';
    case 'resumed':
      return 'Pour resumed';
  }
}

/** What an entry says beyond its name: bags, water, where, why. Empty when nothing. */
function entryDetail(event: PourEvent, place: LogWordsPlace): string {
  const { locale, units, roomName } = place;
  switch (event.kind) {
    case 'mixed':
      return joined([bagsWords(event.bags, locale), event.waterL === null ? '' : `${formatLiquid(event.waterL, units, locale)} of water`]);
    case 'placed':
      return joined([
        bagsWords(event.bags, locale),
        roomName(event.roomId),
        event.lane === null ? '' : `lane ${laneNumber(place.layout, event.roomId, event.lane)}`,
      ]);
    case 'lane-finished':
      return roomName(event.roomId);
    case 'incident':
      return event.note;
    case 'discarded':
    case 'resumed':
    case 'counted':
      return saidBy(event.why, event.by);
    case 'marked':
      return saidBy(joined([roomName(event.roomId), event.why]), event.by);
    case 'joint':
      return joined([roomName(event.roomId), event.note]);
    case 'reading':
      return readingWords(event, place);
    case 'note':
      return event.text;
    case 'finished':
      return joined([
        event.bagsLeft === null ? '' : `${bagsWords(event.bagsLeft, locale)} left`,
        event.floor === 'whole' ? 'all of the floor placed' : event.floor === 'partly' ? 'part of the floor placed' : '',
      ]);
    default:
      return '';
  }
}

/** What was corrected, with a time of another day under its date: `New time 11:10 pm, 3 bags: clock read wrong, MP`. */
function correctedWords(
  { toAt, toBags, why, by }: Extract<PourEvent, { kind: 'corrected' }>,
  wasAt: string,
  { zone, locale }: LogWordsPlace,
): string {
  const time = toAt === null ? [] : formatInstantsOn(wasAt, [toAt], zone, locale);
  const parts = [...time.map((words) => `New time ${words}`), ...(toBags === null ? [] : [bagsWords(toBags, locale)])];
  return saidBy(`${joined(parts)}${because(why)}`, by);
}

/**
 * One entry in full, as the log and the job record list it: `Batch 4 placed: 2 bags, lane 1`.
 * @param events the whole log: a voided or corrected entry is named
 */
export function entryInFull(event: PourEvent, events: readonly PourEvent[], place: LogWordsPlace): string {
  if (event.kind === 'undone' || event.kind === 'corrected') {
    const other = events.find((e) => e.id === event.eventId);
    const entry = other === undefined ? 'Entry' : entryWords(other, place);
    if (event.kind === 'undone') return saidBy(`Voided: ${entry}${because(event.why ?? '')}`, event.by ?? '');
    return `Corrected: ${entry}. ${correctedWords(event, other?.instant ?? event.instant, place)}`;
  }
  const detail = entryDetail(event, place);
  return detail === '' ? entryWords(event, place) : `${entryWords(event, place)}: ${detail}`;
}
