import { useState } from 'react';
import type { JobReading } from '../../../shared-core/standing/read-job.ts';
import { newlyStatedDates } from '../../../shared-core/agenda/stated-dates.ts';
import type { MadeDocument } from '../../../shared-core/book/papers.ts';
import { handoverDays, handoverPlan } from '../../../shared-core/documents/handover-picture.ts';
import { datedAfter } from '../../../shared-core/documents/dated-after.ts';
import { handoverRooms, type HandoverRoom } from '../../../shared-core/documents/handover-rooms.ts';
import { handoverSheet, needsTest, placeOf } from '../../../shared-core/documents/handover-sheet.ts';
import { documentsAt } from '../../../shared-core/documents/document-list.ts';
import type { Block } from '../../../shared-core/documents/tree.ts';
import { formatInstant } from '../../../shared-core/measure/moment.ts';
import { reprintDocument, latestReading, saveDocument, saveJobDocument, paperPhotos } from '../../book/document-commands.ts';
import { handOver } from '../../book/handover-commands.ts';
import { changeJob, putJob } from '../../book/job-commands.ts';
import { newId, nowInstant } from '../../book/command.ts';
import { useNow } from '../../book/use-job-reading.ts';
import { usePrintedPhotos } from '../../book/use-photos.ts';
import { ActionButton, LinkWord, TextButton } from '../../parts/Buttons.tsx';
import { calculatedFor } from '../../parts/calculated-for.ts';
import { Answer } from '../../parts/Answer.tsx';
import { CheckRow } from '../../parts/Choices.tsx';
import { DatumDrawing, DrawingRoom, DrawingView } from '../../parts/DrawingView.tsx';
import { DocumentBlocks } from '../../parts/DocumentBlocks.tsx';
import { EmptySheet, BlockPart, SheetHeading } from '../../parts/Sheet.tsx';
import { DocumentsPart } from '../../parts/job/DocumentsPart.tsx';
import { FlatPart } from '../../parts/job/FlatPart.tsx';
import { JobSheet, type StageProps } from '../../parts/job/JobSheet.tsx';
import { outOfDate } from '../../parts/job/out-of-date.ts';
import { stageHref } from '../../parts/job/stage-words.ts';
import { MomentField, Fields, TextField } from '../../parts/Fields.tsx';
import { ResultNotice, Dialog, Notice, type Said } from '../../parts/Dialog.tsx';
import { useBusy } from '../../parts/use-busy.ts';
import { useMeasure, useMoney } from '../../parts/use-measure.ts';
import { useSmall } from '../../parts/use-small.ts';
import { moneyLeft } from '../../parts/money-words.ts';
import { handoverFoot } from './handover-foot.ts';
import { sheetsOf, sheetToMake } from './sheet-to-make.ts';
import { readTree } from '../../../shared-core/documents/stored-tree.ts';
import { jobMoney } from '../../../shared-core/standing/job-money.ts';
import { isSealed } from '../../../shared-core/book/flooring.ts';
import { coverWait } from '../../../shared-core/standing/repair-words.ts';
import { isCleared } from '../../../shared-core/standing/room-cure.ts';
import './handover.css';

/** Shown elsewhere on the screen. */
const HANDOVER_SHEET = ['handover'] as const;
const OTHER_DOCUMENTS = documentsAt('handover').filter(({ kind }) => kind !== 'handover');

const DATUM_Y = 30;
/** Blocks the screen shows elsewhere: plan, days, signatures. */
const ELSEWHERE: ReadonlySet<Block['kind']> = new Set(['drawing', 'fields', 'page']);

function rest(blocks: readonly Block[]): Block[] {
  const shownBlocks = blocks
    .flatMap((b) => (b.kind === 'cover' ? b.blocks : [b]))
    .filter((b) => !ELSEWHERE.has(b.kind) && !(b.kind === 'heading' && b.level === 1));
  // The first paragraph names the customer, as the title block does.
  return shownBlocks[0]?.kind === 'paragraph' ? shownBlocks.slice(1) : shownBlocks;
}

const roomsFor = (reading: JobReading): ReturnType<typeof handoverRooms> =>
  calculatedFor(reading, 'handover rooms', () => handoverRooms(reading));

