import { useMemo, useState, useId } from 'react';
import { useLocation } from 'wouter';
import { nowInstant } from '../book/command.ts';
import { addCustomer } from '../book/customer-commands.ts';
import { useAll, useArchive, useBusiness, useOfProperties, useWhere } from '../book/use-records.ts';
import { unarchive } from '../book/write.ts';
import { ArchivedList } from '../parts/ArchivedList.tsx';
import { ActionButton, LinkWord, TextButton } from '../parts/Buttons.tsx';
import { countWords } from '../../shared-core/measure/count-words.ts';
import { companyWho, EmptySheet, Sheet, BlockPart, SheetHeading } from '../parts/Sheet.tsx';
import { TextField } from '../parts/Fields.tsx';
import { ContactsPart } from './ContactsPart.tsx';
import { customerList } from './customer-list.ts';
import './customers.css';
import type { Room } from '../../shared-core/book/room.ts';
import { keyPlan } from '../../shared-core/drawing/house.ts';
import { DrawingView } from '../parts/DrawingView.tsx';
import type { Business } from '../../shared-core/book/business.ts';
import { leadCounts } from '../../shared-core/lead/lead-counts.ts';
import { dayOfInstant } from '../../shared-core/measure/moment.ts';
import { FieldShell } from '../parts/Field.tsx';

/** Customers shown at a time. */
const AT_ONCE = 100;
const PLANS_AT_ONCE = 40;

export function CustomersScreen() {
  const [, go] = useLocation();
  const customers = useAll('customers');
  const properties = useAll('properties');
  const jobs = useWhere('jobs', 'state', 'open');
  const archived = useArchive('customers');
  const business = useBusiness();
  const [name, setName] = useState('');
  const [problem, setProblem] = useState<string | null>(null);
  const [sought, setSought] = useState('');
  const [most, setMost] = useState(AT_ONCE);
  const locale = business?.locale ?? 'en-US';
  const rows = useMemo(
    () => customerList({ customers: customers ?? [], properties: properties ?? [], jobs: jobs ?? [] }, sought, locale),
    [customers, properties, jobs, sought, locale],
  );
  const rooms = useOfProperties(rows.slice(0, PLANS_AT_ONCE).flatMap((row) => row.propertyIds));
  const addFirst = async (): Promise<void> => {
    if (name.trim() === '') {
      setProblem('Enter the customer’s name.');
      return;
    }
    const added = await addCustomer(name);
    if (added.ok) go(`/customers/${added.value}`);
    else setProblem(added.message);
  };
  if (customers === undefined || business === undefined) return <p className="app-opening caption">Loading…</p>;
  return (
    <Sheet
      page="Customers"
      who={companyWho(business)}
      block={
        <>
          <LeadCountsPart business={business} />
          <BlockPart heading="New customer">
            <form
              onSubmit={(event) => {
                event.preventDefault();
                void addFirst();
              }}
            >
              <TextField
                label="Name"
                value={name}
                problem={problem}
                placeholder="Person, couple, or company"
                onChange={(typed) => {
                  setName(typed);
                  setProblem(null);
                }}
              />
            </form>
          </BlockPart>
          <ContactsPart />
          {archived !== undefined && archived.length > 0 && (
            <BlockPart heading="Archived">
              <ArchivedList
                rows={archived}
                onUnarchive={({ id, name }) => unarchive([{ table: 'customers', id }], `unarchive ${name}`, nowInstant())}
              />
            </BlockPart>
          )}
        </>
      }
      foot={<p className="speech">{footWords(customers.length, rows.length, locale)}</p>}
      action={<ActionButton onPress={() => void addFirst()}>Add customer</ActionButton>}
    >
      <SheetHeading>Customers</SheetHeading>
      {customers.length === 0 ? (
        <EmptySheet
          drawing="properties"
          heading="Customers with their properties and jobs appear here."
          hint="Enter a name, or press N for a new lead."
        />
      ) : (
        <>
          <SearchField text={sought} onType={setSought} />
          {rows.length === 0 ? (
            <p className="below">{`No customer matches “${sought.trim()}”. Try fewer letters.`}</p>
          ) : (
            <ul className="below customers-list" aria-label="Customers">
              {rows.slice(0, most).map(({ customer, properties, propertyIds, openJobs }) => (
                <li key={customer.id}>
                  <SmallPlan rooms={rooms.filter((room) => propertyIds.includes(room.propertyId))} />
                  <LinkWord href={`/customers/${customer.id}`} quiet tall>
                    {customer.name}
                  </LinkWord>
                  <span className="caption">{properties}</span>
                  <span>{customer.phone}</span>
                  <span className="customers-open">{openJobs === 0 ? '' : countWords(openJobs, 'open job', locale)}</span>
                </li>
              ))}
            </ul>
          )}
          {rows.length > most && (
            <p className="small">
              <TextButton onPress={() => setMost(most + AT_ONCE)}>{`Show ${Math.min(AT_ONCE, rows.length - most)} more`}</TextButton>
            </p>
          )}
        </>
      )}
    </Sheet>
  );
}

function footWords(all: number, shown: number, locale: string): string {
  if (all === 0) return 'No customers yet.';
  if (shown < all) return `${shown} of ${countWords(all, 'customer', locale)}.`;
  return `${countWords(all, 'customer', locale)}.`;
}

const [WIDTH_PX, HEIGHT_PX] = [72, 44];

/** The rooms of a customer’s first property in outline. The row beside it says whose they are. */
function SmallPlan({ rooms }: { readonly rooms: readonly Room[] }) {
  const drawing = keyPlan(
    rooms
      .filter((room) => room.propertyId === rooms[0]?.propertyId)
      .map((room) => ({ id: room.id, plan: room.plan, isPicked: false, label: '' })),
    WIDTH_PX,
    HEIGHT_PX,
  );
  return (
    <span className="customers-plan" aria-hidden="true">
      {drawing.marks.length > 0 && <DrawingView drawing={drawing} label="" />}
    </span>
  );
}

/** Leads won and lost this year, with the reasons. Hidden when there are none. */
function LeadCountsPart({ business }: { readonly business: Business }) {
  const leads = useAll('leads') ?? [];
  if (leads.length === 0) return null;
  const year = dayOfInstant(nowInstant(), business.timeZone).slice(0, 4);
  const { open, won, lost, lostFor } = leadCounts(leads, `${year}-01-01T00:00:00.000Z`);
  return (
    <BlockPart heading={`Leads, ${year}`}>
      <p data-testid="lead-counts">{`${open} open, ${won} won, ${lost} lost.`}</p>
      {lostFor.length > 0 && (
        <ul>
          {lostFor.map(({ reason, count }) => (
            <li key={reason} className="small">{`${reason}: ${count}`}</li>
          ))}
        </ul>
      )}
    </BlockPart>
  );
}

interface SearchFieldProps {
  readonly text: string;
  readonly onType: (text: string) => void;
}

function SearchField({ text, onType }: SearchFieldProps) {
  const id = useId();
  return (
    <div className="customers-search">
      <FieldShell id={id} label="Search customers" problem={null}>
        <input
          id={id}
          type="search"
          value={text}
          placeholder="Name, street, or phone"
          autoComplete="off"
          onChange={(event) => onType(event.target.value)}
          onKeyDown={(event) => {
            if (event.key === 'Escape') onType('');
          }}
        />
      </FieldShell>
    </div>
  );
}
