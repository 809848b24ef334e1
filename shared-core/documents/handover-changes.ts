/** What changed between two revisions of a document, read off their tables cell by cell. */
import type { Block, DocumentTree, Run } from './tree.ts';
import { lowerFirst } from '../measure/first-letter.ts';

const textOf = (runs: readonly Run[]): string => runs.map((run) => run.text).join('');

type Table = Extract<Block, { kind: 'table' }>;

function tablesOf(blocks: readonly Block[]): Table[] {
  return blocks.flatMap((block): Table[] => {
    if (block.kind === 'table') return [block];
    if (block.kind === 'columns') return block.columns.flatMap(tablesOf);
    return block.kind === 'together' || block.kind === 'cover' ? tablesOf(block.blocks) : [];
  });
}

/** Rows of a table by their first cell, each as its column titles with their text. */
function rowsOf(table: Table): Map<string, Map<string, string>> {
  return new Map(
    table.rows.map((row) => [
      textOf(row.cells[0] ?? []),
      new Map(table.columns.slice(1).map((column, i) => [column.title, textOf(row.cells[i + 1] ?? [])])),
    ]),
  );
}

/**
 * What a later revision states differently, one sentence per row: `Living room: likely June 14 (was June 1).`
 * @param captions the tables that are compared
 */
export function treeChanges(before: DocumentTree, after: DocumentTree, captions: readonly string[]): string[] {
  const earlier = tablesOf(before.blocks);
  return tablesOf(after.blocks)
    .filter((table) => captions.includes(table.caption))
    .flatMap((table) => {
      const earlierTable = earlier.find((other) => other.caption === table.caption);
      const rowsBefore = earlierTable === undefined ? new Map<string, Map<string, string>>() : rowsOf(earlierTable);
      const rowsAfter = rowsOf(table);
      const changed = [...rowsAfter].flatMap(([row, cells]) => {
        const old = rowsBefore.get(row);
        if (old === undefined) return earlierTable === undefined ? [] : [`${row} was added.`];
        const differ = [...cells].flatMap(([title, text]) => {
          const textBefore = old.get(title) ?? '';
          return textBefore === text
            ? []
            : [`${lowerFirst(title)} ${text === '' ? 'none' : text} (was ${textBefore === '' ? 'none' : textBefore})`];
        });
        return differ.length === 0 ? [] : [`${row}: ${differ.join(', ')}.`];
      });
      const removed = [...rowsBefore.keys()].filter((row) => !rowsAfter.has(row)).map((row) => `${row} was removed.`);
      return [...changed, ...removed];
    })
    .filter((words, i, all) => all.indexOf(words) === i);
}
