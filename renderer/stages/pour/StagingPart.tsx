import { useState } from 'react';
import {
  hasFirstExit,
  hasNothingStuckIn,
  isOnJoists,
  isOverHeat,
  pourAggregateKg,
  type PourReading,
} from '../../../shared-core/standing/read-pour.ts';
import { isOnGenerator } from '../../../shared-core/prep/site-power.ts';
import { lowerLifts } from '../../../shared-core/standing/lift-cover.ts';
import type { JobReading } from '../../../shared-core/standing/read-job.ts';
import { pourDaySheet } from '../../../shared-core/documents/pour-day-sheet.ts';
import type { PourLayout } from '../../../shared-core/pour/layout.ts';
import { mixingRules } from '../../../shared-core/documents/mixing-rules.ts';
import { recipeOf, stagingOf, stopRules } from '../../../shared-core/documents/staging.ts';
import { nowInstant } from '../../book/command.ts';
import { saveDocument } from '../../book/document-commands.ts';
import { nextRevision } from '../../../shared-core/documents/document-input.ts';
import { ResultNotice, type Said } from '../../parts/Dialog.tsx';
import { TextButton } from '../../parts/Buttons.tsx';
import { useBusy } from '../../parts/use-busy.ts';
import { useMeasure } from '../../parts/use-measure.ts';

interface StagingProps {
  readonly reading: JobReading;
  readonly read: PourReading;
  readonly layout: PourLayout;
}

/** Staging, the contents of each batch, and when to stop, also as a sheet for the wall. */
export function StagingPart({ reading, read, layout }: StagingProps) {
  const { units, locale } = useMeasure();
  const [message, setMessage] = useState<Said>(null);
  const [isBusy, run] = useBusy();
  const { powder } = read.material;
  const { crew } = read.first;
  const aggregateKg = pourAggregateKg(read);
  const overHeat = isOverHeat(read);
  const nothingStuckIn = hasNothingStuckIn(read);
  const print = (): void => {
    const revision = nextRevision(reading.whole, 'pour-day-sheet');
    const sheet = pourDaySheet({ reading, roomIds: read.rooms.map((r) => r.room.id), madeAt: nowInstant(), revision });
    if (!sheet.ok) return setMessage(sheet);
    return run(() => saveDocument({ jobId: reading.whole.job.id, kind: 'pour-day-sheet', revision, tree: sheet.value }).then(setMessage));
  };
  return (
    <section className="stack below">
      <h2 className="speech">Staging</h2>
      <ul className="pour-advice">
        {stagingOf(layout, crew, powder, {
          units,
          locale,
          bagsOnSite: read.bagsToBring,
          aggregateKg,
          onJoists: isOnJoists(read),
          nothingStuckIn,
          onGenerator: isOnGenerator(reading.whole.property),
        }).map((item) => (
          <li key={item.key}>{item.words}</li>
        ))}
      </ul>
      <h3 className="caption">Batch recipe</h3>
      <p>
        <strong>{recipeOf(crew, powder, { units, locale, aggregateKg }).words}</strong>
      </p>
      <ul className="pour-advice">
        {mixingRules({
          crew,
          sheet: powder,
          leastM: read.leastM,
          clocks: read.clocks,
          lower: lowerLifts(read),
          roomCount: read.rooms.length,
          hasExit: hasFirstExit(read),
          overHeat,
          nothingStuckIn,
          aggregateKg,
          units,
          locale,
        }).map((rule) => (
          <li key={rule}>{rule}</li>
        ))}
      </ul>
      <h3 className="caption">Stop if</h3>
      <ul className="pour-advice">
        {stopRules(read.clocks, overHeat, locale).map((rule) => (
          <li key={rule}>{rule}</li>
        ))}
      </ul>
      <TextButton kind="outlined" disabled={isBusy} onPress={print}>
        {isBusy ? 'Saving PDF…' : 'Save pour-day sheet'}
      </TextButton>
      <ResultNotice message={message} onClose={setMessage} />
    </section>
  );
}
