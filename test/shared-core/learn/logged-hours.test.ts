import { describe, expect, it } from 'vitest';
import type { Hours } from '../../../shared-core/book/ledger.ts';
import { loggedHours, nameOf, taskOfLine } from '../../../shared-core/learn/logged-hours.ts';
import { sampleAt } from '../../sample-at.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { hours } from '../ledger/entries.ts';

const whole = wholeJobsOf(sampleAt('2026-05-12T15:00:00Z')).find((one) => one.job.id === 'sample-job-abara');
if (whole === undefined) throw new Error('the sample has no such job');
const bare = { ...whole, ledger: [] };

describe('hours read from the logs', () => {
  it('are those between start and finish of each pour, for everyone on the crew', () => {
    const pours = loggedHours(bare).filter(({ task }) => task === 'Pour');
    // By hand: the owner and one helper at each finished pour.
    expect(pours).toHaveLength(whole.pours.length * 2);
    for (const pour of whole.pours) {
      const minutes = (Date.parse(pour.finishedAt ?? '') - Date.parse(pour.startedAt ?? '')) / 60_000;
      expect(pours.filter(({ readFrom }) => readFrom.includes(pour.id)).map((one) => one.minutes)).toEqual([
        Math.round(minutes),
        Math.round(minutes),
      ]);
    }
  });
  it('are for the person whose initials are in the signature', () => {
    expect(nameOf('RT', ['Ros Teague', 'Bea Lorne'])).toBe('Ros Teague');
    expect(nameOf('bea', ['Ros Teague', 'Bea Lorne'])).toBe('Bea Lorne');
    expect(nameOf('XY', ['Ros Teague'])).toBe('XY');
    expect(taskOfLine('remove:layer-1')).toBe('Remove old flooring');
    expect(taskOfLine('grind')).toBe('Prepare the surface');
    expect(taskOfLine('windows')).toBe('Other prep');
  });
  it('disappear once recorded, return when voided, and give way to hours entered by hand', () => {
    const [first] = loggedHours(bare);
    if (first === undefined) throw new Error('no hours in the logs');
    const entry: Hours = {
      ...hours('h1', first.minutes, 6500, { who: first.who, task: first.task }),
      onDay: first.onDay,
      readFrom: first.readFrom,
    };
    const keys = (ledger: Hours[]): string[] => loggedHours({ ...bare, ledger }).map(({ readFrom }) => readFrom);
    expect(keys([entry])).not.toContain(first.readFrom);
    expect(keys([{ ...entry, voidedAt: '2026-05-12T00:00:00Z' }])).toContain(first.readFrom);
    const byHand = loggedHours({ ...bare, ledger: [{ ...entry, readFrom: '', task: 'Prep' }] });
    expect(byHand.filter(({ onDay, who }) => onDay === first.onDay && who === first.who)).toEqual([]);
  });
});
