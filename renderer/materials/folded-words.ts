import type { FigureSource, Material } from '../../shared-core/book/material.ts';
import { formatListAnd } from '../../shared-core/measure/list.ts';
import { countWords } from '../../shared-core/measure/count-words.ts';

/** How many figures there are, and how many are still typical. */
export function enteredWords(figures: readonly { readonly source: FigureSource | null }[]): string {
  const entered = figures.filter(({ source }) => source !== null && source !== 'typical').length;
  return `${countWords(figures.length, 'figure', 'en-US')}, ${entered === 0 ? 'none' : entered} from your data sheet.`;
}

export function notesWords({ notes, cautions, silica }: Material): string {
  const held = [notes === '' ? '' : 'notes', cautions === '' ? '' : 'cautions', silica ? 'silica' : ''].filter((word) => word !== '');
  return held.length === 0 ? 'No notes or cautions.' : `Has ${formatListAnd(held)}.`;
}
