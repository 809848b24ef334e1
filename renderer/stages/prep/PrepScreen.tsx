import { useMemo, useState } from 'react';
import { standingQuote } from '../../../shared-core/standing/job-bundle.ts';
import { type JobReading, nextPrimer } from '../../../shared-core/standing/read-job.ts';
import { hourStrip } from '../../../shared-core/drawing/hour-strip.ts';
import { planDrawing } from '../../../shared-core/drawing/plan.ts';
import { lineNumbers, prepPlan } from '../../../shared-core/drawing/prep-plan.ts';
import { dayOfInstant, formatInstant } from '../../../shared-core/measure/moment.ts';
import { lineHeldBy, type PourHold } from '../../../shared-core/prep/pour-held.ts';
import { lineText } from '../../../shared-core/prep/line-words.ts';
import type { SignedLine } from '../../../shared-core/prep/signed-lines.ts';
import { documentAsked } from '../../../shared-core/assess/overrides.ts';
import { kindOf, TEST_KINDS } from '../../../shared-core/substrate/test-kinds.ts';
import { testContext } from '../../../shared-core/assess/test-arithmetic.ts';
import { overrideHold, storeTest } from '../../book/assessment-commands.ts';
import { newId, nowInstant, type Outcome } from '../../book/command.ts';
import { type Beside, noteSignature, setCoats, setPrimed, signLine, withdrawSignature } from '../../book/prep-commands.ts';
import { useInitials, useTypedSetting } from '../../book/settings.ts';
import { useNow } from '../../book/use-job-reading.ts';
import { usePhotos, usePrintedPhotos } from '../../book/use-photos.ts';
import { ActionButton, TextButton } from '../../parts/Buttons.tsx';
import { Answer } from '../../parts/Answer.tsx';
import { ConfirmWhy } from '../../parts/ConfirmWhy.tsx';
import { DatumDrawing, DrawingRoom, DrawingView } from '../../parts/DrawingView.tsx';
import { JobSheet, type StageProps } from '../../parts/job/JobSheet.tsx';
import { changedWords, changesOf } from '../../parts/job/out-of-date.ts';
import { stageHref } from '../../parts/job/stage-words.ts';
import { TestDialog, type TestStamps } from '../../parts/floor-test/TestDialog.tsx';
import { ResultNotice, type Said } from '../../parts/Dialog.tsx';
import { PhotosPart } from '../../parts/PhotosPart.tsx';
import { SheetHeading } from '../../parts/Sheet.tsx';
import { useBusy } from '../../parts/use-busy.ts';
import { useMeasure, useWording } from '../../parts/use-measure.ts';
import { hourInput } from './hour-input.ts';
import { PrepBlock } from './PrepBlock.tsx';
import { PrepLineDialog, PrepList } from './PrepList.tsx';
import { footWords, listWords } from './prep-words.ts';
import './prep.css';
import { datedAfter } from '../../../shared-core/documents/dated-after.ts';
import { prepSheetInUse } from '../../../shared-core/documents/changed-since.ts';
import { prepSheet } from '../../../shared-core/documents/prep-sheet.ts';
import { latestReading, saveDocument, paperPhotos } from '../../book/document-commands.ts';
import { acceptedQuote } from '../../../shared-core/price/change-order.ts';
import { nextRevision } from '../../../shared-core/documents/document-input.ts';
import { lowerFirst } from '../../../shared-core/measure/first-letter.ts';
import { theRoom } from '../../../shared-core/standing/names.ts';
import { usedBySigning } from '../../../shared-core/standing/shopping-for.ts';

/** The plan of a desk: large enough for the numbers and words of every line. */
const PLAN_PX = 340;

type Past = { readonly hold: PourHold; readonly problem: string | null };

