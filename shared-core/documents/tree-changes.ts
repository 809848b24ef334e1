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

/** Tells what stands under one name apart by its place among them, as the doorways that each option of a quote lists. */
function byName<T>(all: readonly T[], nameOf: (one: T) => string): Map<string, { readonly name: string; readonly one: T }> {
  const counts = new Map<string, number>();
  return new Map(
    all.map((one) => {
      const name = nameOf(one);
      const count = (counts.get(name) ?? 0) + 1;
      counts.set(name, count);
      return [`${name}\n${count}`, { name, one }];
    }),
  );
}

/** A row's first cell. A checklist's numbers move with the lines before. */
const nameOfRow = ({ cells: [first = []] }: Table['rows'][number]): string => textOf(first).replace(/^\d+\u00a0{2}/, '');

/** The text of a row by its column titles, without its first cell. */
const cellsOf = (table: Table, row: Table['rows'][number] | undefined): Map<string, string> =>
  new Map(table.columns.slice(1).map((column, i) => [column.title, textOf(row?.cells[i + 1] ?? [])]));

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

const tablesByCaption = ({ blocks }: DocumentTree) => byName(tablesOf(blocks), ({ caption }) => caption);

function rowChanges(before: Table, after: Table): string[] {
  const [earlier, later] = [byName(before.rows, nameOfRow), byName(after.rows, nameOfRow)];
  const changed = [...later].flatMap(([key, { name, one }]) => {
    const old = earlier.get(key);
    if (old === undefined) return [`${name} was added.`];
    const cellsBefore = cellsOf(before, old.one);
    const differ = [...cellsOf(after, one)].flatMap(([title, text]) => {
      const textBefore = cellsBefore.get(title) ?? '';
      return textBefore === text
        ? []
        : [`${lowerFirst(title)} ${text === '' ? 'none' : text} (was ${textBefore === '' ? 'none' : textBefore})`];
    });
    return differ.length === 0 ? [] : [`${name}: ${differ.join(', ')}.`];
  });
  return [...changed, ...[...earlier].flatMap(([key, { name }]) => (later.has(key) ? [] : [`${name} was removed.`]))];
}

function tableChanges(before: DocumentTree, after: DocumentTree): Change[] {
  const [earlier, later] = [tablesByCaption(before), tablesByCaption(after)];
  return [
    ...[...later].flatMap(([key, { name: under, one }]): Change[] => {
      const old = earlier.get(key);
      return (old === undefined ? [`${under}: added.`] : rowChanges(old.one, one)).map((words) => ({ under, words }));
    }),
    ...[...earlier].flatMap(([key, { name: under }]) => (later.has(key) ? [] : [{ under, words: `${under}: removed.` }])),
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
