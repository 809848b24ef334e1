/** What changed between two sheets, read off the sheets themselves: every cell of a table that names its rows. */
import { type Block, type DocumentTree, documentTreeSchema, type Run } from './tree.ts';

const textOf = (runs: readonly Run[]): string => runs.map((run) => run.text).join('');

type Table = Extract<Block, { kind: 'table' }>;

function tablesOf(blocks: readonly Block[]): Table[] {
  return blocks.flatMap((block): Table[] => {
    if (block.kind === 'table') return [block];
    if (block.kind === 'columns') return block.columns.flatMap(tablesOf);
    return block.kind === 'together' || block.kind === 'cover' ? tablesOf(block.blocks) : [];
  });
}

/** Rows of a table by their first cell, each as its columns' titles with what stands under them. */
function rowsOf(table: Table): Map<string, Map<string, string>> {
  return new Map(
    table.rows.map((row) => [
      textOf(row.cells[0] ?? []),
      new Map(table.columns.slice(1).map((column, i) => [column.title, textOf(row.cells[i + 1] ?? [])])),
    ]),
  );
}

/** A document kept as JSON; null when it is none, or of a shape this program does not read. */
export function readTree(content: string): DocumentTree | null {
  try {
    const read = documentTreeSchema.safeParse(JSON.parse(content));
    return read.success ? read.data : null;
  } catch {
    return null;
  }
}

/**
 * What a later sheet says otherwise than an earlier one, a sentence a row: `Living room: likely June 14 (was June 1).`
 * @param captions the tables that are compared
 */
export function treeChanges(before: DocumentTree, after: DocumentTree, captions: readonly string[]): string[] {
  const earlier = tablesOf(before.blocks);
  return tablesOf(after.blocks)
    .filter((table) => captions.includes(table.caption))
    .flatMap((table) => {
      const found = earlier.find((one) => one.caption === table.caption);
      const was = found === undefined ? new Map<string, Map<string, string>>() : rowsOf(found);
      const is = rowsOf(table);
      const changed = [...is].flatMap(([row, cells]) => {
        const old = was.get(row);
        if (old === undefined) return found === undefined ? [] : [`${row} is new.`];
        const differ = [...cells].flatMap(([title, text]) => {
          const then = old.get(title) ?? '';
          return then === text ? [] : [`${title.toLowerCase()} ${text === '' ? 'left out' : text} (was ${then === '' ? 'empty' : then})`];
        });
        return differ.length === 0 ? [] : [`${row}: ${differ.join(', ')}.`];
      });
      const gone = [...was.keys()].filter((row) => !is.has(row)).map((row) => `${row} no longer stands here.`);
      return [...changed, ...gone];
    })
    .filter((words, i, all) => all.indexOf(words) === i);
}
