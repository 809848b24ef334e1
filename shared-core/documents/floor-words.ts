/** What a pour placed, in words. One function a sentence, for screens and papers alike. */
import { formatListAnd } from '../measure/list.ts';
import { formatArea } from '../measure/area.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import type { PourAfter } from '../pour/after-pour.ts';
import { floorRest } from '../pour/floor-rest.ts';
import type { PlacedRoom, RoomFloor } from '../pour/placed-floor.ts';
import { capital } from '../measure/first-letter.ts';
import { defectWords } from '../standing/repair-words.ts';

type Place = { readonly units: UnitSystem; readonly locale: string };

/** `poured`, `partly poured`, `not poured`: of the finished floor. */
export function extentWords(extent: RoomFloor['extent']): string {
  return extent === 'whole' ? 'poured' : extent === 'partly' ? 'partly poured' : 'not poured';
}

/** What is open, to repair or suspect of one lift, a sentence each; empty when all of the floor is placed and sound. */
export function openWords(room: PlacedRoom, { units, locale }: Place): readonly string[] {
  const sentences: string[] = [];
  const lanes = room.openLanes.map(String);
  const laneWords = lanes.length === 0 ? '' : `, ${lanes.length === 1 ? 'lane' : 'lanes'} ${formatListAnd(lanes)}`;
  if (room.extent !== 'whole' && room.notPlacedM2 > 0)
    sentences.push(`${formatArea(room.notPlacedM2, units, locale)} not placed${laneWords}.`);
  if (room.takenOutM2 > 0) sentences.push(`${formatArea(room.takenOutM2, units, locale)} removed.`);
  const rest = floorRest({ lift: room });
  if (rest !== null && rest.patches.length > 0) sentences.push(`${capital(defectWords(rest, { units, locale }))}: repair before flooring.`);
  if (rest !== null && rest.toCheckM2 > 0) sentences.push(`${formatArea(rest.toCheckM2, units, locale)} suspect: check before flooring.`);
  return sentences;
}

/** Where a room stands between lifts: `Lift 1 of 2 is placed.` Empty for one lift. */
export function liftsWords(floor: Pick<RoomFloor, 'liftsPlanned' | 'liftsWhole'>): string {
  if (floor.liftsPlanned < 2) return '';
  return floor.liftsWhole >= floor.liftsPlanned
    ? `${floor.liftsPlanned === 2 ? 'Both' : `All ${floor.liftsPlanned}`} lifts are placed.`
    : `Lift ${Math.max(1, floor.liftsWhole)} of ${floor.liftsPlanned} ${floor.liftsWhole === 0 ? 'is not whole yet' : 'is placed'}.`;
}

const LOOK = 'Look for ridges or hairline cracks before flooring.';

type Watched = Pick<PourAfter, 'toWatch' | 'placed' | 'timed' | 'timedJoints' | 'noPlace'>;

/** Whether joints were met in time, and where to look. Only joints between batches logged with a time and a place of their own are judged. */
export function watchWords({ toWatch, placed, timed, timedJoints, noPlace }: Watched): string {
  const isAllTimed = timed === placed;
  if (placed < 2 || (isAllTimed && timedJoints === 0)) return 'Too few batches are logged to time any joint.';
  if (timedJoints === 0) return `Batches were logged together, so joints were not timed. ${LOOK}`;
  const beyond = noPlace === 1 ? '1 batch was' : `${noPlace} batches were`;
  const notTimed = [
    ...(isAllTimed ? [] : ['Joints of batches logged together were not timed.']),
    ...(noPlace === 0
      ? []
      : [`${beyond} placed past the last lane logged as finished, and ${noPlace === 1 ? 'its' : 'their'} joints were not timed.`]),
  ];
  const rest = notTimed.length === 0 ? '' : ` ${notTimed.join(' ')} ${LOOK}`;
  if (toWatch.length === 0)
    return `All joints between ${rest === '' ? 'logged' : 'timed'} batches were met within the healing time.${rest}`;
  const places = [...new Set(toWatch.map((s) => `batch ${s.olderBatch}`))].join(', ');
  const cold = `${toWatch.length === 1 ? '1 possible cold joint' : `${toWatch.length} possible cold joints`}, at ${places}.`;
  if (rest !== '') return `${cold}${rest}`;
  return `${cold} ${toWatch.length === 1 ? 'Look for a ridge or a hairline crack before flooring.' : LOOK}`;
}
