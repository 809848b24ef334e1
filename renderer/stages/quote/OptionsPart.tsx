import { deepestM, flatnessWords, optionResult } from '../../../shared-core/documents/quote-table.ts';
import type { QuotedOption, QuotedPrice } from '../../../shared-core/book/quote.ts';
import { formatDepth } from '../../../shared-core/measure/length-format.ts';
import { formatMoney } from '../../../shared-core/price/money.ts';
import type { CutWords } from '../../../shared-core/survey/cut-words.ts';
import { BASE_OPTION_ID } from '../../../shared-core/price/quote-state.ts';
import { ChoiceRow } from '../../parts/Choices.tsx';
import { Table } from '../../parts/Table.tsx';
import { TextButton } from '../../parts/Buttons.tsx';
import { TextField } from '../../parts/Fields.tsx';
import { BlockPart } from '../../parts/Sheet.tsx';
import { useMeasure } from '../../parts/use-measure.ts';

interface OptionsPartProps {
  readonly priced: QuotedPrice;
  readonly currency: string;
  readonly heading: string;
  /** False while a room has no volume, so that no option has a total. */
  readonly hasTotal: boolean;
  readonly shown: QuotedOption;
  /** How high spots of the job's rooms are taken down. */
  readonly cut: CutWords;
  readonly onSuggest: (optionId: string) => void;
  readonly onName: (optionId: string, name: string) => void;
  readonly onAdd: (what: 'follow' | 'fill') => void;
  readonly onDelete: (option: QuotedOption) => void;
}

type Row = { readonly name: string; readonly of: (option: QuotedOption) => string };

const MAX_ADDED = 2;

/** Why there is no flatness: nothing is read, or most of the floor is beyond the readings. */
const TOO_FEW = 'Too few readings';

function flatEnoughWords({ gapM, meetsFlooring }: QuotedOption): string {
  if (gapM === null) return TOO_FEW;
  return meetsFlooring === null ? 'No flooring' : meetsFlooring ? 'Yes' : 'No';
}

/** Whether an option is what adding one this way would give. */
const IS_LIKE: Readonly<Record<'follow' | 'fill', (room: QuotedOption['rooms'][number]) => boolean>> = {
  follow: ({ mode }) => mode === 'follow',
  fill: ({ mode, grindMaxM }) => mode === 'level' && grindMaxM === 0,
};

/** Up to three options side by side, with the recommended one marked. */
export function OptionsPart({ priced, currency, heading, hasTotal, shown, cut, onSuggest, onName, onAdd, onDelete }: OptionsPartProps) {
  const { units, locale } = useMeasure();
  const { options, suggestedId } = priced;
  const money = (minor: number): string => (hasTotal ? formatMoney(minor, currency, locale) : 'Unknown');
  const rows: readonly Row[] = [
    { name: 'Result', of: optionResult },
    { name: 'Flatness expected', of: (o) => (o.gapM === null ? TOO_FEW : flatnessWords(o.gapM, { units, locale })) },
    { name: 'Flat enough for flooring', of: flatEnoughWords },
    {
      name: 'Deepest',
      of: (o) => {
        const m = deepestM(o);
        return m === null ? '' : formatDepth(m, units, locale);
      },
    },
    { name: 'Bags', of: (o) => String(o.bags) },
    { name: 'Days', of: (o) => String(o.days) },
    { name: 'Subtotal', of: (o) => money(o.netMinor) },
    { name: 'Total', of: (o) => money(o.totalMinor) },
  ];
  const added = options.filter((o) => o.id !== BASE_OPTION_ID);
  return (
    <BlockPart heading={heading}>
      <Table
        label="Options"
        dense
        rows={rows}
        rowKey={(row) => row.name}
        isBold={(row) => row.name === 'Total'}
        columns={[
          { key: 'name', caption: '', heads: true, cell: (row) => row.name },
          ...options.map((o) => ({
            key: o.id,
            caption: o.name,
            align: 'right' as const,
            cell: (row: Row) => row.of(o),
          })),
        ]}
      />
      {options.length > 1 && (
        <ChoiceRow
          label="Recommended"
          captioned
          options={options.map((o) => ({ value: o.id, word: o.name }))}
          value={suggestedId}
          onChange={onSuggest}
        />
      )}
      {shown.id !== BASE_OPTION_ID && (
        <TextField label="Option name" value={shown.name} onChange={(name) => name.trim() !== '' && onName(shown.id, name.trim())} />
      )}
      <div className="words">
        {added.length < MAX_ADDED &&
          (['follow', 'fill'] as const)
            .filter((way) => !options.some(({ rooms }) => rooms.every(IS_LIKE[way])))
            .map((way) => (
              <TextButton key={way} kind="plain" onPress={() => onAdd(way)}>
                {`Add option: ${way === 'follow' ? 'follow the floor' : `level without ${cut.noun}`}`}
              </TextButton>
            ))}
        {added.map((o) => (
          <TextButton key={o.id} kind="plain" onPress={() => onDelete(o)}>
            {`Delete ${o.name}`}
          </TextButton>
        ))}
      </div>
    </BlockPart>
  );
}
