/** The designation of a screed material by EN 13813, such as `CT-C25-F5`, read into its classes. */
import type { Parsed } from './parsed.ts';

/** Binder letters of EN 13813: cement, calcium sulfate, magnesite, mastic asphalt, synthetic resin. */
const EN_BINDERS = ['CT', 'CA', 'MA', 'AS', 'SR'];

/** Class numbers of EN 13813: C and F in N/mm² at 28 days, A in cm³/50 cm² of wear (less is better), B in N/mm² of bond. */
export const EN_CLASSES = {
  C: [5, 7, 12, 16, 20, 25, 30, 35, 40, 50, 60, 70, 80],
  F: [1, 2, 3, 4, 5, 6, 7, 10, 15, 20, 30, 40, 50],
  A: [22, 15, 12, 9, 6, 3, 1.5],
  B: [0.2, 0.5, 1, 1.5, 2],
} as const;

type ClassLetter = keyof typeof EN_CLASSES;

const CLASS_WORDS: Record<ClassLetter, string> = { C: 'compressive strength', F: 'flexural strength', A: 'wear', B: 'bond' };

const PA_PER_N_MM2 = 1e6;

/**
 * Checks a designation by EN 13813, and reads the compressive strength it declares.
 * @param text as printed: `CT-C25-F5`, `ca c30 f6`
 * @returns pascals, null where none is declared; or which part is not a class and the nearest classes
 */
export function parseEnDesignation(text: string): Parsed<number | null> {
  const typed = text
    .trim()
    .toUpperCase()
    .replace(/^EN\s*13813[\s:]*/, '');
  const [binder = '', ...parts] = typed.split(/[\s-]+/);
  if (!EN_BINDERS.includes(binder))
    return {
      ok: false,
      message: `“${text.trim()}” does not start with a binder of EN 13813. Enter CT, CA, MA, AS, or SR, such as CT-C25-F5.`,
    };
  const read: Partial<Record<ClassLetter, number>> = {};
  for (const part of parts) {
    const match = /^([CFAB])(\d+(?:[.,]\d+)?)$/.exec(part);
    const letter = match?.[1];
    if (!isClassLetter(letter))
      return { ok: false, message: `“${part}” is not a class. Enter C, F, A, or B with its number, such as C25.` };
    const value = Number((match?.[2] ?? '').replace(',', '.'));
    const classes: readonly number[] = EN_CLASSES[letter];
    if (!classes.includes(value))
      return { ok: false, message: `${part} is not a class of ${CLASS_WORDS[letter]}: ${nearest(letter, value)}.` };
    if (read[letter] !== undefined) return { ok: false, message: `${CLASS_WORDS[letter]} is given twice in “${text.trim()}”.` };
    read[letter] = value;
  }
  if ((binder === 'CT' || binder === 'CA') && (read.C === undefined || read.F === undefined)) {
    return { ok: false, message: `${binder} needs a C and an F class, such as ${binder}-C25-F5.` };
  }
  return { ok: true, value: read.C === undefined ? null : read.C * PA_PER_N_MM2 };
}

function isClassLetter(text: string | undefined): text is ClassLetter {
  return text !== undefined && Object.hasOwn(EN_CLASSES, text);
}

function nearest(letter: ClassLetter, value: number): string {
  const classes = [...EN_CLASSES[letter]].sort((a, b) => a - b);
  const below = classes.findLast((c) => c < value);
  const above = classes.find((c) => c > value);
  const named = [below, above].flatMap((c) => (c === undefined ? [] : [`${letter}${c}`]));
  return named.length === 2 ? `the classes beside it are ${named.join(' and ')}` : `the nearest is ${named[0] ?? ''}`;
}
