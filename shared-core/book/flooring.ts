/** What the floor will carry when the work is done. Decides tolerances, moisture limits and strength class. */
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
