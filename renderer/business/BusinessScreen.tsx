import { type Update, unarchive } from '../book/write.ts';
import { useMemo, useState } from 'react';
import type { Business } from '../../shared-core/book/business.ts';
import { formatClockTime, hoursOfClock } from '../../shared-core/measure/clock-time.ts';
import { changeBusiness } from '../book/business-commands.ts';
import { type Outcome, nowInstant } from '../book/command.ts';
import { useBusiness, useArchive } from '../book/use-records.ts';
import { useBusy } from '../parts/use-busy.ts';
import { focusLabeled } from '../parts/focus-labeled.ts';
import { ArchivedList } from '../parts/ArchivedList.tsx';
import { ActionButton, TextButton } from '../parts/Buttons.tsx';
import { Datum, type DatumScale } from '../parts/Datum.tsx';
import { Dialog, ResultNotice, type Said } from '../parts/Dialog.tsx';
import { companyWho, Sheet, SheetHeading, BlockPart } from '../parts/Sheet.tsx';
import { CalendarFilesPart, HoursPart, RemindersPart } from './HoursPart.tsx';
import { ClausesPart, ContractPart, QuotePart, CalculationPart } from './QuotePart.tsx';
import { CostsPart, PricingPart } from './CostsPart.tsx';
import { IdentityPart } from './IdentityPart.tsx';
import { BackupPart } from './BackupPart.tsx';
import { LearnedPart } from './LearnedPart.tsx';
import { MoneyPart, TaxPart } from './MoneyPart.tsx';
import { OpenPartsContext } from './SettingsPart.tsx';
import { UnitsPart } from './UnitsPart.tsx';
import './settings.css';
import { storeSetting, useSetting } from '../book/settings.ts';
import type { Look } from '../look/use-look.ts';
import { CheckRow, ChoiceRow } from '../parts/Choices.tsx';
import { clearLabels, hourTicks, scaleX } from '../../shared-core/drawing/datum.ts';
import { propertyName } from '../../shared-core/standing/names.ts';
import { isSampleCompany } from '../../shared-core/book/sample-company.ts';
import { missingForLetterhead } from '../../shared-core/documents/letterhead.ts';
import { enterOwnCompany, openSampleData, removeSample, useHasSample } from '../book/sample-commands.ts';
import { countWords } from '../../shared-core/measure/count-words.ts';

/** The settings screen. `part` opens one of the folded parts. */
export function BusinessScreen({ part = null }: { readonly part?: string | null }) {
  const business = useBusiness();
  return business === undefined ? <p className="app-opening caption">Loading…</p> : <Settings key={part} business={business} part={part} />;
}

function Settings({ business, part: target }: { readonly business: Business; readonly part: string | null }) {
  const [open, setOpen] = useState<ReadonlySet<string>>(() => new Set(target === null ? [] : [target]));
  const parts = useMemo(
    () => ({
      open,
      target,
      toggle: (key: string) =>
        setOpen((openKeys) => new Set(openKeys.has(key) ? [...openKeys].filter((one) => one !== key) : [...openKeys, key])),
    }),
    [open, target],
  );
  const [problem, say] = useState<Said>(null);
  const part = {
    business,
    edit: (label: string, change: Update<Business>): void => void changeBusiness(label, change).then(say),
  };
  const { hours, locale } = business;
  const isInvented = isSampleCompany(business);
  const gap = missingForLetterhead(business);
  const missing = gap === null ? null : MISSING[gap];
  const clock = formatClockTime('13:00', locale).startsWith('13') ? '24' : '12';
  return (
    <Sheet
      page="Settings"
      who={{ ...companyWho(business), right: business.ownerName }}
      block={
        <>
          <AppearancePart />
          <RemindersPart />
          <CalendarFilesPart />
          <BackupPart />
          <SamplePart isInvented={isInvented} />
          <ArchivePart onSay={say} />
        </>
      }
      datumSticks
      datum={
        <Datum
          label={`Working hours: ${formatClockTime(hours.from, locale)} to ${formatClockTime(hours.to, locale)}.`}
          scale={(widthPx) => workingDay(hours, clock, widthPx)}
        />
      }
      foot={
        <p className="speech">
          {isInvented ? 'This company is from the sample data.' : (missing?.text ?? 'Your company information is complete.')}
        </p>
      }
      action={
        isInvented ? (
          <ActionButton onPress={() => void enterOwnCompany().then(say)}>Enter your company</ActionButton>
        ) : missing === null ? (
          <ActionButton href="/">Go to Today</ActionButton>
        ) : (
          <ActionButton onPress={() => focusLabeled(missing.label)}>{missing.word}</ActionButton>
        )
      }
    >
      <SheetHeading under="Changes are saved as you type.">Settings</SheetHeading>
      <ResultNotice message={problem} onClose={say} />
      <OpenPartsContext value={parts}>
        <IdentityPart {...part} />
        <UnitsPart {...part} />
        <TaxPart {...part} say={say} />
        <PricingPart {...part} />
        <CostsPart {...part} />
        <MoneyPart {...part} />
        <HoursPart {...part} />
        <QuotePart {...part} />
        <ContractPart {...part} />
        <ClausesPart {...part} />
        <CalculationPart {...part} />
        <LearnedPart {...part} />
      </OpenPartsContext>
    </Sheet>
  );
}

interface Missing {
  readonly label: string;
  readonly text: string;
  readonly word: string;
}

const MISSING: Readonly<Record<NonNullable<ReturnType<typeof missingForLetterhead>>, Missing>> = {
  name: { label: 'Company name', text: 'Enter your company name. It is printed on every quote.', word: 'Enter name' },
  owner: { label: 'Your name', text: 'Enter your name. It is printed on every quote.', word: 'Enter your name' },
  address: { label: 'Street address', text: 'Enter your address. It is printed on every quote.', word: 'Enter address' },
  phone: { label: 'Phone', text: 'Enter your phone number or email. It is printed on every quote.', word: 'Enter phone' },
};

