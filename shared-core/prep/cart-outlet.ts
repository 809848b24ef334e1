/** How the outlet of a cart or hopper closes, and what to know of it. */
import type { Crew } from '../book/job.ts';

/** What to know of an outlet before it is filled behind. Common practice, no source. */
export function outletWords(outlet: Crew['outlet']): string {
  switch (outlet) {
    case 'cap':
      return 'A cap on an outside thread closes and wipes clean: wipe the thread, screw it home, pour water in.';
    case 'gate':
      return 'A slide gate closes only on a clean seat: wipe it, push it home, pour water in.';
    case 'valve':
      return 'A quarter-turn ball valve binds on grains of sand and is easily left open: turn it, look through it, pour water in.';
    case undefined:
    case null:
      return 'A quarter-turn ball valve binds on grains of sand and is easily left open. A cap on an outside thread closes and wipes clean.';
  }
}