/** Prep: the checklist, signed line by line, and the time of priming. */
export function PrepScreen({ reading, roomReading }: StageProps) {
  const { whole } = reading;
  const { room, preparation, assessment } = roomReading;
  const { units, locale } = useMeasure();
  const wording = useWording();
  const now = useNow();
  const album = usePhotos(whole.job.id, room.id);
  const zone = whole.property.timeZone;
  const signer = useInitials(whole.business.ownerName);
  const [initials, setInitials] = useTypedSetting('initials');
  const [message, setMessage] = useState<Said>(null);
  const [past, setPast] = useState<Past | null>(null);
  const [, run] = useBusy();
  const [ambientStamps, setAmbientStamps] = useState<TestStamps | null>(null);
  const [opened, setOpened] = useState<{ readonly key: string; readonly problem: string | null } | null>(null);
  const { lines, holds, clock } = preparation;
  const open = lines.filter((line) => line.item !== null && line.state !== 'signed');
  const pastKeys = new Set(assessment.overrides.map((o) => o.key));
  const accepted = standingQuote(reading.bundle)?.state === 'accepted';
  const numberOf = useMemo(() => lineNumbers(lines), [lines]);
  const line = lines.find((l) => l.key === opened?.key) ?? null;
  const need = nextPrimer(roomReading);
  const priming = { coats: need?.coats ?? 1, dryHoursMost: need?.dryHours.most ?? null, lastPouredAt: preparation.againAfter };

  const sign = async (of: SignedLine, beside: Beside = {}): Promise<Outcome | null> => {
    if (of.item === null) return null;
    const held = lineHeldBy(of, assessment.findings)[0];
    if (held !== undefined) {
      setMessage(`Hold: ${held.title}. ${held.text}`);
      return null;
    }
    const toSign = { key: of.key, text: of.item.what, signedText: lineText(of.item, wording, locale) };
    const used = usedBySigning(reading, room.id, of.key);
    return signLine(whole.job.id, room.id, toSign, initials, { ...beside, used, priming: of.key === 'prime' ? priming : null });
  };
  // The dialog keeps what was entered until it is stored.
  const inSheet = (saving: Promise<Outcome | null>): void =>
    void saving.then((outcome) => {
      if (outcome === null || outcome.ok) setOpened(null);
      else setOpened((current) => (current === null ? null : { ...current, problem: outcome.message }));
    });
  const pick = (of: SignedLine): void => {
    if (of.item === null || of.state === 'signed') setOpened({ key: of.key, problem: null });
    else void sign(of).then((outcome) => (outcome === null ? undefined : setMessage(outcome)));
  };
  const holdOf = (of: SignedLine): PourHold | undefined => holds.find((h) => h.by === 'line' && h.key === of.key);
  const ambient = assessment.facts.air?.test ?? null;
  const ambientWords = ambient === null ? null : kindOf(ambient).words(ambient, units, locale);
  const standing = reading.standing.rooms.find((r) => r.roomId === room.id);
  const pouredAt = standing?.poured === 'whole' ? standing.pouredAt : null;
  const isWork = accepted && pouredAt === null;
  /** The line the one action signs. */
  const next = (isWork ? open : []).find((of) => !pastKeys.has(of.key) && lineHeldBy(of, assessment.findings).length === 0) ?? null;
  // Once it is poured, a date set for the pour is done with.
  const pourAt = pouredAt ?? roomReading.nextPourAt;
  const printed = usePrintedPhotos(whole.job.id);
  const sheet = prepSheetInUse(whole, room);
  const aged = sheet === null ? [] : changesOf(reading, sheet, printed);
  const lane = hourInput({ clock, primedAt: preparation.primed.primedAt, pourAt, lines, now, zone, locale });
  return (
    <JobSheet
      reading={reading}
      roomId={room.id}
      stage="prep"
      block={
        <PrepBlock
          roomReading={roomReading}
          zone={zone}
          now={now}
          initials={initials}
          cautions={[...new Set(lines.flatMap((l) => l.item?.cautions ?? []))]}
          openCount={open.length}
          onInitials={setInitials}
          onPrimed={(primedAt) => void setPrimed(whole.job.id, room.id, primedAt, priming).then(setMessage)}
          onCoats={(coats) => void setCoats(whole.job.id, room.id, coats, priming).then(setMessage)}
          onPast={(hold) => setPast({ hold, problem: null })}
          ambient={ambientWords}
          onAmbient={() => setAmbientStamps({ id: newId(), takenAt: nowInstant(), by: whole.business.ownerName, point: null, note: '' })}
        />
      }
      datumSticks="on a desk"
      datum={lane === null ? undefined : <DatumDrawing label={lane.label} linePx={34} draw={(widthPx) => hourStrip(lane.input(widthPx))} />}
      foot={
        <Answer
          under={
            open.length === 0
              ? 'All lines signed.'
              : next !== null
                ? `Next: ${next.item?.what ?? ''}.`
                : isWork
                  ? 'The lines left are on hold or overridden.'
                  : `${open.length === 1 ? '1 line' : `${open.length} lines`} not signed.`
          }
        >
          {footWords(roomReading, pouredAt, { now, zone, locale })}
        </Answer>
      }
      action={
        <>
          {lines.length > 0 && (
            <TextButton onPress={() => run(() => makePrepSheet(reading, roomReading.room.id).then(setMessage))}>Save prep sheet</TextButton>
          )}
          {!accepted ? (
            <ActionButton href={stageHref(whole.job.id, 'estimate', room.id)}>Next: Estimate</ActionButton>
          ) : pouredAt !== null ? (
            <ActionButton href={stageHref(whole.job.id, 'cure', room.id)}>Next: Cure</ActionButton>
          ) : next === null ? (
            <ActionButton href={stageHref(whole.job.id, 'pour', room.id)}>Next: Pour</ActionButton>
          ) : (
            <ActionButton onPress={() => pick(next)}>Sign line {numberOf.get(next.key) ?? ''}</ActionButton>
          )}
        </>
      }
    >
      <SheetHeading under={listWords(lines, preparation.hours, locale)} right={formatInstant(now, zone, 'weekday', locale)}>
        {room.name}: prep checklist
      </SheetHeading>
      <ResultNotice message={message} onClose={setMessage} />
      {sheet !== null && aged.length > 0 && (
        <p className="late small">{`Prep sheet, revision ${sheet.revision}: ${lowerFirst(changedWords(aged))} Save it again for the crew.`}</p>
      )}
      {room.plan.outline.length >= 3 && (
        <DrawingRoom leastPx={PLAN_PX} smallRatio={1.1}>
          {({ widthPx, heightPx, small }) => (
            <DrawingView
              drawing={planDrawing({ ...prepPlan({ roomReading, units, locale, widthPx, heightPx, numberOf }), mayTurn: small })}
              label={`Plan of ${theRoom(room.name)} with the prep marked on it`}
            />
          )}
        </DrawingRoom>
      )}
      <PrepList
        lines={lines}
        findings={assessment.findings}
        numberOf={numberOf}
        zone={zone}
        now={now}
        onPick={pick}
        onMore={(of) => setOpened({ key: of.key, problem: null })}
      />
      {lines.length > 0 && (
        <div className="prep-photos">
          <PhotosPart album={album} zone={zone} label="Photos of the prep" takesPaste={line === null} />
        </div>
      )}
      {line !== null && past === null && (
        <PrepLineDialog
          key={line.key + line.state}
          line={line}
          number={numberOf.get(line.key) ?? null}
          heldBy={lineHeldBy(line, assessment.findings)}
          past={holdOf(line) === undefined ? undefined : (holdOf(line)?.overridden?.why ?? null)}
          zone={zone}
          problem={opened?.problem ?? null}
          album={album}
          onSign={(note, photoIds) => inSheet(sign(line, { note, photoIds }))}
          onPhoto={(id) => {
            if (line.signature !== null)
              void noteSignature(whole.job.id, room.id, line.item?.what ?? line.key, line.signature, { photoIds: [id] }).then(setMessage);
          }}
          onNote={(note) => {
            if (line.signature !== null)
              inSheet(noteSignature(whole.job.id, room.id, line.item?.what ?? line.signature.signedText, line.signature, { note }));
          }}
          onVoid={() => {
            if (line.signature !== null)
              inSheet(withdrawSignature(whole.job.id, room.id, line.item?.what ?? line.signature.signedText, line.signature));
          }}
          onOverride={() => {
            const hold = holdOf(line);
            if (hold !== undefined) setPast({ hold, problem: null });
          }}
          onClose={() => setOpened(null)}
        />
      )}
      {ambientStamps !== null && (
        <TestDialog
          key={ambientStamps.id}
          kind="air"
          stamps={ambientStamps}
          values={TEST_KINDS.air.form.begins}
          layers={room.layers}
          context={testContext(assessment, { now, yearBuilt: whole.property.yearBuilt, units, locale, layers: room.layers })}
          zone={zone}
          isNew
          onSave={(test) => {
            setAmbientStamps(null);
            void storeTest(room.id, 'ambient conditions', test).then(setMessage);
          }}
          onNext={() => setAmbientStamps(null)}
          onClose={() => setAmbientStamps(null)}
        />
      )}
      {past !== null && (
        <ConfirmWhy
          hold={past.hold.text}
          because={`${past.problem === null ? '' : `${past.problem} `}The pour waits for this.`}
          by={past.hold.by}
          isAccepted={acceptedQuote(whole.quotes) !== null}
          document={documentAsked(past.hold.clearedBy, assessment.facts, dayOfInstant(now, zone))}
          onBack={() => setPast(null)}
          initials={signer.known}
          onGoOn={(overridden) => {
            signer.keep(overridden.initials);
            void overrideHold(whole.job.id, room.id, { ...past.hold, title: past.hold.text }, overridden).then((outcome) => {
              if (!outcome.ok) return setPast({ ...past, problem: outcome.message });
              setOpened(null);
              return setPast(null);
            });
          }}
        />
      )}
    </JobSheet>
  );
}

async function makePrepSheet(shown: JobReading, roomId: string): Promise<{ readonly ok: boolean; readonly text: string }> {
  const reading = await latestReading(shown);
  const roomReading = reading.rooms.find((r) => r.room.id === roomId);
  if (roomReading === undefined) return { ok: false, text: 'This room is no longer in the job.' };
  const late = datedAfter(reading.whole, nowInstant());
  if (late !== null) return { ok: false, text: late };
  const { job } = reading.whole;
  const photos = await paperPhotos(job.id);
  const revision = nextRevision(reading.whole, 'prep-sheet');
  const tree = prepSheet({ reading, roomReading, madeAt: nowInstant(), revision, photos });
  return saveDocument({ jobId: job.id, kind: 'prep-sheet', revision, tree, photos });
}