const LOOKS: Readonly<Record<Look, string>> = { light: 'Light', dark: 'Dark', system: 'Match system' };

function AppearancePart() {
  const setting = useSetting('look');
  const letterKeys = useSetting('letter-keys') !== 'off';
  const look = setting === 'light' || setting === 'dark' ? setting : 'system';
  return (
    <BlockPart heading="Appearance and keys on this computer">
      <ChoiceRow label="Appearance" value={look} options={LOOKS} onChange={(chosen) => void storeSetting('look', chosen)} />
      <CheckRow label="One-letter keys" checked={letterKeys} onChange={(on) => void storeSetting('letter-keys', on ? 'on' : 'off')} />
      <p className="small">Turn them off if you use dictation. During a pour, Space always works.</p>
    </BlockPart>
  );
}

const [FIRST_HOUR, LAST_HOUR] = [4, 22];

const EDGE_PX = 36;

/** The datum of the settings screen at a given width. */
function workingDay(hours: Business['hours'], clock: '12' | '24', widthPx: number): DatumScale {
  const scale = { from: FIRST_HOUR, to: LAST_HOUR, x0: EDGE_PX, x1: widthPx - EDGE_PX, isLog: false };
  const hourX = (hour: number): number => scaleX(scale, Math.min(LAST_HOUR, Math.max(FIRST_HOUR, hour)));
  const ticks = clearLabels(hourTicks(FIRST_HOUR, LAST_HOUR, clock), scale);
  return {
    ticks: ticks.map((tick) => ({ xPx: hourX(tick.value), ...(tick.label === null ? {} : { label: tick.label }) })),
    stretches: [
      { fromPx: 0, toPx: hourX(hoursOfClock(hours.from)), hatch: 'wall' },
      { fromPx: hourX(hoursOfClock(hours.to)), toPx: widthPx, hatch: 'wall' },
    ],
  };
}

type Archived = {
  readonly table: 'customers' | 'properties' | 'rooms' | 'jobs' | 'materials';
  readonly id: string;
  readonly name: string;
  readonly kind: string;
};

function ArchivePart({ onSay }: { readonly onSay: (outcome: Outcome<unknown>) => void }) {
  const customers = useArchive('customers');
  const properties = useArchive('properties');
  const rooms = useArchive('rooms');
  const jobs = useArchive('jobs');
  const materials = useArchive('materials');
  const all: Archived[] = [
    ...(customers ?? []).map((c) => ({ table: 'customers' as const, id: c.id, name: c.name, kind: 'customer' })),
    ...(properties ?? []).map((p) => ({ table: 'properties' as const, id: p.id, name: propertyName(p), kind: 'property' })),
    ...(rooms ?? []).map((r) => ({ table: 'rooms' as const, id: r.id, name: r.name, kind: 'room' })),
    ...(jobs ?? []).map((j) => ({ table: 'jobs' as const, id: j.id, name: `${j.number} ${j.title}`.trim(), kind: 'job' })),
    ...(materials ?? []).map((m) => ({ table: 'materials' as const, id: m.id, name: m.name, kind: 'material' })),
  ];
  return (
    <BlockPart heading="Archived">
      {all.length === 0 ? (
        <p className="small second">Nothing is archived.</p>
      ) : (
        <ArchivedList
          rows={all}
          words={({ name, kind }) => (
            <>
              {name} <span className="caption">{kind}</span>
            </>
          )}
          onUnarchive={({ table, id, name }) => unarchive([{ table, id }], `unarchive ${name}`, nowInstant()).then(onSay)}
        />
      )}
    </BlockPart>
  );
}

interface SamplePartProps {
  /** The company is the sample's too. */
  readonly isInvented: boolean;
}

/** Opens and removes the sample data without changing the user's own data. */
function SamplePart({ isInvented }: SamplePartProps) {
  const has = useHasSample();
  const [asking, setAsking] = useState(false);
  const [busy, run] = useBusy();
  const [message, setMessage] = useState<string | null>(null);
  if (has === undefined) return null;
  const fill = async (): Promise<void> => {
    const filled = await openSampleData(nowInstant());
    setMessage(filled.ok ? null : filled.message);
  };
  const empty = async (): Promise<void> => {
    setAsking(false);
    const removed = await removeSample();
    if (!removed.ok) setMessage(removed.message);
    else if (removed.value === 0) setMessage('Sample data removed. Your own data was not changed.');
    else setMessage(`Sample data removed, except ${countWords(removed.value, 'record', 'en-US')} used by your own data.`);
  };
  return (
    <BlockPart heading="Sample data">
      <p className="small">
        {has
          ? `Invented customers, properties, and floors${isInvented ? ', and an invented company,' : ''} are shown with your own data. Removing them leaves your own data unchanged.`
          : 'Invented customers, properties, and floors at every stage, and an invented company until you enter yours. You can remove them at any time.'}
      </p>
      <TextButton disabled={busy} onPress={() => (has ? setAsking(true) : run(fill))}>
        {busy ? 'Loading…' : has ? 'Remove sample data' : 'Open sample data'}
      </TextButton>
      {message !== null && (
        <p className="small" role="status">
          {message}
        </p>
      )}
      {asking && (
        <Dialog firm onClose={() => setAsking(false)} title="Remove sample data?" onSave={() => run(empty)} saveWord="Remove">
          <p>
            All invented customers, properties, and jobs are deleted with everything you added to those jobs. This cannot be undone. You can
            open the sample data again.
          </p>
        </Dialog>
      )}
    </BlockPart>
  );
}
