import { joinWords } from '../../../shared-core/drawing/pour-edges.ts';
import { formatDuration } from '../../../shared-core/measure/duration.ts';
import { formatPercent } from '../../../shared-core/measure/percent.ts';
import type { PourClocks } from '../../../shared-core/pour/clocks.ts';
import type { PourOutlook } from '../../../shared-core/pour/outlook.ts';
import { joinKey } from '../../../shared-core/pour/joins.ts';
import { Table } from '../../parts/Table.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import type { Steady } from './use-steady.ts';

interface EdgeListProps {
  readonly steady: Steady;
  readonly clocks: PourClocks;
  /** From thousands of simulated pours; null until they are done. */
  readonly outlook: PourOutlook | null;
}

const SHOWN = 6;

/**
 * Ages of the edges when they are met and of the batches when they are placed, at the crew's usual pace, with the chance that each is too
 * old.
 */
export function EdgeList({ steady, clocks, outlook }: EdgeListProps) {
  const { locale } = useMeasure();
  const minutes = (m: number) => formatDuration(m * 60, locale);
  const percent = (share: number) => formatPercent(share, share > 0 && share < 0.01 ? 1 : 0, locale);
  const { edges, oldestBatchMin } = steady;
  const worst = edges[0];
  const cold = edges.filter((edge) => edge.mostMin > clocks.healingMin).length;
  const chanceOf = new Map(outlook?.joins.map((s) => [joinKey(s.join), s.cold.share]));
  const batches = steady.batchAgesMin.map((ageMin, i) => ({ number: i + 1, ageMin, tooOld: outlook?.batches[i]?.tooOld.share ?? null }));
  return (
    <section className="stack">
      <h2 className="speech">Wet edges</h2>
      <p>
        {worst === undefined
          ? 'One batch fills the floor. No wet edge.'
          : cold === 0
            ? `Every edge is met within ${minutes(worst.mostMin)}. Healing time is ${minutes(clocks.healingMin)} at this temperature.`
            : `${cold === 1 ? '1 edge is' : `${cold} edges are`} met too late. The oldest is ${minutes(worst.mostMin)} old and the healing time is ${minutes(clocks.healingMin)}. Try narrower lanes, the shorter side, or 1 more mixer.`}
      </p>
      <Table
        label="Edges by age"
        dense
        rows={edges.slice(0, SHOWN)}
        rowKey={({ join }) => joinKey(join)}
        isBold={(edge) => edge.mostMin > clocks.healingMin}
        columns={[
          { caption: 'edge', heads: true, cell: ({ join }) => joinWords(join) },
          { caption: 'oldest point', cell: (edge) => `batch ${edge.olderBatch}` },
          { caption: 'age when met', align: 'right', cell: (edge) => minutes(edge.mostMin) },
          {
            caption: 'cold joint risk',
            align: 'right',
            cell: ({ join }) => {
              const share = chanceOf.get(joinKey(join));
              return share === undefined ? '' : percent(share);
            },
          },
        ]}
      />
      <p>
        {oldestBatchMin > clocks.workingTimeMin
          ? `A batch waits up to ${minutes(oldestBatchMin)}. The working time is ${minutes(clocks.workingTimeMin)}.`
          : `No batch waits longer than ${minutes(oldestBatchMin)}. The working time is ${minutes(clocks.workingTimeMin)}.`}
      </p>
      <Table
        label="Batches by age"
        dense
        rows={[...batches].sort((a, b) => b.ageMin - a.ageMin || a.number - b.number).slice(0, SHOWN)}
        rowKey={(batch) => String(batch.number)}
        isBold={(batch) => batch.ageMin > clocks.workingTimeMin}
        columns={[
          { caption: 'batch', heads: true, cell: (batch) => `batch ${batch.number}` },
          { caption: 'age when placed', align: 'right', cell: (batch) => minutes(batch.ageMin) },
          { caption: 'old batch risk', align: 'right', cell: (batch) => (batch.tooOld === null ? '' : percent(batch.tooOld)) },
        ]}
      />
      <p className="caption">
        {clocks.healingTypical || clocks.workingTimeTypical ? 'Typical (not from the data sheet). ' : ''}
        Times are adjusted to the temperature by the Arrhenius form of ASTM C1074 with Q of 5000 K (typical). A flow test on site overrides
        them.
      </p>
    </section>
  );
}
