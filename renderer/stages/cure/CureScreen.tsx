import { useState } from 'react';
import { useLocation } from 'wouter';
import { roomAir, withExpectedAir } from '../../../shared-core/climate/room-air.ts';
import type { JobReading } from '../../../shared-core/standing/read-job.ts';
import type { DatedMilestone } from '../../../shared-core/cure/cure-input.ts';
import { changeJobRoom } from '../../book/job-commands.ts';
import { nowInstant, type Outcome } from '../../book/command.ts';
import { useNow } from '../../book/use-job-reading.ts';
import { ActionButton, LinkWord } from '../../parts/Buttons.tsx';
import { calculatedFor } from '../../parts/calculated-for.ts';
import { Answer } from '../../parts/Answer.tsx';
import { countWords } from '../../../shared-core/measure/count-words.ts';
import { DrawingView, useSize } from '../../parts/DrawingView.tsx';
import { EmptySheet, BlockPart, SheetHeading } from '../../parts/Sheet.tsx';
import { airWords } from '../../parts/job/air-words.ts';
import { JobSheet, type StageProps } from '../../parts/job/JobSheet.tsx';
import { stageHref } from '../../parts/job/stage-words.ts';
import { ResultNotice, type Said } from '../../parts/Dialog.tsx';
import { PercentField, QuantityField } from '../../parts/Fields.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { useSmall } from '../../parts/use-small.ts';
import { AirPart, CoverPart } from './CoverPart.tsx';
import { cureKeyDrawing, curePlan, cureSheet, DATUM_Y, tierOf } from './cure-drawing.ts';
import { type CuringRoom, curingRooms, plannedRoom, type Saying } from './cure-room.ts';
import { cureFoot, standingWords } from './cure-foot.ts';
import { DatesPart } from './DatesPart.tsx';
import { quoteAir } from './quote-air.ts';
import { PromiseDialog } from './PromiseDialog.tsx';
import { VisitsPart } from './VisitsPart.tsx';
import './cure.css';
import { CureWords } from './CureWords.tsx';

/** Cure: dates, readings, tests and visits. */
export function CureScreen({ reading, roomReading }: StageProps) {
  const { room } = roomReading;
  const roomId = room.id;
  const { whole } = reading;
  const { job } = whole;
  const { units, locale } = useMeasure();
  const small = useSmall();
  const now = useNow(whole);
  const zone = whole.property.timeZone;
  const [message, report] = useState<Said>(null);
  const [promising, setPromising] = useState<DatedMilestone | null>(null);
  const say: Saying = { now, zone, locale, units };
  const rooms = calculatedFor(reading, 'curing rooms', () => curingRooms(reading));
  const cureRoom = rooms.find((r) => r.id === roomId) ?? null;
  const datedRoom = cureRoom ?? plannedRoom(reading, roomId, now);
  const foot = cureFoot(reading, rooms, roomId, say);
  const onTest = (): void => {
    const part = document.getElementById('cure-test');
    part?.scrollIntoView({ block: 'center' });
    part?.querySelector<HTMLElement>('select, input')?.focus();
  };
  return (
    <JobSheet
      reading={reading}
      roomId={roomId}
      stage="cure"
      withoutKeyPlan={rooms.length > 0 && !small}
      block={
        <>
          {rooms.length > 0 && (
            <BlockPart>
              <p className="small">{standingWords(rooms, reading, say)}</p>
            </BlockPart>
          )}
          {small && cureRoom !== null && (
            <BlockPart>
              <AssumedFields reading={reading} room={cureRoom} say={say} onOutcome={report} />
            </BlockPart>
          )}
        </>
      }
      {...(rooms.length === 0 ? {} : { datum: <SchedulePart jobId={job.id} roomId={roomId} rooms={rooms} say={say} /> })}
      below={
        <section className="cure-below" aria-label={`${room.name}: readings, dates, test, visits`}>
          {cureRoom !== null && (
            <>
              <div className="cure-column">
                <AirPart jobId={job.id} room={cureRoom} logs={whole.cureLogs} say={say} onOutcome={report} />
                <CoverPart
                  jobId={job.id}
                  room={cureRoom}
                  tests={whole.clearanceTests}
                  owner={whole.business.ownerName}
                  say={say}
                  onOutcome={report}
                />
              </div>
              <DatesPart whole={whole} room={cureRoom} say={say} onPromise={setPromising} />
            </>
          )}
          <VisitsPart reading={reading} roomId={roomId} room={cureRoom} say={say} onOutcome={report} />
        </section>
      }
      foot={
        <>
          <Answer under={small ? undefined : foot.why}>{foot.text}</Answer>
          {foot.other !== null && <Answer wideOnly>{foot.other}</Answer>}
        </>
      }
      action={
        foot.promise !== null ? (
          <>
            {cureRoom === null && <LinkWord href={stageHref(job.id, 'pour', roomId)}>Go to Pour</LinkWord>}
            <ActionButton onPress={() => setPromising(foot.promise)}>{foot.word}</ActionButton>
          </>
        ) : foot.word === 'Go to Pour' ? (
          <ActionButton href={stageHref(job.id, 'pour', roomId)}>Go to Pour</ActionButton>
        ) : foot.word === 'Enter a test' ? (
          <>
            <LinkWord href={stageHref(job.id, 'handover', roomId)}>Go to Handover</LinkWord>
            <ActionButton onPress={onTest}>Enter a test</ActionButton>
          </>
        ) : (
          <ActionButton href={stageHref(job.id, 'handover', roomId)}>Go to Handover</ActionButton>
        )
      }
    >
      <SheetHeading>
        {rooms.length === 0 ? `${room.name}: not poured yet` : `Cure: ${countWords(rooms.length, 'floor', locale)}`}
      </SheetHeading>
      <ResultNotice message={message} onClose={report} />
      {rooms.length === 0 ? (
        <EmptySheet
          drawing="cure"
          heading="Dates appear here after the pour."
          hint="Foot traffic, furniture, and flooring, each with its range, from the room’s own temperatures."
          first={<LinkWord href={stageHref(job.id, 'pour', roomId)}>Go to Pour</LinkWord>}
        />
      ) : (
        !small && (
          <div className="cure-top">
            <PlanPart jobId={job.id} rooms={rooms} roomId={roomId} say={say} />
            <DrawingView
              drawing={cureKeyDrawing((cureRoom ?? rooms[0])?.schedule.leastCureTempC ?? 0, units, locale)}
              label="Key: heavy line, poured. Pointer between slashes: earliest, likely, latest. Peg: promised date. Cross-hatched: curing paused."
            />
            {cureRoom !== null && <AssumedFields reading={reading} room={cureRoom} say={say} onOutcome={report} />}
          </div>
        )
      )}
      {promising !== null && datedRoom !== null && (
        <PromiseDialog
          whole={whole}
          room={datedRoom}
          milestone={promising}
          say={say}
          onOutcome={report}
          onClose={() => setPromising(null)}
        />
      )}
    </JobSheet>
  );
}

