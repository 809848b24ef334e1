import type { Property } from '../book/property.ts';
import { formatListAnd } from '../measure/list.ts';

/** Names within a sentence: the Lindqvists’ family room, Dale Tremaine’s workshop. */

/** Words that identify a company or an institution. */
const FIRM =
  /\b(inc|llc|ltd|co|company|corp|gmbh|trust|school|church|library|club|hall|office|studio|association|partners|group|city|town|county)\b\.?/i;

const lastWord = (text: string): string => text.trim().split(/\s+/).at(-1) ?? text;

function surnames(name: string): readonly string[] {
  const people = name.split(/\s*(?:,|&|\band\b)\s*/).filter((p) => p !== '');
  const last = people.at(-1) ?? name;
  // In "Ida and Per Lindqvist" the lone first name shares the surname that follows.
  const shared = people.map((p) => (/\s/.test(p) || p === last ? lastWord(p) : lastWord(last)));
  return [...new Set(shared)];
}

const isFirm = (name: string): boolean => FIRM.test(name) || /\d/.test(name);
const isOnePerson = (name: string): boolean => /^\S+(\s+\S+)+$/.test(name) && !/,|&|\band\b/.test(name);

const plural = (surname: string): string => `${surname}${/(s|x|z|ch|sh)$/i.test(surname) ? 'es' : 's'}`;
const possessive = (name: string): string => `${name}’s`;

/** A customer's short name: `Lindqvist`, `Abara and Finch`, a firm's whole name. */
export function shortName(name: string): string {
  return isFirm(name) ? name.trim() : surnames(name.trim()).join(' and ');
}

/** A customer's name in a task: `Dale Tremaine`, `the Lindqvists`, `Abara and Finch`. */
export function customerWords(name: string): string {
  const trimmed = name.trim();
  if (isFirm(trimmed) || isOnePerson(trimmed)) return trimmed;
  const families = surnames(trimmed);
  return families.length === 1 ? `the ${plural(families[0] ?? trimmed)}` : families.join(' and ');
}

/** The possessive: `Dale Tremaine’s`, `the Lindqvists’`, `Abara and Finch’s`. */
export function whose(name: string): string {
  const customer = customerWords(name);
  return customer.startsWith('the ') ? `${customer}’` : possessive(customer);
}

/** A room's name inside a sentence: `Family room` becomes `family room`, `TV room` stays. */
export function roomWords(name: string): string {
  return /^\p{Lu}[^\p{Lu}]*$/u.test(name) ? name.charAt(0).toLowerCase() + name.slice(1) : name;
}

/** A list in words: `a`, `a and b`, `a, b, and c`. */
export const listed = formatListAnd;

/** Capitalizes the first letter. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** A property by its street address, or `Address not recorded`. */
export function propertyName({ address }: Pick<Property, 'address'>): string {
  return address.line.trim() === '' ? 'Address not recorded' : address.line;
}
