import { useState } from 'react';
import { useLocation } from 'wouter';
import type { Business } from '../../shared-core/book/business.ts';
import { formatInstantDay, formatInstantTime } from '../../shared-core/measure/moment.ts';
import { sampleBook } from '../../shared-core/sample/sample-book.ts';
import { nowInstant } from '../book/moment.ts';
import { addCustomer } from '../book/people-commands.ts';
import { addSample } from '../book/sample-commands.ts';
import { ActionButton } from '../parts/ActionButton.tsx';
import { EmptySheet } from '../parts/EmptySheet.tsx';
import { LinkWord } from '../parts/LinkWord.tsx';
import { Notice } from '../parts/Notice.tsx';
import { Sheet } from '../parts/Sheet.tsx';
import { TextButton } from '../parts/TextButton.tsx';
import { TextField } from '../parts/TextField.tsx';
import { BlockPart, SheetHeading } from '../parts/TitleBlock.tsx';

interface EmptyBookProps {
  readonly business: Business;
  readonly now: string;
  /** Jobs stand in the book, and none of them is open. */
  readonly isUsed: boolean;
}

/** The first sheet of a book in which no job is open: the next customer, or in an empty one the sample book to look around in. */
export function EmptyBook({ business, now, isUsed }: EmptyBookProps) {
  const [, go] = useLocation();
  const [name, setName] = useState('');
  const [problem, setProblem] = useState<string | null>(null);
  const [filling, setFilling] = useState(false);
  const begin = async (): Promise<void> => {
    if (name.trim() === '') {
      setProblem('Type the customer’s name first.');
      return;
    }
    const added = await addCustomer(name);
    if (added.ok) go(`/customers/${added.value}`);
    else setProblem(added.message);
  };
  const fill = async (): Promise<void> => {
    setFilling(true);
    const filled = await addSample(sampleBook(nowInstant()));
    setFilling(false);
    if (!filled.ok) setProblem(filled.message);
  };
  return (
    <Sheet
      page="Today"
      who={{
        name: business.name === '' ? 'Your business' : business.name,
        where: business.name === '' ? 'not named yet' : business.address.city,
      }}
      block={
        <BlockPart>
          <p>
            Your own name, address, costs and taxes stand under <LinkWord href="/business">Business</LinkWord>; they go on every quote.
          </p>
        </BlockPart>
      }
      foot={<p className="speech">{isUsed ? 'No job is open.' : 'No job stands in the book yet.'}</p>}
      action={<ActionButton onPress={() => void begin()}>Begin with this customer</ActionButton>}
    >
      <SheetHeading right={formatInstantTime(now, business.timeZone, business.locale)}>
        {formatInstantDay(now, business.timeZone, 'long', business.locale)}
      </SheetHeading>
      <EmptySheet
        what="Your jobs go here: what needs you today, what is curing and until when."
        how="It begins with a customer. Then their house, its rooms, and a job."
        {...(isUsed
          ? {}
          : {
              or: (
                <TextButton kind="outlined" disabled={filling} onPress={() => void fill()}>
                  {filling ? 'Filling the sample book…' : 'Look around in the sample book'}
                </TextButton>
              ),
            })}
      />
      <form
        className="empty-book"
        onSubmit={(event) => {
          event.preventDefault();
          void begin();
        }}
      >
        <TextField label="The customer’s name" value={name} onChange={setName} onEnter={() => void begin()} problem={problem} />
      </form>
      {problem !== null && filling && <Notice kind="failure">{problem}</Notice>}
    </Sheet>
  );
}
