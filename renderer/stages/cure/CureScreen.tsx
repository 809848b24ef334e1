import { useMemo, useState } from 'react';
import { useLocation } from 'wouter';
import { promiseMessage } from '../../../shared-core/agenda/promise-message.ts';
import type { JobReading } from '../../../shared-core/agenda/read-job.ts';
import { roomCure } from '../../../shared-core/agenda/room-cure.ts';
import { roomsOf } from '../../../shared-core/agenda/job-bundle.ts';
import { templateAt, VISIT_TEMPLATES } from '../../../shared-core/agenda/visit-entries.ts';
import { roomReadings } from '../../../shared-core/cure/gather-cure.ts';
import { formatDepth } from '../../../shared-core/measure/length-format.ts';
import { dayOfInstant, formatInstant, formatInstantDay, formatInstantTime } from '../../../shared-core/measure/moment.ts';
import { formatNumber } from '../../../shared-core/measure/number.ts';
import { formatTemperature } from '../../../shared-core/measure/temperature.ts';
import type { DatedMilestone } from '../../../shared-core/cure/cure-input.ts';
import { addCoverTest, addReadings, addVisit, changeVisit, promise } from '../../book/cure-commands.ts';
import { changeJobRoom, moveRoomTo } from '../../book/job-commands.ts';
import { nowInstant } from '../../book/moment.ts';
import type { Outcome } from '../../book/outcome.ts';
import { useJobReading, useNow } from '../../book/use-job-reading.ts';
import { ActionButton } from '../../parts/ActionButton.tsx';
import { Answer } from '../../parts/Answer.tsx';
import { CheckRow } from '../../parts/CheckRow.tsx';
import { DatumDrawing } from '../../parts/DatumDrawing.tsx';
import { EmptySheet } from '../../parts/EmptySheet.tsx';
import { Fields } from '../../parts/Fields.tsx';
import { JobSheet } from '../../parts/job/JobSheet.tsx';
import { NoJob } from '../../parts/job/NoJob.tsx';
import { stageHref } from '../../parts/job/stage-words.ts';
import { LinkWord } from '../../parts/LinkWord.tsx';
import { Notice } from '../../parts/Notice.tsx';
import { PercentField } from '../../parts/PercentField.tsx';
import { QuantityField } from '../../parts/QuantityField.tsx';
import { Reason } from '../../parts/Reason.tsx';
import { TextButton } from '../../parts/TextButton.tsx';
import { TextField } from '../../parts/TextField.tsx';
import { BlockPart, SheetHeading } from '../../parts/TitleBlock.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { useSmall } from '../../parts/use-small.ts';
import { CalendarButton } from './CalendarButton.tsx';
import { cureDrawing, type CuringRoom } from './cure-drawing.ts';
import { CoverTestForm, ReadingForm } from './CureForms.tsx';
import { LogDialog } from './LogDialog.tsx';
import './cure.css';

/** What has set, what has dried, what was promised. */
export function CureScreen({ jobId, roomId }: { readonly jobId: string; readonly roomId: string }) {
  const reading = useJobReading(jobId);
  if (reading === undefined) return <p className="app-opening caption">Reading the job…</p>;
  if (reading === null || !reading.rooms.some((r) => r.room.id === roomId)) return <NoJob />;
  return <Cure reading={reading} roomId={roomId} />;
}

