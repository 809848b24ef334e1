import { useMemo, useState } from 'react';
import type { PourReading } from '../../../shared-core/standing/read-pour.ts';
import type { JobReading, RoomReading } from '../../../shared-core/standing/read-job.ts';
import type { Pour } from '../../../shared-core/book/pour-record.ts';
import { seamLetter, seamWords } from '../../../shared-core/drawing/pour-edges.ts';
import { formatDuration } from '../../../shared-core/measure/duration.ts';
import { formatDepth } from '../../../shared-core/measure/length-format.ts';
import { formatInstant, formatInstantTime } from '../../../shared-core/measure/moment.ts';
import { formatNumber } from '../../../shared-core/measure/number.ts';
import { afterPour } from '../../../shared-core/pour/after-pour.ts';
import { pourState } from '../../../shared-core/pour/pour-state.ts';
import { readPicture } from '../../book/pictures.ts';
import { useWhere } from '../../book/use-records.ts';
import { ActionButton } from '../../parts/ActionButton.tsx';
import { Answer } from '../../parts/Answer.tsx';
import { DrawingRoom } from '../../parts/DrawingRoom.tsx';
import { DrawingView } from '../../parts/DrawingView.tsx';
import { JobSheet } from '../../parts/job/JobSheet.tsx';
import { PhotoRow } from '../../parts/photo/PhotoRow.tsx';
import { stageHref } from '../../parts/job/stage-words.ts';
import { Notice } from '../../parts/Notice.tsx';
import { Table } from '../../parts/Table.tsx';
import { TextButton } from '../../parts/TextButton.tsx';
import { BlockPart, SheetHeading } from '../../parts/TitleBlock.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { coveredBy, plannedPlacement, pourPicture } from './pour-picture.ts';
import { entryWords } from '../../../shared-core/pour/log-words.ts';

interface DoneProps {
  readonly reading: JobReading;
  readonly at: RoomReading;
  readonly pour: Pour;
  /** Null when the plan can no longer be read; the log still stands. */
  readonly read: PourReading | null;
  /** Given while another lift is wanted. */
  readonly onNextLift?: () => void;
}

