import { useMemo, useState } from 'react';
import {
  checkContacts,
  type ColumnMatch,
  CONTACT_FIELDS,
  type ContactRow,
  contactRows,
  matchColumns,
} from '../../shared-core/book/contact-rows.ts';
import { addCustomers } from '../book/customer-commands.ts';
import { useAll, useBusiness } from '../book/use-records.ts';
import { Dialog } from '../parts/Dialog.tsx';
import { SelectField } from '../parts/SelectField.tsx';
import { Table } from '../parts/Table.tsx';
import { TextButton } from '../parts/TextButton.tsx';
import { type ContactFile, type ContactTable, FIELD_WORDS } from './read-contacts.ts';

interface ContactsDialogProps {
  readonly file: ContactFile;
  readonly onClose: () => void;
  readonly onSay: (good: boolean, words: string) => void;
}

const SHOWN = 100;

/** What comes in, seen before it is written: columns to match, each row with its state. */
export function ContactsDialog({ file, onClose, onSay }: ContactsDialogProps) {
  const customers = useAll('customers');
  const business = useBusiness();
  const [match, setMatch] = useState<ColumnMatch | null>(file.kind === 'table' ? matchColumns(file.table.headings) : null);
  const [busy, setBusy] = useState(false);
  const rows = useMemo(
    (): readonly ContactRow[] =>
      file.kind === 'cards' ? file.rows : match === null ? [] : contactRows(file.table.rows, file.table.headings, match),
    [file, match],
  );
  const incoming = useMemo(() => checkContacts(rows, customers ?? []), [rows, customers]);
  if (customers === undefined || business === undefined) return null;
  const fresh = incoming.filter(({ state }) => state === 'new').map(({ row }) => row);
  const bring = async (): Promise<void> => {
    setBusy(true);
    const added = await addCustomers(fresh, business.address.country);
    onClose();
    onSay(added.ok, added.ok ? `${many(fresh.length)} came in. Undo takes them out again.` : added.message);
  };
  return (
    <Dialog
      open
      wide
      firm
      onClose={onClose}
      title="Customers from a file"
      actions={
        <>
          <TextButton onPress={onClose}>Go back</TextButton>
          <TextButton kind="outlined" disabled={busy || fresh.length === 0} onPress={() => void bring()}>
            {fresh.length === 0 ? 'None to bring in' : `Bring in ${fresh.length === 1 ? 'one customer' : many(fresh.length)}`}
          </TextButton>
        </>
      }
    >
      {file.kind === 'table' && match !== null && <Columns table={file.table} match={match} onChange={setMatch} />}
      <p className="small" role="status">
        {`${many(incoming.length)} in the file: ${fresh.length} new, ${count(incoming, 'here')} in the book already, ${count(incoming, 'wrong')} left out.`}
      </p>
      <Table
        label="What comes in"
        dense
        rows={incoming.slice(0, SHOWN).map((one, i) => ({ ...one, key: String(i) }))}
        rowKey={(r) => r.key}
        columns={[
          { key: 'name', caption: 'Name', cell: (r) => r.row.name, heads: true },
          { key: 'reach', caption: 'Telephone, e-mail', cell: (r) => [r.row.phone, r.row.email].filter((w) => w !== '').join(', ') },
          { key: 'where', caption: 'Address', cell: (r) => [r.row.line, r.row.city].filter((w) => w !== '').join(', '), wideOnly: true },
          { key: 'state', caption: 'Comes in', cell: (r) => (r.state === 'new' ? 'yes' : r.says), italic: true },
        ]}
      />
      {incoming.length > SHOWN && <p className="small">And {incoming.length - SHOWN} more.</p>}
    </Dialog>
  );
}

function many(n: number): string {
  return n === 1 ? 'One customer' : `${n} customers`;
}

function count(incoming: ReturnType<typeof checkContacts>, state: 'here' | 'wrong'): number {
  return incoming.filter((one) => one.state === state).length;
}

interface ColumnsProps {
  readonly table: ContactTable;
  readonly match: ColumnMatch;
  readonly onChange: (match: ColumnMatch) => void;
}

/** Which column goes where. */
function Columns({ table, match, onChange }: ColumnsProps) {
  const options = table.headings.map((heading, i) => ({
    value: String(i),
    word: `${heading === '' ? `Column ${i + 1}` : heading}: ${(table.rows[0]?.[i] ?? '').slice(0, 30)}`,
  }));
  return (
    <div className="customers-columns">
      {CONTACT_FIELDS.map((field) => (
        <SelectField
          key={field}
          label={FIELD_WORDS[field]}
          value={match[field] === null ? null : String(match[field])}
          options={options}
          none="no column"
          onChange={(value) => onChange({ ...match, [field]: value === null ? null : Number(value) })}
        />
      ))}
    </div>
  );
}
