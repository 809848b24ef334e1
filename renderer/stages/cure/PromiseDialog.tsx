import { useState } from 'react';
import { pourTimes, promiseMessage } from '../../../shared-core/agenda/promise-message.ts';
import { isStatedAsDay, startOfWork, workCalendar } from '../../../shared-core/cure/stated-date.ts';
import { statedDateWords as momentWords } from '../../../shared-core/standing/time-words.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { airWhileItDries } from '../../../shared-core/documents/handover-care.ts';
import { roomFloor } from '../../../shared-core/pour/placed-floor.ts';
import type { DatedMilestone } from '../../../shared-core/cure/cure-input.ts';
import { dayOfInstant, isPastDay } from '../../../shared-core/measure/moment.ts';
import { milestoneName } from '../../../shared-core/standing/cure-words.ts';
import { isBroken } from '../../../shared-core/cure/promise-verdict.ts';
import { owedPromises } from '../../../shared-core/standing/room-cure.ts';
import { promise } from '../../book/cure-commands.ts';
import type { Outcome } from '../../book/command.ts';
import { DateField, Fields, MomentField, TextField } from '../../parts/Fields.tsx';
import { Dialog } from '../../parts/Dialog.tsx';
import { MailWord } from '../../parts/MailWord.tsx';
import { type DatedRoom, type Saying, startPromise, statedDate, verdictOn, when } from './cure-room.ts';

interface PromiseDialogProps {
  readonly whole: WholeJob;
  readonly room: DatedRoom;
  readonly milestone: DatedMilestone;
  readonly say: Saying;
  readonly onOutcome: (outcome: Outcome<unknown>) => void;
  readonly onClose: () => void;
}

/** Records a promised date, with a message to send when it is later than the last one. */
export function PromiseDialog({ whole, room, milestone, say, onOutcome, onClose }: PromiseDialogProps) {
  const { zone, locale, now } = say;
  const isDay = isStatedAsDay(milestone.kind);
  const place = workCalendar(whole.business, zone);
  const [promisedFor, setPromisedFor] = useState<string | null>(startPromise(milestone, now));
  const [to, setTo] = useState(whole.customer.name);
  const isPast = promisedFor !== null && isPastDay(promisedFor, now, zone);
  const verdict = verdictOn(room, milestone);
  const owed = owedPromises(room, now).find((v) => v.promise === verdict?.promise);
  const { pours } = roomFloor(whole.pours, whole.pourEvents, room.id);
  const message =
    owed !== undefined && isBroken(owed)
      ? promiseMessage({
          verdict: owed,
          promisedFor: isPast ? null : promisedFor,
          pour: pourTimes(whole, room),
          customerName: whole.customer.name,
          roomName: room.room.name,
          ownerName: whole.business.ownerName,
          care: airWhileItDries([{ materials: pours.map(({ asPoured }) => asPoured.material), schedule: room.schedule }], say),
          place,
          locale,
        })
      : null;
  const statedDateWords = (instant: string): string => momentWords(milestone.kind, instant, place, 'long', locale);
  const isEarly = !isPast && promisedFor !== null && milestone.likelyAt !== null && promisedFor < milestone.likelyAt;
  const save = (): void => {
    if (promisedFor === null) return;
    void promise({
      jobId: whole.job.id,
      roomId: room.id,
      milestone: milestone.kind,
      flooring: milestone.flooring,
      promisedFor,
      to,
      documentId: null,
    }).then((outcome) => {
      onOutcome(outcome);
      if (outcome.ok) onClose();
    });
  };
  return (
    <Dialog
      wide={message !== null}
      onClose={onClose}
      title={`${room.room.name}: promise a date for ${milestoneName(milestone)}`}
      onSave={save}
      blocked={promisedFor === null || isPast}
    >
      <p>
        {`Likely ${when(milestone.likelyAt, milestone, say)}, latest ${statedDate(milestone, say)}.`}
        {verdict !== null && ` Promised before: ${statedDateWords(verdict.promise.promisedFor)}. It stays on record.`}
      </p>
      <Fields>
        {isDay ? (
          <DateField
            label="Promised date"
            today={dayOfInstant(now, zone)}
            value={promisedFor === null ? null : dayOfInstant(promisedFor, zone)}
            emptyMessage="Enter a day."
            onChange={(day) => setPromisedFor(startOfWork(day, place))}
          />
        ) : (
          <MomentField
            label="Promised date"
            zone={zone}
            now={now}
            value={promisedFor}
            emptyMessage="Enter a day and a time."
            onChange={setPromisedFor}
          />
        )}
        <TextField label="Promised to" value={to} onChange={setTo} />
      </Fields>
      {isPast && <p className="late">This day is past. Enter today or a later day.</p>}
      {isEarly && <p className="late">This is before the likely date, so it would be late from the start.</p>}
      {message !== null && (
        <>
          <h3 className="caption">Message to the customer</h3>
          <MailWord email={whole.customer.email} message={message} />
        </>
      )}
    </Dialog>
  );
}
