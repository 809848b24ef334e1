import { taskTimesOf } from '../../shared-core/book/task-times.ts';
import { pourProposals, scaledTimes } from '../../shared-core/learn/past-pours.ts';
import { LEAST_JOBS, type Proposal } from '../../shared-core/learn/proposals.ts';
import { formatInstantDay } from '../../shared-core/measure/moment.ts';
import { formatNumber } from '../../shared-core/measure/number.ts';
import { formatPercent } from '../../shared-core/measure/percent.ts';
import { TYPICAL_CREW } from '../../shared-core/pour/typical-crew.ts';
import { usePastPours } from '../book/use-past-pours.ts';
import { countWords } from '../../shared-core/measure/count-words.ts';
import { Table } from '../parts/Table.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import { type BusinessPart, SettingsPart } from './SettingsPart.tsx';

/** Compares waste and pace of past pours with the figures in use, which change only when accepted. */
export function LearnedPart({ business, edit }: BusinessPart) {
  const pours = usePastPours();
  const { locale } = business;
  const percent = (share: number) => formatPercent(share, 1, locale);
  const minutes = (min: number | null) => (min === null ? '' : `${formatNumber(min, { least: 1, most: 1 }, locale)} min`);
  const own = business.ownTimes;
  return (
    <SettingsPart
      heading="Past pours"
      text={`Based on your last 20 pours. After ${LEAST_JOBS} pours a new value is suggested.`}
      fold={{ key: 'past-pours', summary: summaryOf(pours) }}
    >
      {pours === null ? (
        <p className="caption">Loading…</p>
      ) : pours.length === 0 ? (
        <p>No finished pours yet. Finished pours are compared with their estimates here.</p>
      ) : (
        <>
          <Table
            label="Past pours, estimated and actual"
            dense
            rows={pours}
            rowKey={(pour) => pour.pourId}
            columns={[
              {
                caption: 'Pour',
                heads: true,
                cell: (p) => `${p.rooms.join(', ')}, ${formatInstantDay(p.finishedAt, business.timeZone, 'short', locale)}`,
              },
              { caption: 'Bags planned', align: 'right', cell: (p) => formatNumber(p.bagsPlanned, { most: 0 }, locale) },
              { caption: 'Used', align: 'right', cell: (p) => formatNumber(p.bagsUsed, { most: 1 }, locale) },
              { caption: 'Waste', align: 'right', cell: (p) => (p.lossShare === null ? '' : percent(p.lossShare)) },
              { caption: 'Time per batch', align: 'right', cell: (p) => minutes(p.minutesABatch) },
              { caption: 'Calculated', align: 'right', cell: (p) => minutes(p.calculatedMinutes) },
            ]}
          />
          <Suggestions
            loss={pourProposals(pours, business.usualLossShare, locale).loss}
            pace={pourProposals(pours, business.usualLossShare, locale).pace}
            onLoss={(value) =>
              edit('waste factor from past pours', { usualLossShare: Math.round(Math.min(1, Math.max(0, value)) * 1000) / 1000 })
            }
            onPace={(value) =>
              edit('task times from past pours', (b) => ({
                ...b,
                ownTimes: scaledTimes(b.ownTimes ?? taskTimesOf(TYPICAL_CREW), value),
              }))
            }
          />
        </>
      )}
      <p className="small">
        {own === undefined
          ? 'New plans start from typical task times. You can also enter your own times in a pour plan.'
          : `New plans start from your own task times. Mixing a batch takes ${minutes(own.mixMin.usual)}.`}
      </p>
      {own !== undefined && (
        <p>
          <TextButton
            kind="plain"
            onPress={() =>
              edit('typical task times', (b) => {
                const { ownTimes: _, ...rest } = b;
                return rest;
              })
            }
          >
            Use typical times
          </TextButton>
        </p>
      )}
    </SettingsPart>
  );
}

interface SuggestionsProps {
  readonly loss: Proposal;
  readonly pace: Proposal;
  readonly onLoss: (value: number) => void;
  readonly onPace: (value: number) => void;
}

function Suggestions({ loss, pace, onLoss, onPace }: SuggestionsProps) {
  return (
    <ul className="stack-wide settings-learned">
      {[
        { proposal: loss, word: 'Use this waste factor', take: onLoss },
        { proposal: pace, word: 'Use these task times', take: onPace },
      ].map(({ proposal, word, take }) => (
        <li key={proposal.key}>
          <p>{proposal.sentence}</p>
          {proposal.worthAsking ? (
            <TextButton kind="outlined" onPress={() => take(proposal.learned.value)}>
              {word}
            </TextButton>
          ) : (
            <p className="caption">{whyNot(proposal)}</p>
          )}
        </li>
      ))}
    </ul>
  );
}

function summaryOf(pours: readonly unknown[] | null): string {
  if (pours === null) return 'Loading…';
  return pours.length === 0 ? 'No finished pours yet' : countWords(pours.length, 'finished pour', 'en-US');
}

function whyNot({ learned }: Proposal): string {
  const missing = LEAST_JOBS - learned.jobs;
  if (missing > 0) return `A value is suggested after ${countWords(missing, 'more pour', 'en-US')}.`;
  return 'The pours are too close to the value in use, or vary too much, to change it.';
}
