/** The basic schemas of every record. Unknown values are `null`, never a number. */
import { z } from 'zod';

/** A record's id: 8 to 40 characters that are safe in a file name and a URL. */
export const idSchema = z.string().regex(/^[A-Za-z0-9_-]{4,40}$/, 'An id has 4 to 40 letters, digits, hyphens, or underscores.');

/** An instant in UTC, ISO 8601 with a trailing Z. */
export const instantSchema = z.iso.datetime({ error: 'A date and time is written in UTC, such as 2026-05-12T14:05:00Z.' });

/** A calendar day, `2026-05-12`, in the time zone of its record. */
export const daySchema = z.iso.date({ error: 'A day is written year-month-day, such as 2026-05-12.' });

/** A wall-clock time of day, `07:30`. */
export const clockSchema = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'A time of day is written 07:30.');

/** An IANA time zone name. Its existence is checked where it is entered. */
export const zoneSchema = z.string().regex(/^[A-Za-z_]+(\/[A-Za-z0-9_+-]+)*$/, 'A time zone is written like America/New_York.');

export const shortText = z.string().max(200, 'Enter 200 characters or fewer. Put the rest in the notes.');
export const nameText = z.string().trim().min(1, 'Enter a name.').max(200, 'Enter a name of 200 characters or fewer.');
export const longText = z.string().max(20_000, 'Enter notes of 20,000 characters or fewer.');

export const finite = z.number({ error: 'Enter a number.' });
export const notNegative = finite.min(0, 'Enter 0 or more.');
export const positive = finite.gt(0, 'Enter a number greater than 0.');
/** A share from 0 to 1. */
export const share = finite.min(0, 'Enter 0% or more.').max(1, 'Enter 100% or less.');
export const count = z.int('Enter a whole number.').min(0, 'Enter 0 or more.');

/** Whole minor units (cents) of the business's currency. */
export const moneyMinor = z.int('Enter an amount in whole cents.');

/** Meters in the room's own axes: x to the right, y down the sheet. */
export const pointSchema = z.strictObject({ xM: finite, yM: finite });
export type Point = z.infer<typeof pointSchema>;

/** Fields of every record: its id, when it was made and last changed, and when it was archived (null while in use). */
export const stamps = {
  id: idSchema,
  createdAt: instantSchema,
  changedAt: instantSchema,
  deletedAt: instantSchema.nullable(),
};

/** A range: minimum, likely, maximum. */
export const rangeSchema = z
  .strictObject({ least: finite, likely: finite, most: finite })
  .refine((r) => r.least <= r.likely && r.likely <= r.most, 'The likely value must be between the minimum and the maximum.');
export type Range = z.infer<typeof rangeSchema>;
