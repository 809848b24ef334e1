/** What the reader of a call is given in the US, and the lengths that tests compare with. */
import { emptyAddress } from '../../../shared-core/book/new-records.ts';
import type { LeadContext } from '../../../shared-core/lead/lead-records.ts';
import { type LineContext, readLeadLine } from '../../../shared-core/lead/read-line.ts';

/** A Tuesday, 11 am in New York. */
export const US: LineContext = { now: '2026-05-12T15:00:00.000Z', zone: 'America/New_York', units: 'us', locale: 'en-US', country: 'US' };
/** International foot of 0.3048 m, and inch of 25.4 mm: NIST SP 811, appendix B.8. */
export const [FT, IN] = [0.3048, 0.0254];
let next = 0;
export const OF: LeadContext = {
  ...{ now: US.now, zone: US.zone, units: US.units, locale: US.locale, address: emptyAddress('US') },
  newId: () => `id-${(next += 1).toString().padStart(4, '0')}`,
  known: null,
  knownProperty: null,
  knownRooms: [],
};
export const read = (text: string) => readLeadLine(text, US);
