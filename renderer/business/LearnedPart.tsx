import { taskTimesOf } from '../../shared-core/book/task-times.ts';
import { pourProposals, scaledTimes } from '../../shared-core/learn/past-pours.ts';
import { LEAST_JOBS, type Proposal } from '../../shared-core/learn/proposals.ts';
import { formatInstantDay } from '../../shared-core/measure/moment.ts';
import { formatNumber } from '../../shared-core/measure/number.ts';
import { formatPercent } from '../../shared-core/measure/percent.ts';
import { TYPICAL_CREW } from '../../shared-core/pour/typical-crew.ts';
import { usePastPours } from '../book/use-past-pours.ts';
import { Table } from '../parts/Table.tsx';
import { TextButton } from '../parts/TextButton.tsx';
import type { BusinessPart } from './business-edit.ts';
import { SettingsPart } from './SettingsPart.tsx';

/** What this business's own pours teach: its loss and its pace beside the figures in use, taken over only when the person says so. */
export function LearnedPart({ business, edit }: BusinessPart) {
  const pours = usePastPours();
  const { locale } = business;
  const percent = (share: number) => formatPercent(share, 1, locale);
  const minutes = (min: number | null) => (min === null ? '' : `${formatNumber(min, { least: 1, most: 1 }, locale)} min`);
  const own = business.ownTimes;
  return (
    <SettingsPart
      heading="What past pours teach"
      says={`From the logs of the last twenty. From ${LEAST_JOBS} pours on a figure is suggested, drawn toward the one in use by how few pours speak for it.`}
    >
      {pours === null ? (
        <p className="caption">Reading past pours…</p>
      ) : pours.length === 0 ? (
        <p>No pour is finished yet. Each one logged, on the screen or from paper, is set beside what was reckoned for it here.</p>
      ) : (
        <>
          <Table
            label="Past pours beside what was reckoned"
            dense
            rows={pours}
            rowKey={(pour) => pour.pourId}
            columns={[
              {
                key: 'pour',
                caption: 'pour',
                heads: true,
                cell: (p) => `${p.rooms.join(', ')}, ${formatInstantDay(p.finishedAt, business.timeZone, 'short', locale)}`,
              },
              { key: 'planned', caption: 'bags planned', align: 'right', cell: (p) => formatNumber(p.bagsPlanned, { most: 0 }, locale) },
              { key: 'used', caption: 'used', align: 'right', cell: (p) => formatNumber(p.bagsUsed, { most: 1 }, locale) },
              { key: 'loss', caption: 'loss that fits', align: 'right', cell: (p) => (p.lossShare === null ? '' : percent(p.lossShare)) },
              { key: 'minutes', caption: 'a batch took', align: 'right', cell: (p) => minutes(p.minutesABatch) },
              { key: 'calculated', caption: 'calculated', align: 'right', cell: (p) => minutes(p.calculatedMinutes) },
            ]}
          />
          <Suggestions
            loss={pourProposals(pours, business.usualLossShare, locale).loss}
            pace={pourProposals(pours, business.usualLossShare, locale).pace}
            onLoss={(value) =>
              edit('usual loss from past pours', (b) => ({
                ...b,
                usualLossShare: Math.round(Math.min(1, Math.max(0, value)) * 1000) / 1000,
              }))
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
          ? 'New plans start from typical task times. Own times can also be typed in the plan of a pour and kept from there.'
          : `New plans start from this business’s own task times: a batch is mixed in ${minutes(own.mixMin.usual)} as a rule.`}
      </p>
      {own !== undefined && (
        <p>
          <TextButton
            kind="plain"
            onPress={() =>
              edit('back to typical task times', (b) => {
                const { ownTimes: _, ...rest } = b;
                return rest;
              })
            }
          >
            Back to typical times
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
    <ul className="settings-learned">
      {[
        { proposal: loss, word: 'Reckon with that loss', take: onLoss },
        { proposal: pace, word: 'Stretch the task times so', take: onPace },
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

function whyNot({ learned }: Proposal): string {
  const missing = LEAST_JOBS - learned.jobs;
  if (missing > 0) return `${missing} more ${missing === 1 ? 'pour' : 'pours'} before a figure is suggested.`;
  return 'Too near to what is in use, or too uneven, to change anything: the figure stays.';
}
