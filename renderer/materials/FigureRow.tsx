import type { Update } from '../book/write.ts';
import type { PowderSheet } from '../../shared-core/book/material.ts';
import { Field } from '../parts/Field.tsx';
import type { FigureRowData } from './powder-figures.ts';
import { SOURCE_WORDS } from './sheet-words.ts';
import { lowerFirst } from '../../shared-core/measure/first-letter.ts';

interface FigureRowsProps {
  readonly rows: readonly FigureRowData[];
  /** Names of figures that disagree with another; a bracket marks their rows. */
  readonly odd: ReadonlySet<string>;
  readonly onChange: (label: string, update: Update<PowderSheet>) => void;
}

/** The entered text, by which two changes are compared, and the change. */
type Typed = { readonly text: string; readonly update: (powder: PowderSheet) => PowderSheet };

/** The figures of a data sheet as rows, each editable, with its source. */
export function FigureRows({ rows, odd, onChange }: FigureRowsProps) {
  return (
    <ul className="figure-rows">
      {rows.map((row, i) => {
        const isOdd = odd.has(row.key);
        const before = odd.has(rows[i - 1]?.key ?? '');
        const after = odd.has(rows[i + 1]?.key ?? '');
        const bracket = !isOdd
          ? ''
          : ` figure-contradiction${before ? '' : ' figure-contradiction-first'}${after ? '' : ' figure-contradiction-last'}`;
        return (
          <li key={row.key} className={`figure-row${bracket}`}>
            <Field<Typed>
              label={row.label}
              typical={row.source === 'typical'}
              value={row.text === null ? null : { text: row.text, update: (p) => p }}
              placeholder="not given"
              {...(row.clear === null ? { emptyMessage: row.needed } : {})}
              parse={(text) => {
                const read = row.read(text);
                return read.ok ? { ok: true, value: { text, update: read.value } } : read;
              }}
              format={(typed) => typed.text}
              // Saving a typical figure unchanged confirms it, so it is no longer marked typical.
              same={(a, b) => row.source !== 'typical' && a.text.trim() === b.text.trim()}
              onChange={(typed) => {
                const update = typed?.update ?? row.clear;
                if (update !== null) onChange(lowerFirst(row.label), update);
              }}
            />
            <span className={`figure-source${row.source === 'typical' && !isOdd ? ' figure-typical' : ''}`}>
              {isOdd ? <b>disagree</b> : row.source === null ? '' : SOURCE_WORDS[row.source]}
            </span>
          </li>
        );
      })}
    </ul>
  );
}
