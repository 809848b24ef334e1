/** The words for taking down high spots: a mineral floor is ground, wood is sanded. */
export type CutWords = {
  readonly verb: string;
  readonly verbFirst: string;
  readonly noun: string;
  readonly nounFirst: string;
  readonly done: string;
};

export const GROUND: CutWords = { verb: 'grind', verbFirst: 'Grind', noun: 'grinding', nounFirst: 'Grinding', done: 'ground' };
export const SANDED: CutWords = { verb: 'sand', verbFirst: 'Sand', noun: 'sanding', nounFirst: 'Sanding', done: 'sanded' };
const EITHER: CutWords = {
  verb: 'grind or sand',
  verbFirst: 'Grind or sand',
  noun: 'grinding or sanding',
  nounFirst: 'Grinding or sanding',
  done: 'ground or sanded',
};

/** The words for several rooms together. */
export function sharedCutWords(words: readonly CutWords[]): CutWords {
  const [first = GROUND] = words;
  return words.every(({ verb }) => verb === first.verb) ? first : EITHER;
}
