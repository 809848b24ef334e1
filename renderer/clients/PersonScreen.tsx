import { useState } from 'react';
import { useLocation } from 'wouter';
import type { Client, Contact } from '../../shared-core/book/client.ts';
import { emptyAddress } from '../../shared-core/book/new-records.ts';
import { nowInstant } from '../book/moment.ts';
import type { Outcome } from '../book/outcome.ts';
import { addProperty } from '../book/people-commands.ts';
import { useBusiness, useOne, useWhere } from '../book/use-records.ts';
import { bringBack, change, putAway } from '../book/write.ts';
import { ActionButton } from '../parts/ActionButton.tsx';
import { EmptySheet } from '../parts/EmptySheet.tsx';
import { Fields } from '../parts/Fields.tsx';
import { LinkWord } from '../parts/LinkWord.tsx';
import { Notice } from '../parts/Notice.tsx';
import { Sheet } from '../parts/Sheet.tsx';
import { TextButton } from '../parts/TextButton.tsx';
import { TextField } from '../parts/TextField.tsx';
import { BlockPart, SheetHeading } from '../parts/TitleBlock.tsx';
import { openingStage, stageHref } from '../parts/job/stage-words.ts';
import { AddressFields } from '../parts/AddressFields.tsx';
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
  const [address, setAddress] = useState(() => emptyAddress('US'));
  const say = (outcome: Outcome<unknown>): void => setProblem(outcome.ok ? null : outcome.message);
  const edit = (label: string, how: (c: Client) => Client): void => void change('clients', client.id, label, nowInstant(), how).then(say);
  const editContact = (i: number, how: (c: Contact) => Contact): void =>
    edit(`contact of ${client.name}`, (c) => ({ ...c, contacts: c.contacts.map((contact, k) => (k === i ? how(contact) : contact)) }));
  const addHouse = async (): Promise<void> => {
    if (address.line.trim() === '') {
      setProblem('Type the street and number of the house first.');
      return;
    }
    const town = address.town === '' ? { ...address, town: business?.address.town ?? '', region: business?.address.region ?? '' } : address;
    const added = await addProperty(
      client.id,
      { ...town, country: business?.address.country ?? town.country },
      business?.timeZone ?? 'UTC',
    );
    if (added.ok) go(`/houses/${added.value}`);
    else setProblem(added.message);
  };
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
            <form
              onSubmit={(event) => {
                event.preventDefault();
                void addHouse();
              }}
            >
              <AddressFields address={address} onChange={setAddress} lineLabel="A house: street and number" />
            </form>
          </BlockPart>
          {jobs !== undefined && jobs.length > 0 && (
            <BlockPart heading="Jobs">
              <ul className="person-rows">
                {jobs.map((job) => {
                  const room = job.rooms[0];
                  return (
                    <li key={job.id}>
                      <LinkWord href={room === undefined ? '/jobs' : stageHref(job.id, openingStage(room.stage), room.roomId)} tall>
                        Job {job.number}
                      </LinkWord>
                      <span className="caption">{job.title}</span>
                    </li>
                  );
                })}
              </ul>
            </BlockPart>
          )}
          <BlockPart>
            {client.deletedAt === null ? (
              <TextButton
                onPress={() => void putAway([{ table: 'clients', id: client.id }], `put away ${client.name}`, nowInstant()).then(say)}
              >
                Put this customer away
              </TextButton>
            ) : (
              <TextButton
                onPress={() => void bringBack([{ table: 'clients', id: client.id }], `brought back ${client.name}`, nowInstant()).then(say)}
              >
                Bring this customer back
              </TextButton>
            )}
          </BlockPart>
        </>
      }
      foot={
        <p className="speech">
          {(houses ?? []).length === 0 ? 'Which house is it about?' : 'Open a house to draw its rooms and start a job.'}
        </p>
      }
      action={<ActionButton onPress={() => void addHouse()}>Add the house</ActionButton>}
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
            onChange={(name) => edit('name of a customer', (c) => ({ ...c, name }))}
          />
          <TextField
            label="Telephone"
            kind="tel"
            value={client.phone}
            onChange={(phone) => edit(`telephone of ${client.name}`, (c) => ({ ...c, phone }))}
          />
          <TextField
            label="Email"
            kind="email"
            value={client.email}
            onChange={(email) => edit(`email of ${client.name}`, (c) => ({ ...c, email }))}
          />
        </Fields>
        <p className="small">
          {client.phone !== '' && <a href={`tel:${client.phone.replace(/\s/g, '')}`}>Call</a>}{' '}
          {client.email !== '' && <a href={`mailto:${client.email}`}>Write</a>}
        </p>
        {client.contacts.map((contact, i) => (
          <div className="person-contact" key={`${i}-${client.contacts.length}`}>
            <Fields wide>
              <TextField
                label="Also to reach"
                value={contact.name}
                emptyMessage="A name is needed here."
                onChange={(name) => editContact(i, (c) => ({ ...c, name }))}
              />
              <TextField
                label="What for"
                value={contact.role}
                placeholder="decides; lays the oak"
                onChange={(role) => editContact(i, (c) => ({ ...c, role }))}
              />
              <TextField
                label="Telephone"
                kind="tel"
                value={contact.phone}
                onChange={(phone) => editContact(i, (c) => ({ ...c, phone }))}
              />
            </Fields>
            <div>
              <TextButton
                kind="plain"
                label={`Take ${contact.name} out`}
                onPress={() => edit(`took out ${contact.name}`, (c) => ({ ...c, contacts: c.contacts.filter((_, k) => k !== i) }))}
              >
                Take out
              </TextButton>
            </div>
          </div>
        ))}
        <div>
          <TextButton
            onPress={() =>
              edit('another contact', (c) => ({ ...c, contacts: [...c.contacts, { name: 'Somebody', role: '', phone: '', email: '' }] }))
            }
          >
            Somebody else to reach
          </TextButton>
        </div>
        <TextField
          label="Notes"
          long
          value={client.notes}
          onChange={(notes) => edit(`notes on ${client.name}`, (c) => ({ ...c, notes }))}
        />
      </div>
    </Sheet>
  );
}
