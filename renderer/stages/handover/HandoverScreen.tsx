import { useState } from 'react';
import { jobReadingCures } from '../../../shared-core/agenda/job-cures.ts';
import type { JobReading } from '../../../shared-core/agenda/read-job.ts';
import { handoverSheet } from '../../../shared-core/documents/handover-sheet.ts';
import { formatDepth } from '../../../shared-core/measure/length-format.ts';
import { formatInstant, formatInstantDay } from '../../../shared-core/measure/moment.ts';
import { changeJob, changeJobRoom, moveRoomTo } from '../../book/job-commands.ts';
import { nowInstant } from '../../book/moment.ts';
import type { Outcome } from '../../book/outcome.ts';
import { noteDocument } from '../../book/quote-commands.ts';
import { useJobReading, useNow } from '../../book/use-job-reading.ts';
import { ActionButton } from '../../parts/ActionButton.tsx';
import { Answer } from '../../parts/Answer.tsx';
import { EmptySheet } from '../../parts/EmptySheet.tsx';
import { JobSheet } from '../../parts/job/JobSheet.tsx';
import { NoJob } from '../../parts/job/NoJob.tsx';
import { stageHref } from '../../parts/job/stage-words.ts';
import { LinkWord } from '../../parts/LinkWord.tsx';
import { makePaper } from '../../parts/make-paper.ts';
import { MomentField } from '../../parts/MomentField.tsx';
import { Notice } from '../../parts/Notice.tsx';
import { Table } from '../../parts/Table.tsx';
import { TextButton } from '../../parts/TextButton.tsx';
import { BlockPart, SheetHeading } from '../../parts/TitleBlock.tsx';
import { useMeasure } from '../../parts/use-measure.ts';

/** What is handed over: the dates, the sheet, the signature. */
export function HandoverScreen({ jobId, roomId }: { readonly jobId: string; readonly roomId: string }) {
  const reading = useJobReading(jobId);
  if (reading === undefined) return <p className="app-opening caption">Reading the job…</p>;
  if (reading === null || !reading.rooms.some((r) => r.room.id === roomId)) return <NoJob />;
  return <Handover reading={reading} roomId={roomId} />;
}

function Handover({ reading, roomId }: { readonly reading: JobReading; readonly roomId: string }) {
  const { whole } = reading;
  const { job } = whole;
  const { units, locale } = useMeasure();
  const now = useNow(whole);
  const zone = whole.property.timeZone;
  const [said, setSaid] = useState<{ ok: boolean; says: string } | null>(null);
  const say = (outcome: Outcome<unknown>): void => setSaid(outcome.ok ? null : { ok: false, says: outcome.message });
  const rooms = jobReadingCures(reading);
  const here = job.rooms.find((r) => r.roomId === roomId);
  const sheets = whole.documents.filter((d) => d.kind === 'handover');
  const day = (at: string | null | undefined): string => (at == null ? 'not yet known' : formatInstantDay(at, zone, 'short', locale));
  const make = async (): Promise<void> => {
    const madeAt = nowInstant();
    const revision = sheets.length + 1;
    const changes =
      sheets.length === 0
        ? []
        : rooms.map(
            ({ room, schedule }) =>
              `${room.name}: ${schedule.cover === null ? 'no covering' : `${schedule.cover.name} now likely ${day(schedule.cover.likelyAt)}`}.`,
          );
    const tree = handoverSheet(reading, { now: madeAt, revision, changes });
    const paper = await makePaper(tree);
    setSaid(paper);
    if (paper.ok)
      say(
        await noteDocument({
          jobId: job.id,
          kind: 'handover',
          revision,
          title: tree.title,
          madeAt,
          changes,
          content: JSON.stringify(tree),
          quoteId: null,
          sha256: paper.sha256,
        }),
      );
    if (paper.ok) setSaid(paper);
  };
  const handOver = async (): Promise<void> => {
    const at = nowInstant();
    say(await changeJobRoom(job.id, roomId, 'handed over', (r) => ({ ...r, handedOverAt: at })));
    await moveRoomTo(job.id, roomId, 'done');
  };
  const handed = here?.handedOverAt ?? null;
  return (
    <JobSheet
      whole={whole}
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
              onChange={(handoverAt) => void changeJob(job.id, 'day of the handover', (j) => ({ ...j, handoverAt })).then(say)}
            />
          </BlockPart>
          <BlockPart heading="Sheets made">
            {sheets.length === 0 ? <p>None yet.</p> : null}
            <ul>
              {sheets.map((d) => (
                <li key={d.id}>
                  {d.title}, {formatInstant(d.madeAt, zone, 'short', locale)}
                </li>
              ))}
            </ul>
            {rooms.length > 0 && (
              <TextButton onPress={() => void make()}>
                {sheets.length === 0 ? 'Make the handover sheet' : `Make sheet ${sheets.length + 1}`}
              </TextButton>
            )}
          </BlockPart>
        </>
      }
      foot={
        <Answer under={rooms.length === 0 ? '' : 'Every covering waits for its own test, whatever the date.'}>
          {handed !== null
            ? `Handed over ${formatInstantDay(handed, zone, 'long', locale)}.`
            : rooms.length === 0
              ? 'Nothing is poured yet.'
              : sheets.length === 0
                ? 'The sheet is not made yet.'
                : 'The sheet is made; hand it over and have it signed.'}
        </Answer>
      }
      action={
        rooms.length === 0 ? (
          <ActionButton href={stageHref(job.id, 'pour', roomId)}>Open the pour</ActionButton>
        ) : sheets.length === 0 ? (
          <ActionButton onPress={() => void make()}>Make the handover sheet</ActionButton>
        ) : handed === null ? (
          <ActionButton onPress={() => void handOver()}>Handed over</ActionButton>
        ) : (
          <ActionButton href="/jobs">See every job</ActionButton>
        )
      }
    >
      <SheetHeading>Your new floors: when to walk, when to cover</SheetHeading>
      {said !== null && (
        <Notice kind={said.ok ? 'told' : 'failure'} onClose={() => setSaid(null)}>
          {said.says}
        </Notice>
      )}
      {rooms.length === 0 ? (
        <EmptySheet
          what="What was poured goes here, with its dates."
          first={<LinkWord href={stageHref(job.id, 'pour', roomId)}>Open the pour</LinkWord>}
        />
      ) : (
        <Table
          label="When each floor may be used"
          rows={rooms}
          rowKey={(r) => r.room.id}
          columns={[
            { key: 'room', caption: 'Room', heads: true, cell: (r) => r.room.name },
            { key: 'depth', caption: 'Depth', align: 'right', cell: (r) => (r.depth === null ? '' : formatDepth(r.depth.meanM, units)) },
            { key: 'bags', caption: 'Bags', align: 'right', cell: (r) => r.bags },
            { key: 'walk', caption: 'Walk on from', cell: (r) => day(r.schedule.milestones.find((m) => m.kind === 'walk-on')?.latestAt) },
            {
              key: 'cover',
              caption: 'Cover between',
              cell: (r) =>
                r.schedule.cover === null ? 'no covering' : `${day(r.schedule.cover.earliestAt)} to ${day(r.schedule.cover.latestAt)}`,
            },
            {
              key: 'test',
              caption: 'Test',
              wideOnly: true,
              italic: true,
              cell: (r) => (r.schedule.release?.released === true ? 'released' : 'not yet released for covering'),
            },
          ]}
        />
      )}
    </JobSheet>
  );
}
