/** How long before an entry somebody wants to be reminded of it: in calendar files and in the program's own notices alike. */
import type { EntryKind } from './agenda-entry.ts';

/** Minutes before the start. Common practice, no source. */
export const ALARMS_MIN: Readonly<Record<EntryKind, readonly number[]>> = {
  'finish-quote': [],
  'quote-lapses': [],
  'lab-result': [],
  'prep-visit': [60],
  'primer-window': [0],
  pour: [12 * 60, 60],
  'walk-on': [],
  'next-lift': [60],
  'clearance-test': [60],
  cover: [],
  promise: [24 * 60],
  visit: [60],
  handover: [60],
};
