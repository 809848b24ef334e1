/** Time of each pour task: minimum, usual and maximum, minutes. */
import { z } from 'zod';
import { notNegative } from './fields.ts';

export const triangularSchema = z
  .strictObject({ least: notNegative, usual: notNegative, most: notNegative })
  .refine((t) => t.least <= t.usual && t.usual <= t.most, 'The usual time must be between the shortest and the longest.');
export type Triangular = z.infer<typeof triangularSchema>;

/** Task times of a crew or a business. */
export const taskTimeFields = {
  measureMin: triangularSchema,
  mixMin: triangularSchema,
  scrapeMin: triangularSchema,
  carryMin: triangularSchema,
  spreadMin: triangularSchema,
  emptyMin: triangularSchema,
  stoppagesPerHour: notNegative.max(30),
  stoppageMin: triangularSchema,
};
export const taskTimesSchema = z.strictObject(taskTimeFields);
export type TaskTimes = z.infer<typeof taskTimesSchema>;

/** The part of a crew's record that is its times by task. */
export function taskTimesOf(crew: TaskTimes): TaskTimes {
  const { measureMin, mixMin, scrapeMin, carryMin, spreadMin, emptyMin, stoppagesPerHour, stoppageMin } = crew;
  return { measureMin, mixMin, scrapeMin, carryMin, spreadMin, emptyMin, stoppagesPerHour, stoppageMin };
}
