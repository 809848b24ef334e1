import { useState } from 'react';
import { useLocation } from 'wouter';
import type { Customer } from '../../shared-core/book/customer.ts';
import { ownAddress } from '../../shared-core/book/sample-company.ts';
import { nowInstant } from '../book/command.ts';
import { useBusiness, useOfJobs, useOfProperties, useOne, useWhere } from '../book/use-records.ts';
import { unarchive, change, archive, type Update } from '../book/write.ts';
import { ActionButton, LinkWord, TextButton } from '../parts/Buttons.tsx';
import { Sheet, BlockPart, SheetHeading, NotFound } from '../parts/Sheet.tsx';
import { Fields, TextField, checkName } from '../parts/Fields.tsx';
import { roomHref } from '../parts/job/stage-words.ts';
import { ResultNotice, type Said } from '../parts/Dialog.tsx';
import { useMeasure } from '../parts/use-measure.ts';
import { ContactRows } from './ContactRows.tsx';
import { countWords } from '../../shared-core/measure/count-words.ts';
import { jobStateWord } from '../../shared-core/standing/job-money.ts';
import { jobTitle, propertyName } from '../../shared-core/standing/names.ts';
import { LeadPart } from './LeadPart.tsx';
import { MergePart } from './MergePart.tsx';
import { ReachLinks } from './ReachLinks.tsx';
import { emptyAddress, nearCompany } from '../../shared-core/book/new-records.ts';
import { AddressFields } from '../parts/AddressFields.tsx';
import { CheckRow, SelectField } from '../parts/Choices.tsx';
import type { Business } from '../../shared-core/book/business.ts';
import { addProperty } from '../book/customer-commands.ts';
import './customers.css';

export function CustomerScreen({ customerId }: { readonly customerId: string }) {
  const customer = useOne('customers', customerId);
  if (customer === undefined) return <p className="app-opening caption">Loading…</p>;
  if (customer === null)
    return (
      <NotFound page="Customers" what="Customer" drawing="properties" heading="This customer was deleted or is on another computer." />
    );
  return <OneCustomer customer={customer} />;
}