/** Handover: dates, handover sheet, signatures and documents. */
export function HandoverScreen({ reading, roomReading }: StageProps) {
  const roomId = roomReading.room.id;
  const { whole } = reading;
  const { job } = whole;
  const { locale } = useMeasure();
  const money = useMoney();
  const small = useSmall();
  const now = useNow(whole);
  const zone = whole.property.timeZone;
  const [message, setMessage] = useState<Said>(null);
  const [shown, setShown] = useState<MadeDocument | null>(null);
  const [handing, setHanding] = useState(false);
  const [promises, setPromises] = useState(true);
  const [busy, run] = useBusy();
  const place = placeOf(reading, now);
  const rooms = roomsFor(reading);
  const printed = usePrintedPhotos(job.id);
  const next = sheetToMake(reading, now, printed);
  const aged = outOfDate(reading, printed, OTHER_DOCUMENTS);
  const sheets = sheetsOf(reading);
  const news = newlyStatedDates(rooms, whole.promises, now);
  const openRoom = rooms.find((handoverRoom) => handoverRoom.room.id === roomId) ?? null;
  const open = rooms.filter((handoverRoom) => handoverRoom.jobRoom.handedOverAt === null);
  const isStale = next.last !== null && next.changes.length > 0;
  // A sheet that was signed stays as it is, and says what changed since.
  const isDue = isStale && open.length > 0;
  const make = async (): Promise<void> => {
    const read = await latestReading(reading);
    const madeAt = nowInstant();
    const late = datedAfter(read.whole, madeAt);
    if (late !== null) return setMessage(late);
    const photos = await paperPhotos(job.id);
    const { revision, changes } = sheetToMake(read, madeAt, photos);
    const stated = promises ? newlyStatedDates(handoverRooms(read), read.whole.promises, madeAt) : [];
    const tree = handoverSheet(read, { now: madeAt, revision, changes, photos });
    const stamps = { createdAt: madeAt, changedAt: madeAt, deletedAt: null };
    return setMessage(
      await saveDocument({ jobId: job.id, kind: 'handover', revision, tree, changes, photos }, (documentId) =>
        stated.map((date) => ({
          table: 'promises',
          row: { ...stamps, id: newId(), jobId: job.id, ...date, madeAt, documentId, to: whole.customer.name },
        })),
      ),
    );
  };
  const { standing } = reading;
  const foot = handoverFoot(
    {
      rooms,
      uncleared: rooms.filter((room) => !isCleared(room, now)),
      roomId,
      now,
      revision: next.last?.revision ?? null,
      isStale: isDue,
      outOfDate: aged.map(({ entry }) => entry.label),
      isCuring: standing.rooms.find((r) => r.roomId === roomId)?.curing === true,
      moneyLeft: moneyLeft(jobMoney(whole, now), money),
    },
    zone,
    locale,
  );
  const makeWord = next.last === null ? 'Save handover sheet' : `Save revision ${next.revision}`;
  const handed = openRoom?.jobRoom.handedOverAt ?? null;
  return (
    <JobSheet
      reading={reading}
      roomId={roomId}
      stage="handover"
      block={
        <>
          <BlockPart>
            <MomentField
              label="Handover planned"
              zone={zone}
              now={now}
              value={job.handoverAt}
              placeholder="day and time"
              onChange={(handoverAt) => void changeJob(job.id, 'plan the handover', { handoverAt }).then(setMessage)}
            />
          </BlockPart>
          {rooms.length > 0 && (
            <BlockPart heading="Handover sheets">
              {sheets.length === 0 && <p className="small">None yet.</p>}
              <ul className="ends lined">
                {[...sheets].reverse().map((d) => (
                  <li key={d.id}>
                    <TextButton onPress={() => setShown(d)}>{`Revision ${d.revision}`}</TextButton>
                    <span>{formatInstant(d.madeAt, zone, 'short', locale)}</span>
                  </li>
                ))}
              </ul>
              {isStale && (
                <>
                  <p className="late">{`Changed since revision ${next.last.revision}`}</p>
                  <ul className="handover-changes">
                    {next.changes.map((words) => (
                      <li key={words}>{words}</li>
                    ))}
                  </ul>
                </>
              )}
              {news.length > 0 && (
                <CheckRow
                  label={news.length === 1 ? 'Record 1 date as promised' : `Record ${news.length} dates as promised`}
                  checked={promises}
                  onChange={setPromises}
                />
              )}
              {sheets.length > 0 && !isDue && <TextButton onPress={() => run(make)}>{makeWord}</TextButton>}
            </BlockPart>
          )}
          {openRoom !== null && <FlatPart flat={openRoom.flatness.after} roomId={openRoom.room.id} />}
          <DocumentsPart
            reading={reading}
            stage="handover"
            photos={printed}
            without={HANDOVER_SHEET}
            onSave={(entry) => saveJobDocument(reading, entry)}
            onPrint={reprintDocument}
          />
          {handed !== null && (
            <BlockPart heading="Handed over">
              <p>
                {formatInstant(handed, zone, 'weekday', locale)}
                {openRoom?.jobRoom.handedOverTo === undefined || openRoom.jobRoom.handedOverTo === ''
                  ? ''
                  : `, received by ${openRoom.jobRoom.handedOverTo}`}
                .
              </p>
            </BlockPart>
          )}
        </>
      }
      datum={
        rooms.length === 0 ? undefined : (
          <DatumDrawing
            label={`Days from pour to flooring of ${rooms.map((handoverRoom) => handoverRoom.room.name).join(', ')}`}
            linePx={DATUM_Y}
            draw={(widthPx) =>
              handoverDays(rooms, place, { widthPx, insetPx: small ? 18 : 36, hasKey: !small, isNarrow: small }) ?? {
                width: widthPx,
                height: DATUM_Y,
                marks: [],
              }
            }
          />
        )
      }
      below={
        rooms.length === 0 ? undefined : (
          <section className="handover-below" aria-label="Handover sheet">
            <DocumentBlocks blocks={rest(next.tree.blocks)} />
          </section>
        )
      }
      foot={<Answer under={small || foot.why === '' ? undefined : foot.why}>{foot.text}</Answer>}
      action={
        rooms.length === 0 ? (
          <ActionButton href={stageHref(job.id, 'pour', roomId)}>Go to Pour</ActionButton>
        ) : next.last === null || isDue ? (
          <ActionButton busy={busy} onPress={() => void make()}>
            {makeWord}
          </ActionButton>
        ) : open.length > 0 ? (
          <ActionButton onPress={() => setHanding(true)}>Record handover</ActionButton>
        ) : openRoom === null || openRoom.rest !== null ? (
          <ActionButton href={stageHref(job.id, 'pour', roomId)}>Go to Pour</ActionButton>
        ) : standing.rooms.find((r) => r.roomId === roomId)?.curing === true ? (
          <ActionButton href={stageHref(job.id, 'cure', roomId)}>Go to Cure</ActionButton>
        ) : job.state !== 'open' || !standing.complete || rooms.some(({ rest }) => rest !== null) ? (
          <ActionButton href="/jobs">Go to Jobs</ActionButton>
        ) : standing.canFinish ? (
          <ActionButton onPress={() => void putJob(job, 'finished').then(setMessage)}>Finish job</ActionButton>
        ) : (
          <ActionButton href={`/jobs/${job.id}/money`}>Go to Money</ActionButton>
        )
      }
    >
      <SheetHeading under={rooms.length === 0 ? undefined : 'Preview of the customer’s copy.'}>Handover</SheetHeading>
      <ResultNotice message={message} onClose={setMessage} />
      {rooms.length === 0 ? (
        <EmptySheet
          drawing="handover"
          heading="Finished floors appear here, with their dates."
          hint="The handover sheet is made from the pour log, the cure, and the tests."
          first={<LinkWord href={stageHref(job.id, 'pour', roomId)}>Go to Pour</LinkWord>}
        />
      ) : (
        <DrawingRoom leastPx={240} mostPx={380} smallRatio={1.1}>
          {({ widthPx, heightPx }) => (
            <DrawingView
              drawing={handoverPlan(rooms, place, widthPx, heightPx, small)}
              label={`Plan of ${rooms.map((handoverRoom) => handoverRoom.room.name).join(', ')} with dates`}
            />
          )}
        </DrawingRoom>
      )}
      {shown !== null && <SheetDialog document={shown} zone={zone} onClose={() => setShown(null)} />}
      {handing && (
        <HandOverDialog
          rooms={open}
          customerName={whole.customer.name}
          now={now}
          zone={zone}
          onClose={() => setHanding(false)}
          onHandOver={(ids, instant, to) =>
            void handOver(job.id, ids, instant, to).then((outcome) => {
              setMessage(outcome);
              if (outcome.ok) setHanding(false);
            })
          }
        />
      )}
    </JobSheet>
  );
}

