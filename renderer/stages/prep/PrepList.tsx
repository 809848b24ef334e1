import type { Finding } from '../../../shared-core/substrate/rule.ts';
import { formatInstantTime } from '../../../shared-core/measure/moment.ts';
import { lineHeldBy } from '../../../shared-core/prep/pour-held.ts';
import { lineAmount } from '../../../shared-core/prep/line-words.ts';
import type { SignedLine } from '../../../shared-core/prep/signed-lines.ts';
import type { Wording } from '../../../shared-core/substrate/wording.ts';
import { StateShape } from '../../parts/StateShape.tsx';
import { Table } from '../../parts/Table.tsx';
import { TextButton } from '../../parts/Buttons.tsx';

interface PrepListProps {
  readonly lines: readonly SignedLine[];
  readonly findings: readonly Finding[];
  readonly numberOf: ReadonlyMap<string, number>;
  readonly wording: Wording;
  readonly locale: string;
  readonly zone: string;
  readonly onPick: (line: SignedLine) => void;
  readonly onMore: (line: SignedLine) => void;
}

/** The name of a line, needed or not. */
export const lineName = (line: SignedLine): string => line.item?.what ?? `${line.signature?.signedText ?? line.key} (no longer needed)`;

/** The checklist: a click signs an open line and opens a signed one; More opens either. */
export function PrepList({ lines, findings, numberOf, wording, locale, zone, onPick, onMore }: PrepListProps) {
  const isHeld = (line: SignedLine): boolean => lineHeldBy(line, findings).length > 0;
  const stateOf = (line: SignedLine) =>
    isHeld(line) ? 'held' : line.state === 'signed' ? 'done' : line.state === 'changed' ? 'under-way' : 'waiting';
  const signedWords = (line: SignedLine): string => {
    if (line.state === 'changed') return 'changed';
    if (line.signature === null) return isHeld(line) ? 'hold' : '';
    return formatInstantTime(line.signature.doneAt, zone, locale);
  };
  return (
    <Table
      label="Prep checklist"
      dense
      rows={lines}
      rowKey={(line) => line.key}
      isBold={(line) => line.state !== 'signed'}
      onPick={onPick}
      empty={<p>Complete Assess first. The checklist comes from the layers, the findings and the plan.</p>}
      columns={[
        { key: 'state', caption: '', width: '26px', cell: (line) => <StateShape state={stateOf(line)} sizePx={13} /> },
        { key: 'number', caption: '', width: '30px', align: 'right', cell: (line) => numberOf.get(line.key) ?? '' },
        { key: 'what', caption: 'Description', heads: true, cell: lineName },
        { key: 'why', caption: 'Reason', italic: true, wideOnly: true, cell: (line) => line.item?.why ?? '' },
        {
          key: 'amount',
          caption: 'Quantity',
          align: 'right',
          cell: (line) => <span className="prep-figure">{line.item === null ? '' : lineAmount(line.item, wording, locale)}</span>,
        },
        {
          key: 'who',
          caption: 'Done by',
          wideOnly: true,
          cell: (line) => (line.item?.who === 'licensed-only' ? 'licensed firm' : (line.signature?.initials ?? '')),
        },
        { key: 'signed', caption: 'Signed', cell: (line) => <span className="prep-figure">{signedWords(line)}</span> },
        {
          key: 'more',
          caption: '',
          cell: (line) => (
            <span className="prep-more">
              <TextButton kind="plain" label={`More about ${lineName(line)}`} onPress={() => onMore(line)}>
                More
              </TextButton>
            </span>
          ),
        },
      ]}
    />
  );
}
