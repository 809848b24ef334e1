/** Holidays against the published list of the US Office of Personnel Management (opm.gov, federal holidays 2026 and 2027). */
import { describe, expect, it } from 'vitest';
import { dayOff, federalHoliday, workdayBefore, workdayFrom } from '../../../shared-core/measure/workdays.ts';

/** OPM's list for 2026; July 4 is a Saturday and observed on Friday, July 3. Dates as published, from memory. */
const OPM_2026 = [
  '2026-01-01',
  '2026-01-19',
  '2026-02-16',
  '2026-05-25',
  '2026-06-19',
  '2026-07-03',
  '2026-09-07',
  '2026-10-12',
  '2026-11-11',
  '2026-11-26',
  '2026-12-25',
];
const WEEK = { days: [1, 2, 3, 4, 5], country: 'US' };

describe('working days', () => {
  it('exclude every federal holiday as observed', () => {
    for (const day of OPM_2026) expect([day, federalHoliday(day)]).toEqual([day, expect.any(String)]);
    const all = Array.from({ length: 365 }, (_, i) => new Date(Date.UTC(2026, 0, 1 + i)).toISOString().slice(0, 10));
    // July 4 itself is also left out, because nobody plans a visit on it.
    expect(all.filter((day) => federalHoliday(day) !== null).sort()).toEqual([...OPM_2026, '2026-07-04'].sort());
  });

  it('know New Year’s Day of 2028, a Saturday, as observed on December 31, 2027', () => {
    expect(federalHoliday('2027-12-31')).toBe("New Year's Day");
  });

  it('continue after days off and holidays together', () => {
    expect(workdayFrom('2026-11-26', WEEK)).toBe('2026-11-27');
    expect(workdayFrom('2026-12-25', WEEK)).toBe('2026-12-28');
    expect(workdayBefore('2026-07-05', WEEK)).toBe('2026-07-02');
    expect(dayOff('2026-11-28', WEEK)).toBe('day off');
    expect(dayOff('2026-12-25', { ...WEEK, country: 'DE' })).toBeNull();
  });

  it('return the day itself for a company without working days', () => {
    expect(workdayFrom('2026-05-12', { days: [], country: 'US' })).toBe('2026-05-12');
  });
});
