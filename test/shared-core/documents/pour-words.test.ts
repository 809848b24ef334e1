import { describe, expect, it } from 'vitest';
import { questionWords } from '../../../shared-core/documents/pour-words.ts';
import type { PourQuestion } from '../../../shared-core/pour/pour-commands.ts';

describe('questionWords', () => {
  const count = { bagsBrought: 10, bagsUsed: 13, bagsLeft: -3, counted: 5 };
  const said: readonly (readonly [PourQuestion, string])[] = [
    [{ kind: 'started-again' }, 'This pour has already started. Start it again?'],
    [{ kind: 'mixed-twice', batch: 4 }, 'Batch 4 was logged less than a second ago. Is this another batch?'],
    [{ kind: 'placed-twice', batch: 5 }, 'A batch was logged less than a second ago. Was batch 5 placed too?'],
    [{ kind: 'mixed-short', batch: 7, bags: 2, bagsLeft: 1 }, 'The log has 1 of 2 bags left. Log batch 7 anyway?'],
    [{ kind: 'placed-short', batch: 7, bags: 2, bagsLeft: 1 }, 'The log had 1 of 2 bags left. Log batch 7 anyway?'],
    [{ kind: 'undone-before', batch: 3, minutesAgo: 1 }, 'Batch 3 was logged 1 minute ago and undone. Restore it with that time?'],
    [{ kind: 'undone-before', batch: 3, minutesAgo: 0 }, 'Batch 3 was logged 0 minutes ago and undone. Restore it with that time?'],
    [{ kind: 'none-placed' }, 'No batch is placed yet. Is the lane finished anyway?'],
    [{ kind: 'count-differs', ...count }, 'The log has -3 bags left and you counted 5. Use the count?'],
    [{ kind: 'still-mixed', batch: 6 }, 'Batch 6 is mixed and not placed. Finish the pour anyway?'],
    [{ kind: 'end-count-differs', ...count }, '10 bags on site, 13 used: the log has -3 left and you counted 5. Finish with your count?'],
  ];
  it.each(said)('asks what %o means', (question, words) => expect(questionWords(question)).toBe(words));
});
