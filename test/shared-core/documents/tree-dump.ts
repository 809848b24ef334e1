/** A document's whole tree as text, for files that a person approves. */
import type { Block, DocumentTree, Run } from '../../../shared-core/documents/tree.ts';
import { drawingDigest } from '../drawing/mark-dump.ts';
import { letterSum } from '../fact-lines.ts';

const runText = ({ text, bold = false, italic = false, serif = false, counted = false }: Run): string => {
  const look = `${bold ? 'b' : ''}${italic ? 'i' : ''}${serif ? 's' : ''}${counted ? 'c' : ''}`;
  return look === '' ? text : `<${look} ${text}>`;
};
const words = (runs: readonly Run[]): string => runs.map(runText).join('');
const flags = (named: Readonly<Record<string, boolean | undefined>>): string =>
  Object.entries(named)
    .flatMap(([name, is]) => (is === true ? [` (${name})`] : []))
    .join('');
const indented = (lines: readonly string[]): string[] => lines.map((line) => `  ${line}`);

const MARKERS = { none: '·', number: '1.', box: '☐' } as const;

/** Rows of a long table: the first and the last ones, and a sum of the letters between that no change leaves as it was. */
const ALIKE = 10;
function shortened(rows: readonly string[]): readonly string[] {
  if (rows.length <= ALIKE) return rows;
  return [...rows.slice(0, 5), `… ${rows.length - 8} more rows, sum ${letterSum(rows.slice(5, -3).join('\n'))} …`, ...rows.slice(-3)];
}

/** A picture's data address is as long as the picture. */
const picture = (address: string): string => `${address.slice(0, 22)}… ${address.length}`;

function linesOf(block: Block): string[] {
  switch (block.kind) {
    case 'heading':
      return [`${'#'.repeat(block.level + 1)} ${block.text}`];
    case 'paragraph':
      return [`${words(block.runs)}${flags({ small: block.small })}`];
    case 'list':
      return block.items.map((item) => `${MARKERS[block.marker]} ${words(item)}${flags({ large: block.isLarge })}`);
    case 'table': {
      const heads = block.columns.map(
        ({ title, align, share }) => `${title}${align === 'end' ? ' >' : ''}${share === null ? '' : ` ${share}`}`,
      );
      const rows = block.rows.map(({ cells, ...look }) => `${cells.map(words).join(' | ')}${flags(look)}`);
      const pointed = block.pointedColumn === null ? '' : ` (column ${block.pointedColumn} pointed: ${block.pointedNote})`;
      return [`[table] ${block.caption}${pointed}`, `  ${heads.join(' | ')}`, ...indented(shortened(rows))];
    }
    case 'figure':
      return [`${block.label}: <b ${block.figure}>`];
    case 'drawing':
      return [
        `[drawing]${flags({ wide: block.wide, gives: block.gives })} ${block.alt}`,
        `  ${block.caption}`,
        `  ${drawingDigest(block.drawing)}`,
      ];
    case 'photos':
      return block.photos.map((photo) => `[photo] ${photo.caption} (${picture(photo.picture)})`);
    case 'columns':
      return block.columns.flatMap((column, i) => [`[column ${block.shares[i] ?? ''}]`, ...indented(column.flatMap(linesOf))]);
    case 'fields':
      return block.fields.map(
        ({ label, share, value, picture: signature }) =>
          `[field ${share}] ${label} ${value ?? '____'}${signature === undefined ? '' : ` (${picture(signature)})`}`,
      );
    case 'together':
    case 'cover':
      return [`[${block.kind}]`, ...indented(block.blocks.flatMap(linesOf))];
    case 'rule':
    case 'page':
      return [`[${block.kind}]`];
  }
}

/** Every word of the document with its place: headings, paragraphs, lists, tables, fields; drawings as their alternative text and a digest. */
export function treeDump(tree: DocumentTree): string {
  const { title, subject, author, language, paper, madeAt, head, foot, watermark } = tree;
  return [
    `= ${title}`,
    `${subject} / ${author} / ${language} / ${paper} / ${madeAt}${watermark === undefined ? '' : ` / ${watermark}`}`,
    `${head.name}${head.mark === null ? '' : ' (mark)'}: ${[...head.lines, '/', ...head.right].join('; ')}`,
    `Foot: ${foot}`,
    ...tree.blocks.flatMap(linesOf),
    '',
  ].join('\n');
}
