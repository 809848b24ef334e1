import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { missingEntries, pourOfJournal, restoredLog } from '../../../shared-core/pour/pour-journal.ts';
import { aPour, entry, theEnd } from './journal-entries.ts';

const numbers = (many: number) => Array.from({ length: many }, (_, i) => i + 1);

describe('what the recovery log has beyond the database', () => {
  it('restores lost entries in order, each once, whatever was logged twice', () => {
    fc.assert(
      fc.property(fc.array(fc.boolean(), { minLength: 1, maxLength: 40 }), fc.array(fc.nat(39), { maxLength: 10 }), (lost, twice) => {
        const log = lost.map((_, i) => entry(i + 1));
        const inBook = log.filter((_, i) => lost[i] === false);
        const journal = [...log, ...twice.flatMap((i) => log[i] ?? [])];
        const missing = missingEntries(journal, inBook);
        expect(missing).toEqual(log.filter((_, i) => lost[i] === true));
        expect(restoredLog([...inBook].reverse(), missing)).toEqual(log);
      }),
      { numRuns: 60 },
    );
  });

  it('inserts lost entries by their time when the pour continued under the same numbers', () => {
    const book = [entry(1), entry(2), entry(3, 'b', 7), entry(4, 'b', 9)];
    // A database gives rows in the order of their keys.
    const restored = restoredLog([...book].reverse(), [entry(3), entry(4), entry(5, 'a', 8)]);
    expect(restored.map(({ id }) => id)).toEqual([
      'entry-a-1',
      'entry-a-2',
      'entry-a-3',
      'entry-a-4',
      'entry-b-3',
      'entry-a-5',
      'entry-b-4',
    ]);
    expect(restored.map(({ seq }) => seq)).toEqual(numbers(7));
  });

  it('restores the pour as finished only where its end was not undone', () => {
    const log = [entry(1), theEnd(2)];
    expect(pourOfJournal(aPour, log).finishedAt).toBe(entry(1).instant);
    const { instant, ...stamps } = entry(3);
    expect(
      pourOfJournal(aPour, [
        ...log,
        { id: 'undo-3', pourId: stamps.pourId, seq: 3, instant, estimated: false, kind: 'undone', eventId: 'end-2' },
      ]).finishedAt,
    ).toBeNull();
    expect(pourOfJournal(aPour, [entry(1)]).finishedAt).toBeNull();
  });
});
