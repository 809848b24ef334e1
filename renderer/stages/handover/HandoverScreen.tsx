import { useMemo, useState } from 'react';
import type { JobReading } from '../../../shared-core/standing/read-job.ts';
import { countWord } from '../../../shared-core/standing/names.ts';
import { datesTold } from '../../../shared-core/agenda/told-dates.ts';
import type { MadeDocument } from '../../../shared-core/book/papers.ts';
import { handoverDays, handoverPlan, type HandoverPlace } from '../../../shared-core/documents/handover-picture.ts';
import { handoverRooms } from '../../../shared-core/documents/handover-rooms.ts';
import { handoverSheet } from '../../../shared-core/documents/handover-sheet.ts';
import type { Block } from '../../../shared-core/documents/tree.ts';
import { formatInstant, formatInstantDay } from '../../../shared-core/measure/moment.ts';
import { saveDocument } from '../../book/document-commands.ts';
import { handOver } from '../../book/handover-commands.ts';
import { changeJob, putJob } from '../../book/job-commands.ts';
import { newId, nowInstant } from '../../book/moment.ts';
import type { Outcome } from '../../book/outcome.ts';
import { paperPhotos } from '../../book/record-commands.ts';
import { useJobReading, useNow } from '../../book/use-job-reading.ts';
import { ActionButton } from '../../parts/ActionButton.tsx';
import { Answer } from '../../parts/Answer.tsx';
import { CheckRow } from '../../parts/CheckRow.tsx';
import { DatumDrawing } from '../../parts/DatumDrawing.tsx';
import { DocumentBlocks } from '../../parts/DocumentBlocks.tsx';
import { DrawingRoom } from '../../parts/DrawingRoom.tsx';
import { DrawingView } from '../../parts/DrawingView.tsx';
import { EmptySheet } from '../../parts/EmptySheet.tsx';
import { JobSheet } from '../../parts/job/JobSheet.tsx';
import { NoJob } from '../../parts/job/NoJob.tsx';
import { stageHref } from '../../parts/job/stage-words.ts';
import { LinkWord } from '../../parts/LinkWord.tsx';
import { MomentField } from '../../parts/MomentField.tsx';
import { Notice } from '../../parts/Notice.tsx';
import { TextButton } from '../../parts/TextButton.tsx';
import { BlockPart, SheetHeading } from '../../parts/TitleBlock.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { useSmall } from '../../parts/use-small.ts';
import { HandOverDialog } from './HandOverDialog.tsx';
import { RecordPart } from './RecordPart.tsx';
import { SheetDialog } from './SheetDialog.tsx';
import { sheetsOf, sheetToMake } from './sheet-to-make.ts';
import './handover.css';

/** What is handed over: the dates, the sheet, the signature. */
export function HandoverScreen({ jobId, roomId }: { readonly jobId: string; readonly roomId: string }) {
  const reading = useJobReading(jobId);
  if (reading === undefined) return <p className="app-opening caption">Reading the job…</p>;
  const at = reading?.rooms.find((r) => r.room.id === roomId);
  if (reading === null || at === undefined) return <NoJob />;
  return <Handover reading={reading} roomId={roomId} />;
}

const DATUM_Y = 30;
/** What stands on the screen in its own place: heading, name, plan, days, signatures. */
const ELSEWHERE: ReadonlySet<Block['kind']> = new Set(['drawing', 'fields', 'page']);

/** The blocks of the sheet that are not drawn or said elsewhere on the screen. */
function rest(blocks: readonly Block[]): Block[] {
  const kept = blocks
    .flatMap((b) => (b.kind === 'cover' ? b.blocks : [b]))
    .filter((b) => !ELSEWHERE.has(b.kind) && !(b.kind === 'heading' && b.level === 1));
  // The first paragraph says whose floors they are: the title block does.
  return kept[0]?.kind === 'paragraph' ? kept.slice(1) : kept;
}