function OneCustomer({ customer }: { readonly customer: Customer }) {
  const [, go] = useLocation();
  const business = useBusiness();
  const properties = useWhere('properties', 'customerId', customer.id);
  const jobs = useWhere('jobs', 'customerId', customer.id);
  const quotes = useOfJobs(
    'quotes',
    (jobs ?? []).map(({ id }) => id),
  );
  const rooms = useOfProperties((properties ?? []).map(({ id }) => id));
  const leads = useWhere('leads', 'customerId', customer.id) ?? [];
  const { locale } = useMeasure();
  const [isAdding, setAdding] = useState(false);
  const [problem, say] = useState<Said>(null);
  const newProperty = useNewProperty(customer.id, business);
  const edit = (label: string, update: Update<Customer>): void =>
    void change('customers', customer.id, label, nowInstant(), update).then(say);
  const addProperty = async (): Promise<void> => {
    const id = await newProperty.add();
    if (id !== null) go(`/properties/${id}`);
  };
  const one = [{ table: 'customers' as const, id: customer.id }];
  const first = properties?.[0];
  const isTyping = newProperty.address.line !== '';
  return (
    <Sheet
      page="Customers"
      who={{
        name: customer.name,
        where: customer.phone,
        right: countWords(jobs?.length ?? 0, 'job', locale),
      }}
      block={
        <>
          <BlockPart heading="Properties">
            <ul className="ends">
              {(properties ?? []).map((property) => (
                <li key={property.id}>
                  <LinkWord href={`/properties/${property.id}`} tall>
                    {propertyName(property)}
                  </LinkWord>
                  <span className="caption">{property.yearBuilt === null ? 'year built unknown' : `built ${property.yearBuilt}`}</span>
                </li>
              ))}
            </ul>
            {first === undefined || isAdding ? (
              <PropertyForm
                address={newProperty.address}
                onChange={newProperty.change}
                problem={newProperty.problem}
                onAdd={() => void addProperty()}
              />
            ) : (
              <TextButton kind="plain" onPress={() => setAdding(true)}>
                Add property…
              </TextButton>
            )}
            {first !== undefined && isAdding && (
              <TextButton onPress={() => void addProperty()} kind="outlined">
                Add property
              </TextButton>
            )}
          </BlockPart>
          {jobs !== undefined && jobs.length > 0 && (
            <BlockPart heading="Jobs">
              <ul className="ends">
                {jobs.map((job) => {
                  const room = job.rooms[0];
                  return (
                    <li key={job.id}>
                      <LinkWord href={room === undefined ? '/jobs' : roomHref(job.id, room.roomId)} tall>
                        {job.number} {jobTitle(job, rooms)}
                      </LinkWord>
                      <span className="caption">
                        {jobStateWord(
                          job,
                          quotes.filter(({ jobId }) => jobId === job.id),
                        )}
                      </span>
                    </li>
                  );
                })}
              </ul>
            </BlockPart>
          )}
          <BlockPart>
            <div className="words">
              {customer.deletedAt === null && <MergePart customer={customer} onSay={say} />}
              {customer.deletedAt === null ? (
                <TextButton kind="delete" onPress={() => void archive(one, `archive ${customer.name}`, nowInstant()).then(say)}>
                  Archive customer
                </TextButton>
              ) : (
                <TextButton onPress={() => void unarchive(one, `unarchive ${customer.name}`, nowInstant()).then(say)}>
                  Unarchive customer
                </TextButton>
              )}
            </div>
          </BlockPart>
        </>
      }
      foot={
        <p className="speech">
          {first === undefined ? 'Add the property where the work is.' : 'Draw rooms and start jobs at the property.'}
        </p>
      }
      action={
        first === undefined || isTyping ? (
          <ActionButton onPress={() => void addProperty()}>Add property</ActionButton>
        ) : (
          <ActionButton href={`/properties/${first.id}`}>Go to property</ActionButton>
        )
      }
    >
      <SheetHeading under={customer.deletedAt === null ? undefined : 'Archived: kept, but hidden from lists.'}>
        {customer.name}
      </SheetHeading>
      <ResultNotice message={problem} onClose={say} />
      <div className="customer-form">
        <Fields wide>
          <TextField
            label="Name"
            value={customer.name}
            emptyMessage="Enter a name."
            check={checkName}
            onChange={(name) => edit('name of a customer', { name })}
          />
          <TextField label="Phone" kind="tel" value={customer.phone} onChange={(phone) => edit(`phone of ${customer.name}`, { phone })} />
          <TextField label="Email" kind="email" value={customer.email} onChange={(email) => edit(`email of ${customer.name}`, { email })} />
        </Fields>
        <MoreReachRows customer={customer} onEdit={edit} />
        <ReachLinks name={customer.name} phone={customer.phone} email={customer.email} />
        {business !== undefined && leads.map((lead) => <LeadPart key={lead.id} lead={lead} business={business} onSay={say} />)}
        <ContactRows customer={customer} onEdit={edit} />
        <BillingPart customer={customer} country={business?.address.country ?? 'US'} onEdit={edit} />
        <TextField label="Notes" long value={customer.notes} onChange={(notes) => edit(`notes on ${customer.name}`, { notes })} />
      </div>
    </Sheet>
  );
}

interface BillingPartProps {
  readonly customer: Customer;
  /** Two-letter country code of the company. */
  readonly country: string;
  readonly onEdit: (label: string, change: Update<Customer>) => void;
}

