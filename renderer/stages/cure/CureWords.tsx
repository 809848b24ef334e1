import { Fragment, type ReactNode } from 'react';
import type { DatedMilestone } from '../../../shared-core/cure/cure-input.ts';
import { AFTER_HEAT, milestoneName, requirementWords } from '../../../shared-core/standing/cure-words.ts';
import { reasonWords } from '../../../shared-core/standing/reason-words.ts';
import { capital } from '../../../shared-core/measure/first-letter.ts';
import { theRoom } from '../../../shared-core/standing/names.ts';
import { LinkWord } from '../../parts/Buttons.tsx';
import { Reason } from '../../parts/Reason.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { COLUMNS, type CureColumn, type CureBlock, type CureTier, type PlacedWord } from './cure-drawing.ts';
import {
  exactly,
  type CuringRoom,
  isDone,
  isPromiseLate,
  logWords,
  pouredWords,
  promisedWords,
  type Saying,
  statedDate,
  verdictOn,
  verdictWords,
  when,
} from './cure-room.ts';

interface CureWordsProps {
  readonly room: CuringRoom;
  readonly block: CureBlock;
  readonly tier: CureTier;
  readonly verdictAt: PlacedWord | null;
  readonly say: Saying;
  readonly href: string;
  readonly current: boolean;
}

/** Position of a date in its range, for the range mark. */
function within(m: DatedMilestone): number | null {
  if (m.earliestAt === null || m.likelyAt === null || m.latestAt === null) return null;
  const [from, likely, to] = [m.earliestAt, m.likelyAt, m.latestAt].map((one) => Date.parse(one));
  return from === undefined || likely === undefined || to === undefined || to <= from ? null : (likely - from) / (to - from);
}

type DateProps = Pick<CureWordsProps, 'room' | 'say'> & { readonly milestone: DatedMilestone };

/** A likely date that opens its basis. */
export function LikelyDate({ room, milestone: m, say }: DateProps) {
  const basis = reasonWords(m.reason, say.units, say.locale);
  return (
    <Reason
      why={{
        figureName: `${capital(milestoneName(m))}, ${room.room.name}`,
        ...basis,
        range: { leastText: exactly(m.earliestAt, m, say), mostText: statedDate(m, say), value: within(m), words: basis.range },
        ...(m.clearanceTest === null
          ? {}
          : { more: <p>{`${requirementWords(m.clearanceTest)}${m.afterHeat === true ? ` ${AFTER_HEAT}` : ''}`}</p> }),
      }}
    >
      <span className="hidden-words">{`${milestoneName(m)} in ${theRoom(room.room.name)}: `}</span>
      {when(m.likelyAt, m, say)}
    </Reason>
  );
}

/** The text of one room, aligned with its lines in the drawing. */
export function CureWords({ room, block, tier, verdictAt, say, href, current }: CureWordsProps) {
  const { units } = useMeasure();
  const columns = COLUMNS[tier];
  const verdictText = verdictWords(room, say);
  const [logged, about] = logWords(room, { ...say, units });
  const verdict = (
    <>
      {verdictText.verdict !== '' && <b className={verdictText.isLate ? 'late' : ''}>{verdictText.verdict}</b>} {verdictText.rest}
    </>
  );
  const rowHeight = (block.logTop - block.rowsTop) / Math.max(1, room.rows.length);
  return (
    <section className={`cure-room cure-room-${tier}`} style={{ top: block.top }} aria-label={room.room.name}>
      <div className="cure-room-name" style={{ left: columns.name }}>
        <h2>
          <LinkWord href={href} quiet current={current}>
            {room.room.name}
          </LinkWord>
        </h2>
        {tier === 'narrow' ? (
          <p className="cure-room-verdict">{verdict}</p>
        ) : (
          pouredWords(room, { ...say, units }).map((line) => <i key={line}>{line}</i>)
        )}
      </div>
      <ul>
        {room.rows.map((m, k) => (
          <li key={m.key} style={{ top: block.rowsTop - block.top + k * rowHeight }}>
            <Row room={room} milestone={m} tier={tier} say={say} />
          </li>
        ))}
      </ul>
      <p className="cure-room-log" style={{ left: columns.milestone, top: block.logTop - block.top + 5 }}>
        {logged}
        <i>{about}</i>
      </p>
      {verdictAt !== null && (
        <p className="cure-room-verdict" style={{ left: verdictAt.x, top: verdictAt.y - block.top }}>
          {verdict}
        </p>
      )}
    </section>
  );
}

function Row({ room, milestone: m, tier, say }: DateProps & Pick<CureWordsProps, 'tier'>) {
  const done = isDone(room, m, say.now);
  const verdict = verdictOn(room, m);
  const isLate = isPromiseLate(room, m, say.now);
  const cells: Readonly<Record<CureColumn, ReactNode>> = {
    milestone: milestoneName(m),
    earliest: done ? '' : when(m.earliestAt, m, say),
    likely: <LikelyDate room={room} milestone={m} say={say} />,
    latest: done ? <i>done</i> : statedDate(m, say),
    promised: verdict === null ? '' : <span className={isLate ? 'late' : ''}>{promisedWords(verdict.promise, say)}</span>,
  };
  const shown = (['milestone', 'earliest', 'likely', 'latest', 'promised'] as const).filter((c) => COLUMNS[tier][c] !== undefined);
  return (
    <>
      {shown.map((column) => (
        <Fragment key={column}>
          {column !== 'milestone' && column !== 'likely' && cells[column] !== '' && <span className="hidden-words">{column} </span>}
          <span className={column === 'likely' && !done ? 'cure-likely' : ''} style={{ left: COLUMNS[tier][column] }}>
            {cells[column]}
          </span>
        </Fragment>
      ))}
    </>
  );
}
