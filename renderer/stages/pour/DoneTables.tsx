import { watchWords } from '../../../shared-core/documents/floor-words.ts';
import { joinLetter, joinWords } from '../../../shared-core/drawing/pour-edges.ts';
import { formatDuration } from '../../../shared-core/measure/duration.ts';
import { formatDepth } from '../../../shared-core/measure/length-format.ts';
import { formatNumber } from '../../../shared-core/measure/number.ts';
import type { PourAfter } from '../../../shared-core/pour/after-pour.ts';
import { joinKey } from '../../../shared-core/pour/joins.ts';
import { bagsToMix, type PourLayout } from '../../../shared-core/pour/layout.ts';
import { Table } from '../../parts/Table.tsx';
import { useMeasure } from '../../parts/use-measure.ts';

/** Lanes, batches and possible cold joints of a finished pour, planned and actual. */
export function DoneTables({ after, layout }: { readonly after: PourAfter; readonly layout: PourLayout | null }) {
  const { units, locale } = useMeasure();
  const minutes = (m: number) => formatDuration(m * 60, locale);
  const one = (n: number) => formatNumber(n, { most: 1 }, locale);
  return (
    <div className="pour-lists">
      <section className="stack">
        <h2 className="speech">Lanes</h2>
        <Table
          label="Lanes, planned and used"
          dense
          rows={after.lanes}
          rowKey={(lane) => String(lane.number)}
          columns={[
            { caption: 'lane', heads: true, cell: (s) => `lane ${s.number}` },
            { caption: 'bags planned', align: 'right', cell: (s) => one(s.plannedBags) },
            { caption: 'used', align: 'right', cell: (s) => (s.bags === null ? 'not logged' : one(s.bags)) },
            { caption: 'thickness', align: 'right', cell: (s) => (s.thicknessM === null ? '' : formatDepth(s.thicknessM, units, locale)) },
          ]}
        />
      </section>
      <section className="stack">
        <h2 className="speech">Batches</h2>
        <Table
          label="Batches, planned and used"
          dense
          rows={after.batches}
          rowKey={(batch) => String(batch.number)}
          isBold={(batch) => batch.tooOld}
          columns={[
            { caption: 'batch', heads: true, cell: (b) => String(b.number) },
            {
              caption: 'bags planned',
              align: 'right',
              cell: (b) => (layout === null || b.plannedBags === null ? '' : one(bagsToMix(layout, b.number))),
            },
            { caption: 'used', align: 'right', cell: (b) => (b.bags === null ? 'not logged' : one(b.bags)) },
            { caption: 'planned at', align: 'right', cell: (b) => (b.plannedPlacedMin === null ? '' : minutes(b.plannedPlacedMin)) },
            {
              caption: 'placed at',
              align: 'right',
              cell: (b) =>
                b.discarded ? 'discarded' : b.placedMin === null ? '' : `${minutes(b.placedMin)}${b.estimated ? ', estimated' : ''}`,
            },
            { caption: 'age', align: 'right', cell: (b) => (b.ageMin === null ? '' : minutes(b.ageMin)) },
          ]}
        />
      </section>
      <section className="stack">
        <h2 className="speech">Possible cold joints</h2>
        <p>{watchWords(after)}</p>
        {after.toWatch.length > 0 && (
          <Table
            label="Joints that passed the healing time"
            dense
            rows={after.toWatch}
            rowKey={joinKey}
            columns={[
              { caption: 'on plan', heads: true, cell: (s) => joinLetter(after.toWatch.indexOf(s)) },
              {
                caption: 'location',
                cell: (s) => (s.kind === 'batch' ? joinWords(s) : `${joinWords(s)}, batch ${s.olderBatch} to batch ${s.newerBatch}`),
              },
              { caption: 'age when met', align: 'right', cell: (s) => minutes(s.mostMin) },
            ]}
          />
        )}
      </section>
    </div>
  );
}