/** Asked for only where it differs from the property. */
function BillingPart({ customer, country, onEdit }: BillingPartProps) {
  return (
    <section className="stack customer-part" aria-labelledby="customer-billing">
      <h2 className="caption" id="customer-billing">
        Billing address
      </h2>
      <CheckRow
        label="Different from the property address"
        checked={customer.address !== null}
        onChange={(on) => onEdit('billing address', { address: on ? emptyAddress(country) : null })}
      />
      {customer.address !== null && (
        <AddressFields
          address={customer.address}
          lineLabel="Billing street address"
          onChange={(change) =>
            onEdit('billing address', (c) => ({ ...c, address: { ...(c.address ?? emptyAddress(country)), ...change } }))
          }
        />
      )}
    </section>
  );
}

type More = Customer['more'][number];
const KINDS: Readonly<Record<More['kind'], string>> = { phone: 'Phone', email: 'Email', address: 'Address' };
/** Limit of the customer record's schema. */
const MOST = 20;

function MoreReachRows({ customer, onEdit }: Omit<BillingPartProps, 'country'>) {
  const edit = (i: number, change: Partial<More>): void =>
    onEdit(`contact details of ${customer.name}`, (c) => ({ ...c, more: c.more.map((one, k) => (k === i ? { ...one, ...change } : one)) }));
  return (
    <>
      {customer.more.map((one, i) => (
        // Rows have no id, so their order is the key.
        <div className="customer-contact" key={`${i}-${customer.more.length}`}>
          <Fields>
            <SelectField label="Kind" value={one.kind} options={KINDS} onChange={(kind) => edit(i, { kind })} />
            <TextField label="Label" value={one.label} placeholder="Work, mobile" onChange={(label) => edit(i, { label })} />
            <TextField label={KINDS[one.kind]} value={one.text} onChange={(text) => edit(i, { text })} />
          </Fields>
          <div className="words">
            <TextButton
              kind="delete"
              label={`Delete ${one.text}`}
              onPress={() => onEdit(`delete ${one.text}`, (c) => ({ ...c, more: c.more.filter((_, k) => k !== i) }))}
            >
              Delete
            </TextButton>
          </div>
        </div>
      ))}
      {customer.more.length < MOST && (
        <div>
          <TextButton
            kind="plain"
            onPress={() =>
              onEdit(`contact details of ${customer.name}`, (c) => ({ ...c, more: [...c.more, { kind: 'phone', label: '', text: '' }] }))
            }
          >
            Add phone, email, or address
          </TextButton>
        </div>
      )}
    </>
  );
}

type Address = ReturnType<typeof emptyAddress>;

/** State of the form. `add` returns the new id, or null after showing a message at the field. */
function useNewProperty(customerId: string, business: Business | undefined) {
  const [address, setAddress] = useState<Address>(() => emptyAddress('US'));
  const [problem, setProblem] = useState<string | null>(null);
  const change = (changed: Partial<Address>): void => {
    setAddress((now) => ({ ...now, ...changed }));
    setProblem(null);
  };
  const add = async (): Promise<string | null> => {
    if (address.line.trim() === '') {
      setProblem('Enter the street address of the property.');
      return null;
    }
    const own = business === undefined ? address : ownAddress(business);
    const added = await addProperty(customerId, { ...nearCompany(address, own), country: own.country }, business?.timeZone ?? 'UTC');
    if (added.ok) return added.value;
    setProblem(added.message);
    return null;
  };
  return { address, change, problem, add };
}

interface PropertyFormProps {
  readonly address: Address;
  readonly onChange: (changed: Partial<Address>) => void;
  readonly problem: string | null;
  readonly onAdd: () => void;
}

function PropertyForm({ address, onChange, problem, onAdd }: PropertyFormProps) {
  return (
    <form
      className="stack customer-property"
      onSubmit={(event) => {
        event.preventDefault();
        onAdd();
      }}
    >
      <AddressFields address={address} onChange={onChange} lineLabel="Street address of a new property" problem={problem} />
      {/* Enter in any field runs the main action. */}
      <button type="submit" className="hidden-words" tabIndex={-1} aria-hidden="true">
        Add property
      </button>
    </form>
  );
}
