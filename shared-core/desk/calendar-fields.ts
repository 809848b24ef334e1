/** A calendar entry as the desk writes it to a file (RFC 5545): the feed's own event, checked at the border. */
import { z } from 'zod';
import type { CalendarEvent } from '../agenda/calendar-feed.ts';

export const calendarEventSchema: z.ZodType<CalendarEvent, CalendarEvent> = z.strictObject({
  uid: z.string().min(3).max(200),
  jobId: z.string().max(60),
  sequence: z.int().min(0),
  status: z.enum(['CONFIRMED', 'TENTATIVE', 'CANCELLED']),
  summary: z.string().min(1).max(500),
  description: z.string().max(5000),
  location: z.string().max(500),
  startAt: z.iso.datetime(),
  endAt: z.iso.datetime(),
  day: z.strictObject({ from: z.iso.date(), until: z.iso.date() }).nullable(),
  timeZone: z.string().min(1).max(80),
  alarmsMin: z
    .array(
      z
        .int()
        .min(-24 * 60)
        .max(60 * 24 * 60),
    )
    .max(5),
  busy: z.boolean(),
});
