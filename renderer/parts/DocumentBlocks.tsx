import { createElement, type ReactNode } from 'react';
import type { Block, Run } from '../../shared-core/documents/tree.ts';
import { DrawingView } from './DrawingView.tsx';
import { Table } from './Table.tsx';
import { useMedia } from './use-small.ts';
import './DocumentBlocks.css';

interface DocumentBlocksProps {
  readonly blocks: readonly Block[];
  /** The heading level of the document's own title. */
  readonly topLevel?: 2 | 3;
}

/** A document on the screen, from the tree that is inked. */
export function DocumentBlocks({ blocks, topLevel = 2 }: DocumentBlocksProps) {
  return (
    <div className="stack document">
      {blocks.map((block, i) => (
        // Blocks have no names and do not move, so their order is the key.
        <BlockView key={i} block={block} topLevel={topLevel} />
      ))}
    </div>
  );
}

function Runs({ runs }: { readonly runs: readonly Run[] }): ReactNode {
  return runs.map((run, i) => {
    const text = run.italic === true ? <i>{run.text}</i> : run.text;
    return run.bold === true ? <b key={i}>{text}</b> : <span key={i}>{text}</span>;
  });
}

function BlockView({ block, topLevel }: { readonly block: Block; readonly topLevel: number }): ReactNode {
  switch (block.kind) {
    case 'heading':
      return createElement(
        `h${Math.min(6, topLevel + block.level - 1)}`,
        { className: block.level === 1 ? 'speech' : block.level === 3 ? 'caption' : 'document-heading' },
        block.text,
      );
    case 'paragraph':
      return (
        <p className={block.small === true ? 'small' : ''}>
          <Runs runs={block.runs} />
        </p>
      );
    case 'list':
      return createElement(
        block.marker === 'number' ? 'ol' : 'ul',
        { className: `document-list document-list-${block.marker}` },
        block.items.map((runs, i) => (
          <li key={i}>
            <Runs runs={runs} />
          </li>
        )),
      );
    case 'table':
      return <TableView block={block} />;
    case 'figure':
      return (
        <p className="ends-line document-figure">
          <b>{block.label}</b> <span className="serif">{block.figure}</span>
        </p>
      );
    case 'drawing':
      return (
        <figure>
          <DrawingView drawing={block.drawing} label={block.alt} />
          {block.caption !== '' && <figcaption className="caption">{block.caption}</figcaption>}
        </figure>
      );
    case 'photos':
      return (
        <div className="document-photos">
          {block.photos.map((photo, i) => (
            <figure key={i}>
              <img src={photo.picture} alt={photo.caption} />
              <figcaption className="small">{photo.caption}</figcaption>
            </figure>
          ))}
        </div>
      );
    case 'columns':
      return (
        <div className="document-columns">
          {block.columns.map((column, i) => (
            <DocumentBlocks key={i} blocks={column} topLevel={topLevel === 2 ? 2 : 3} />
          ))}
        </div>
      );
    case 'together':
    case 'cover':
      return <DocumentBlocks blocks={block.blocks} topLevel={topLevel === 2 ? 2 : 3} />;
    case 'fields':
      return (
        <div className="document-fields">
          {block.fields.map((field) => (
            <span key={field.label} className="caption">
              {field.label}
            </span>
          ))}
        </div>
      );
    case 'rule':
      return <hr className="document-rule" />;
    case 'page':
      return null;
  }
}

type TableBlock = Extract<Block, { kind: 'table' }>;

/** The most columns that a phone shows side by side. */
const PHONE_COLUMNS = 2;

function TableView({ block }: { readonly block: TableBlock }) {
  const isPhone = useMedia('phone');
  if (isPhone && block.columns.length > PHONE_COLUMNS) return <RowBlocks block={block} />;
  const rows = block.rows.map((row, index) => ({ ...row, index }));
  return (
    // Scrolls sideways where it is too wide, so it takes the focus.
    <div className="document-table" tabIndex={0} role="group" aria-label={block.caption}>
      <Table
        label={block.caption}
        dense
        rows={rows}
        rowKey={(row) => String(row.index)}
        isBold={(row) => row.strong === true}
        columns={block.columns.map((column, k) => ({
          key: column.title === '' ? String(k) : column.title,
          caption: column.title,
          heads: k === 0,
          align: column.align === 'end' ? ('right' as const) : ('left' as const),
          cell: (row: (typeof rows)[number]) => <Runs runs={row.cells[k] ?? []} />,
          ...(column.share === null ? {} : { width: `${column.share * 100}%` }),
        }))}
      />
    </div>
  );
}

function RowBlocks({ block }: { readonly block: TableBlock }) {
  return (
    <ul className="document-rows" aria-label={block.caption}>
      {block.rows.map((row, i) => (
        <li key={i}>
          <b>
            <Runs runs={row.cells[0] ?? []} />
          </b>
          <dl>
            {block.columns.map(
              ({ title }, k) =>
                k > 0 &&
                row.cells[k]?.some((run) => run.text !== '') === true && (
                  <div key={k}>
                    <dt>{title}</dt>
                    <dd>
                      <Runs runs={row.cells[k]} />
                    </dd>
                  </div>
                ),
            )}
          </dl>
        </li>
      ))}
    </ul>
  );
}
