import { useMemo } from 'react';
import type { PourReading } from '../../../shared-core/standing/read-pour.ts';
import { pourProblemWords } from '../../../shared-core/documents/pour-words.ts';
import type { PourState } from '../../../shared-core/pour/pour-state.ts';
import type { DamLine } from '../../../shared-core/pour/stop-plan.ts';
import { DrawingView, useSize } from '../../parts/DrawingView.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { useSame } from '../../workers/use-same.ts';
import { pourPicture, progressOf } from './pour-picture.ts';
import { lowerFirst } from '../../../shared-core/measure/first-letter.ts';
import { countWords } from '../../../shared-core/measure/count-words.ts';

interface PlanProps {
  readonly read: PourReading;
  readonly state: PourState;
  readonly dams: readonly DamLine[] | null;
}

/** The room during the pour: placed batches, the wet edge, the next batch. Drawn again only when an entry changes it. */
export function PourModePlan({ read, state, dams }: PlanProps) {
  const { units, locale } = useMeasure();
  const { ref, size } = useSize<HTMLDivElement>('pour plan');
  const { covered, lanesDone, nextToLand, entries } = state;
  const progress = useSame(useMemo(() => progressOf(read, { covered, lanesDone, nextToLand }), [read, covered, lanesDone, nextToLand]));
  const logged = useSame(useMemo(() => loggedDams(entries), [entries]));
  const layout = read.layout.ok ? read.layout.value : null;
  const roomId = layout?.batches[(progress.next ?? layout.batches.length) - 1]?.roomId ?? read.rooms.at(-1)?.room.id ?? '';
  const hasWetEdge = state.oldestEdge !== null;
  const drawing = useMemo(
    () =>
      size === null || size.heightPx < 40
        ? null
        : pourPicture({
            ...{ read, roomId, progress, hasWetEdge, isPourMode: true, units, locale },
            ...{ dams: [...(dams ?? []), ...logged], widthPx: size.widthPx, heightPx: size.heightPx },
          }),
    [read, roomId, progress, hasWetEdge, logged, dams, units, locale, size],
  );
  const name = read.rooms.find((r) => r.room.id === roomId)?.room.name ?? '';
  return (
    <div className="pour-mode-picture" ref={ref}>
      {!read.layout.ok && <p className="pour-mode-trouble">{pourProblemWords(read.layout.problem)}</p>}
      {drawing !== null && (
        <DrawingView
          drawing={drawing}
          sizing="natural"
          label={`${name}: ${lowerFirst(countWords(state.placed, 'batch', locale))} placed${progress.next === null ? '' : `, batch ${nextToLand} next`}.`}
        />
      )}
    </div>
  );
}

/** Dams that the log has as set. */
const loggedDams = (entries: PourState['entries']): readonly DamLine[] =>
  entries.flatMap(({ event, undone }) =>
    undone || event.kind !== 'joint' ? [] : [{ roomId: event.roomId, from: event.from, to: event.to, lengthM: 0 }],
  );
