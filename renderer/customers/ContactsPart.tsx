import { useState, useMemo } from 'react';
import { named } from '../desk/working.ts';
import { DropZone } from '../parts/DropZone.tsx';
import { Notice, Dialog } from '../parts/Dialog.tsx';
import { BlockPart } from '../parts/Sheet.tsx';
import { type ContactFile, readContactFile, CARD_SOURCES, type ContactTable, FIELD_WORDS } from './read-contacts.ts';
import { type ColumnMatch, CONTACT_FIELDS, matchColumns, unreadHeadings } from '../../shared-core/book/contact-columns.ts';
import { checkContacts, type ContactRow, contactRows, incomingWords } from '../../shared-core/book/contact-rows.ts';
import { addCustomers } from '../book/customer-commands.ts';
import { useAll, useBusiness } from '../book/use-records.ts';
import { CheckRow } from '../parts/Choices.tsx';
import { countWords } from '../../shared-core/measure/count-words.ts';
import { ImportPreview, type PreviewField, settled } from '../parts/ImportPreview.tsx';
import { Table } from '../parts/Table.tsx';
import { joined } from '../../shared-core/measure/list.ts';

/** Imports customers from another program's file. */
export function ContactsPart() {
  const [file, setFile] = useState<ContactFile | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const [message, setMessage] = useState<string | null>(null);
  const open = async (given: File | undefined): Promise<void> => {
    if (given === undefined) return;
    setMessage(null);
    try {
      const read = await named(`Reading ${given.name}…`, readContactFile(given));
      setProblem(read.ok ? null : read.message);
      if (read.ok) setFile(read.value);
    } catch {
      setProblem(`${given.name} could not be read. Copy it to this computer and try again.`);
    }
  };
  return (
    <BlockPart heading="Import customers">
      <DropZone
        label="Contacts"
        chooseWord="Choose file"
        accept={['.vcf', '.csv', '.txt', '.tsv', '.xlsx', 'text/vcard', 'text/csv']}
        onFiles={(files) => void open(files[0])}
        refuse={(name) => `${name} is not a contacts file. Choose a vCard (.vcf), a CSV file, or an Excel workbook (.xlsx).`}
        hint="vCard, CSV, or Excel workbook. You can check every row before it is saved."
        problem={problem}
      />
      {message !== null && <Notice onClose={() => setMessage(null)}>{message}</Notice>}
      {file !== null && (
        <ContactsDialog
          file={file}
          onClose={() => setFile(null)}
          onSay={(good, words) => {
            if (good) setMessage(words);
            else setProblem(words);
          }}
        />
      )}
    </BlockPart>
  );
}

interface ContactsDialogProps {
  readonly file: ContactFile;
  readonly onClose: () => void;
  readonly onSay: (good: boolean, words: string) => void;
}

const SHOWN = 100;
const LOCALE = 'en-US';

