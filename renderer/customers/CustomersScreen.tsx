import { useMemo, useState } from 'react';
import { useLocation } from 'wouter';
import { nowInstant } from '../book/moment.ts';
import { addCustomer } from '../book/people-commands.ts';
import { useAll, useBusiness, useArchive, useWhere } from '../book/use-records.ts';
import { unarchive } from '../book/write.ts';
import { ActionButton } from '../parts/ActionButton.tsx';
import { EmptySheet } from '../parts/EmptySheet.tsx';
import { LinkWord } from '../parts/LinkWord.tsx';
import { Sheet } from '../parts/Sheet.tsx';
import { TextButton } from '../parts/TextButton.tsx';
import { TextField } from '../parts/TextField.tsx';
import { BlockPart, SheetHeading } from '../parts/TitleBlock.tsx';
import { checkShort } from '../parts/text-checks.ts';
import { ContactsPart } from './ContactsPart.tsx';
import { customerList } from './people-list.ts';
import { SearchField } from './SearchField.tsx';
import './customers.css';

/** Drawn at a time: the search finds the others. */
const AT_ONCE = 100;

/** Everybody the business works for. */
export function CustomersScreen() {
  const [, go] = useLocation();
  const customers = useAll('customers');
  const properties = useAll('properties');
  const jobs = useWhere('jobs', 'state', 'open');
  const away = useArchive('customers');
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
  const begin = async (): Promise<void> => {
    if (name.trim() === '') {
      setProblem('Type the customer’s name first.');
      return;
    }
    const added = await addCustomer(name);
    if (added.ok) go(`/customers/${added.value}`);
    else setProblem(added.message);
  };
  if (customers === undefined || business === undefined) return <p className="app-opening caption">Reading the book…</p>;
  return (
    <Sheet
      page="People"
      who={{ name: business.name === '' ? 'Your business' : business.name, where: business.address.city }}
      block={
        <>
          <BlockPart heading="A new customer">
            <form
              onSubmit={(event) => {
                event.preventDefault();
                void begin();
              }}
            >
              <TextField
                label="Name"
                value={name}
                check={checkShort}
                problem={problem}
                placeholder="a person, a couple, a firm"
                onChange={(typed) => {
                  setName(typed);
                  setProblem(null);
                }}
              />
            </form>
          </BlockPart>
          <ContactsPart />
          {away !== undefined && away.length > 0 && (
            <BlockPart heading="Put away">
              <ul className="people-away">
                {away.map((customer) => (
                  <li key={customer.id}>
                    <span>{customer.name}</span>
                    <TextButton
                      onPress={() =>
                        void unarchive([{ table: 'customers', id: customer.id }], `brought back ${customer.name}`, nowInstant())
                      }
                      label={`Bring back ${customer.name}`}
                    >
                      Bring back
                    </TextButton>
                  </li>
                ))}
              </ul>
            </BlockPart>
          )}
        </>
      }
      foot={<p className="speech people-foot">{footWords(customers.length, rows.length)}</p>}
      action={<ActionButton onPress={() => void begin()}>Add the customer</ActionButton>}
    >
      <SheetHeading>People</SheetHeading>
      {customers.length === 0 ? (
        <EmptySheet what="Customers go here, each with their houses and jobs." how="Type a name at the right to begin." />
      ) : (
        <>
          <SearchField label="Find a customer" placeholder="name, street or telephone" text={sought} onType={setSought} />
          {rows.length === 0 ? (
            <p className="people-none">
              Nobody here is called “{sought.trim()}”, lives there or has that number. Type less of it, or add them at the right.
            </p>
          ) : (
            <ul className="people-list" aria-label="Customers">
              {rows.slice(0, most).map(({ customer, houses, openJobs }) => (
                <li key={customer.id}>
                  <LinkWord href={`/customers/${customer.id}`} quiet tall>
                    {customer.name}
                  </LinkWord>
                  <span className="caption">{houses}</span>
                  <span>{customer.phone}</span>
                  <span className="people-open">{openJobs === 0 ? '' : openJobs === 1 ? 'one job open' : `${openJobs} jobs open`}</span>
                </li>
              ))}
            </ul>
          )}
          {rows.length > most && (
            <p className="small">
              {most} of {rows.length}.{' '}
              <TextButton onPress={() => setMost(most + AT_ONCE)}>Show {Math.min(AT_ONCE, rows.length - most)} more</TextButton>
            </p>
          )}
        </>
      )}
    </Sheet>
  );
}

function footWords(all: number, shown: number): string {
  if (all === 0) return 'Nobody is in the book yet.';
  if (shown < all) return `${shown} of ${all} customers.`;
  return all === 1 ? 'One customer.' : `${all} customers.`;
}
