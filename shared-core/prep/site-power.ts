/** Whether the power on site comes from a generator. */
import type { Property } from '../book/property.ts';

const GENERATOR = /\bgenerators?\b|\bno (?:power|electricity)\b|\b(?:power|electricity) (?:is )?(?:off|out)\b/i;

/** Whether the notes on a property name a generator, or say that there is no power. */
export const isOnGenerator = ({ access, notes }: Pick<Property, 'access' | 'notes'>): boolean =>
  [...access.map(({ text }) => text), notes].some((text) => GENERATOR.test(text));
