/** Repairs and checks that a placed floor still needs, in words. */
import { isSealed } from '../book/flooring.ts';
import type { JobRoom } from '../book/job.ts';
import type { Defect } from '../book/pour-record.ts';
import { formatArea } from '../measure/area.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { type CureSchedule, hasFailedTest } from '../cure/cure-schedule.ts';
import type { FloorRest } from '../pour/floor-rest.ts';
import { capital } from '../measure/first-letter.ts';
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

/** Until when, within a sentence: a topping that is sealed gets no flooring. */
export const beforeCover = ({ flooring }: Pick<JobRoom, 'flooring'>): string =>
  isSealed(flooring) ? 'before the floor is sealed' : 'before flooring goes down';

/** The next step of a floor, in the room as it is named: `Repair a hollow spot (11 sq ft) in the family room before tile.` */
export const repairStep = (rest: Repairs, theRoom: string, before: string, place: Place): string =>
  `${capital(repairWords(rest, place))} in ${theRoom} before ${before}.`;

/** What such a floor waits for, a failed test aside. */
const repairWait = ({ patches }: Pick<Repairs, 'patches'>): 'repairs' | 'a check' => (patches.length > 0 ? 'repairs' : 'a check');

/** What flooring waits for while it has no date: `repairs and a new test`; null where only time is missing. */
export function coverWait(cure: { readonly rest: FloorRest | null; readonly schedule: Pick<CureSchedule, 'clearance'> }): string | null {
  const waits = [...(cure.rest === null ? [] : [repairWait(cure.rest)]), ...(hasFailedTest(cure.schedule) ? ['a new test'] : [])];
  return waits.length === 0 ? null : listed(waits);
}
