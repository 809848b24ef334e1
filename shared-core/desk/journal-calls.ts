/**
 * The calls that keep a running pour's log a second time, in a file of its own outside the browser's profile. A request brings a
 * pour's id, never a path.
 */
import { z } from 'zod';
import { idSchema } from '../book/fields.ts';
import { pourEventSchema, pourSchema } from '../book/pour-record.ts';
import { call } from './call.ts';

export const JOURNAL_CALLS = {
  /** Adds an entry to the end of the pour's journal, on the disk before it answers. The first entry also stores the pour. */
  'journal.add': call(
    z
      .strictObject({ pour: pourSchema, event: pourEventSchema })
      .refine(({ pour, event }) => event.pourId === pour.id, { error: 'The entry belongs to another pour.', path: ['event', 'pourId'] }),
    z.strictObject({ bytes: z.int() }),
  ),
  /** The pours that have a journal. */
  'journal.list': call(z.strictObject({}), z.strictObject({ pourIds: z.array(idSchema) })),
  /** A pour's journal, entries in the order they were added; a line that cannot be read is counted and left out. */
  'journal.read': call(
    z.strictObject({ pourId: idSchema }),
    z.strictObject({ pour: pourSchema.nullable(), events: z.array(pourEventSchema), unreadable: z.int() }),
  ),
  /** Deletes a journal, or renames it to set it aside. */
  'journal.close': call(
    z.strictObject({ pourId: idSchema, fate: z.enum(['remove', 'set-aside']) }),
    z.strictObject({ closed: z.boolean() }),
  ),
} as const;