function Cure({ reading, roomId }: { readonly reading: JobReading; readonly roomId: string }) {
  const { whole, bundle } = reading;
  const { job } = whole;
  const { units, locale } = useMeasure();
  const small = useSmall();
  const now = useNow();
  const [, go] = useLocation();
  const zone = whole.property.timeZone;
  const [said, setSaid] = useState<string | null>(null);
  const [importing, setImporting] = useState(false);
  const say = (outcome: Outcome<unknown>): void => setSaid(outcome.ok ? null : outcome.message);
  const rooms = useMemo(
    () =>
      roomsOf(bundle).flatMap((facts): CuringRoom[] => {
        const cure = roomCure(bundle, facts, whole.business);
        if (cure === null || !cure.poured) return [];
        const depth = facts.summary?.depth ?? null;
        const pours = whole.pours.filter((p) => p.roomIds.includes(facts.room.id)).map((p) => p.id);
        return [
          {
            id: facts.room.id,
            name: facts.room.name,
            under: `${depth === null ? '' : `${formatDepth(depth.meanM, units)} deep\n`}poured ${formatInstantDay(cure.schedule.placedAt, zone, 'short', locale)},\n${formatInstantTime(cure.schedule.placedAt, zone, locale)}`,
            schedule: cure.schedule,
            readings: roomReadings(
              facts.room.id,
              whole.cureLogs,
              whole.pourEvents.filter((e) => pours.includes(e.pourId)),
            ),
            assumedC: facts.jobRoom.assumedTempC,
          },
        ];
      }),
    [bundle, whole, units, zone, locale],
  );
  const here = rooms.find((r) => r.id === roomId) ?? null;
  const room = whole.rooms.find((r) => r.id === roomId);
  const jobRoom = job.rooms.find((r) => r.roomId === roomId);
  if (room === undefined || jobRoom === undefined) return <NoJob />;
  const schedule = here?.schedule ?? null;
  const late = schedule?.gravest?.state === 'late' ? schedule.gravest : null;
  const lateMilestone =
    late === null || schedule === null
      ? null
      : (schedule.milestones.find((m) => m.kind === late.promise.milestone && m.covering === late.promise.covering) ?? null);
  const cover = schedule?.cover ?? null;
  const message =
    late === null || lateMilestone === null
      ? null
      : promiseMessage({
          verdict: late,
          milestone: lateMilestone,
          clientName: whole.client.name,
          roomName: room.name.toLowerCase(),
          ownerName: whole.business.ownerName,
          timeZone: zone,
          locale,
        });
  const tell = (m: DatedMilestone): void => {
    if (m.likelyAt === null) return;
    void promise({
      jobId: job.id,
      roomId,
      milestone: m.kind,
      covering: m.covering,
      promisedFor: m.likelyAt,
      to: whole.client.name,
      documentId: null,
    }).then(say);
  };
  const when = (at: string | null): string => {
    if (at === null) return 'stands still';
    const hour = schedule !== null && Date.parse(at) - Date.parse(schedule.placedAt) < 5 * 86_400_000;
    return hour
      ? `${formatInstantDay(at, zone, 'weekday', locale).split(',')[0] ?? ''} ${formatInstantTime(at, zone, locale)}`
      : formatInstantDay(at, zone, 'short', locale);
  };
  const released = schedule?.release?.released === true;
  const next = released || (schedule !== null && cover === null);
  return (
    <JobSheet
      whole={whole}
      roomId={roomId}
      stage="cure"
      block={
        <>
          <BlockPart heading={`${room.name}, from now on`}>
            <Fields>
              <QuantityField
                kind="temperature"
                label="Air assumed"
                value={jobRoom.assumedTempC}
                emptyMessage="A temperature is needed."
                onChange={(c) =>
                  c !== null && void changeJobRoom(job.id, roomId, 'temperature assumed', (r) => ({ ...r, assumedTempC: c })).then(say)
                }
              />
              <PercentField
                label="Humidity assumed"
                value={jobRoom.assumedHumidity}
                emptyMessage="A humidity is needed."
                onChange={(h) =>
                  h !== null && void changeJobRoom(job.id, roomId, 'humidity assumed', (r) => ({ ...r, assumedHumidity: h })).then(say)
                }
              />
            </Fields>
          </BlockPart>
          {here !== null && (
            <>
              <BlockPart heading="A reading of the room’s air">
                <ReadingForm
                  now={now}
                  zone={zone}
                  onKeep={(readings) => void addReadings(job.id, roomId, readings, 'by-hand', 'read by hand').then(say)}
                />
                <TextButton onPress={() => setImporting(true)}>Take a logger’s file, or paste</TextButton>
                <p className="small">{logWords(here, units, locale)}</p>
              </BlockPart>
              <BlockPart heading="Dates and what they rest on">
                <ul className="cure-dates">
                  {here.schedule.milestones.map((m) => (
                    <li key={m.key}>
                      <span>{m.name}</span>
                      <Reason
                        why={{
                          what: `${m.name}, ${room.name.toLowerCase()}`,
                          inputs: m.reason.wentIn.map(({ name, value }) => ({ name, value })),
                          formula: m.reason.formula,
                          source: m.reason.source,
                          range: { leastText: when(m.earliestAt), mostText: when(m.latestAt), at: 0.5, words: m.reason.range },
                          ...(m.coverTest === null ? {} : { more: <p>{m.coverTest.sentence}</p> }),
                        }}
                      >
                        {when(m.likelyAt)}
                      </Reason>
                      <TextButton kind="plain" label={`Promise ${m.name}`} onPress={() => tell(m)}>
                        Promise it
                      </TextButton>
                    </li>
                  ))}
                </ul>
              </BlockPart>
              {cover !== null && cover.coverTest !== null && cover.covering !== null && (
                <BlockPart heading="Before covering">
                  <p className="small">{schedule?.release?.sentence ?? cover.coverTest.sentence}</p>
                  <CoverTestForm
                    methods={cover.coverTest.methods.map((m) => ({ method: m.method, unit: m.unit, limit: m.limit }))}
                    by={whole.business.ownerName}
                    onKeep={(test) =>
                      cover.covering !== null && void addCoverTest({ jobId: job.id, roomId, covering: cover.covering, ...test }).then(say)
                    }
                  />
                </BlockPart>
              )}
            </>
          )}
          <BlockPart heading="Coming back">
            <ul className="cure-visits">
              {whole.visits.map((visit) => (
                <li key={visit.id}>
                  <CheckRow
                    label={visit.title}
                    right={formatInstant(visit.at, zone, 'short', locale)}
                    checked={visit.doneAt !== null}
                    onChange={(done) =>
                      void changeVisit(visit.id, done ? `done: ${visit.title}` : `not done: ${visit.title}`, (v) => ({
                        ...v,
                        doneAt: done ? nowInstant() : null,
                      })).then(say)
                    }
                  />
                  <TextField
                    label={`Notes on ${visit.title}`}
                    bare
                    placeholder="notes"
                    value={visit.notes}
                    onChange={(notes) => void changeVisit(visit.id, 'notes of a visit', (v) => ({ ...v, notes })).then(say)}
                  />
                </li>
              ))}
            </ul>
            <div className="cure-ways">
              {VISIT_TEMPLATES.map((template) => {
                const at = templateAt(
                  template,
                  { pouredAt: schedule?.placedAt ?? null, coverAt: cover?.likelyAt ?? null, defectsUntil: job.defectsUntil },
                  '09:00',
                  zone,
                );
                if (at === null || whole.visits.some((v) => v.kind === template.kind && v.roomIds.includes(roomId))) return null;
                return (
                  <TextButton
                    key={template.kind}
                    kind="plain"
                    onPress={() =>
                      void addVisit({
                        jobId: job.id,
                        roomIds: [roomId],
                        kind: template.kind,
                        title: template.title,
                        at,
                        minutes: template.minutes,
                      }).then(say)
                    }
                  >
                    {template.title}, {formatInstantDay(at, zone, 'short', locale)}
                  </TextButton>
                );
              })}
            </div>
            <CalendarButton reading={reading} />
          </BlockPart>
        </>
      }
      {...(rooms.length === 0
        ? {}
        : {
            datum: (
              <DatumDrawing
                label={`Cure of ${rooms.map((r) => r.name).join(', ')} by the day`}
                linePx={34}
                draw={(widthPx) =>
                  cureDrawing({
                    rooms,
                    now,
                    zone,
                    locale,
                    units,
                    widthPx,
                    isNarrow: small || widthPx < 1200,
                    words: (r, key) => {
                      const m = r.schedule.milestones.find((one) => one.key === key);
                      if (m === undefined) return ['', '', '', ''];
                      const told = r.schedule.verdicts.find((v) => v.promise.milestone === m.kind && v.promise.covering === m.covering);
                      const isDone = m.by === 'strength' && m.latestAt !== null && m.latestAt <= now;
                      return [
                        isDone ? '' : when(m.earliestAt),
                        when(m.likelyAt),
                        isDone ? 'done' : when(m.latestAt),
                        told === undefined ? '' : formatInstantDay(told.promise.promisedFor, zone, 'short', locale),
                      ];
                    },
                    sentence: (r) => {
                      const { gravest, cover: c, release } = r.schedule;
                      const verdict = gravest === null ? '' : `${gravest.word}.`;
                      if (release?.released === true) return { verdict: 'Released.', rest: release.sentence, isLate: false };
                      const rest =
                        c === null
                          ? 'No covering is chosen: strength alone decides.'
                          : c.likelyAt === null
                            ? 'Too cold: the clock stands still.'
                            : `${c.name} from ${formatInstantDay(c.likelyAt, zone, 'short', locale)}, once a test says so.`;
                      return { verdict, rest: rest.charAt(0).toUpperCase() + rest.slice(1), isLate: gravest?.state === 'late' };
                    },
                  })
                }
                onPick={(name) => {
                  const [, id] = name.split(':');
                  if (id !== undefined && rooms.some((r) => r.id === id)) go(stageHref(job.id, 'cure', id));
                }}
              />
            ),
          })}
      foot={
        <Answer
          under={
            late !== null
              ? `${late.word}. Nothing promised is rewritten: the new date stands beside the old.`
              : (schedule?.release?.sentence ?? '')
          }
        >
          {late !== null && lateMilestone?.likelyAt != null
            ? `Promise ${formatInstantDay(lateMilestone.likelyAt, zone, 'long', locale)} instead of ${formatInstantDay(late.promise.promisedFor, zone, 'short', locale)}.`
            : here === null
              ? 'Nothing is poured here yet.'
              : released
                ? 'Released for covering.'
                : cover?.likelyAt != null
                  ? `Dry enough to test for ${cover.name} about ${formatInstantDay(cover.likelyAt, zone, 'long', locale)}.`
                  : 'Curing.'}
        </Answer>
      }
      action={
        here === null ? (
          <ActionButton href={stageHref(job.id, 'pour', roomId)}>Open the pour</ActionButton>
        ) : late !== null && lateMilestone?.likelyAt != null ? (
          <ActionButton onPress={() => tell(lateMilestone)}>
            Promise {formatInstantDay(lateMilestone.likelyAt, zone, 'short', locale)}
          </ActionButton>
        ) : (
          <ActionButton onPress={() => void moveRoomTo(job.id, roomId, 'handover').then(() => go(stageHref(job.id, 'handover', roomId)))}>
            {next ? 'Go on to the handover' : 'Make the handover sheet'}
          </ActionButton>
        )
      }
    >
      <SheetHeading
        under={
          rooms.length === 0
            ? undefined
            : `Today is ${formatInstantDay(now, zone, 'long', locale)}. Every covering waits for its own test, whatever the date.`
        }
      >
        {rooms.length === 1 ? 'One floor' : rooms.length === 0 ? room.name : `${rooms.length} floors`}: what has set and what has dried
      </SheetHeading>
      {said !== null && (
        <Notice kind="failure" onClose={() => setSaid(null)}>
          {said}
        </Notice>
      )}
      {message !== null && (
        <Notice kind="failure">
          {late?.word}: {room.name.toLowerCase()}.{' '}
          <a href={`mailto:${whole.client.email}?subject=${encodeURIComponent(message.subject)}&body=${encodeURIComponent(message.body)}`}>
            Write to {whole.client.name}: the message is ready
          </a>
        </Notice>
      )}
      {rooms.length === 0 && (
        <EmptySheet
          what="The schedule of the cure goes here once a pour is finished."
          how="Walk on, carts, furniture and covering, each with its range, from the room’s own temperatures."
          first={<LinkWord href={stageHref(job.id, 'pour', roomId)}>Open the pour</LinkWord>}
        />
      )}
      {importing && (
        <LogDialog
          zone={zone}
          today={dayOfInstant(now, zone)}
          units={units}
          onClose={() => setImporting(false)}
          onTake={(readings, name) => {
            setImporting(false);
            void addReadings(job.id, roomId, readings, 'imported', name).then(say);
          }}
        />
      )}
    </JobSheet>
  );
}

function logWords(room: CuringRoom, units: 'us' | 'metric', locale: string): string {
  const { log } = room.schedule;
  if (log.leastC === null) return 'Not read yet: the assumed air counts until it is.';
  const still =
    log.hoursStoodStill > 0.5
      ? ` Stood still ${formatNumber(log.hoursStoodStill, { most: 0 }, locale)} hours under ${formatTemperature(room.schedule.leastCureTempC, units, locale)}.`
      : '';
  return `${log.readings} readings, never under ${formatTemperature(log.leastC, units, locale)}.${still}`;
}
