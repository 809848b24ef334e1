/** Short words for rooms in a line about a call, and what tells them from a name. */
import { capital } from '../measure/first-letter.ts';
import { SIZE } from './room-size.ts';
import { ROOM_NAME, ROOM_WORD } from './trade-words.ts';

/** Short words for rooms, which name one only before its size: `kit 12x14`. Common practice, no source. */
const SHORT_ROOMS: Readonly<Record<string, string>> = {
  kit: 'kitchen',
  mbr: 'primary bedroom',
  master: 'primary bedroom',
  primary: 'primary bedroom',
  br: 'bedroom',
  lr: 'living room',
  breakfast: 'breakfast nook',
};

/** One of these words, with its number, as the source of a regular expression. */
export const SHORT_ROOM = String.raw`(?<short>(?<![\w/’'-])(?:${Object.keys(SHORT_ROOMS).join('|')})(?:\s?\d)?\b)`;
/** A size after a room, and one with a room of its own after it, which has no other size. */
const SIZE_NEXT = new RegExp(String.raw`^:?\s+${SIZE.source}`, 'i');
const ROOM_NEXT = new RegExp(String.raw`${SIZE_NEXT.source}\s+${ROOM_NAME}\b(?!:?\s+(?:${SIZE.source}|${ROOM_WORD}\b))`, 'i');

/**
 * Whether a short word for a room is of the name before it: written like it, and its second word, after `and`, or without a size of its own.
 * `Odell Kit 12x14`, `Dana & Kit 12x14 kitchen`, but `Odell kit 12x14` and `Dana MBR 12x14`.
 */
export function isOfName(word: string, before: string, after: string): boolean {
  if (/[,;\d]/.test(before) || !/[aeiou]/i.test(word)) return false;
  if (/[A-Z]/.test(before) && !/^[A-Z]/.test(word)) return false;
  return /^\s*\S+\s+$|(?:&|\band)\s+$/i.test(before) || !SIZE_NEXT.test(after) || ROOM_NEXT.test(after);
}

/** The name of a room: `Primary bedroom` for `MBR`, `Bedroom 2` for `br2`. */
export function roomName(text: string): string {
  const [, word = '', number = ''] = /^(.*?)\s?(\d?)$/.exec(text.toLowerCase()) ?? [];
  const long = SHORT_ROOMS[word];
  return capital(long === undefined ? text.toLowerCase() : `${long} ${number}`.trim());
}
