/** The parts of a line about a call, and those that go into the notes. */

/** A line from which recognized parts are blanked out, so that positions stay. */
export class Line {
  left: string;
  constructor(readonly whole: string) {
    this.left = whole;
  }
  /** Blanks a part out. */
  blank(from: number, to: number): void {
    this.left = this.left.slice(0, from) + ' '.repeat(to - from) + this.left.slice(to);
  }
  /** Brings a part back. */
  restore(from: number, to: number): void {
    this.left = this.left.slice(0, from) + this.whole.slice(from, to) + this.left.slice(to);
  }
  /** Finds a pattern and blanks it out. */
  take(pattern: RegExp): RegExpExecArray | null {
    const match = pattern.exec(this.left);
    if (match !== null) this.blank(match.index, match.index + match[0].length);
    return match;
  }
}

/** The end of a sentence; not the period of `Mrs.`, `p.m.` or `1/2 in. low`. */
export const SENTENCE_END = String.raw`(?:(?<!\b(?:[Mm][Rr][Ss]?|[Mm][Ss]|[Dd][Rr]|[Ss]t|[Ii]n|[Ff]t|[Ss]q|approx|Approx|[A-Za-z]))[.!?]+(?=\s|$)|(?<=\b(?:in|ft))\.(?=\s+[A-Z]|\s*$))`;
/** Ends a part of a line. */
export const BREAK = new RegExp(String.raw`[;\n]|,(?!\d)|${SENTENCE_END}`, 'g');
/** Ends a part of a line at a dash and at wide spaces too, where words that were read are blanked out. */
export const WIDE_BREAK = new RegExp(String.raw`[,;\n]|\s+[-–—/|+&]+\s|\s{2,}|${SENTENCE_END}`, 'g');

/** A part of a line. `end` is the comma or period after it. */
type Part = { readonly text: string; readonly from: number; readonly end: string };

/**
 * The parts of a line between its commas and the ends of its sentences.
 * @param isWide true to split at wide spaces too, where words that were read are blanked out
 */
export function partsOf(line: string, isWide: boolean): readonly Part[] {
  const ends = [...line.matchAll(isWide ? WIDE_BREAK : BREAK)].map(({ 0: end, index }) => ({ end, from: index }));
  let from = 0;
  return [...ends, { end: '', from: line.length }].flatMap((next) => {
    const whole = line.slice(from, next.from);
    const start = from + whole.length - whole.trimStart().length;
    from = next.from + next.end.length;
    return whole.trim() === '' ? [] : [{ text: whole.trim(), from: start, end: next.end }];
  });
}

/** What ends a name: the start of `(cell)`, `<pat@…>`, `@ Oak Farm`, `#4`, `- wet` or `C:`, the label of the phone, and marks at the end. */
const AFTER_NAME = [
  /\s*[(<@].*$|\s+#.*$/s,
  /\s+[-–—](?:\s.*)?$/s,
  /\s+[a-z]:\s*$/i,
  /[\s:#&/+*-]+$/,
  /\s+(?:(?:her|his|my)\s+)?(?:cell|ph|tel)\.?$/i,
];
/** Words without a capital inside a name: `Jim and Sue Hall`, `Ana de la Cruz`. */
const IN_NAME = new Set('and of the de del la las los da di du van von der den y'.split(' '));
/** A word without a capital, which is no name but in `Oak builders`. */
const PLAIN_WORD = String.raw`\s+(?!(?:builders|church|clinic|company|construction|residence|jr|sr|inc|llc)\b)\p{Ll}[^\p{Lu}\s]*`;
const PLAIN_END = new RegExp(`(?:${PLAIN_WORD})+$`, 'u');
const TALK = new RegExp(String.raw`${PLAIN_WORD}(?!\S)`, 'gu');
const isCapitalized = (text: string): boolean => /^\p{Lu}/u.test(text) && /\p{Ll}/u.test(text);

/** The name that words start with: what stands before the label of a phone and, where it is capitalized, before words that are not. */
export function nameIn(words: string): string {
  const name = AFTER_NAME.reduce((text, end) => text.replace(end, ''), words);
  if (!isCapitalized(name)) return name;
  const talk = [...name.matchAll(TALK)].find(({ 0: word }) => !IN_NAME.has(word.trim()));
  return name.slice(0, talk?.index).replace(PLAIN_END, '');
}

/** Whether words are no more than a name. Without a capital that is certain of two words alone. */
export const isName = (words: string): boolean => nameIn(words) === words && (isCapitalized(words) || words.split(/\s+/).length <= 2);

/** Words that say nothing alone. */
const JOINING = new Set("a an and the is are it its it's it’s of with at on in about me us my our back there".split(' '));
const saysMore = (words: string): boolean =>
  words.split(/\s+/).some((word) => {
    const plain = word.replace(/^[^\p{L}\p{N}]+|[^\p{L}\p{N}]+$/gu, '').toLowerCase();
    return plain !== '' && !JOINING.has(plain);
  });

/**
 * The notes of a line: each part in which words are left that were not read, as it was written.
 * @param whole the line
 * @param left the line with what was read blanked out
 * @param from where the parts start, after the name and how to reach the customer
 */
export function notesOf(whole: string, left: string, from: number): string {
  let notes = '';
  let between = '';
  for (const part of partsOf(whole.slice(from), false)) {
    const at = from + part.from;
    const isKept = saysMore(left.slice(at, at + part.text.length));
    const isEnd = !/^[,;]?$/.test(part.end);
    if (isKept) {
      notes += `${between}${part.text.replace(/\s+/g, ' ')}${/[!?]/.exec(part.end)?.[0] ?? ''}`;
      between = ', ';
    }
    if (isEnd && notes !== '') between = /[!?]$/.test(notes) ? ' ' : '. ';
  }
  return notes;
}
