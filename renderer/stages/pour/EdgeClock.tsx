import { pourClock } from '../../../shared-core/drawing/pour-clock.ts';
import { formatRunningClock } from '../../../shared-core/measure/duration.ts';
import { formatNumber } from '../../../shared-core/measure/number.ts';
import type { PourState } from '../../../shared-core/pour/pour-state.ts';
import { DrawingView, useSize } from '../../parts/DrawingView.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { useSmall } from '../../parts/use-small.ts';

interface EdgeProps {
  readonly state: PourState;
  readonly healingMin: number;
}

/**
 * The age of the oldest wet edge, as large as possible, and the time left.
 * @param next lane and batch, shown where the plan has no room
 */
export function EdgeClock({ state, next }: { readonly state: PourState; readonly next: string }) {
  const edge = state.oldestEdge;
  const isCold = edge !== null && edge.leftMin < 0;
  return (
    <>
      <p className={`pour-mode-age${isCold ? ' pour-mode-late' : ''}`} role="timer">
        {formatRunningClock(Math.max(0, edge?.ageMin ?? 0) * 60)}
      </p>
      <div className="pour-mode-edge">
        {edge === null ? (
          <p>{state.placed === 0 ? 'No wet edge. The first batch is not placed.' : 'No wet edge.'}</p>
        ) : (
          <>
            <p className="pour-mode-beside">
              <span className="pour-mode-wide">{`is the age of the oldest wet edge, at batch ${edge.besideBatch}.`}</span>
              <span className="pour-mode-small">{`Oldest wet edge, at batch ${edge.besideBatch}`}</span>
            </p>
            <p className={`pour-mode-left${isCold ? ' pour-mode-late' : ''}`}>
              <strong>{formatRunningClock(Math.abs(edge.leftMin) * 60)}</strong> {isCold ? 'past' : 'left'}
              {isCold && <span className="pour-mode-wide">: cold joint</span>}
            </p>
          </>
        )}
        <p className="pour-mode-where">{next}</p>
      </div>
    </>
  );
}

/** The same age along the datum, up to the bar that marks a cold joint. */
export function EdgeDatum({ state, healingMin }: EdgeProps) {
  const { locale } = useMeasure();
  const small = useSmall();
  const { ref, size } = useSize<HTMLDivElement>('edge');
  const minutes = formatNumber(healingMin, { most: 0 }, locale);
  const edge = state.oldestEdge;
  const inset = small ? 18 : 52;
  return (
    <div className="pour-mode-datum" ref={ref}>
      {size !== null && size.widthPx > 0 && (
        <DrawingView
          drawing={pourClock({
            widthPx: size.widthPx,
            x0: inset,
            x1: size.widthPx - inset,
            ageMinutes: edge?.ageMin ?? null,
            healingMinutes: healingMin,
            coldWords: small ? `${minutes}: cold joint` : `${minutes} minutes: cold joint`,
            letteringPx: small ? 16 : 22,
          })}
          label={
            edge === null
              ? `No wet edge. Cold joint after ${minutes} minutes.`
              : `The oldest wet edge is ${formatNumber(edge.ageMin, { most: 0 }, locale)} minutes old. Cold joint after ${minutes} minutes.`
          }
        />
      )}
    </div>
  );
}
