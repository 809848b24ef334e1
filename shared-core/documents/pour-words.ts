/** What pour mode asks about an entry, and what is wrong with the plan of a pour, in words. */
import type { PourQuestion, StackCount } from '../pour/pour-commands.ts';
import { minutesWords } from './log-words.ts';

/** Compares the stack with the log: `60 bags on site, 6 used: the log has 54 left and you counted 57.` */
export function stackWords({ bagsBrought, bagsUsed, bagsLeft, counted }: StackCount): string {
  return `${bagsBrought} bags on site, ${bagsUsed} used: the log has ${bagsLeft} left and you counted ${counted}.`;
}

/** The question before an entry is logged that looks like a mistake. */
export function questionWords(question: PourQuestion): string {
  switch (question.kind) {
    case 'started-again':
      return 'This pour has already started. Start it again?';
    case 'mixed-twice':
      return `Batch ${question.batch} was logged less than a second ago. Is this another batch?`;
    case 'placed-twice':
      return `A batch was logged less than a second ago. Was batch ${question.batch} placed too?`;
    case 'mixed-short':
      return `The log has ${question.bagsLeft} of ${question.bags} bags left. Log batch ${question.batch} anyway?`;
    case 'placed-short':
      return `The log had ${question.bagsLeft} of ${question.bags} bags left. Log batch ${question.batch} anyway?`;
    case 'undone-before':
      return `Batch ${question.batch} was logged ${minutesWords(question.minutesAgo)} ago and undone. Restore it with that time?`;
    case 'none-placed':
      return 'No batch is placed yet. Is the lane finished anyway?';
    case 'count-differs':
      return `The log has ${question.bagsLeft} bags left and you counted ${question.counted}. Use the count?`;
    case 'still-mixed':
      return `Batch ${question.batch} is mixed and not placed. Finish the pour anyway?`;
    case 'end-count-differs':
      return `${stackWords(question)} Finish with your count?`;
  }
}
