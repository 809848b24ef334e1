/** The designation of a screed material by EN 13813, such as `CT-C25-F5`, read into its classes. */
import type { Parsed } from '../measure/parsed.ts';

/** Binder letters of EN 13813. */
export const EN_BINDERS = { CT: 'cement', CA: 'calcium sulfate', MA: 'magnesite', AS: 'mastic asphalt', SR: 'synthetic resin' } as const;

/** A binder by its letters. */
export type EnBinder = keyof typeof EN_BINDERS;

/** Class numbers of EN 13813: C and F in N/mm² at 28 days, A in cm³/50 cm² of wear (less is better), B in N/mm² of bond. */
export const EN_CLASSES = {
  C: [5, 7, 12, 16, 20, 25, 30, 35, 40, 50, 60, 70, 80],
  F: [1, 2, 3, 4, 5, 6, 7, 10, 15, 20, 30, 40, 50],
  A: [22, 15, 12, 9, 6, 3, 1.5],
  B: [0.2, 0.5, 1, 1.5, 2],
} as const;

type ClassLetter = keyof typeof EN_CLASSES;

const CLASS_WORDS: Record<ClassLetter, string> = { C: 'compressive strength', F: 'flexural strength', A: 'wear', B: 'bond' };

/** A designation read: classes not declared are null. Strengths in pascals. */
export type EnDesignation = {
  readonly binder: EnBinder;
  readonly compressivePa: number | null;
  readonly flexuralPa: number | null;
  readonly wearClass: number | null;
  readonly bondPa: number | null;
};

const PA_PER_N_MM2 = 1e6;

/**
 * Reads a designation by EN 13813.
 * @param text as printed: `CT-C25-F5`, `ca c30 f6`
 * @returns binder and classes, or which part is not a class and the nearest classes
 */
export function parseEnDesignation(text: string): Parsed<EnDesignation> {
  const typed = text
    .trim()
    .toUpperCase()
    .replace(/^EN\s*13813[\s:]*/, '');
  const [binder = '', ...parts] = typed.split(/[\s-]+/);
  if (!isBinder(binder))
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
  const inPa = (value: number | undefined) => (value === undefined ? null : value * PA_PER_N_MM2);
  return {
    ok: true,
    value: { binder, compressivePa: inPa(read.C), flexuralPa: inPa(read.F), wearClass: read.A ?? null, bondPa: inPa(read.B) },
  };
}

function isBinder(text: string): text is EnBinder {
  return Object.hasOwn(EN_BINDERS, text);
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
