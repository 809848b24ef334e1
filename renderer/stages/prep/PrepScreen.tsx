import { useEffect, useMemo, useState } from 'react';
import { useLocation } from 'wouter';
import { standingQuote } from '../../../shared-core/agenda/job-bundle.ts';
import type { JobReading, RoomReading } from '../../../shared-core/agenda/read-job.ts';
import { hourStrip } from '../../../shared-core/drawing/hour-strip.ts';
import { planDrawing } from '../../../shared-core/drawing/plan.ts';
import { lineNumbers, prepPlan } from '../../../shared-core/drawing/prep-plan.ts';
import { dayOfInstant, formatInstant, formatInstantDay, formatInstantTime } from '../../../shared-core/measure/moment.ts';
import { lineHeldBy, type PourHold } from '../../../shared-core/prep/pour-held.ts';
import { lineAmount, lineSays } from '../../../shared-core/prep/line-words.ts';
import type { SignedLine } from '../../../shared-core/prep/signed-lines.ts';
import { CAUTIONS } from '../../../shared-core/substrate/cautions.ts';
import { wordingFor } from '../../../shared-core/substrate/wording.ts';
import { changeJobRoom, moveRoomTo } from '../../book/job-commands.ts';
import { nowInstant } from '../../book/moment.ts';
import type { Outcome } from '../../book/outcome.ts';
import { keepSetting, useSetting } from '../../book/settings.ts';
import { useJobReading, useNow } from '../../book/use-job-reading.ts';
import { ActionButton } from '../../parts/ActionButton.tsx';
import { Answer } from '../../parts/Answer.tsx';
import { ConfirmWhy } from '../../parts/ConfirmWhy.tsx';
import { DatumDrawing } from '../../parts/DatumDrawing.tsx';
import { DrawingRoom } from '../../parts/DrawingRoom.tsx';
import { DrawingView } from '../../parts/DrawingView.tsx';
import { Fields } from '../../parts/Fields.tsx';
import { JobSheet } from '../../parts/job/JobSheet.tsx';
import { MomentField } from '../../parts/MomentField.tsx';
import { NoJob } from '../../parts/job/NoJob.tsx';
import { stageHref } from '../../parts/job/stage-words.ts';
import { Notice } from '../../parts/Notice.tsx';
import { NumberField } from '../../parts/NumberField.tsx';
import { StateShape } from '../../parts/StateShape.tsx';
import { Table } from '../../parts/Table.tsx';
import { TextButton } from '../../parts/TextButton.tsx';
import { TextField } from '../../parts/TextField.tsx';
import { BlockPart, SheetHeading } from '../../parts/TitleBlock.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { hourInput } from './hour-input.ts';
import './prep.css';

/** The checklist, signed line by line, and the primer's clock. */
export function PrepScreen({ jobId, roomId }: { readonly jobId: string; readonly roomId: string }) {
  const reading = useJobReading(jobId);
  if (reading === undefined) return <p className="app-opening caption">Reading the job…</p>;
  const at = reading?.rooms.find((r) => r.room.id === roomId);
  return reading === null || at === undefined ? <NoJob /> : <Prep reading={reading} at={at} />;
}

