import { type ReactNode, useState } from 'react';
import { TextButton } from './Buttons.tsx';
import { setQuantities } from './UnitText.tsx';
import './Table.css';

export interface TableColumn<Row> {
  readonly caption: string;
  /** Where captions are empty or can repeat. An empty caption's key is read by screen readers. */
  readonly key?: string;
  readonly cell: (row: Row) => ReactNode;
  readonly align?: 'left' | 'right';
  /** The cell that names its row. */
  readonly heads?: boolean;
  readonly italic?: boolean;
  readonly wideOnly?: boolean;
  readonly width?: string;
}

interface TableProps<Row> {
  /** The name of the table for screen readers; also visible with `captioned`. */
  readonly label: string;
  readonly captioned?: boolean;
  readonly columns: readonly TableColumn<Row>[];
  readonly rows: readonly Row[];
  readonly rowKey: (row: Row) => string;
  /** Makes the whole row a target; its naming cell is the button. */
  readonly onPick?: (row: Row) => void;
  /** Heavier type, for open items. */
  readonly isBold?: (row: Row) => boolean;
  /** A row of totals, one cell per column caption. */
  readonly foot?: Readonly<Record<string, ReactNode>>;
  readonly empty?: ReactNode;
  /** How many rows show before the others are asked for. */
  readonly first?: number;
  readonly dense?: boolean;
}

export function Table<Row>({ first, ...props }: TableProps<Row>) {
  const [isWhole, setWhole] = useState(false);
  if (first === undefined || props.rows.length <= first) return <AllRows {...props} />;
  return (
    <>
      <AllRows {...props} rows={isWhole ? props.rows : props.rows.slice(0, first)} />
      <TextButton kind="plain" expanded={isWhole} onPress={() => setWhole(!isWhole)}>
        {isWhole ? 'Show fewer' : `Show ${props.rows.length - first} more`}
      </TextButton>
    </>
  );
}

function AllRows<Row>(props: TableProps<Row>) {
  const { label, captioned = false, columns, rows, rowKey, onPick, isBold, foot, empty, dense = false } = props;
  if (rows.length === 0 && empty !== undefined) return <div className="table-empty">{empty}</div>;
  const classOf = (c: TableColumn<Row>) =>
    [
      c.align === 'right' ? 'table-right' : '',
      c.italic === true ? 'table-italic' : '',
      c.wideOnly === true ? 'table-wide' : '',
      c.caption === '' ? 'table-slim' : '',
    ]
      .join(' ')
      .trim();
  return (
    <table className={`table${dense ? ' table-dense' : ''}${onPick === undefined ? '' : ' table-picked'}`}>
      <caption className={captioned ? 'caption' : 'hidden-words'}>{label}</caption>
      <thead>
        <tr>
          {columns.map((c) => (
            <th key={c.key ?? c.caption} scope="col" className={classOf(c)} style={c.width === undefined ? undefined : { width: c.width }}>
              {c.caption === '' ? <span className="hidden-words">{c.key}</span> : c.caption}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={rowKey(row)} className={`whole-row${isBold?.(row) === true ? ' table-bold' : ''}`}>
            {columns.map((c) => {
              const cell = c.cell(row);
              const set = c.align === 'right' && typeof cell === 'string' ? setQuantities(cell) : cell;
              const content =
                c.heads === true && onPick !== undefined ? (
                  <button type="button" className="table-pick whole-row-target" onClick={() => onPick(row)}>
                    {set}
                  </button>
                ) : (
                  set
                );
              return c.heads === true ? (
                <th key={c.key ?? c.caption} scope="row" className={classOf(c)}>
                  {content}
                </th>
              ) : (
                <td key={c.key ?? c.caption} className={classOf(c)}>
                  {content}
                </td>
              );
            })}
          </tr>
        ))}
      </tbody>
      {foot !== undefined && (
        <tfoot>
          <tr>
            {columns.map((c) => (
              <td key={c.key ?? c.caption} className={classOf(c)}>
                {foot[c.caption]}
              </td>
            ))}
          </tr>
        </tfoot>
      )}
    </table>
  );
}
