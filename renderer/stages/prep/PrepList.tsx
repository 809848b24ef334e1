import type { Finding } from '../../../shared-core/substrate/rule.ts';
import { formatInstant } from '../../../shared-core/measure/moment.ts';
import { lineHeldBy } from '../../../shared-core/prep/pour-held.ts';
import { lineAmount } from '../../../shared-core/prep/line-words.ts';
import type { SignedLine } from '../../../shared-core/prep/signed-lines.ts';
import { useMeasure, useWording } from '../../parts/use-measure.ts';
import { StateShape } from '../../parts/StateShape.tsx';
import { Table } from '../../parts/Table.tsx';
import { TextButton } from '../../parts/Buttons.tsx';
import { useState } from 'react';
import { CAUTIONS, cautionText } from '../../../shared-core/substrate/cautions.ts';
import { dustWords } from '../../../shared-core/substrate/silica.ts';
import { Dialog } from '../../parts/Dialog.tsx';
import { type PhotoAlbum, PhotosPart } from '../../parts/PhotosPart.tsx';
import { TextField } from '../../parts/Fields.tsx';
import { hoursWords, signedWhen } from './prep-words.ts';
import { joined } from '../../../shared-core/measure/list.ts';

interface PrepListProps {
  readonly lines: readonly SignedLine[];
  readonly findings: readonly Finding[];
  readonly numberOf: ReadonlyMap<string, number>;
  readonly zone: string;
  readonly now: string;
  readonly onPick: (line: SignedLine) => void;
  readonly onMore: (line: SignedLine) => void;
}

const lineName = (line: SignedLine): string => line.item?.what ?? `${line.signature?.signedText ?? line.key} (no longer needed)`;

/** The checklist: a click signs an open line and opens a signed one; More opens either. */
export function PrepList({ lines, findings, numberOf, zone, now, onPick, onMore }: PrepListProps) {
  const { locale } = useMeasure();
  const wording = useWording();
  const isHeld = (line: SignedLine): boolean => lineHeldBy(line, findings).length > 0;
  const stateOf = (line: SignedLine) =>
    isHeld(line) ? 'held' : line.state === 'signed' ? 'done' : line.state === 'changed' ? 'under-way' : 'waiting';
  const signedWords = (line: SignedLine): string => {
    if (line.state === 'changed') return 'changed';
    if (line.signature === null) return isHeld(line) ? 'hold' : '';
    return signedWhen(line.signature.doneAt, now, zone, locale);
  };
  const quantity = (line: SignedLine): string => (line.item === null ? '' : lineAmount(line.item, wording, locale));
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
        {
          caption: 'Description',
          heads: true,
          cell: (line) => (
            <span>
              {lineName(line)}
              <span className="small prep-under">{joined([quantity(line), signedWords(line)])}</span>
            </span>
          ),
        },
        { caption: 'Reason', italic: true, wideOnly: true, cell: (line) => line.item?.why ?? '' },
        {
          caption: 'Quantity',
          align: 'right',
          wideOnly: true,
          cell: (line) => <span className="unbroken">{quantity(line)}</span>,
        },
        {
          caption: 'Done\u00a0by',
          wideOnly: true,
          cell: (line) => (line.item?.who === 'licensed-only' ? 'licensed firm' : (line.signature?.initials ?? '')),
        },
        { caption: 'Signed', wideOnly: true, cell: (line) => <span className="unbroken">{signedWords(line)}</span> },
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

interface PrepLineDialogProps {
  readonly line: SignedLine;
  readonly number: number | null;
  readonly heldBy: readonly Finding[];
  /** The reason of its override; null without one, undefined where the pour does not wait for it. */
  readonly past: string | null | undefined;
  readonly zone: string;
  readonly problem: string | null;
  readonly album: PhotoAlbum;
  readonly onSign: (note: string, photoIds: readonly string[]) => void;
  readonly onNote: (note: string) => void;
  readonly onPhoto: (photoId: string) => void;
  readonly onVoid: () => void;
  readonly onOverride: () => void;
  readonly onClose: () => void;
}

/** One line of the checklist in full: reason, quantity, crew, hours, respirator, cautions, signatures and notes. */
export function PrepLineDialog(props: PrepLineDialogProps) {
  const { line, number, heldBy, past, zone, problem, album, onSign, onNote, onPhoto, onVoid, onOverride, onClose } = props;
  const { locale } = useMeasure();
  const wording = useWording();
  const { item, signature } = line;
  const isSigned = line.state === 'signed';
  const [note, setNote] = useState(isSigned ? (signature?.note ?? '') : '');
  const [photoIds, setPhotoIds] = useState<readonly string[]>(isSigned ? (signature?.photoIds ?? []) : []);
  const facts =
    item === null
      ? []
      : [
          lineAmount(item, wording, locale),
          hoursWords(item.hours, locale).replace(/^About/, 'about'),
          item.who === 'licensed-only' ? 'licensed or certified firm only' : 'own crew',
        ].filter((fact) => fact !== '');
  return (
    <Dialog
      onClose={onClose}
      title={`${number === null ? '' : `${number} `}${lineName(line)}`}
      problem={problem}
      actions={
        <>
          <TextButton onPress={onClose}>Cancel</TextButton>
          {past === null && line.state !== 'signed' && <TextButton onPress={onOverride}>Override hold…</TextButton>}
          {isSigned && <TextButton onPress={onVoid}>Void signature</TextButton>}
          {isSigned && note !== signature?.note && (
            <TextButton kind="outlined" saves onPress={() => onNote(note)}>
              Save note
            </TextButton>
          )}
          {item !== null && !isSigned && heldBy.length === 0 && (
            <TextButton kind="outlined" saves onPress={() => onSign(note, photoIds)}>
              Sign
            </TextButton>
          )}
        </>
      }
    >
      {item !== null && (
        <p>
          {facts.join(', ')}. <cite>{item.why}</cite>
        </p>
      )}
      {heldBy.map((finding) => (
        <p key={finding.key}>
          <strong>Hold: {finding.title}.</strong> {finding.text} <cite>{finding.source}</cite>
        </p>
      ))}
      {line.state === 'changed' && signature !== null && (
        <p>Signed as “{signature.signedText}”. It has changed since. Check it and sign again.</p>
      )}
      {past !== null && past !== undefined && <p>Overridden: {past}</p>}
      {item != null && item.dust !== null && <p className="small">{dustWords(item.dust, item.hours ?? 0)}</p>}
      {item?.cautions.map((id) => (
        <p key={id} className="small">
          {cautionText(id, wording)} <cite>{CAUTIONS[id].source}</cite>
        </p>
      ))}
      {line.signatures.length > 0 && (
        <ul className="stack below">
          {line.signatures.map((s) => (
            <li key={s.doneAt + s.initials}>
              {s.withdrawnAt === null ? '' : 'Voided: '}
              {s.initials}, {formatInstant(s.doneAt, zone, 'weekday', locale)}
              {s.note === '' ? '' : `. ${s.note}`}
            </li>
          ))}
        </ul>
      )}
      {item !== null && <TextField label="Note" long value={note} onChange={setNote} />}
      {item !== null && (
        <PhotosPart
          album={album}
          zone={zone}
          label="Photos"
          only={photoIds}
          caption={item.what}
          onSaved={(id) => {
            setPhotoIds((all) => [...all, id]);
            if (isSigned) onPhoto(id);
          }}
        />
      )}
    </Dialog>
  );
}
