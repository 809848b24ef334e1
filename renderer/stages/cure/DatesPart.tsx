import { useState } from 'react';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import type { DatedMilestone } from '../../../shared-core/cure/cure-input.ts';
import { formatInstant } from '../../../shared-core/measure/moment.ts';
import { milestoneName, promiseWords } from '../../../shared-core/standing/cure-words.ts';
import { owedPromises } from '../../../shared-core/standing/room-cure.ts';
import { TextButton } from '../../parts/Buttons.tsx';
import { type CuringRoom, isDone, isFor, isPromiseLate, partWords, promisedWords, type Saying, verdictOn } from './cure-room.ts';
import { LikelyDate } from './CureWords.tsx';

interface DatesPartProps {
  readonly whole: WholeJob;
  readonly room: CuringRoom;
  readonly say: Saying;
  readonly onPromise: (milestone: DatedMilestone) => void;
}

/** All dates of the room with their basis and promises. */
export function DatesPart({ whole, room, say, onPromise }: DatesPartProps) {
  const { schedule, promises, jobRoom, rows } = room;
  const [all, setAll] = useState(false);
  const owed = owedPromises(room, say.now);
  // Dates for flooring that is not chosen are shown on request; that of the next lift only where one is to come.
  const awaited = schedule.verdicts.flatMap(({ awaitsRest, milestone }) => (awaitsRest ? [milestone] : []));
  const shown = [...schedule.milestones.filter((m) => rows.includes(m) || (m.kind === 'cover' ? all : m.kind !== 'next-lift')), ...awaited];
  const more = schedule.milestones.length - schedule.milestones.filter((m) => m.kind !== 'cover' || rows.includes(m)).length;
  return (
    <section className="cure-part">
      <h2 className="caption">{`${room.room.name}: dates and promised dates`}</h2>
      {partWords(room, say).map((words) => (
        <p key={words} className="small">
          {words}
        </p>
      ))}
      <ul className="cure-dates">
        {shown.map((m) => {
          const verdict = verdictOn(room, m);
          const promised = promises.filter((p) => isFor(p, m, jobRoom.flooring));
          return (
            <li key={m.key}>
              <span>{milestoneName(m)}</span>
              <span>
                {m.likelyAt !== null && !isDone(room, m, say.now) && 'likely '}
                <LikelyDate room={room} milestone={m} say={say} />
                {awaited.includes(m) && m.likelyAt !== null && ', if the rest is poured as planned'}
              </span>
              {isDone(room, m, say.now) ? (
                <i>done</i>
              ) : (
                <TextButton kind="plain" label={`Promise a date for ${milestoneName(m)}`} onPress={() => onPromise(m)}>
                  Promise date
                </TextButton>
              )}
              {promised.length > 0 && (
                <ul className="cure-promised">
                  {promised.map((p) => {
                    const document = whole.documents.find((d) => d.id === p.documentId);
                    const current = verdict !== null && verdict.promise.id === p.id ? verdict : null;
                    const still = owed.find((v) => v.promise.id === p.id);
                    return (
                      <li key={p.id}>
                        {`${promisedWords(p, say)}, promised ${p.to === '' ? '' : `to ${p.to} `}on ${formatInstant(p.madeAt, say.zone, 'short', say.locale)}${document === undefined ? '' : `, in ${document.title}`}`}
                        {current === null ? (
                          ', replaced'
                        ) : (
                          <>
                            :{' '}
                            <span className={isPromiseLate(room, m, say.now) ? 'late' : ''}>
                              {still === undefined ? 'done' : promiseWords(still).toLowerCase()}
                            </span>
                          </>
                        )}
                      </li>
                    );
                  })}
                </ul>
              )}
            </li>
          );
        })}
      </ul>
      {more > 0 && (
        <TextButton expanded={all} onPress={() => setAll(!all)}>
          {all ? 'Show chosen flooring only' : `Show ${more} other floorings`}
        </TextButton>
      )}
    </section>
  );
}
