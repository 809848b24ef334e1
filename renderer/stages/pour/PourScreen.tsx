import { useState } from 'react';
import { pourProblemWords } from '../../../shared-core/documents/pour-words.ts';
import { nextLift } from '../../../shared-core/standing/next-pours.ts';
import { lastPour, readPour, roomFloorOf, roomsOfGo, runningPour } from '../../../shared-core/standing/read-pour.ts';
import { readPourRecord } from '../../../shared-core/standing/read-poured.ts';
import { ActionButton } from '../../parts/Buttons.tsx';
import { calculatedFor } from '../../parts/calculated-for.ts';
import { Answer } from '../../parts/Answer.tsx';
import { EmptySheet, SheetHeading } from '../../parts/Sheet.tsx';
import { JobSheet, type StageProps } from '../../parts/job/JobSheet.tsx';
import { stageHref } from '../../parts/job/stage-words.ts';
import { PourDone } from './PourDone.tsx';
import { PourPlanned } from './PourPlanned.tsx';
import './pour.css';

/** The pour of a room: planned, running, or done. */
export function PourScreen({ reading, roomReading }: StageProps) {
  const { whole } = reading;
  const { room } = roomReading;
  const floor = roomFloorOf(reading, room.id);
  // The last pour when the next one is planned: once there is another, it shows as done.
  const [plansAfter, setPlansAfter] = useState<string | null>(null);
  const [shownId, setShownId] = useState<string | null>(null);
  const running = runningPour(whole.pours, room.id);
  const last = lastPour(whole.pours, room.id);
  const pours = last === null || floor.pours.some(({ id }) => id === last.id) ? floor.pours : [...floor.pours, last];
  const pour = running ?? (last?.id === plansAfter ? null : (pours.find(({ id }) => id === shownId) ?? last));
  const asked = calculatedFor(reading, `pour of ${room.id} ${pour?.id}`, () =>
    pour === null ? readPour(reading, roomsOfGo(reading, room.id)) : readPourRecord(reading, pour),
  );
  // Rooms that cannot be poured together must not hide this room's plan.
  const read = asked.ok || pour !== null ? asked : calculatedFor(reading, `pour of ${room.id} alone`, () => readPour(reading, [room.id]));
  const next = nextLift(floor);
  const isLeft = next.isRest || next.number <= (roomReading.estimate?.takeoff.lifts?.count ?? 1);
  if (pour !== null && last !== null && running === null)
    return (
      <PourDone
        reading={reading}
        roomReading={roomReading}
        pour={pour}
        pours={pours}
        isLast={pour.id === last.id}
        onShow={setShownId}
        read={read.ok ? read.value : null}
        {...(isLeft ? { onNext: () => setPlansAfter(last.id) } : {})}
      />
    );
  if (!read.ok) {
    const isTape = room.plan.outline.length < 3;
    const why = pourProblemWords(read.problem);
    return (
      <JobSheet
        reading={reading}
        roomId={room.id}
        stage="pour"
        foot={<Answer>{why}</Answer>}
        action={
          <ActionButton href={isTape ? `/plan/${room.id}` : stageHref(whole.job.id, 'estimate', room.id)}>
            {isTape ? 'Draw room' : 'Go to Estimate'}
          </ActionButton>
        }
      >
        <SheetHeading>{`${room.name}: Pour`}</SheetHeading>
        <EmptySheet drawing="lanes" heading="The pour plan shows here: lanes, batches, and how long each wet edge stays open." hint={why} />
      </JobSheet>
    );
  }
  return (
    <PourPlanned
      reading={reading}
      roomReading={roomReading}
      read={read.value}
      running={running}
      together={asked.ok ? null : pourProblemWords(asked.problem)}
      lastEnd={last?.finishedAt ?? null}
    />
  );
}
