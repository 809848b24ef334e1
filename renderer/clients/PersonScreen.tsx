import { useState } from 'react';
import { useLocation } from 'wouter';
import type { Client } from '../../shared-core/book/client.ts';
import { nowInstant } from '../book/moment.ts';
import type { Outcome } from '../book/outcome.ts';
import { useBusiness, useOne, useWhere } from '../book/use-records.ts';
import { bringBack, change, putAway } from '../book/write.ts';
import { ActionButton } from '../parts/ActionButton.tsx';
import { EmptySheet } from '../parts/EmptySheet.tsx';
import { Fields } from '../parts/Fields.tsx';
import { JOB_STATE_WORDS, openingStage, stageHref } from '../parts/job/stage-words.ts';
import { LinkWord } from '../parts/LinkWord.tsx';
import { Notice } from '../parts/Notice.tsx';
import { Sheet } from '../parts/Sheet.tsx';
import { TextButton } from '../parts/TextButton.tsx';
import { TextField } from '../parts/TextField.tsx';
import { checkEmail, checkLong, checkName, checkPhone } from '../parts/text-checks.ts';
import { BlockPart, SheetHeading } from '../parts/TitleBlock.tsx';
import { BillingPart } from './BillingPart.tsx';
import { ContactRows } from './ContactRows.tsx';
import { HouseForm, useNewHouse } from './HouseForm.tsx';
import { ReachLinks } from './ReachLinks.tsx';
import './clients.css';

/** One customer: how to reach them, their houses, their jobs. */
export function PersonScreen({ clientId }: { readonly clientId: string }) {
  const client = useOne('clients', clientId);
  if (client === undefined) return <p className="app-opening caption">Reading the book…</p>;
  if (client === null) {
    return (
      <Sheet page="People" who={{ name: 'People' }}>
        <SheetHeading>No such customer</SheetHeading>
        <EmptySheet what="This customer is not in the book." first={<LinkWord href="/people">See everybody</LinkWord>} />
      </Sheet>
    );
  }
  return <Person client={client} />;
}

function Person({ client }: { readonly client: Client }) {
  const [, go] = useLocation();
  const business = useBusiness();
  const houses = useWhere('properties', 'clientId', client.id);
  const jobs = useWhere('jobs', 'clientId', client.id);
  const [problem, setProblem] = useState<string | null>(null);
  const newHouse = useNewHouse(client.id, business);
  const say = (outcome: Outcome<unknown>): void => setProblem(outcome.ok ? null : outcome.message);
  const edit = (label: string, how: (c: Client) => Client): void => void change('clients', client.id, label, nowInstant(), how).then(say);
  const addHouse = async (): Promise<void> => {
    const id = await newHouse.add();
    if (id !== null) go(`/houses/${id}`);
  };
  const one = [{ table: 'clients' as const, id: client.id }];
  const first = houses?.[0];
  const isTyping = newHouse.house.address.line !== '';
  return (
    <Sheet
      page="People"
      who={{
        name: client.name,
        where: client.phone,
        right: jobs === undefined || jobs.length === 0 ? 'no jobs yet' : jobs.length === 1 ? 'one job' : `${jobs.length} jobs`,
      }}
      block={
        <>
          <BlockPart heading="Houses">
            <ul className="person-rows">
              {(houses ?? []).map((house) => (
                <li key={house.id}>
                  <LinkWord href={`/houses/${house.id}`} tall>
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
                      <LinkWord href={room === undefined ? '/jobs' : stageHref(job.id, openingStage(room.stage), room.roomId)} tall>
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
            {client.deletedAt === null ? (
              <TextButton onPress={() => void putAway(one, `put away ${client.name}`, nowInstant()).then(say)}>
                Put this customer away
              </TextButton>
            ) : (
              <TextButton onPress={() => void bringBack(one, `brought back ${client.name}`, nowInstant()).then(say)}>
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
          <ActionButton href={`/houses/${first.id}`}>Open {first.address.line}</ActionButton>
        )
      }
    >
      <SheetHeading under={client.deletedAt === null ? undefined : 'Put away: kept, but left out of the lists.'}>
        {client.name}
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
            value={client.name}
            emptyMessage="A name is needed here."
            check={checkName}
            onChange={(name) => edit('name of a customer', (c) => ({ ...c, name }))}
          />
          <TextField
            label="Telephone"
            kind="tel"
            value={client.phone}
            check={checkPhone}
            onChange={(phone) => edit(`telephone of ${client.name}`, (c) => ({ ...c, phone }))}
          />
          <TextField
            label="Email"
            kind="email"
            value={client.email}
            check={checkEmail}
            onChange={(email) => edit(`email of ${client.name}`, (c) => ({ ...c, email }))}
          />
        </Fields>
        <ReachLinks name={client.name} phone={client.phone} email={client.email} />
        <ContactRows client={client} onEdit={edit} />
        <BillingPart client={client} country={business?.address.country ?? 'US'} onEdit={edit} />
        <TextField
          label="Notes"
          long
          value={client.notes}
          check={checkLong}
          onChange={(notes) => edit(`notes on ${client.name}`, (c) => ({ ...c, notes }))}
        />
      </div>
    </Sheet>
  );
}
