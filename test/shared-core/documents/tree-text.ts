/** A document's tree as the text that a reader sees. */
import type { Block, DocumentTree, Run } from '../../../shared-core/documents/tree.ts';

export const words = (runs: readonly Run[]): string => runs.map((run) => run.text).join('');

export const flat = (blocks: readonly Block[]): Block[] =>
  blocks.flatMap((b) =>
    b.kind === 'columns' ? flat(b.columns.flat()) : b.kind === 'together' || b.kind === 'cover' ? flat(b.blocks) : [b],
  );

export const textOf = (tree: DocumentTree): string =>
  flat(tree.blocks)
    .flatMap((b) => {
      switch (b.kind) {
        case 'heading':
          return [b.text];
        case 'paragraph':
          return [words(b.runs)];
        case 'list':
          return b.items.map(words);
        case 'table':
          return b.rows.map((row) => row.cells.map(words).join(' | '));
        case 'fields':
          return b.fields.map((field) => `${field.label} ${field.value ?? ''}`);
        case 'figure':
          return [`${b.label} ${b.figure}`];
        default:
          return [];
      }
    })
    .join('\n');

/** The rows of a table by column title. */
export const rowsOf = (tree: DocumentTree, caption: string): Record<string, string>[] =>
  flat(tree.blocks).flatMap((b) =>
    b.kind === 'table' && b.caption === caption
      ? b.rows.map((row) => Object.fromEntries(b.columns.map((column, i) => [column.title, words(row.cells[i] ?? [])])))
      : [],
  );
