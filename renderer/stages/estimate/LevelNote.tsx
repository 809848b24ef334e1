import { countWords } from '../../../shared-core/measure/count-words.ts';
import type { LevelChoice } from '../../../shared-core/book/job.ts';
import type { BagCount } from '../../../shared-core/material/bag-count.ts';
import { formatDepth } from '../../../shared-core/measure/length-format.ts';
import { formatVolume } from '../../../shared-core/measure/volume.ts';
import type { SettledLevel } from '../../../shared-core/survey/settle-level.ts';
import { useMeasure } from '../../parts/use-measure.ts';
import { doorwayStep } from './doorway-words.ts';

interface LevelNoteProps {
  readonly choice: LevelChoice;
  readonly level: SettledLevel;
  /** Elevation above the low point, or thickness, m. */
  readonly overM: number;
  readonly bags: BagCount | null;
  /** True while the figures are being calculated. */
  readonly isBehind: boolean;
  /** Distance of its foot from the foot of the section, px. */
  readonly bottomPx: number;
}

/** Shows the figures of a level while it is dragged. */
export function LevelNote({ choice, level, overM, bags, isBehind, bottomPx }: LevelNoteProps) {
  const { units, locale } = useMeasure();
  const depth = (m: number) => formatDepth(m, units, locale);
  const { fill, doorways, warnings } = level;
  const isLowest = choice.mode === 'level' && choice.levelM === null;
  return (
    <div className="level-note" style={{ bottom: bottomPx }} aria-hidden="true">
      <p className="level-note-head">
        <b>{depth(overM)}</b> {choice.mode === 'follow' ? 'thick' : 'above the low point'}
        {isLowest && <i>, the lowest possible</i>}
      </p>
      {isBehind ? (
        <p className="caption">Calculating…</p>
      ) : (
        <>
          <p>
            {bags !== null && (
              <>
                <b>{countWords(bags.quotedBags, 'bag', locale)}</b> ({bags.leastBags} to {bags.mostBags}),{' '}
              </>
            )}
            {formatVolume(fill.volumeM3, units, locale)}, {depth(fill.leastDepthM)} to {depth(fill.greatestDepthM)} deep
          </p>
          {doorways.map((d) => (
            <p key={d.openingId}>
              {d.name}: {doorwayStep(d, units, locale)}
            </p>
          ))}
          {warnings.map((w) => (
            <p key={w.kind} className="level-note-warning">
              {w.message}
            </p>
          ))}
        </>
      )}
    </div>
  );
}
