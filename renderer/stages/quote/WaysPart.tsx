import { wayGives } from '../../../shared-core/documents/quote-table.ts';
import { formatDepth } from '../../../shared-core/measure/length-format.ts';
import type { JobEstimate, OptionEstimate } from '../../../shared-core/price/estimate-job.ts';
import { formatMoney } from '../../../shared-core/price/money.ts';
import { BASE_OPTION_ID } from '../../../shared-core/price/quote-state.ts';
import { ChoiceRow } from '../../parts/ChoiceRow.tsx';
import { Table } from '../../parts/Table.tsx';
import { TextButton } from '../../parts/TextButton.tsx';
import { TextField } from '../../parts/TextField.tsx';
import { BlockPart } from '../../parts/TitleBlock.tsx';
import { useMeasure } from '../../parts/use-measure.ts';

interface WaysPartProps {
  readonly estimate: JobEstimate;
  readonly shown: OptionEstimate;
  readonly onSuggest: (optionId: string) => void;
  readonly onName: (optionId: string, name: string) => void;
  readonly onOffer: (what: 'skim' | 'fill') => void;
  readonly onDelete: (option: OptionEstimate) => void;
}

type Row = { readonly name: string; readonly of: (option: OptionEstimate) => string };

/** Up to three ways beside one another, the suggested one pointed at. */
export function WaysPart({ estimate, shown, onSuggest, onName, onOffer, onDelete }: WaysPartProps) {
  const { units, locale } = useMeasure();
  const { options, suggested } = estimate;
  const money = (option: OptionEstimate, minor: number): string => formatMoney(minor, option.price.currency, locale, 'bare');
  const depth = (m: number | null): string => (m === null ? '' : formatDepth(m, units));
  const rows: readonly Row[] = [
    { name: 'Gives', of: wayGives },
    { name: 'Gaps expected', of: (o) => depth(o.flatnessReachedM) },
    { name: 'Flat enough to cover', of: (o) => (o.flatEnough === null ? 'no covering' : o.flatEnough ? 'yes' : 'no') },
    { name: 'Deepest', of: (o) => depth(o.mostDepthM) },
    { name: 'Bags', of: (o) => String(o.takeoff.bags) },
    { name: 'Days', of: (o) => String(o.days) },
    { name: 'Before tax', of: (o) => money(o, o.price.netMinor) },
    { name: 'In all', of: (o) => money(o, o.price.totalMinor) },
  ];
  const others = options.filter((o) => o.id !== BASE_OPTION_ID);
  return (
    <BlockPart heading="Ways to do it">
      <Table
        label="Ways to do it"
        dense
        rows={rows}
        rowKey={(row) => row.name}
        isBold={(row) => row.name === 'In all'}
        columns={[
          { key: 'name', caption: '', heads: true, cell: (row) => row.name },
          ...options.map((o) => ({ key: o.id, caption: o.name, align: 'right' as const, cell: (row: Row) => row.of(o) })),
        ]}
      />
      {options.length > 1 && (
        <ChoiceRow
          label="Suggested"
          captioned
          options={options.map((o) => ({ value: o.id, word: o.name }))}
          value={suggested.id}
          onChange={onSuggest}
        />
      )}
      {shown.id !== BASE_OPTION_ID && (
        <TextField label="What it is called" value={shown.name} onChange={(name) => name.trim() !== '' && onName(shown.id, name.trim())} />
      )}
      <div className="quote-ways">
        {others.length < 2 && (
          <>
            <TextButton kind="plain" onPress={() => onOffer('skim')}>
              Offer a skim beside it
            </TextButton>
            <TextButton kind="plain" onPress={() => onOffer('fill')}>
              Offer filling alone beside it
            </TextButton>
          </>
        )}
        {others.map((o) => (
          <TextButton key={o.id} kind="plain" onPress={() => onDelete(o)}>
            Take out {o.name}
          </TextButton>
        ))}
      </div>
    </BlockPart>
  );
}
