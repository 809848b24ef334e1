/** What every import says before anything is taken: what was left out and why, and what has to be answered first. */

/** A row of the file that is not imported, by its number in the file, and why. */
export type LeftOut = { readonly row: number; readonly why: string };

/** Something odd that the user answers: leave it as it is, or take the suggested change of the choice of columns. */
export type ImportQuestion<Kind extends string, Choice> = {
  readonly kind: Kind;
  /** What was seen and what to do, in a sentence or two. */
  readonly message: string;
  /** What to change to put it right; empty when only the user can say. */
  readonly suggest: Partial<Choice>;
  /** It cannot be left as it is: nothing is imported until the choice is changed. */
  readonly blocks?: true;
};

/** The first question that is still open; null when each was answered. */
export function openQuestion<Kind extends string, Choice>(
  questions: readonly ImportQuestion<Kind, Choice>[],
  answered: readonly string[],
): ImportQuestion<Kind, Choice> | null {
  return questions.find(({ kind, blocks }) => blocks === true || !answered.includes(kind)) ?? null;
}
