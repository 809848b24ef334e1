import { describe, expect, it } from 'vitest';
import { pourEventSchema } from '../../../shared-core/book/pour-record.ts';
import { points } from '../../outlines.ts';
import { entryInFull } from '../../../shared-core/documents/log-words.ts';
import {
  cartOverloadWords,
  paperProblemWords,
  pourProblemWords,
  questionWords,
  stationOverWords,
} from '../../../shared-core/documents/pour-words.ts';
import type { PourProblem } from '../../../shared-core/pour/layout.ts';
import type { PourQuestion } from '../../../shared-core/pour/pour-commands.ts';

describe('questionWords', () => {
  const count = { bagsBrought: 10, bagsUsed: 13, bagsLeft: -3, counted: 5 };
  const said: readonly (readonly [PourQuestion, string])[] = [
    [{ kind: 'mixed-twice', batch: 4 }, 'Batch 4 was logged less than a second ago. Is this another batch?'],
    [{ kind: 'placed-twice', batch: 5 }, 'A batch was logged less than a second ago. Was batch 5 placed too?'],
    [{ kind: 'mixed-short', batch: 7, bags: 2, bagsLeft: 1 }, 'The log has 1 of 2 bags left. Log batch 7 anyway?'],
    [{ kind: 'placed-short', batch: 7, bags: 2, bagsLeft: 1 }, 'The log had 1 of 2 bags left. Log batch 7 anyway?'],
    [{ kind: 'undone-before', batch: 3, minutesAgo: 1 }, 'Batch 3 was logged 1 minute ago and undone. Restore it with that time?'],
    [{ kind: 'undone-before', batch: 3, minutesAgo: 0 }, 'Batch 3 was logged 0 minutes ago and undone. Restore it with that time?'],
    [{ kind: 'none-placed' }, 'No batch is placed yet. Is the lane finished anyway?'],
    [{ kind: 'count-differs', ...count }, 'The log has -3 bags left and you counted 5. Use the count?'],
    [{ kind: 'count-differs', ...count, bagsLeft: 1 }, 'The log has 1 bag left and you counted 5. Use the count?'],
    [{ kind: 'still-mixed', batch: 6 }, 'Batch 6 is mixed and not placed. Finish the pour anyway?'],
    [{ kind: 'end-count-differs', ...count }, '10 bags on site, 13 used: the log has -3 left and you counted 5. Finish with your count?'],
  ];
  it.each(said)('asks what %o means', (question, words) => expect(questionWords(question)).toBe(words));
});

describe('what is wrong', () => {
  const problems: readonly (readonly [PourProblem, string])[] = [
    [{ kind: 'no-rooms' }, 'Select the rooms of this pour.'],
    [{ kind: 'no-batch-size' }, 'Enter the bags per batch and the yield per bag.'],
    [{ kind: 'no-floor' }, 'No floor to pour. Draw the room, or check the dammed joints.'],
    [{ kind: 'no-depth' }, 'The pour has no depth. Check the finish elevation and the minimum thickness.'],
    [{ kind: 'no-mixer' }, 'Enter at least one mixing station.'],
    [{ kind: 'no-spreader' }, 'Enter at least one spreader.'],
    [{ kind: 'no-batch' }, 'Lay out the pour first.'],
    [{ kind: 'no-load' }, 'Enter how many batches the cart holds.'],
    [{ kind: 'no-times' }, 'Enter the minutes for measuring, mixing or scraping out.'],
    [{ kind: 'no-layout-stored' }, 'This pour was started without a layout.'],
    [
      { kind: 'too-many-batches', batches: 2001 },
      'That is 2001 batches, more than one pour can have. Check the depth and the bags per batch, or divide the floor.',
    ],
    [{ kind: 'not-drawn', room: 'Hall' }, 'Hall is not drawn yet. Draw it, then plan the pour.'],
    [{ kind: 'lanes-do-not-fit', room: 'Hall' }, 'Lanes of that width do not fit in Hall. Choose a width of a few feet, or about a meter.'],
  ];
  it.each(problems)('keeps a pour from being planned: %o', (problem, words) => expect(pourProblemWords(problem)).toBe(words));

  it.each([
    ['not-numbered', 'Line 2: number the batches from 1.'],
    ['range-backward', 'Line 2, batch 3: the last batch of the line comes before its first.'],
    ['no-bags', 'Line 2, batch 3: enter the bags per batch.'],
    ['no-time', 'Line 2, batch 3: the time cannot be read. Enter it like 9:40.'],
    [
      'out-of-order',
      'Line 2, batch 3: the time is before that of the line above, or more than 12 hours after it. Put the lines in the order the batches were placed.',
    ],
    ['repeated', 'Line 2, batch 3: batch 4 is already in a line above.'],
  ] as const)('names the line of a handwritten log: %s', (kind, words) =>
    expect(paperProblemWords({ kind, line: 2, batch: 3, repeated: 4 })).toBe(words),
  );

  it('says what the cart holds and how many batches to load', () => {
    const load = { batches: 5, loadL: 63.5, holdsL: 63, fit: 4 };
    expect(cartOverloadWords(load, 'metric', 'en-US')).toBe('5 batches are 63.5 L, and the cart holds 63 L: load 4.');
    expect(cartOverloadWords({ ...load, holdsL: 12, fit: 0 }, 'metric', 'en-US')).toBe(
      '5 batches are 63.5 L, and the cart holds 12 L: not even one batch goes in.',
    );
  });

  it('says how many are named for a station and how many are planned', () => {
    expect(stationOverWords({ station: 'mixing', named: 2, planned: 1 })).toBe('2 are named for mixing, and the plan has 1.');
    expect(stationOverWords({ station: 'carrying', named: 1, planned: 0 })).toBe('1 is named for carrying, and the plan has 0.');
  });
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
