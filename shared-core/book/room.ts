/** A room of a property: its plan, what its floor is made of, the readings and tests taken in it. */
import { z } from 'zod';
import { idSchema, longText, nameText, positive, stamps } from './fields.ts';
import { circumstancesSchema, layerSchema, testSchema } from './layer.ts';
import { markSchema, planSchema, surveySchema } from './plan-fields.ts';

export const roomSchema = z.strictObject({
  ...stamps,
  propertyId: idSchema,
  name: nameText,
  plan: planSchema,
  layers: z.array(layerSchema).max(30),
  /** Worst gap under a 6 ft level, in meters, as estimated before any reading; null while unknown. */
  roughGapM: positive.nullable(),
  survey: surveySchema,
  /** The same room read again after the pour; null until it is. */
  surveyAfter: surveySchema.nullable(),
  tests: z.array(testSchema).max(500),
  marks: z.array(markSchema).max(200),
  circumstances: circumstancesSchema,
  notes: longText,
});
export type Room = z.infer<typeof roomSchema>;
