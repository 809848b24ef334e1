import { useState } from 'react';
import type { Business } from '../../shared-core/book/business.ts';
import { nowInstant } from '../book/command.ts';
import { openSampleData } from '../book/sample-commands.ts';
import { ActionButton, LinkWord, TextButton } from '../parts/Buttons.tsx';
import { companyWho, EmptySheet, Sheet, BlockPart } from '../parts/Sheet.tsx';
import { Notice } from '../parts/Dialog.tsx';
import { DayHeading } from './DayHeading.tsx';
import { useBusy } from '../parts/use-busy.ts';
import { useSheetFrame } from '../parts/sheet-frame.ts';

interface EmptyBookProps {
  readonly business: Business;
  readonly now: string;
  /** There are jobs, but none is open. */
  readonly isUsed: boolean;
}

/** Today without an open job: a new lead, or sample data when there are no records. */
export function EmptyBook({ business, now, isUsed }: EmptyBookProps) {
  const { openNewLead } = useSheetFrame();
  const [problem, setProblem] = useState<string | null>(null);
  const [isFilling, run] = useBusy();
  const fill = (): void => run(() => openSampleData(nowInstant()).then((filled) => setProblem(filled.ok ? null : filled.message)));
  return (
    <Sheet
      page="Today"
      who={{ ...companyWho(business), ...(business.name === '' && { where: 'No name yet' }) }}
      block={
        <BlockPart>
          <p>Your company name, address, and phone are printed on every quote.</p>
          <LinkWord href="/business" tall>
            Go to Settings
          </LinkWord>
        </BlockPart>
      }
      foot={<p className="speech">{isUsed ? 'No open jobs.' : 'No jobs yet.'}</p>}
      action={openNewLead !== null && <ActionButton onPress={openNewLead}>New lead</ActionButton>}
    >
      <DayHeading now={now} zone={business.timeZone} />
      <EmptySheet
        drawing="days"
        heading="Your tasks for today appear here, with every room by day."
        hint="Start with a lead: a name is enough. Add the room, its size, and about how far out it is to get a price range at once."
        or={
          isUsed ? undefined : (
            <>
              <TextButton kind="outlined" disabled={isFilling} onPress={fill}>
                {isFilling ? 'Loading…' : 'Open sample data'}
              </TextButton>
              <LinkWord href="/backup" tall>
                Open a backup
              </LinkWord>
            </>
          )
        }
      />
      {problem !== null && <Notice kind="failure">{problem}</Notice>}
    </Sheet>
  );
}