interface SheetDialogProps {
  readonly document: MadeDocument;
  readonly zone: string;
  readonly onClose: () => void;
}

/** A stored document, whose PDF can be saved again. */
function SheetDialog({ document, zone, onClose }: SheetDialogProps) {
  const { locale } = useMeasure();
  const [message, setMessage] = useState<Said>(null);
  const tree = readTree(document.content);
  return (
    <Dialog
      wide
      onClose={onClose}
      title={document.title}
      actions={
        <>
          <TextButton onPress={onClose}>Close</TextButton>
          {tree !== null && (
            <TextButton kind="outlined" onPress={() => void reprintDocument(document).then(setMessage)}>
              Save PDF
            </TextButton>
          )}
        </>
      }
    >
      <p className="small">{`Made ${formatInstant(document.madeAt, zone, 'weekday', locale)}. Shown as it was made.`}</p>
      <ResultNotice message={message} onClose={setMessage} />
      {tree === null ? (
        <Notice kind="failure">This document was stored by another version and cannot be shown here. The saved PDF is still valid.</Notice>
      ) : (
        <DocumentBlocks blocks={tree.blocks} topLevel={3} />
      )}
    </Dialog>
  );
}

interface HandOverDialogProps {
  /** Finished rooms that are not handed over. */
  readonly rooms: readonly HandoverRoom[];
  readonly customerName: string;
  readonly now: string;
  readonly zone: string;
  readonly onHandOver: (roomIds: readonly string[], instant: string, to: string) => void;
  readonly onClose: () => void;
}

