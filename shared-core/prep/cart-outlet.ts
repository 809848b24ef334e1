/** Outlet types of a cart or hopper, and their checks. */
import type { Crew } from '../book/job.ts';

/** What to check on an outlet before the hopper is filled. Common practice, no source. */
export function outletWords(outlet: Crew['outlet']): string {
  switch (outlet) {
    case 'cap':
      return 'Wipe the thread of the cap, screw it tight, and test it with water.';
    case 'gate':
      return 'A slide gate closes only on a clean seat. Wipe it, push it shut, and test it with water.';
    case 'valve':
      return 'A ball valve binds on sand and is easily left open. Turn it, look through it, and test it with water.';
    case undefined:
    case null:
      return 'A ball valve binds on sand and is easily left open. A threaded cap closes and wipes clean. Test either with water.';
  }
}