function Prep({ reading, at }: { readonly reading: JobReading; readonly at: RoomReading }) {
  const { whole } = reading;
  const { room, jobRoom, preparation, assessment } = at;
  const { units, locale } = useMeasure();
  const wording = useMemo(() => wordingFor(units, locale), [units, locale]);
  const now = useNow();
  const [, go] = useLocation();
  const zone = whole.property.timeZone;
  const kept = useSetting('initials');
  const [initials, setInitials] = useState('');
  const [problem, setProblem] = useState<string | null>(null);
  const [past, setPast] = useState<PourHold | null>(null);
  useEffect(() => {
    if (typeof kept === 'string') setInitials(kept);
  }, [kept]);
  const say = (outcome: Outcome<unknown>): void => setProblem(outcome.ok ? null : outcome.message);
  const edit = (label: string, how: Parameters<typeof changeJobRoom>[3]): void =>
    void changeJobRoom(whole.job.id, room.id, label, how).then(say);
  const lines = preparation.lines;
  const open = lines.filter((line) => line.item !== null && line.state !== 'signed');
  const next = open.find((line) => lineHeldBy(line, assessment.findings).length === 0) ?? null;
  const accepted = standingQuote(reading.bundle)?.state === 'accepted';
  const numberOf = useMemo(() => lineNumbers(lines), [lines]);

  const sign = (line: SignedLine): void => {
    if (line.item === null) return;
    const held = lineHeldBy(line, assessment.findings);
    if (held[0] !== undefined) {
      setProblem(`${line.item.what} is held: ${held[0].says}`);
      return;
    }
    if (line.state === 'signed' && line.signature !== null) {
      const { itemKey, doneAt } = line.signature;
      edit(`took back the signature under “${line.item.what}”`, (r) => ({
        ...r,
        signed: r.signed.map((s) => (s.itemKey === itemKey && s.doneAt === doneAt ? { ...s, withdrawnAt: nowInstant() } : s)),
      }));
      return;
    }
    if (initials.trim() === '') {
      setProblem('Type your initials first: they stand under every line you sign.');
      return;
    }
    const saidThen = lineSays(line.item, wording, locale);
    edit(`signed “${line.item.what}”`, (r) => ({
      ...r,
      signed: [
        ...r.signed,
        { itemKey: line.key, doneAt: nowInstant(), initials: initials.trim(), note: '', saidThen, photoIds: [], withdrawnAt: null },
      ],
    }));
  };
  const cautions = [...new Set(lines.flatMap((line) => line.item?.cautions ?? []))];
  const clock = preparation.clock;
  const strip = hourInput({ clock, jobRoom, lines, now, zone, locale });
  return (
    <JobSheet
      whole={whole}
      roomId={room.id}
      stage="prep"
      heldAt={preparation.holds.some((h) => h.overridden === null && h.by === 'finding') ? 'prep' : null}
      block={
        <>
          <BlockPart>
            <Fields>
              <TextField
                label="Signing as"
                value={initials}
                onChange={(text) => {
                  setInitials(text);
                  void keepSetting('initials', text);
                }}
                check={(text) => (text.length > 8 ? 'Initials are at most eight letters.' : null)}
              />
              <MomentField
                label="Primed at"
                zone={zone}
                now={now}
                value={jobRoom.primedAt}
                onChange={(primedAt) =>
                  edit('primed at', (r) => ({ ...r, primedAt, primerCoatsDone: primedAt === null ? 0 : Math.max(1, r.primerCoatsDone) }))
                }
              />
              <NumberField
                label="Coats down"
                whole
                least={0}
                most={5}
                value={jobRoom.primerCoatsDone}
                onChange={(n) => edit('coats of primer', (r) => ({ ...r, primerCoatsDone: n ?? 0 }))}
              />
            </Fields>
            <p className="small prep-clock">{clockWords(at, zone, locale)}</p>
          </BlockPart>
          {preparation.holds.length > 0 && (
            <BlockPart heading="The pour waits for">
              <ul className="prep-holds">
                {preparation.holds
                  .filter((h) => h.by !== 'line')
                  .map((hold) => (
                    <li key={hold.key}>
                      <StateShape state={hold.overridden === null ? 'held' : 'under-way'} />
                      <span>
                        {hold.says}
                        {hold.overridden !== null && <span className="caption"> Gone past: {hold.overridden.why}</span>}
                      </span>
                      {hold.overridden === null && (
                        <TextButton kind="plain" label={`Go on all the same: ${hold.says}`} onPress={() => setPast(hold)}>
                          Go on all the same
                        </TextButton>
                      )}
                    </li>
                  ))}
                {open.length > 0 && (
                  <li>
                    <StateShape state="waiting" />
                    <span>{open.length === 1 ? 'One line of the list is open.' : `${open.length} lines of the list are open.`}</span>
                  </li>
                )}
              </ul>
            </BlockPart>
          )}
          {cautions.length > 0 && (
            <BlockPart heading="Mind">
              <ul className="prep-cautions">
                {cautions.map((id) => (
                  <li key={id}>
                    {CAUTIONS[id].says} <cite>{CAUTIONS[id].source}</cite>
                  </li>
                ))}
              </ul>
            </BlockPart>
          )}
        </>
      }
      datum={<DatumDrawing label={strip.label} linePx={34} draw={(widthPx) => hourStrip(strip.input(widthPx))} />}
      foot={
        <Answer
          under={
            open.length === 0
              ? 'Every line is signed.'
              : next === null
                ? 'What is left is held by a finding.'
                : `Next: ${next.item?.what ?? ''}.`
          }
        >
          {footWords(at, zone, locale)}
        </Answer>
      }
      action={
        !accepted ? (
          <ActionButton
            onPress={() => void moveRoomTo(whole.job.id, room.id, 'estimate').then(() => go(stageHref(whole.job.id, 'estimate', room.id)))}
          >
            Go on to the estimate
          </ActionButton>
        ) : next === null ? (
          <ActionButton
            onPress={() => void moveRoomTo(whole.job.id, room.id, 'pour').then(() => go(stageHref(whole.job.id, 'pour', room.id)))}
          >
            Go on to the pour
          </ActionButton>
        ) : (
          <ActionButton onPress={() => sign(next)}>Sign {numberOf.get(next.key) ?? ''}</ActionButton>
        )
      }
    >
      <SheetHeading right={formatInstant(now, zone, 'weekday', locale)}>{room.name}: made ready to pour on</SheetHeading>
      {problem !== null && (
        <Notice kind="failure" onClose={() => setProblem(null)}>
          {problem}
        </Notice>
      )}
      {room.plan.outline.length >= 3 && (
        <DrawingRoom leastPx={230} smallRatio={0.7}>
          {({ widthPx, heightPx }) => (
            <DrawingView
              drawing={planDrawing(prepPlan({ at, units, locale, widthPx, heightPx, numberOf }))}
              label={`Plan of the ${room.name.toLowerCase()} with what is to be done on it`}
            />
          )}
        </DrawingRoom>
      )}
      <Table
        label="What is to be done"
        dense
        rows={lines}
        rowKey={(line) => line.key}
        isBold={(line) => line.state !== 'signed'}
        onPick={sign}
        empty={<p>The list comes from the layers, the findings and the plan: assess the room first.</p>}
        columns={[
          {
            key: 'state',
            caption: '',
            width: '26px',
            cell: (line) => (
              <StateShape
                state={
                  lineHeldBy(line, assessment.findings).length > 0
                    ? 'held'
                    : line.state === 'signed'
                      ? 'done'
                      : line.state === 'changed'
                        ? 'under-way'
                        : 'waiting'
                }
                sizePx={13}
              />
            ),
          },
          { key: 'number', caption: '', width: '30px', align: 'right', cell: (line) => numberOf.get(line.key) ?? '' },
          {
            key: 'what',
            caption: 'What is to be done',
            heads: true,
            cell: (line) => line.item?.what ?? `${line.signature?.saidThen ?? ''} (no longer needed)`,
          },
          { key: 'why', caption: 'because', italic: true, wideOnly: true, cell: (line) => line.item?.why ?? '' },
          {
            key: 'amount',
            caption: 'how much',
            align: 'right',
            cell: (line) => (line.item === null ? '' : lineAmount(line.item, wording, locale)),
          },
          {
            key: 'who',
            caption: 'who',
            wideOnly: true,
            cell: (line) => (line.item?.who === 'licensed-only' ? 'licensed only' : (line.signature?.initials ?? '')),
          },
          {
            key: 'signed',
            caption: 'signed',
            cell: (line) =>
              line.state === 'changed'
                ? 'changed since'
                : line.signature === null
                  ? lineHeldBy(line, assessment.findings).length > 0
                    ? 'held'
                    : ''
                  : formatInstantTime(line.signature.doneAt, zone, locale),
          },
        ]}
      />
      {past !== null && (
        <ConfirmWhy
          open
          hold={past.says}
          because="The pour waits for this. Going on is possible only in writing; it stands on every record of the job."
          goOnWord="Go on all the same"
          onBack={() => setPast(null)}
          onGoOn={(why) => {
            const key = past.key;
            setPast(null);
            edit('went past a hold', (r) => ({
              ...r,
              overrides: [...r.overrides, { key, why, at: nowInstant(), initials: initials.trim() === '' ? 'own' : initials.trim() }],
            }));
          }}
        />
      )}
    </JobSheet>
  );
}