/** What a floor waits for, beside its name. */
function handOverState(room: HandoverRoom, now: string): string {
  const wait = coverWait(room);
  if (wait !== null) return `Waits for ${wait}`;
  if (room.schedule.laidOn !== null) return isSealed(room.jobRoom.flooring) ? 'Sealed' : 'Flooring laid';
  return isCleared(room, now) ? 'Cleared' : needsTest(room) ? 'Curing until its test' : 'Curing';
}

/** Records which floors are handed over, the date, and the recipient. */
function HandOverDialog({ rooms, customerName, now, zone, onHandOver, onClose }: HandOverDialogProps) {
  const [picked, setPicked] = useState<readonly string[]>(rooms.map((handoverRoom) => handoverRoom.room.id));
  const [instant, setInstant] = useState<string | null>(null);
  const [to, setTo] = useState(customerName);
  const isAhead = instant !== null && instant > nowInstant();
  return (
    <Dialog
      onClose={onClose}
      title="Record handover"
      onSave={() => onHandOver(picked, instant ?? nowInstant(), to.trim())}
      blocked={picked.length === 0 || to.trim() === '' || isAhead}
    >
      {rooms.map((room) => (
        <CheckRow
          key={room.room.id}
          label={room.room.name}
          right={handOverState(room, now)}
          checked={picked.includes(room.room.id)}
          onChange={(on) => setPicked(on ? [...picked, room.room.id] : picked.filter((id) => id !== room.room.id))}
        />
      ))}
      <Fields>
        <TextField label="Received by" value={to} emptyMessage="Enter who received it." onChange={setTo} />
        <MomentField label="Handed over" zone={zone} now={now} past value={instant} placeholder="now" onChange={setInstant} />
      </Fields>
      {isAhead && <p className="late">Enter a time that is not in the future.</p>}
    </Dialog>
  );
}
