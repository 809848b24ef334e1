import { crewTimeline, placementBands } from '../../../shared-core/drawing/crew-timeline.ts';
import type { PourModel } from '../../../shared-core/pour/crew-model.ts';
import type { PourOutlook } from '../../../shared-core/pour/outlook.ts';
import { timelineOf } from '../../../shared-core/pour/simulate.ts';
import { DrawingView } from '../../parts/DrawingView.tsx';
import { useSize } from '../../parts/use-size.ts';
import { waitWords } from './pour-words.ts';
import { RUNS_SEED } from '../../workers/use-pour-runs.ts';

const BANDS_PX = 190;

/** Waiting times of the crew in one simulated pour, and the placing time of each batch over all of them. */
export function RunsPicture({ model, outlook }: { readonly model: PourModel; readonly outlook: PourOutlook }) {
  const { ref, size } = useSize<HTMLDivElement>();
  const line = timelineOf(model, RUNS_SEED, 0);
  return (
    <div ref={ref} className="stack">
      {size !== null && size.widthPx > 0 && (
        <>
          <h3 className="caption">One simulated pour: hatched is work, empty is waiting</h3>
          <DrawingView
            sizing="natural"
            label={`One simulated pour, one row per station: ${outlook.waits.map(waitWords).join(' ')}`}
            drawing={crewTimeline({
              widthPx: Math.max(340, size.widthPx),
              bars: line.bars,
              finishMin: Math.max(0, ...line.bars.map((b) => b.toMin)),
            })}
          />
          <h3 className="caption">All simulated pours: when each batch is placed, 80% likely</h3>
          <DrawingView
            sizing="natural"
            label="When each batch is placed: the band is 80% likely, the line is the median"
            drawing={placementBands({
              widthPx: Math.max(340, size.widthPx),
              heightPx: BANDS_PX,
              placedMin: outlook.batches.map((b) => b.placedMin),
            })}
          />
        </>
      )}
    </div>
  );
}
