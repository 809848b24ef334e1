/** Whether the power on site comes from a generator. */
import type { Property } from '../book/property.ts';

/** “No generators” and “no power tools before 8” say nothing of the power on site. */
const GENERATOR = /(?<!\bno )\bgenerators?\b|\bno (?:power(?! tools?\b)|electricity)\b|\b(?:power|electricity) (?:is )?(?:off|out)\b/i;

/** Whether the notes on a property name a generator, or say that there is no power. */
export const isOnGenerator = ({ access, notes }: Pick<Property, 'access' | 'notes'>): boolean =>
  [...access.map(({ text }) => text), notes].some((text) => GENERATOR.test(text));
