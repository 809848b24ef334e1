import { useMemo, useState } from 'react';
import { useLocation } from 'wouter';
import { nowInstant } from '../book/now-instant.ts';
import { addCustomer } from '../book/customer-commands.ts';
import { useAll, useArchive, useBusiness, useOfProperties, useWhere } from '../book/use-records.ts';
import { unarchive } from '../book/write.ts';
import { ActionButton, LinkWord, TextButton } from '../parts/Buttons.tsx';
import { countWords } from '../../shared-core/measure/count-words.ts';
import { EmptySheet, Sheet, BlockPart, SheetHeading } from '../parts/Sheet.tsx';
import { TextField, checkShort } from '../parts/Fields.tsx';
import { ContactsPart } from './ContactsPart.tsx';
import { customerList } from './customer-list.ts';
import { LeadCountsPart } from './LeadCountsPart.tsx';
import { SearchField } from './SearchField.tsx';
import { SmallPlan } from './SmallPlan.tsx';
import './customers.css';

/** Customers shown at a time. */
const AT_ONCE = 100;
/** And so many of them with their plan. */
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
      who={{ name: business.name === '' ? 'Your company' : business.name, where: business.address.city }}
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
                check={checkShort}
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
              <ul className="ends">
                {archived.map((customer) => (
                  <li key={customer.id}>
                    <span>{customer.name}</span>
                    <TextButton
                      onPress={() => void unarchive([{ table: 'customers', id: customer.id }], `unarchive ${customer.name}`, nowInstant())}
                      label={`Unarchive ${customer.name}`}
                    >
                      Unarchive
                    </TextButton>
                  </li>
                ))}
              </ul>
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
          <SearchField label="Search customers" placeholder="Name, street, or phone" text={sought} onType={setSought} />
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
