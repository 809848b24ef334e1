/** Repairs and checks that a placed floor still needs, in words. */
import { isSealed } from '../book/flooring.ts';
import type { JobRoom } from '../book/job.ts';
import type { Defect } from '../book/pour-record.ts';
import { formatArea } from '../measure/area.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { type CureSchedule, hasFailedTest } from '../cure/cure-schedule.ts';
import type { FloorRest } from '../pour/floor-rest.ts';
import { capital } from '../measure/first-letter.ts';
import { milestoneName } from './cure-words.ts';
import { listed } from './names.ts';

type Place = { readonly units: UnitSystem; readonly locale: string };
type Repairs = Pick<FloorRest, 'patches' | 'toCheckM2'>;

const DEFECTS: Readonly<Record<Defect, string>> = {
  pinholes: 'pinholes',
  ridge: 'a ridge',
  hollow: 'a hollow spot',
  'low-spot': 'a low spot',
};

/** The defects found, with their area: `a hollow spot (11 sq ft)`; empty for none. */
export function defectWords({ patches }: Pick<Repairs, 'patches'>, { units, locale }: Place): string {
  if (patches.length === 0) return '';
  const areaM2 = patches.reduce((sum, patch) => sum + patch.areaM2, 0);
  return `${listed([...new Set(patches.map(({ defect }) => DEFECTS[defect]))])} (${formatArea(areaM2, units, locale)})`;
}

/** What is to do: `repair a hollow spot (11 sq ft) and check 8 sq ft of the floor`; empty for nothing. */
export function repairWords(rest: Repairs, place: Place): string {
  const defects = defectWords(rest, place);
  return listed([
    ...(defects === '' ? [] : [`repair ${defects}`]),
    ...(rest.toCheckM2 > 0 ? [`check ${formatArea(rest.toCheckM2, place.units, place.locale)} of the floor`] : []),
  ]);
}

/** Until when, or where once the flooring is down, within a sentence: a topping that is sealed gets no flooring. */
export function beforeCover({ flooring }: Pick<JobRoom, 'flooring'>, { laidOn }: Pick<CureSchedule, 'laidOn'>): string {
  if (laidOn !== null) return isSealed(flooring) ? 'under the sealer' : 'under the flooring';
  return isSealed(flooring) ? 'before the floor is sealed' : 'before flooring goes down';
}

/** What a repair comes before, or is under: `before tile`, `under the tile`. */
export function repairPlace({ cover, laidOn }: Pick<CureSchedule, 'cover' | 'laidOn'>): string {
  const name = cover === null ? 'use' : milestoneName(cover);
  return laidOn === null ? `before ${name}` : `under the ${name}`;
}

/** The next step of a floor, in the room as it is named: `Repair a hollow spot (11 sq ft) in the family room before tile.` */
export const repairStep = (rest: Repairs, theRoom: string, schedule: Pick<CureSchedule, 'cover' | 'laidOn'>, place: Place): string =>
  `${capital(repairWords(rest, place))} in ${theRoom} ${repairPlace(schedule)}.`;

/** What such a floor waits for, a failed test aside. */
const repairWait = ({ patches }: Pick<Repairs, 'patches'>): 'repairs' | 'a check' => (patches.length > 0 ? 'repairs' : 'a check');

/** What flooring waits for while it has no date: `repairs and a new test`; null where only time is missing. */
export function coverWait(cure: {
  readonly rest: FloorRest | null;
  readonly schedule: Pick<CureSchedule, 'clearance' | 'laidOn'>;
}): string | null {
  const waits = [...(cure.rest === null ? [] : [repairWait(cure.rest)]), ...(hasFailedTest(cure.schedule) ? ['a new test'] : [])];
  return waits.length === 0 ? null : listed(waits);
}
