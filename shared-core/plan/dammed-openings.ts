/** Which openings of a room are dammed. */
import type { Opening } from '../book/plan-fields.ts';

/** Whether a dam holds the mix at an opening: it does wherever the pour stops at its full depth, not at a feather edge. */
export const isDammed = ({ edge }: Pick<Opening, 'edge'>): boolean => edge !== 'feather';
