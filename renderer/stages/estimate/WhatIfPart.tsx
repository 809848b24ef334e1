import type { JobReading } from '../../../shared-core/standing/read-job.ts';
import { tryOption, withTry } from '../../../shared-core/standing/what-if.ts';
import { type WhatIfRow, whatIfRows } from '../../../shared-core/standing/what-if-rows.ts';
import { cutWords } from '../../../shared-core/substrate/exposed-layers.ts';
import { sharedCutWords } from '../../../shared-core/survey/cut-words.ts';
import { ChoiceRow } from '../../parts/Choices.tsx';
import { Table } from '../../parts/Table.tsx';
import { TextButton } from '../../parts/Buttons.tsx';
import type { Trying } from './use-try.ts';

interface WhatIfPartProps {
  readonly planned: JobReading;
  readonly roomId: string;
  readonly trying: Trying;
  readonly now: string;
  readonly onOffer: () => void;
}

const OWN = 'own';

/** The current job beside the what-if, with what to do with it. */
export function WhatIfPart({ planned, roomId, trying, now, onOffer }: WhatIfPartProps) {
  const { job } = planned.whole;
  const { options } = job.estimate;
  const cut = sharedCutWords(planned.rooms.filter(({ room }) => room.id === roomId).map(({ room }) => cutWords(room)));
  const rows = whatIfRows(planned, trying.reading ?? planned, roomId, now);
  const isTried = trying.tries.length > 0;
  const base = planned.estimate.base.name;
  const same = options.find(
    (option) => JSON.stringify(levels(withTry(job, trying.tries))) === JSON.stringify(levels(withTry(job, tryOption(job, [], option)))),
  );
  const own = JSON.stringify(levels(withTry(job, trying.tries))) === JSON.stringify(levels(job));
  // An option holds levels and materials, so a what-if of the crew alone cannot become one.
  const mayOffer = options.length < 2 && trying.tries.some((t) => t.level !== undefined || t.materialId !== undefined);
  return (
    <section className="stack what-if" aria-label="What if">
      {options.length > 0 && (
        <ChoiceRow
          label="Start from"
          captioned
          options={[{ value: OWN, word: base }, ...options.map((o) => ({ value: o.id, word: o.name }))]}
          value={own ? OWN : (same?.id ?? null)}
          onChange={(id) => trying.set(tryOption(job, trying.tries, options.find((o) => o.id === id) ?? null))}
        />
      )}
      <Table<WhatIfRow>
        label="Changes"
        dense
        rows={rows}
        rowKey={(row) => row.key}
        isBold={(row) => row.change !== ''}
        columns={[
          {
            key: 'name',
            caption: '',
            heads: true,
            cell: (row) => (row.of === 'job' && job.rooms.length > 1 ? `${row.name}, all rooms` : row.name),
          },
          { caption: 'Current', align: 'right', cell: (row) => row.asPlanned },
          { caption: 'What if', align: 'right', cell: (row) => <span data-testid={`tried-${row.key}`}>{row.asTried}</span> },
          { caption: 'Change', align: 'right', cell: (row) => row.change },
        ]}
      />
      <p className="small">
        {isTried
          ? 'Nothing changes until you save.'
          : `Change the depth, material, ${cut.noun}, or crew on the right and compare here. Nothing changes until you save.`}
      </p>
      {isTried && (
        <div className="words">
          {mayOffer && <TextButton onPress={onOffer}>Add as option</TextButton>}
          <TextButton onPress={trying.letGo}>Discard</TextButton>
        </div>
      )}
    </section>
  );
}

type Levels = { readonly roomId: string; readonly level: unknown; readonly materialId: string | null }[];

function levels(job: { readonly rooms: readonly Levels[number][] }): Levels {
  return job.rooms.map(({ roomId, level, materialId }) => ({ roomId, level, materialId }));
}
