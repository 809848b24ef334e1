/** A room of a property: its plan, what its floor is made of, the readings and tests taken in it. */
import { z } from 'zod';
import { ballparkGuessSchema } from './ballpark-guess.ts';
import { idSchema, longText, nameText, stamps } from './fields.ts';
import { circumstancesSchema, layerSchema, testSchema } from './layer.ts';
import { markSchema, planSchema, surveySchema } from './plan-fields.ts';

export const roomSchema = z.strictObject({
  ...stamps,
  propertyId: idSchema,
  name: nameText,
  plan: planSchema,
  layers: z.array(layerSchema).max(30),
  survey: surveySchema,
  /** What is guessed of the depth for a price before any reading; null while unknown, not used once there are readings. */
  ballpark: ballparkGuessSchema.nullable(),
  /** The part still to be poured, read again with points on the placed floor beside it; null until it is. */
  surveyRest: surveySchema.nullable(),
  /** The same room read again after the pour; null until it is. */
  surveyAfter: surveySchema.nullable(),
  tests: z.array(testSchema).max(500),
  marks: z.array(markSchema).max(200),
  circumstances: circumstancesSchema,
  notes: longText,
});
export type Room = z.infer<typeof roomSchema>;
