/** The flooring that goes on the floor. It decides tolerances, moisture limits and strength class. */
import { z } from 'zod';

export const flooringSchema = z.enum([
  'bare-sealed',
  'resilient',
  'tile-small',
  'tile-large',
  'stone-tile',
  'wood-glued',
  'wood-nailed',
  'floating',
  'carpet',
]);
export type Flooring = z.infer<typeof flooringSchema>;

/** Whether a floor is a topping that gets a sealer: it is the finished floor, and no flooring goes over it. */
export const isSealed = (flooring: Flooring | null): boolean => flooring === 'bare-sealed';