/** The rooms in plan, each opened by a press. */
function PlanPart({ jobId, rooms, roomId, say }: SchedulePartProps) {
  const [, go] = useLocation();
  const { ref, size } = useSize<HTMLDivElement>('rooms');
  return (
    <div ref={ref} className="cure-plan">
      {size !== null && size.widthPx > 0 && (
        <DrawingView
          drawing={curePlan(rooms, roomId, say.now, size.widthPx, 148)}
          label={`The rooms: ${rooms.map((r) => r.room.name).join(', ')}`}
          picked={`room:${roomId}`}
          onPick={(name) => {
            const id = name.replace(/^room:/, '');
            if (rooms.some((r) => r.id === id)) go(stageHref(jobId, 'cure', id));
          }}
        />
      )}
    </div>
  );
}

interface AssumedProps {
  readonly reading: JobReading;
  readonly room: CuringRoom;
  readonly say: Saying;
  readonly onOutcome: (outcome: Outcome<unknown>) => void;
}

/** The air assumed after the last reading, and what the quote assumed. */
function AssumedFields({ reading, room, say, onOutcome }: AssumedProps) {
  const { locale } = useMeasure();
  const air = roomAir(room.room, room.jobRoom);
  const set = (label: string, change: Parameters<typeof withExpectedAir>[2]): void =>
    void changeJobRoom(reading.whole.job.id, room.id, label, (r) => withExpectedAir(room.room, r, change, nowInstant())).then(onOutcome);
  const quoted = calculatedFor(reading, `quoted air of ${room.id} at ${say.now} ${say.units} ${say.locale}`, () =>
    quoteAir(reading, room, say),
  );
  return (
    <section className="cure-assumed">
      <h2 className="caption">{`${room.room.name}: assumed from now on`}</h2>
      <div className="cure-assumed-fields">
        <QuantityField
          kind="temperature"
          label="Air temperature"
          value={air.tempC}
          emptyMessage="Enter a temperature."
          onChange={(c) => set('expected temperature', { tempC: c })}
        />
        <PercentField
          label="Humidity"
          value={air.relativeHumidity}
          emptyMessage="Enter a humidity."
          onChange={(h) => set('expected humidity', { relativeHumidity: h })}
        />
      </div>
      <p className="small">{airWords(air, say.zone, locale)}</p>
      {quoted !== null && <p className="small">{quoted}</p>}
    </section>
  );
}

interface SchedulePartProps {
  readonly jobId: string;
  readonly roomId: string;
  readonly rooms: readonly CuringRoom[];
  readonly say: Saying;
}

/** The schedule below the line of days, with its text at the left on the same rows. */
function SchedulePart({ jobId, roomId, rooms, say }: SchedulePartProps) {
  const { ref, size } = useSize<HTMLDivElement>('schedule');
  const [, go] = useLocation();
  const widthPx = size?.widthPx ?? 0;
  const sheet = widthPx > 0 ? cureSheet(rooms, say, widthPx) : null;
  return (
    <section aria-label="Schedule of the cure">
      <div className="datum-drawing cure-schedule" ref={ref} style={{ ['--over' as string]: `${DATUM_Y}px` }}>
        {sheet !== null && (
          <>
            <DrawingView
              drawing={sheet.drawing}
              label={`Cure of ${rooms.map((r) => r.room.name).join(', ')} by the day`}
              onPick={(name) => {
                const id = name.split(':')[1];
                if (id !== undefined && rooms.some((r) => r.id === id)) go(stageHref(jobId, 'cure', id));
              }}
            />
            {rooms.map((room, i) => {
              const block = sheet.blocks[i];
              return block === undefined ? null : (
                <CureWords
                  key={room.id}
                  room={room}
                  block={block}
                  tier={tierOf(widthPx)}
                  verdictAt={sheet.verdicts[i] ?? null}
                  say={say}
                  href={stageHref(jobId, 'cure', room.id)}
                  current={room.id === roomId}
                />
              );
            })}
          </>
        )}
      </div>
    </section>
  );
}