function Handover({ reading, roomId }: { readonly reading: JobReading; readonly roomId: string }) {
  const { whole } = reading;
  const { job } = whole;
  const { units, locale } = useMeasure();
  const small = useSmall();
  const now = useNow(whole);
  const zone = whole.property.timeZone;
  const [said, setSaid] = useState<{ ok: boolean; says: string } | null>(null);
  const [shown, setShown] = useState<MadeDocument | null>(null);
  const [handing, setHanding] = useState(false);
  const [promises, setPromises] = useState(true);
  const [busy, setBusy] = useState(false);
  const told = (outcome: Outcome<unknown>): void => setSaid(outcome.ok ? null : { ok: false, says: outcome.message });
  const place: HandoverPlace = { now, zone, locale, units };
  const rooms = useMemo(() => handoverRooms(reading), [reading]);
  const next = useMemo(() => sheetToMake(reading, now), [reading, now]);
  const sheets = sheetsOf(reading);
  const news = datesTold(rooms, whole.promises, now);
  const here = rooms.find((at) => at.room.id === roomId) ?? null;
  const open = rooms.filter((at) => at.jobRoom.handedOverAt === null);
  const isStale = next.last !== null && next.changes.length > 0;
  const make = async (): Promise<void> => {
    setBusy(true);
    const { revision, changes } = sheetToMake(reading, nowInstant());
    const madeAt = nowInstant();
    const photos = await paperPhotos(job.id);
    const tree = handoverSheet(reading, { now: madeAt, revision, changes, photos });
    const stamps = { createdAt: madeAt, changedAt: madeAt, deletedAt: null };
    setSaid(
      await saveDocument({ jobId: job.id, kind: 'handover', revision, tree, changes, photos }, (documentId) =>
        (promises ? news : []).map((date) => ({
          table: 'promises',
          row: { ...stamps, id: newId(), jobId: job.id, ...date, madeAt, documentId, to: whole.customer.name },
        })),
      ),
    );
    setBusy(false);
  };
  const { standing } = reading;
  const makeWord = next.last === null ? 'Make the handover sheet' : `Make sheet ${next.revision}`;
  const handed = here?.jobRoom.handedOverAt ?? null;
  return (
    <JobSheet
      reading={reading}
      roomId={roomId}
      stage="handover"
      block={
        <>
          <BlockPart>
            <MomentField
              label="To be handed over"
              zone={zone}
              now={now}
              value={job.handoverAt}
              placeholder="a day and a time"
              onChange={(handoverAt) => void changeJob(job.id, 'day of the handover', (j) => ({ ...j, handoverAt })).then(told)}
            />
          </BlockPart>
          {rooms.length > 0 && (
            <BlockPart heading="Sheets made">
              {sheets.length === 0 && <p className="small">None yet. The first one is made with the dates as they stand now.</p>}
              <ul className="handover-sheets">
                {[...sheets].reverse().map((d) => (
                  <li key={d.id}>
                    <TextButton onPress={() => setShown(d)}>Sheet {d.revision}</TextButton>
                    <span>{formatInstant(d.madeAt, zone, 'short', locale)}</span>
                  </li>
                ))}
              </ul>
              {isStale && (
                <>
                  <p className="late">Changed since sheet {next.last.revision}</p>
                  <ul className="handover-changes">
                    {next.changes.map((words) => (
                      <li key={words}>{words}</li>
                    ))}
                  </ul>
                </>
              )}
              {news.length > 0 && (
                <CheckRow
                  label={`Record the ${news.length === 1 ? 'one date' : `${countWord(news.length)} dates`} it tells as promised`}
                  checked={promises}
                  onChange={setPromises}
                />
              )}
              {sheets.length > 0 && !isStale && <TextButton onPress={() => void make()}>{makeWord}</TextButton>}
            </BlockPart>
          )}
          <RecordPart reading={reading} />
          {handed !== null && (
            <BlockPart heading="Handed over">
              <p>
                {formatInstant(handed, zone, 'weekday', locale)}
                {here?.jobRoom.handedOverTo === undefined || here.jobRoom.handedOverTo === ''
                  ? ''
                  : `, received by ${here.jobRoom.handedOverTo}`}
                .
              </p>
            </BlockPart>
          )}
        </>
      }
      {...(rooms.length === 0
        ? {}
        : {
            datum: (
              <DatumDrawing
                label={`Days from pour to covering of ${rooms.map((at) => at.room.name).join(', ')}`}
                linePx={DATUM_Y}
                draw={(widthPx) =>
                  handoverDays(rooms, place, { widthPx, insetPx: small ? 18 : 36, hasKey: !small, isNarrow: small }) ?? {
                    width: widthPx,
                    height: DATUM_Y,
                    marks: [],
                  }
                }
              />
            ),
            below: (
              <section className="handover-below" aria-label="What the sheet says">
                <DocumentBlocks blocks={rest(next.tree.blocks)} />
              </section>
            ),
          })}
      foot={<FootWords reading={reading} roomId={roomId} isStale={isStale} small={small} />}
      action={
        rooms.length === 0 ? (
          <ActionButton href={stageHref(job.id, 'pour', roomId)}>Open the pour</ActionButton>
        ) : next.last === null || isStale ? (
          <ActionButton busy={busy} onPress={() => void make()}>
            {makeWord}
          </ActionButton>
        ) : open.length > 0 ? (
          <ActionButton onPress={() => setHanding(true)}>Hand over</ActionButton>
        ) : standing.rooms.find((r) => r.roomId === roomId)?.cleared === false ? (
          <ActionButton href={stageHref(job.id, 'cure', roomId)}>Go to Cure</ActionButton>
        ) : job.state === 'open' && standing.complete ? (
          <ActionButton onPress={() => void putJob(job, 'finished').then(told)}>Finish the job</ActionButton>
        ) : (
          <ActionButton href="/jobs">See every job</ActionButton>
        )
      }
    >
      <SheetHeading under={rooms.length === 0 ? undefined : 'As the customer reads it: the sheet says what stands here, and no more.'}>
        Your new floors: when to walk, when to cover
      </SheetHeading>
      {said !== null && (
        <Notice kind={said.ok ? 'told' : 'failure'} onClose={() => setSaid(null)}>
          {said.says}
        </Notice>
      )}
      {rooms.length === 0 ? (
        <EmptySheet
          what="What was poured goes here, with its dates."
          how="Once a pour is finished, the sheet is made from its log, its cure and its tests."
          first={<LinkWord href={stageHref(job.id, 'pour', roomId)}>Open the pour</LinkWord>}
        />
      ) : (
        <DrawingRoom leastPx={240} mostPx={380} smallRatio={0.7}>
          {({ widthPx, heightPx }) => (
            <DrawingView
              drawing={handoverPlan(rooms, place, widthPx, heightPx)}
              label={`Plan of ${rooms.map((at) => at.room.name).join(', ')} with their dates`}
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
          onHandOver={(ids, at, to) =>
            void handOver(job.id, ids, at, to).then((outcome) => {
              told(outcome);
              if (outcome.ok) setHanding(false);
            })
          }
        />
      )}
    </JobSheet>
  );
}

interface FootWordsProps {
  readonly reading: JobReading;
  readonly roomId: string;
  readonly isStale: boolean;
  readonly small: boolean;
}

/** What the handover means now. */
function FootWords({ reading, roomId, isStale, small }: FootWordsProps) {
  const { locale } = useMeasure();
  const { whole } = reading;
  const rooms = handoverRooms(reading);
  const here = rooms.find((at) => at.room.id === roomId);
  const last = sheetsOf(reading).at(-1);
  const zone = whole.property.timeZone;
  const isCuring = reading.standing.rooms.find((room) => room.roomId === roomId)?.curing === true;
  const under = (words: string): { under?: string } => (small ? {} : { under: words });
  if (rooms.length === 0) return <Answer>Nothing is poured yet.</Answer>;
  if (last === undefined)
    return <Answer {...under('Every covering waits for its own test, whatever the date.')}>The sheet is not made yet.</Answer>;
  if (isStale)
    return (
      <Answer {...under('The sheet before stays on record; the next one says what changed.')}>
        Sheet {last.revision} no longer says what is expected.
      </Answer>
    );
  if (rooms.some((at) => at.jobRoom.handedOverAt === null))
    return (
      <Answer {...under('Walk the floors together, have the sheet signed, and leave a copy.')}>
        Sheet {last.revision} is made: hand it over.
      </Answer>
    );
  const at = here?.jobRoom.handedOverAt ?? null;
  return (
    <Answer {...under(isCuring ? 'Not yet released for covering: its cure is watched until the test.' : 'Nothing more is waited for.')}>
      {at === null ? 'Handed over.' : `Handed over ${formatInstantDay(at, zone, 'long', locale)}.`}
    </Answer>
  );
}
