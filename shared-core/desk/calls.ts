/**
 * The contract between the screens and the machine: every call once, with what it takes and what it gives.
 * Both hosts register and serve exactly this list; the names stand in `call-names.ts`, and neither list compiles without the other.
 */
import { z } from 'zod';
import { documentTreeSchema } from '../documents/tree.ts';
import { JOURNAL_CALLS } from './journal-calls.ts';
import { BACKUP_CALLS } from './backup-calls.ts';
import { call } from './call.ts';
import type { CallName } from './call-names.ts';
import type { CalendarEvent } from '../agenda/calendar-feed.ts';

/** A calendar entry as the desk writes it to a file (RFC 5545): the feed’s own event, checked at the border. */
const calendarEventSchema: z.ZodType<CalendarEvent, CalendarEvent> = z.strictObject({
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

/** Names that Windows keeps for devices, with any ending (Microsoft, Naming Files, Paths, and Namespaces). */
const isReserved = (name: string): boolean => /^(con|prn|aux|nul|com[0-9]|lpt[0-9]) *(\.|$)/i.test(name);

/** A file's own name: letters, digits, spaces, dots, hyphens; no folder, no leading dot. */
export const fileNameSchema = z
  .string()
  .max(120, 'A file name is at most 120 characters.')
  .regex(
    /^[\p{L}\p{N}][\p{L}\p{N} ._,()-]*\.(pdf|ics|csv|json|zip|txt|png|jpg|webp|xlsx|html)$/u,
    'A file name has letters, digits, spaces, and hyphens, and ends in its type.',
  )
  .refine((name) => !name.includes('..'), 'A file name has no two dots in a row.')
  .refine((name) => !isReserved(name), 'Windows keeps this name for a device. Choose another name.');

const calendarPlace = z.strictObject({
  folder: z.string(),
  /** Whether the user chose it. */
  chosen: z.boolean(),
  /** Whether this host can ask for another. */
  canChoose: z.boolean(),
});
const keptFile = z.strictObject({ name: z.string(), folder: z.string(), bytes: z.int() });

/** A folder among the papers: a job's own. */
export const folderNameSchema = z
  .string()
  .max(120, 'A folder name is at most 120 characters.')
  .regex(/^[\p{L}\p{N}][\p{L}\p{N} ,()-]*[\p{L}\p{N})]$/u, 'A folder name has letters, digits, spaces, and hyphens.')
  .refine((name) => !isReserved(name), 'Windows keeps this name for a device. Choose another name.');

export const CALLS = {
  /** Who is on the other side and what it can do. */
  'desk.about': call(
    z.strictObject({}),
    z.strictObject({
      host: z.string(),
      version: z.string(),
      can: z.strictObject({ openFiles: z.boolean(), keepFiles: z.boolean(), notify: z.boolean(), stayAwake: z.boolean() }),
      papersFolder: z.string(),
    }),
  ),
  /** Inks a document as a tagged PDF; `version` is the program that inked it. */
  'document.ink': call(
    z.strictObject({ tree: documentTreeSchema }),
    z.strictObject({ pdfBase64: z.string(), pages: z.int().min(1), sha256: z.string(), version: z.string() }),
  ),
  /** Where calendar files are saved: the folder the user chose, or the papers folder. */
  'calendar.place': call(z.strictObject({}), calendarPlace),
  /** Lets the user choose that folder in the system's own dialog, or goes back to the papers folder. No path is ever sent here. */
  'calendar.choose': call(z.strictObject({ choose: z.enum(['other', 'usual']) }), calendarPlace.extend({ changed: z.boolean() })),
  /** Writes a calendar file into that folder, in place of the one of the same name: beside, flushed, renamed. */
  'calendar.save': call(
    z.strictObject({
      file: fileNameSchema,
      name: z.string().min(1).max(200),
      events: z.array(calendarEventSchema).max(100_000),
      sentAt: z.iso.datetime(),
    }),
    keptFile,
  ),
  /**
   * Saves a file in the documents folder, or in a folder of it. A different file of that name is left as it is: the new one gets
   * a number. Its content is `bytes`, or `base64` for a caller that has it so.
   */
  'file.save': call(
    z
      .strictObject({
        name: fileNameSchema,
        base64: z.string().max(200_000_000).optional(),
        bytes: z.instanceof(Uint8Array).optional(),
        folder: folderNameSchema.optional(),
      })
      .refine(({ base64, bytes }) => (base64 === undefined) !== (bytes === undefined), 'A file has its content once.'),
    keptFile,
  ),
  /** Opens a kept file with the system's own program for it. */
  'file.open': call(z.strictObject({ name: fileNameSchema }), z.strictObject({ opened: z.boolean() })),
  /** Opens the documents folder, or a folder of it, or the Backups folder. */
  'folder.open': call(
    z.strictObject({ folder: folderNameSchema.optional(), which: z.enum(['papers', 'backups']).optional() }),
    z.strictObject({ opened: z.boolean() }),
  ),
  ...BACKUP_CALLS,
  ...JOURNAL_CALLS,
  /** Keeps the machine from deep sleep while a pour runs. */
  'power.stay-awake': call(z.strictObject({ on: z.boolean() }), z.strictObject({ on: z.boolean() })),
  /** Shows a notification of the system. */
  'notice.show': call(
    z.strictObject({ title: z.string().min(1).max(120), body: z.string().max(400) }),
    z.strictObject({ shown: z.boolean() }),
  ),
  /** Writes one line about a failure to the program's own log file. */
  'log.write': call(
    z.strictObject({ level: z.enum(['info', 'warning', 'error']), message: z.string().max(8000) }),
    z.strictObject({ written: z.boolean() }),
  ),
} as const satisfies Record<CallName, ReturnType<typeof call>>;

export type Takes<N extends CallName> = z.input<(typeof CALLS)[N]['takes']>;
export type Taken<N extends CallName> = z.output<(typeof CALLS)[N]['takes']>;
export type Gives<N extends CallName> = z.output<(typeof CALLS)[N]['gives']>;

/** The most bytes one call may carry; both hosts refuse more. */
export const BODY_LIMIT_BYTES = 256 * 1024 * 1024;