/** Previews an import of contacts: columns to match, the state of each row, and possible duplicates side by side. */
function ContactsDialog({ file, onClose, onSay }: ContactsDialogProps) {
  const customers = useAll('customers');
  const business = useBusiness();
  const [match, setMatch] = useState<ColumnMatch | null>(file.kind === 'table' ? matchColumns(file.table.headings) : null);
  const [chosen, setChosen] = useState<ReadonlySet<number>>(new Set());
  const [busy, setBusy] = useState(false);
  const rows = useMemo(
    (): readonly ContactRow[] => (file.kind === 'cards' ? file.rows : match === null ? [] : contactRows(file.table.rows, match)),
    [file, match],
  );
  const own = business?.address.country ?? 'US';
  const incoming = useMemo(() => checkContacts(rows, customers ?? [], own), [rows, customers, own]);
  const unread = useMemo(
    () =>
      file.kind === 'cards' || match === null
        ? []
        : unreadHeadings(
            file.table.headings,
            file.table.rows.map(({ cells }) => cells),
            match,
          ),
    [file, match],
  );
  if (customers === undefined || business === undefined) return null;
  const accepted = incoming.filter(({ state }, i) => state === 'new' || (state === 'duplicate' && chosen.has(i))).map(({ row }) => row);
  const importAll = async (): Promise<void> => {
    setBusy(true);
    const added = await addCustomers(accepted);
    onClose();
    onSay(added.ok, added.ok ? `${countWords(accepted.length, 'customer', LOCALE)} imported. Undo removes them.` : added.message);
  };
  const duplicates = incoming.map((one, i) => ({ one, i })).filter(({ one }) => one.state === 'duplicate');
  const leftOut = [
    ...file.leftOut,
    ...incoming.flatMap(({ state, text, row }) => (state === 'wrong' ? [{ row: row.fileRow, why: joined([row.name, text], ': ') }] : [])),
  ].toSorted((a, b) => a.row - b.row);
  const toggle = (i: number, on: boolean): void => setChosen(new Set(on ? [...chosen, i] : [...chosen].filter((k) => k !== i)));
  return (
    <Dialog
      wide
      firm
      onClose={onClose}
      title="Import customers"
      onSave={() => void importAll()}
      saveWord={
        busy ? 'Importing…' : accepted.length === 0 ? 'Nothing to import' : `Import ${countWords(accepted.length, 'customer', LOCALE)}`
      }
      blocked={busy || accepted.length === 0}
    >
      <ImportPreview
        fields={
          file.kind === 'table' && match !== null
            ? tableFields(file.table, match, setMatch)
            : CARD_SOURCES.map(({ name, from }) => ({ name, column: settled(from, name), example: '' }))
        }
        sample={{ columns: [], rows: [], of: 0 }}
        leftOut={leftOut}
      />
      {unread.length > 0 && <p className="small">Not imported: {unread.join(', ')}.</p>}
      <p className="small" role="status">
        {incomingWords(incoming, file.leftOut.length, LOCALE)}
      </p>
      {duplicates.length > 0 && (
        <section aria-label="Possible duplicates">
          <h3 className="caption">Possible duplicates. Check a row to import it as a new customer.</h3>
          {duplicates.slice(0, SHOWN).map(({ one, i }) => (
            <CheckRow
              key={i}
              dense
              label={reachWords(one.row)}
              because={one.like === null ? one.text : `${one.text}: ${reachWords(one.like)}`}
              checked={chosen.has(i)}
              onChange={(on) => toggle(i, on)}
            />
          ))}
        </section>
      )}
      <Table
        label="Contacts in the file"
        dense
        rows={incoming.slice(0, SHOWN).map((one, i) => ({ ...one, key: String(i), isTaken: one.state === 'new' || chosen.has(i) }))}
        rowKey={(r) => r.key}
        columns={[
          { caption: 'Name', cell: (r) => r.row.name, heads: true },
          { caption: 'Phone, email', cell: (r) => reachOf(r.row) },
          { caption: 'Address', cell: (r) => joined([r.row.line, r.row.city]), wideOnly: true },
          { caption: 'Import', cell: (r) => (r.isTaken ? 'Yes' : r.text), italic: true },
        ]}
      />
      {incoming.length > SHOWN && <p className="small">{countWords(incoming.length - SHOWN, 'more contact', LOCALE)}</p>}
    </Dialog>
  );
}

type Reach = { readonly name: string; readonly phone: string; readonly email: string; readonly more: ContactRow['more'] };

const reachOf = ({ phone, email, more }: Omit<Reach, 'name'>): string =>
  joined([phone, email, ...more.filter((m) => m.kind !== 'address').map((m) => (m.label === '' ? m.text : `${m.text} (${m.label})`))]);
const reachWords = (of: Reach): string => joined([of.name, reachOf(of)]);

/** Matches columns to fields, with an example from the first row that has a value. */
function tableFields(table: ContactTable, match: ColumnMatch, onChange: (match: ColumnMatch) => void): readonly PreviewField[] {
  const width = Math.max(table.headings.length, ...table.rows.slice(0, 50).map(({ cells }) => cells.length));
  const example = (column: number | null): string =>
    column === null ? '' : (table.rows.find(({ cells }) => (cells[column] ?? '').trim() !== '')?.cells[column] ?? '').slice(0, 40);
  const options = Array.from({ length: width }, (_, i) => {
    const heading = (table.headings[i] ?? '').trim();
    return { value: String(i), word: heading === '' ? `Column ${i + 1}: ${example(i)}` : heading };
  });
  const suggested = matchColumns(table.headings);
  return CONTACT_FIELDS.flatMap((field) =>
    match[field].flatMap((column, at) => {
      // A second address has only the fields that the file has of it.
      if (at > 0 && suggested[field][at] === null && field !== 'phone' && field !== 'email') return [];
      const name = at === 0 ? FIELD_WORDS[field] : `${FIELD_WORDS[field]} ${at + 1}`;
      return {
        name,
        column: {
          label: name,
          value: column === null ? null : String(column),
          options,
          none: 'No column',
          onChange: (value: string | null) => onChange({ ...match, [field]: match[field].with(at, value === null ? null : Number(value)) }),
        },
        example: example(column),
      };
    }),
  );
}
