import { useState } from 'react';
import { useLocation } from 'wouter';
import type { Customer } from '../../shared-core/book/customer.ts';
import { nowInstant } from '../book/moment.ts';
import type { Outcome } from '../book/outcome.ts';
import { useBusiness, useOne, useWhere } from '../book/use-records.ts';
import { unarchive, change, archive } from '../book/write.ts';
import { ActionButton } from '../parts/ActionButton.tsx';
import { EmptySheet } from '../parts/EmptySheet.tsx';
import { Fields } from '../parts/Fields.tsx';
import { JOB_STATE_WORDS, roomHref } from '../parts/job/stage-words.ts';
import { LinkWord } from '../parts/LinkWord.tsx';
import { Notice } from '../parts/Notice.tsx';
import { Sheet } from '../parts/Sheet.tsx';
import { TextButton } from '../parts/TextButton.tsx';
import { TextField } from '../parts/TextField.tsx';
import { checkEmail, checkLong, checkName, checkPhone } from '../parts/text-checks.ts';
import { BlockPart, SheetHeading } from '../parts/TitleBlock.tsx';
import { BillingPart } from './BillingPart.tsx';
import { ContactRows } from './ContactRows.tsx';
import { LeadPart } from './LeadPart.tsx';
import { HouseForm, useNewHouse } from './HouseForm.tsx';
import { ReachLinks } from './ReachLinks.tsx';
import './customers.css';

/** One customer: how to reach them, their houses, their jobs. */
export function CustomerScreen({ customerId }: { readonly customerId: string }) {
  const customer = useOne('customers', customerId);
  if (customer === undefined) return <p className="app-opening caption">Reading the book…</p>;
  if (customer === null) {
    return (
      <Sheet page="People" who={{ name: 'People' }}>
        <SheetHeading>No such customer</SheetHeading>
        <EmptySheet what="This customer is not in the book." first={<LinkWord href="/customers">See everybody</LinkWord>} />
      </Sheet>
    );
  }
  return <Person customer={customer} />;
}

function Person({ customer }: { readonly customer: Customer }) {
  const [, go] = useLocation();
  const business = useBusiness();
  const houses = useWhere('properties', 'customerId', customer.id);
  const jobs = useWhere('jobs', 'customerId', customer.id);
  const leads = useWhere('leads', 'customerId', customer.id) ?? [];
  const [problem, setProblem] = useState<string | null>(null);
  const newHouse = useNewHouse(customer.id, business);
  const say = (outcome: Outcome<unknown>): void => setProblem(outcome.ok ? null : outcome.message);
  const edit = (label: string, how: (c: Customer) => Customer): void =>
    void change('customers', customer.id, label, nowInstant(), how).then(say);
  const addHouse = async (): Promise<void> => {
    const id = await newHouse.add();
    if (id !== null) go(`/properties/${id}`);
  };
  const one = [{ table: 'customers' as const, id: customer.id }];
  const first = houses?.[0];
  const isTyping = newHouse.house.address.line !== '';
  return (
    <Sheet
      page="People"
      who={{
        name: customer.name,
        where: customer.phone,
        right: jobs === undefined || jobs.length === 0 ? 'no jobs yet' : jobs.length === 1 ? 'one job' : `${jobs.length} jobs`,
      }}
      block={
        <>
          <BlockPart heading="Houses">
            <ul className="person-rows">
              {(houses ?? []).map((house) => (
                <li key={house.id}>
                  <LinkWord href={`/properties/${house.id}`} tall>
                    {house.address.line}
                  </LinkWord>
                  <span className="caption">{house.yearBuilt === null ? 'age not known' : `built ${house.yearBuilt}`}</span>
                </li>
              ))}
            </ul>
            <HouseForm
              house={newHouse.house}
              onChange={newHouse.change}
              problem={newHouse.problem}
              business={business}
              onAdd={() => void addHouse()}
            />
            {first !== undefined && (
              <TextButton onPress={() => void addHouse()} kind="outlined">
                Add this house
              </TextButton>
            )}
          </BlockPart>
          {jobs !== undefined && jobs.length > 0 && (
            <BlockPart heading="Jobs">
              <ul className="person-rows">
                {jobs.map((job) => {
                  const room = job.rooms[0];
                  return (
                    <li key={job.id}>
                      <LinkWord href={room === undefined ? '/jobs' : roomHref(job.id, room.roomId)} tall>
                        {job.number} {job.title}
                      </LinkWord>
                      <span className="caption">{JOB_STATE_WORDS[job.state]}</span>
                    </li>
                  );
                })}
              </ul>
            </BlockPart>
          )}
          <BlockPart>
            {customer.deletedAt === null ? (
              <TextButton onPress={() => void archive(one, `put away ${customer.name}`, nowInstant()).then(say)}>
                Put this customer away
              </TextButton>
            ) : (
              <TextButton onPress={() => void unarchive(one, `brought back ${customer.name}`, nowInstant()).then(say)}>
                Bring this customer back
              </TextButton>
            )}
          </BlockPart>
        </>
      }
      foot={
        <p className="speech people-foot">
          {first === undefined ? 'Which house is it about?' : 'Rooms are drawn and jobs begun at the house.'}
        </p>
      }
      action={
        first === undefined || isTyping ? (
          <ActionButton onPress={() => void addHouse()}>Add the house</ActionButton>
        ) : (
          <ActionButton href={`/properties/${first.id}`}>Open {first.address.line}</ActionButton>
        )
      }
    >
      <SheetHeading under={customer.deletedAt === null ? undefined : 'Put away: kept, but left out of the lists.'}>
        {customer.name}
      </SheetHeading>
      {problem !== null && (
        <Notice kind="failure" onClose={() => setProblem(null)}>
          {problem}
        </Notice>
      )}
      <div className="person-form">
        <Fields wide>
          <TextField
            label="Name"
            value={customer.name}
            emptyMessage="A name is needed here."
            check={checkName}
            onChange={(name) => edit('name of a customer', (c) => ({ ...c, name }))}
          />
          <TextField
            label="Phone"
            kind="tel"
            value={customer.phone}
            check={checkPhone}
            onChange={(phone) => edit(`telephone of ${customer.name}`, (c) => ({ ...c, phone }))}
          />
          <TextField
            label="Email"
            kind="email"
            value={customer.email}
            check={checkEmail}
            onChange={(email) => edit(`email of ${customer.name}`, (c) => ({ ...c, email }))}
          />
        </Fields>
        <ReachLinks name={customer.name} phone={customer.phone} email={customer.email} />
        {business !== undefined && leads.map((lead) => <LeadPart key={lead.id} lead={lead} business={business} onSay={say} />)}
        <ContactRows customer={customer} onEdit={edit} />
        <BillingPart customer={customer} country={business?.address.country ?? 'US'} onEdit={edit} />
        <TextField
          label="Notes"
          long
          value={customer.notes}
          check={checkLong}
          onChange={(notes) => edit(`notes on ${customer.name}`, (c) => ({ ...c, notes }))}
        />
      </div>
    </Sheet>
  );
}
