/** A calendar entry as the desk writes it to a file (RFC 5545). Its content comes from `agenda`. */
import { z } from 'zod';

export const calendarEventSchema = z.strictObject({
  /** Globally unique and stable for the life of the entry (RFC 5545, 3.8.4.7). */
  uid: z.string().min(3).max(200),
  sequence: z.int().min(0),
  /** UTC instants; an all-day entry uses the days instead. */
  startsAt: z.iso.datetime().nullable(),
  endsAt: z.iso.datetime().nullable(),
  /** First day and the day after the last, for an all-day entry. */
  firstDay: z.iso.date().nullable(),
  dayAfterLast: z.iso.date().nullable(),
  /** IANA zone of the property; the entry's clock times are kept in it. */
  timeZone: z.string().min(1).max(80),
  summary: z.string().min(1).max(500),
  description: z.string().max(5000),
  location: z.string().max(500),
  cancelled: z.boolean(),
  /** Minutes before the start; empty for no alarm. */
  alarmsMinutesBefore: z.array(z.int().min(0).max(60 * 24 * 60)).max(5),
  changedAt: z.iso.datetime(),
});
export type CalendarEvent = z.infer<typeof calendarEventSchema>;