/** A finished pour: what was planned beside what was done, and the seams to watch. */
export function PourDone({ reading, at, pour, read, onNextLift }: DoneProps) {
  const { whole } = reading;
  const { room } = at;
  const { units, locale } = useMeasure();
  const [problem, setProblem] = useState<string | null>(null);
  const zone = whole.property.timeZone;
  const events = useMemo(() => whole.pourEvents.filter((event) => event.pourId === pour.id), [whole.pourEvents, pour.id]);
  const jobPhotos = useWhere('photos', 'jobId', pour.jobId);
  const photoIds = events.flatMap((event) => (event.kind === 'note' || event.kind === 'lot' ? (event.photoIds ?? []) : []));
  const photos = jobPhotos?.filter((photo) => photoIds.includes(photo.id)) ?? [];
  const end = pour.finishedAt ?? pour.changedAt;
  const state = useMemo(
    () => pourState(read?.recordPlan ?? { layout: null, healingMin: Infinity, flowLifeMin: Infinity, bagsPerBatch: 1 }, pour, events, end),
    [read, pour, events, end],
  );
  const after = useMemo(
    () => (read?.layout.ok === true ? afterPour(read.layout.value, state, read.recordPlan, plannedPlacement(read)) : null),
    [read, state],
  );
  const minutes = (m: number) => formatDuration(m * 60, locale);
  const one = (n: number) => formatNumber(n, { most: 1 }, locale);
  const layout = read?.layout.ok === true ? read.layout.value : null;
  const log = state.entries.filter(({ event }) => event.kind !== 'mixed' && event.kind !== 'placed');
  return (
    <JobSheet
      reading={reading}
      roomId={room.id}
      stage="pour"
      block={
        <BlockPart heading="Besides the batches">
          <ul className="pour-log">
            {log.map(({ event, undone }) => (
              <li key={event.id}>
                <span>{formatInstantTime(event.at, zone, locale)}</span>
                <span>
                  {undone ? (
                    <s>{entryWords(event, { layout: layout, locale })}</s>
                  ) : event.kind === 'note' ? (
                    event.text
                  ) : (
                    entryWords(event, { layout: layout, locale })
                  )}
                  {event.kind === 'incident' && event.note !== '' && `: ${event.note}`}
                </span>
              </li>
            ))}
          </ul>
          <PhotoRow photos={photos} read={readPicture} />
          {pour.fromPaper && <p className="small">Entered from paper: its times are estimates.</p>}
          {onNextLift !== undefined && <TextButton onPress={onNextLift}>Plan the next lift</TextButton>}
        </BlockPart>
      }
      foot={
        <Answer figure={one(state.bagsUsed)} under={after === null ? 'The plan it was poured by can no longer be read.' : after.words}>
          {after === null || after.lastedMin === null
            ? 'bags are on the floor.'
            : `bags are on the floor, in ${minutes(after.lastedMin)} from the first landing to the last.`}
        </Answer>
      }
      action={<ActionButton href={stageHref(whole.job.id, 'cure', room.id)}>Next: Cure</ActionButton>}
    >
      <SheetHeading right={formatInstant(end, zone, 'weekday', locale)}>{room.name}: poured</SheetHeading>
      {problem !== null && (
        <Notice kind="failure" onClose={() => setProblem(null)}>
          {problem}
        </Notice>
      )}
      {read !== null && read.layout.ok && (
        <div className="pour-picture">
          <DrawingRoom leastPx={260} mostPx={460} smallRatio={0.9}>
            {({ widthPx, heightPx }) => {
              const drawing = pourPicture({
                read,
                roomId: room.id,
                progress: coveredBy(read, state.bagsUsed),
                isPourMode: false,
                units,
                locale,
                widthPx,
                heightPx,
                toWatch: after?.toWatch ?? [],
              });
              return drawing === null ? null : <DrawingView drawing={drawing} label={`${room.name}: ${state.placed} batches landed`} />;
            }}
          </DrawingRoom>
        </div>
      )}
      {after !== null && (
        <div className="pour-lists">
          <section className="pour-list">
            <h2 className="speech">By strip, planned and done</h2>
            <Table
              label="Strips, planned and done"
              dense
              rows={after.lanes}
              rowKey={(lane) => String(lane.number)}
              columns={[
                { key: 'lane', caption: 'lane', heads: true, cell: (s) => `strip ${s.number}` },
                { key: 'planned', caption: 'bags planned', align: 'right', cell: (s) => one(s.plannedBags) },
                { key: 'bags', caption: 'used', align: 'right', cell: (s) => (s.bags === null ? 'not logged' : one(s.bags)) },
                {
                  key: 'thick',
                  caption: 'thickness',
                  align: 'right',
                  cell: (s) => (s.thicknessM === null ? '' : formatDepth(s.thicknessM, units, locale)),
                },
              ]}
            />
          </section>
          <section className="pour-list">
            <h2 className="speech">By batch, planned and done</h2>
            <Table
              label="Batches, planned and done"
              dense
              rows={after.batches}
              rowKey={(batch) => String(batch.number)}
              isBold={(batch) => batch.tooOld}
              columns={[
                { key: 'batch', caption: 'batch', heads: true, cell: (b) => String(b.number) },
                {
                  key: 'planned',
                  caption: 'bags planned',
                  align: 'right',
                  cell: (b) => (b.plannedBags === null ? '' : one(b.plannedBags)),
                },
                { key: 'bags', caption: 'used', align: 'right', cell: (b) => (b.bags === null ? 'not logged' : one(b.bags)) },
                {
                  key: 'due',
                  caption: 'planned at',
                  align: 'right',
                  cell: (b) => (b.plannedPlacedMin === null ? '' : minutes(b.plannedPlacedMin)),
                },
                {
                  key: 'placed',
                  caption: 'landed at',
                  align: 'right',
                  cell: (b) => (b.placedMin === null ? '' : `${minutes(b.placedMin)}${b.estimated ? ', estimated' : ''}`),
                },
                { key: 'age', caption: 'age', align: 'right', cell: (b) => (b.ageMin === null ? '' : minutes(b.ageMin)) },
              ]}
            />
          </section>
          <section className="pour-list">
            <h2 className="speech">Seams to watch</h2>
            <p>{after.words}</p>
            {after.toWatch.length > 0 && (
              <Table
                label="Seams that passed their healing time"
                dense
                rows={after.toWatch}
                rowKey={(seam) => `${seam.seam.kind}-${seam.seam.newer}-${seam.seam.older}`}
                columns={[
                  { key: 'letter', caption: 'on the plan', heads: true, cell: (s) => seamLetter(after.toWatch.indexOf(s)) },
                  {
                    key: 'where',
                    caption: 'where',
                    cell: (s) => `${seamWords(s.seam)}, batch ${s.olderBatch} met by batch ${s.newerBatch}`,
                  },
                  { key: 'age', caption: 'age when met', align: 'right', cell: (s) => minutes(s.mostMin) },
                ]}
              />
            )}
          </section>
        </div>
      )}
    </JobSheet>
  );
}
