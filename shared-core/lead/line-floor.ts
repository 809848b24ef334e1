/** The floor that is there, as a line about a call tells it: its layers from the top down. */
import type { LayerMaterial } from '../book/layer.ts';
import { isCarrying, isOldFlooring } from '../substrate/layer-words.ts';
import { type Line, partsOf } from './line-parts.ts';
import type { Span } from './read-step.ts';
import { SIZE } from './room-size.ts';
import { readLayers } from './trade-words.ts';

/** What a floor that is there is like, which stays in the notes. */
const STATE = 'wet|damaged|original|berber|saltillo|hex|pine|red|white|glued?(?:[ -]down)?|floating|t ?& ?g';
/** What may stand before the words for a floor, and the size of its pieces. After other words, `will be tile`, it is as often the new floor. */
const LEAD_IN = new RegExp(
  String.raw`^(?<words>(?:(?:and|with|has|have|existing|old|current(?:ly)?|presently|(?:right\s+)?now|some|all|both|there(?:[’']?s)?|that|it(?:[’']?s)?|is|are|(?:the\s+)?floors?|${STATE}):?\s+)*)(?<size>${SIZE.source}\s+)?`,
  'i',
);

/** The materials that words such as `tile over slab` name, from the top down; null when one of them is not known. */
export const readFloor = (text: string): LayerMaterial[] | null => readLayers(text)?.map((layer) => layer.material) ?? null;

/** Whether words for a floor say what it lies on: `tile over slab`. */
const hasBase = (text: string): boolean => {
  const layers = readFloor(text) ?? [];
  return layers.length > 1 && layers.slice(-1).every(isCarrying);
};

/** Words for a floor where the line has them. `isSized` is whether the size of its pieces came before. */
type Found = Span & { readonly text: string; readonly isSized: boolean };

/**
 * Whether a part of the line is a covering on the floor named after it: `carpet, tile over slab`. Nothing but carpet is laid on pad and
 * nothing on carpet, and a size alone before another covering, `24x48 tile, old oak over ply`, is as often that of the new floor. Common
 * practice, no source.
 */
function isOnTop({ text, isSized }: Found, floor: string): boolean {
  const [layer, ...more] = readFloor(text) ?? [];
  const [under = 'unknown'] = readFloor(floor) ?? [];
  if (layer === undefined || more.length > 0 || !isOldFlooring(layer) || !hasBase(`${text} over ${floor}`)) return false;
  if (!isOldFlooring(under)) return true;
  return hasBase(floor) && !isSized && under !== 'carpet' && (under !== 'foam-pad' || layer === 'carpet');
}

/**
 * The words for the floor: whole parts of the line with what the floor lies on, `tile over slab` or `tile, slab`, or else those
 * that name a layer. Two floors are of two rooms, and stay in the notes.
 */
export function takeFloor(line: Line): string {
  const parts = partsOf(line.left, true).flatMap(({ text: part, from }): Found[] => {
    const { 0: before = '', groups: { words = '', size } = {} } = LEAD_IN.exec(part) ?? {};
    const isWhole = readFloor(part) !== null;
    const text = isWhole ? part : part.slice(before.length);
    const isFloor = isWhole || (size === undefined && words !== '' ? hasBase(text) : readFloor(text) !== null);
    return isFloor ? [{ text, from: from + part.length - text.length, to: from + part.length, isSized: size !== undefined }] : [];
  });
  const floors = parts.reduceRight<{ text: string; parts: Found[] }[]>((after, part) => {
    const [next, ...rest] = after;
    const isJoined = /^\s*,\s*$/.test(line.whole.slice(part.to, next?.parts[0]?.from)) && isOnTop(part, next?.text ?? '');
    return next !== undefined && isJoined
      ? [{ text: `${part.text} over ${next.text}`, parts: [part, ...next.parts] }, ...rest]
      : [{ text: part.text, parts: [part] }, ...after];
  }, []);
  const based = floors.filter(({ text }) => hasBase(text));
  const [floor, ...others] = based.length > 0 ? based : floors;
  if (floor === undefined || others.some(({ text }) => text.toLowerCase() !== floor.text.toLowerCase())) return '';
  for (const { from, to } of floor.parts) line.blank(from, to);
  // A layer does not say these, so the notes keep them.
  for (const { 0: word, index } of line.whole.matchAll(/asbestos|cracked|loose/gi)) line.restore(index, index + word.length);
  return floor.text;
}
