/** Checks shared by every import: the rows left out with their reasons, and the questions to answer first. */

/** A row of the file that is not imported, by its row number, and the reason. */
export type LeftOut = { readonly row: number; readonly why: string };

/** A possible problem for the user to answer: keep it, or accept the suggested change of the column choices. */
export type ImportQuestion<Kind extends string, Choice> = {
  readonly kind: Kind;
  /** The problem and what to do, in a sentence or two. */
  readonly message: string;
  /** The change that corrects it; empty when only the user can decide. */
  readonly suggest: Partial<Choice>;
  /** It must be corrected: nothing is imported until the choice changes. */
  readonly blocks?: true;
};

/** The first unanswered question; null when all are answered. */
export function openQuestion<Question extends { readonly kind: string; readonly blocks?: true }>(
  questions: readonly Question[],
  answered: readonly string[],
): Question | null {
  return questions.find(({ kind, blocks }) => blocks === true || !answered.includes(kind)) ?? null;
}