function clockWords(at: RoomReading, zone: string, locale: string): string {
  const { preparation, estimate, primer } = at;
  const need = estimate?.takeoff.primer ?? null;
  const clock = preparation.clock;
  if (primer === null || need === null) return 'No primer is chosen yet: choose it on the estimate.';
  const coats = need.coats === 1 ? 'one coat' : `${need.coats} coats`;
  const dries = `dries in ${need.dryHours.least} h and takes cement for ${need.dryHours.most} h`;
  if (clock === null || clock.earliestAt === null) return `${primer.name}, ${coats}; ${dries}.`;
  return `${primer.name}, ${coats}: pour from ${formatInstantTime(clock.earliestAt, zone, locale)} until ${formatInstantTime(clock.latestAt, zone, locale)}, ${formatInstantDay(clock.latestAt, zone, 'short', locale)}.`;
}

function footWords({ preparation, jobRoom }: RoomReading, zone: string, locale: string): string {
  const { clock } = preparation;
  const meant = jobRoom.pourAt === null ? '' : `; we mean to at ${formatInstantTime(jobRoom.pourAt, zone, locale)}`;
  if (clock === null || clock.earliestAt === null)
    return jobRoom.pourAt === null
      ? 'No day is set for the pour.'
      : `The pour is set for ${formatInstant(jobRoom.pourAt, zone, 'weekday', locale)}.`;
  if (clock.state === 'too-old') return 'The primer is too old: prime again.';
  const tomorrow =
    dayOfInstant(clock.earliestAt, zone) !== dayOfInstant(clock.latestAt, zone)
      ? `, ${formatInstantDay(clock.latestAt, zone, 'short', locale)}`
      : '';
  return `Pour between ${formatInstantTime(clock.earliestAt, zone, locale)} and ${formatInstantTime(clock.latestAt, zone, locale)}${tomorrow}${meant}.`;
}
