import { useMemo, useState } from 'react';
import { useLocation } from 'wouter';
import { nowInstant } from '../book/moment.ts';
import { addClient } from '../book/people-commands.ts';
import { useAll, useBusiness, usePutAway } from '../book/use-records.ts';
import { bringBack } from '../book/write.ts';
import { ActionButton } from '../parts/ActionButton.tsx';
import { EmptySheet } from '../parts/EmptySheet.tsx';
import { LinkWord } from '../parts/LinkWord.tsx';
import { Sheet } from '../parts/Sheet.tsx';
import { TextButton } from '../parts/TextButton.tsx';
import { TextField } from '../parts/TextField.tsx';
import { BlockPart, SheetHeading } from '../parts/TitleBlock.tsx';
import './clients.css';

/** Everybody the business works for. */
export function PeopleScreen() {
  const [, go] = useLocation();
  const clients = useAll('clients');
  const properties = useAll('properties');
  const jobs = useAll('jobs');
  const away = usePutAway('clients');
  const business = useBusiness();
  const [name, setName] = useState('');
  const [problem, setProblem] = useState<string | null>(null);
  const rows = useMemo(
    () =>
      [...(clients ?? [])]
        .sort((a, b) => a.name.localeCompare(b.name))
        .map((client) => ({
          client,
          houses: (properties ?? []).filter((p) => p.clientId === client.id).map((p) => p.address.line),
          open: (jobs ?? []).filter((j) => j.clientId === client.id && j.state === 'open').length,
        })),
    [clients, properties, jobs],
  );
  const begin = async (): Promise<void> => {
    if (name.trim() === '') {
      setProblem('Type the customer’s name first.');
      return;
    }
    const added = await addClient(name);
    if (added.ok) go(`/people/${added.value}`);
    else setProblem(added.message);
  };
  if (clients === undefined || business === undefined) return <p className="app-opening caption">Reading the book…</p>;
  return (
    <Sheet
      page="People"
      who={{ name: business.name === '' ? 'Your business' : business.name, where: business.address.town }}
      block={
        <>
          <BlockPart heading="A new customer">
            <form
              onSubmit={(event) => {
                event.preventDefault();
                void begin();
              }}
            >
              <TextField label="Name" value={name} onChange={setName} problem={problem} placeholder="a person, a couple, a firm" />
            </form>
          </BlockPart>
          {away !== undefined && away.length > 0 && (
            <BlockPart heading="Put away">
              <ul className="people-away">
                {away.map((client) => (
                  <li key={client.id}>
                    <span>{client.name}</span>
                    <TextButton
                      onPress={() => void bringBack([{ table: 'clients', id: client.id }], `brought back ${client.name}`, nowInstant())}
                      label={`Bring back ${client.name}`}
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
      foot={
        <p className="speech">
          {rows.length === 0 ? 'Nobody is in the book yet.' : rows.length === 1 ? 'One customer.' : `${rows.length} customers.`}
        </p>
      }
      action={<ActionButton onPress={() => void begin()}>Add the customer</ActionButton>}
    >
      <SheetHeading>People</SheetHeading>
      {rows.length === 0 ? (
        <EmptySheet what="Customers go here, each with their houses and jobs." how="Type a name at the right to begin." />
      ) : (
        <ul className="people-list">
          {rows.map(({ client, houses, open }) => (
            <li key={client.id}>
              <LinkWord href={`/people/${client.id}`} quiet tall>
                {client.name}
              </LinkWord>
              <span className="caption">{houses.join('; ')}</span>
              <span>{client.phone}</span>
              <span className="people-open">{open === 0 ? '' : open === 1 ? 'one job open' : `${open} jobs open`}</span>
            </li>
          ))}
        </ul>
      )}
    </Sheet>
  );
}
