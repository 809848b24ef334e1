import { useLocation } from 'wouter';
import { DrawingView, useSize } from '../../parts/DrawingView.tsx';
import { stageHref } from '../../parts/job/stage-words.ts';
import { cureSheet, DATUM_Y, tierOf } from './cure-drawing.ts';
import type { CuringRoom, Saying } from './cure-room.ts';
import { CureWords } from './CureWords.tsx';

interface SchedulePartProps {
  readonly jobId: string;
  readonly roomId: string;
  readonly rooms: readonly CuringRoom[];
  readonly say: Saying;
}

/** The schedule below the line of days, with its text at the left on the same rows. */
export function SchedulePart({ jobId, roomId, rooms, say }: SchedulePartProps) {
  const { ref, size } = useSize<HTMLDivElement>();
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
