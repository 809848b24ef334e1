import { describe, expect, it } from 'vitest';
import { pourEventSchema } from '../../../shared-core/book/pour-record.ts';
import { bagsWords, entryInFull } from '../../../shared-core/documents/log-words.ts';
import { points } from '../../outlines.ts';

it('one bag is one as it is shown, to a tenth', () => {
  expect([0, 0.5, 0.96, 1, 1.04, 1.06, 12].map((bags) => bagsWords(bags, 'en-US'))).toEqual([
    '0 bags',
    '0.5 bags',
    '1 bag',
    '1 bag',
    '1 bag',
    '1.1 bags',
    '12 bags',
  ]);
});

describe('an entry of the log with the name of who made it', () => {
  const entry = (more: Record<string, unknown>): string => {
    const event = pourEventSchema.parse({
      ...{ id: 'event-1', pourId: 'pour-1', seq: 1, estimated: false, instant: '2026-06-24T13:01:00.000Z' },
      ...{ why: 'customer called.', by: 'WT', ...more },
    });
    return entryInFull(event, [], { units: 'us', locale: 'en-US', zone: 'America/New_York', layout: null, roomName: () => '' });
  };

  it('has no period before the name', () => {
    const outline = points('1,1 2,1 2,2');
    const marked = { kind: 'marked', roomId: 'room-1', outline, state: 'suspect', defect: 'hollow' };
    expect(entry(marked)).toBe('Area marked hollow spot: customer called, WT');
    expect(entry({ ...marked, by: '' })).toBe('Area marked hollow spot: customer called.');
    expect(entry({ kind: 'counted', bags: 4 })).toBe('4 bags counted: customer called, WT');
    expect(entry({ kind: 'undone', eventId: 'event-0' })).toBe('Voided: Entry: customer called, WT');
  });
});

describe('a corrected time in the log', () => {
  const base = { pourId: 'pour-1', estimated: false };
  const placed = pourEventSchema.parse({
    ...{ ...base, id: 'event-1', seq: 1, instant: '2026-05-12T03:55:00.000Z' },
    ...{ kind: 'placed', batch: 3, roomId: null, lane: null, bags: 2 },
  });
  const words = (toAt: string, toBags: number | null = null) => {
    const fix = pourEventSchema.parse({
      ...{ ...base, id: 'event-2', seq: 2, instant: '2026-05-12T12:00:00.000Z' },
      ...{ kind: 'corrected', eventId: 'event-1', toAt, toBags, why: 'clock read wrong', by: 'MP' },
    });
    // Four hours behind UTC in May.
    const place = { units: 'us', locale: 'en-US', zone: 'America/New_York', layout: null, roomName: () => '' } as const;
    return entryInFull(fix, [placed, fix], place);
  };

  it('is named, with its day where that is another one', () => {
    expect(words('2026-05-12T03:10:00.000Z')).toBe('Corrected: Batch 3 placed. New time 11:10 pm: clock read wrong, MP');
    expect(words('2026-05-12T04:20:00.000Z', 3)).toBe(
      'Corrected: Batch 3 placed. New time Tue, May 12, 12:20 am, 3 bags: clock read wrong, MP',
    );
  });
});
