import { formatDuration } from '../../../shared-core/measure/duration.ts';
import type { PourClocks } from '../../../shared-core/pour/clocks.ts';
import type { SeamAge } from '../../../shared-core/pour/seams.ts';
import { Table } from '../../parts/Table.tsx';
import { useMeasure } from '../../parts/use-measure.ts';

interface EdgeListProps {
  /** Oldest first. */
  readonly edges: readonly SeamAge[];
  readonly oldestBatchMin: number;
  readonly clocks: PourClocks;
}

const SHOWN = 6;

/** The age of each edge when it is met, at the crew's usual pace, beside how long it heals. */
export function EdgeList({ edges, oldestBatchMin, clocks }: EdgeListProps) {
  const { locale } = useMeasure();
  const minutes = (m: number) => formatDuration(m * 60, locale);
  const worst = edges[0];
  const cold = edges.filter((edge) => edge.mostMin > clocks.healingMin).length;
  return (
    <section className="pour-list">
      <h2 className="speech">How long each edge stays open</h2>
      <p>
        {worst === undefined
          ? 'One batch fills the floor: there is no edge.'
          : cold === 0
            ? `Every edge is met within ${minutes(worst.mostMin)}; it heals for ${minutes(clocks.healingMin)} at this temperature.`
            : `${cold === 1 ? 'One edge is' : `${cold} edges are`} met too late, the oldest at ${minutes(worst.mostMin)} of ${minutes(clocks.healingMin)}: narrower strips, a shorter side or one more mixer.`}{' '}
        {oldestBatchMin > clocks.flowLifeMin
          ? `A batch waits up to ${minutes(oldestBatchMin)}, longer than the ${minutes(clocks.flowLifeMin)} it flows.`
          : `No batch waits longer than ${minutes(oldestBatchMin)} of the ${minutes(clocks.flowLifeMin)} it flows.`}
      </p>
      <Table
        label="Edges by age"
        dense
        rows={edges.slice(0, SHOWN)}
        rowKey={(edge) => `${edge.seam.kind}-${edge.seam.newer}-${edge.seam.older}`}
        isBold={(edge) => edge.mostMin > clocks.healingMin}
        columns={[
          {
            key: 'edge',
            caption: 'edge',
            heads: true,
            cell: ({ seam }) =>
              seam.kind === 'batch' ? `batch ${seam.older} to ${seam.newer}` : `strip ${seam.older} beside strip ${seam.newer}`,
          },
          { key: 'batches', caption: 'oldest at', cell: (edge) => `batch ${edge.olderBatch}` },
          { key: 'age', caption: 'age when met', align: 'right', cell: (edge) => minutes(edge.mostMin) },
        ]}
      />
      <p className="caption">
        {clocks.healingTypical || clocks.flowLifeTypical ? 'Typical times where the data sheet states none. ' : ''}
        {clocks.basis}
      </p>
    </section>
  );
}
