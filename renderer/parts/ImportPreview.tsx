import type { LeftOut } from '../../shared-core/table/import-check.ts';
import { CheckRow, SelectField } from './Choices.tsx';
import { Table } from './Table.tsx';
import { TextButton } from './Buttons.tsx';
import './ImportPreview.css';

type Option = { readonly value: string; readonly word: string };

/** A choice in a row of the first table; without options it is text only. */
export interface PreviewChoice {
  readonly label: string;
  readonly value: string | null;
  readonly options: readonly Option[];
  readonly none?: string | undefined;
  readonly onChange: (value: string | null) => void;
}

/** A field of the import: its column, its unit or sign, and how the first cell was understood. */
export interface PreviewField {
  readonly name: string;
  readonly column: PreviewChoice;
  readonly reads?: PreviewChoice;
  readonly example: string;
}

export interface PreviewQuestion {
  readonly kind: string;
  readonly message: string;
  /** Why it cannot be saved unchanged. */
  readonly blocks?: true;
  readonly onCorrect: (() => void) | null;
}

interface ImportPreviewProps {
  readonly fields: readonly PreviewField[];
  readonly sample: { readonly columns: readonly string[]; readonly rows: readonly (readonly string[])[]; readonly of: number };
  readonly leftOut?: readonly LeftOut[];
  /** Total left out, where the list is shorter. */
  readonly leftOutCount?: number;
  readonly questions?: readonly PreviewQuestion[];
  readonly answered?: readonly string[];
  readonly onAnswer?: (kind: string, on: boolean) => void;
}

const SAMPLE_SHOWN = 6;
const LEFT_OUT_SHOWN = 8;

/**
 * What an import understood, before anything is saved: columns, units and signs to correct, a sample, what is left out and why, and
 * questions.
 */
export function ImportPreview(props: ImportPreviewProps) {
  const { fields, sample, leftOut = [], leftOutCount = leftOut.length, questions = [], answered = [], onAnswer } = props;
  return (
    <div className="stack import-preview">
      {fields.length > 0 && (
        <Table
          label="Import settings"
          dense
          rows={fields}
          rowKey={(field) => field.name}
          columns={[
            { caption: 'Read as', heads: true, cell: (field) => field.name },
            { caption: 'Column in the file', cell: ({ column }) => <Choice of={column} /> },
            { caption: 'Unit or sign', cell: ({ reads }) => (reads === undefined ? '' : <Choice of={reads} />) },
            { caption: 'First value', cell: (field) => field.example, wideOnly: true },
          ]}
        />
      )}
      {questions.map((question) => (
        <div key={question.kind} className="import-question" role="group" aria-label="Check this before importing">
          {question.blocks === true ? (
            <p className="field-problem">{question.message}</p>
          ) : (
            <CheckRow
              label={question.message}
              checked={answered.includes(question.kind)}
              right="keep as is"
              onChange={(on) => onAnswer?.(question.kind, on)}
            />
          )}
          {question.onCorrect !== null && <TextButton onPress={question.onCorrect}>Correct it</TextButton>}
        </div>
      ))}
      {sample.rows.length > 0 && (
        <Table
          label={`The first ${Math.min(SAMPLE_SHOWN, sample.rows.length)} of ${sample.of}`}
          captioned
          dense
          rows={sample.rows.slice(0, SAMPLE_SHOWN).map((cells, i) => ({ cells, key: String(i) }))}
          rowKey={(row) => row.key}
          columns={sample.columns.map((caption, i) => ({
            caption,
            heads: i === 0,
            cell: (row: { readonly cells: readonly string[] }) => row.cells[i] ?? '',
          }))}
        />
      )}
      {leftOutCount > 0 && (
        <section aria-label="Left out">
          <h3 className="caption">{leftOutCount === 1 ? '1 row is left out' : `${leftOutCount} rows are left out`}</h3>
          <ul className="small">
            {leftOut.slice(0, LEFT_OUT_SHOWN).map(({ row, why }) => (
              <li key={row}>
                Row {row}: {why}
              </li>
            ))}
            {leftOutCount > LEFT_OUT_SHOWN && <li>{leftOutCount - LEFT_OUT_SHOWN} more</li>}
          </ul>
        </section>
      )}
    </div>
  );
}

/** A choice that is settled. */
export const settled = (value: string, label = ''): PreviewChoice => ({ label, value, options: [], onChange: () => undefined });

function Choice({ of }: { readonly of: PreviewChoice }) {
  if (of.options.length === 0) return <>{of.value}</>;
  return (
    <SelectField
      bare
      label={of.label}
      value={of.value}
      options={of.options}
      {...(of.none === undefined ? {} : { none: of.none })}
      onChange={of.onChange}
    />
  );
}
