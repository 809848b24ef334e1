/** What changed between two revisions of a document: all it prints but its drawings, tables cell by cell. */
import type { Block, DocumentTree, Run } from './tree.ts';
import { lowerFirst } from '../measure/first-letter.ts';

const textOf = (runs: readonly Run[]): string => runs.map((run) => run.text).join('');

type Table = Extract<Block, { kind: 'table' }>;

/** Heading of the changes a document prints: they are of the revision before it. */
export const CHANGES_HEADING = 'Changed since the last revision';
const HEAD = 'Letterhead';
/** A longer line is not repeated; its heading alone says where it is. */
const MOST_LETTERS = 120;

function tablesOf(blocks: readonly Block[]): Table[] {
  return blocks.flatMap((block): Table[] => {
    if (block.kind === 'table') return [block];
    if (block.kind === 'columns') return block.columns.flatMap(tablesOf);
    return block.kind === 'together' || block.kind === 'cover' ? tablesOf(block.blocks) : [];
  });
}

/** Rows of a table by their first cell, each as its column titles with their text. A checklist's numbers move with the lines before. */
function rowsOf(table: Table): Map<string, Map<string, string>> {
  return new Map(
    table.rows.map((row) => [
      textOf(row.cells[0] ?? []).replace(/^\d+\u00a0{2}/, ''),
      new Map(table.columns.slice(1).map((column, i) => [column.title, textOf(row.cells[i + 1] ?? [])])),
    ]),
  );
}

/** The lines outside the tables under the heading they follow. */
function linesOf({ head, blocks }: DocumentTree): Map<string, string[]> {
  const lines = new Map<string, string[]>([[HEAD, [head.name, ...head.lines, ...head.right]]]);
  let under = HEAD;
  const add = (...more: readonly string[]): void => void lines.set(under, [...(lines.get(under) ?? []), ...more]);
  let isUnderDrawing = false;
  const walk = (block: Block): void => {
    // A note under a drawing is its key.
    const isKey = isUnderDrawing && block.kind === 'paragraph' && block.small === true;
    isUnderDrawing = block.kind === 'drawing';
    if (isKey) return;
    switch (block.kind) {
      case 'heading':
        under = block.text;
        return add();
      case 'paragraph':
        return add(textOf(block.runs));
      case 'list':
        return add(...block.items.map(textOf));
      case 'figure':
        return add(`${block.label} ${block.figure}`);
      case 'fields':
        return add(...block.fields.flatMap(({ label, value }) => (value === undefined ? [] : [`${label}: ${value}`])));
      case 'photos':
        return add(...block.photos.map(({ caption }) => caption));
      case 'columns':
        return block.columns.flat().forEach(walk);
      case 'together':
      case 'cover':
        return block.blocks.forEach(walk);
      default:
    }
  };
  blocks.forEach(walk);
  lines.delete(CHANGES_HEADING);
  return lines;
}

type Change = { readonly under: string; readonly words: string };

function tableChanges(before: DocumentTree, after: DocumentTree): Change[] {
  const [earlier, later] = [tablesOf(before.blocks), tablesOf(after.blocks)];
  const gone = earlier.filter(({ caption }) => !later.some((table) => table.caption === caption));
  return [
    ...later.flatMap((table): Change[] => {
      const under = table.caption;
      const earlierTable = earlier.find((other) => other.caption === under);
      if (earlierTable === undefined) return [{ under, words: `${under}: added.` }];
      const [rowsBefore, rowsAfter] = [rowsOf(earlierTable), rowsOf(table)];
      const changed = [...rowsAfter].flatMap(([row, cells]) => {
        const old = rowsBefore.get(row);
        if (old === undefined) return [`${row} was added.`];
        const differ = [...cells].flatMap(([title, text]) => {
          const textBefore = old.get(title) ?? '';
          return textBefore === text
            ? []
            : [`${lowerFirst(title)} ${text === '' ? 'none' : text} (was ${textBefore === '' ? 'none' : textBefore})`];
        });
        return differ.length === 0 ? [] : [`${row}: ${differ.join(', ')}.`];
      });
      const removed = [...rowsBefore.keys()].filter((row) => !rowsAfter.has(row)).map((row) => `${row} was removed.`);
      return [...changed, ...removed].map((words) => ({ under, words }));
    }),
    ...gone.map(({ caption }) => ({ under: caption, words: `${caption}: removed.` })),
  ];
}

/** What the lines under one heading say differently; '' for nothing. One short new line is told whole. */
function lineChange(under: string, before: readonly string[], after: readonly string[]): string {
  if (before.join('\n') === after.join('\n')) return '';
  const [line = '', ...more] = after.filter((text) => !before.includes(text));
  return more.length === 0 && line !== '' && line.length <= MOST_LETTERS ? `Now: ${line}` : `${under}: changed.`;
}

/** What a later revision states differently, one sentence each: `Living room: likely June 14 (was June 1).` */
export function treeChanges(before: DocumentTree, after: DocumentTree): string[] {
  const inTables = tableChanges(before, after);
  const [earlier, later] = [linesOf(before), linesOf(after)];
  const told = new Set(inTables.map(({ under }) => under));
  const inLines = [...new Set([...later.keys(), ...earlier.keys()])]
    .filter((under) => !told.has(under))
    .flatMap((under) => lineChange(under, earlier.get(under) ?? [], later.get(under) ?? []) || []);
  return [...new Set([...inTables.map(({ words }) => words), ...inLines])];
}
