import { useState } from 'react';
import type { Business } from '../../shared-core/book/business.ts';
import { formatClockTime } from '../../shared-core/measure/clock-time.ts';
import { changeBusiness } from '../book/business-commands.ts';
import type { Outcome } from '../book/outcome.ts';
import { useBusiness } from '../book/use-records.ts';
import { ActionButton } from '../parts/ActionButton.tsx';
import { Datum } from '../parts/Datum.tsx';
import { Notice } from '../parts/Notice.tsx';
import { Sheet } from '../parts/Sheet.tsx';
import { SheetHeading } from '../parts/TitleBlock.tsx';
import { CalendarFilesPart } from './CalendarFilesPart.tsx';
import { CostsPart } from './CostsPart.tsx';
import { HoursPart } from './HoursPart.tsx';
import { IdentityPart } from './IdentityPart.tsx';
import { BackupPart } from './BackupPart.tsx';
import { LearnedPart } from './LearnedPart.tsx';
import { LookPart } from './LookPart.tsx';
import { PricingPart } from './PricingPart.tsx';
import { ArchivePart } from './ArchivePart.tsx';
import { QuotePart, CalculationPart } from './QuotePart.tsx';
import { RemindersPart } from './RemindersPart.tsx';
import { SamplePart } from './SamplePart.tsx';
import { TaxPart } from './TaxPart.tsx';
import { WaysPart } from './WaysPart.tsx';
import { workingDay } from './working-day.ts';
import './settings.css';

/** The business itself: what stands on its papers, what its work costs, and where the book is kept. */
export function BusinessScreen() {
  const business = useBusiness();
  return business === undefined ? <p className="app-opening caption">Reading the book…</p> : <Shown business={business} />;
}

function Shown({ business }: { readonly business: Business }) {
  const [problem, setProblem] = useState<string | null>(null);
  const say = (outcome: Outcome<unknown>): void => setProblem(outcome.ok ? null : outcome.message);
  const part = {
    business,
    edit: (label: string, how: (b: Business) => Business): void => void changeBusiness(label, how).then(say),
  };
  const { hours, locale } = business;
  const missing = missingFor(business);
  const clock = formatClockTime('13:00', locale).startsWith('13') ? '24' : '12';
  return (
    <Sheet
      page="Business"
      who={{ name: business.name === '' ? 'Your business' : business.name, where: business.address.city, right: business.ownerName }}
      block={
        <>
          <LookPart />
          <RemindersPart />
          <CalendarFilesPart />
          <BackupPart />
          <SamplePart />
          <ArchivePart onSay={say} />
        </>
      }
      datumSticks
      datum={
        <Datum
          label={`The hours of a day; work is from ${formatClockTime(hours.from, locale)} to ${formatClockTime(hours.to, locale)}.`}
          scale={(widthPx) => workingDay(hours, clock, widthPx)}
        />
      }
      foot={<p className="speech settings-foot">{missing === null ? 'Everything a quote needs of you stands here.' : missing.says}</p>}
      action={
        missing === null ? (
          <ActionButton href="/">Back to today</ActionButton>
        ) : (
          <ActionButton onPress={() => focusField(missing.label)}>{missing.word}</ActionButton>
        )
      }
    >
      <SheetHeading under="Everything here is kept as you type it, and every change can be undone.">Business</SheetHeading>
      {problem !== null && (
        <Notice kind="failure" onClose={() => setProblem(null)}>
          {problem}
        </Notice>
      )}
      <IdentityPart {...part} />
      <WaysPart {...part} />
      <TaxPart {...part} say={say} />
      <PricingPart {...part} />
      <CostsPart {...part} />
      <HoursPart {...part} />
      <QuotePart {...part} />
      <CalculationPart {...part} />
      <LearnedPart {...part} />
    </Sheet>
  );
}

interface Missing {
  readonly label: string;
  readonly says: string;
  readonly word: string;
}

/** The first thing that a quote still lacks of the business, with the field that it goes into. */
function missingFor(business: Business): Missing | null {
  if (business.name === '')
    return { label: 'Name of the business', says: 'A quote needs the name of your business.', word: 'Type the name' };
  if (business.address.line === '') return { label: 'Street and number', says: 'A quote needs your address.', word: 'Type the address' };
  if (business.phone === '' && business.email === '')
    return { label: 'Phone', says: 'A customer needs a way to reach you.', word: 'Type the telephone' };
  return null;
}

/** Brings the hand to the field of that name. */
function focusField(label: string): void {
  const found = [...document.querySelectorAll<HTMLLabelElement>('#sheet-main label')].find((l) => l.textContent === label);
  found?.control?.focus();
}
