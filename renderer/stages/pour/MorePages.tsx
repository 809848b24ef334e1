/** Pages of the More dialog that need figures of the running pour. */
import { type ReactNode, useState } from 'react';
import type { IncidentKind } from '../../../shared-core/book/pour-record.ts';
import { formatInstantTime } from '../../../shared-core/measure/moment.ts';
import { formatLength } from '../../../shared-core/measure/length-format.ts';
import { type BadBatchPlan, badBatchPlan } from '../../../shared-core/pour/bad-batch.ts';
import { correctedEntry, discardedEntry, incidentEntry, jointEntry } from '../../../shared-core/pour/pour-commands.ts';
import { bagsWords, entryWords } from '../../../shared-core/documents/log-words.ts';
import type { PourRecordPlan, PourState } from '../../../shared-core/pour/pour-state.ts';
import { placeableBags, stopPlan, type StopPlan } from '../../../shared-core/pour/stop-plan.ts';
import { NumberField } from '../../parts/Fields.tsx';
import { PourButton } from '../../parts/Buttons.tsx';
import { SelectField } from '../../parts/Choices.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { stopWords } from './pour-mode-words.ts';
import { useEnter } from './use-enter.ts';
import type { Makes } from './use-pour-log.ts';

interface PageProps {
  readonly state: PourState;
  readonly plan: PourRecordPlan;
  readonly onLog: (...makes: readonly Makes[]) => void;
  /** The button back to the list, beside those of the page. */
  readonly back: ReactNode;
}

const REASONS: readonly { readonly value: 'wrong-water' | 'lumps' | 'old-batch'; readonly word: string }[] = [
  { value: 'wrong-water', word: 'wrong water' },
  { value: 'lumps', word: 'lumps' },
  { value: 'old-batch', word: 'past its working time' },
];

function NoEntry({ words, back }: { readonly words: string; readonly back: ReactNode }) {
  return (
    <>
      <p className="pour-more-words">{words}</p>
      <div className="pour-more-pair">{back}</div>
    </>
  );
}

/** A bad batch: thrown out, scraped out, or kept as suspect. */
export function BadBatchPage({ state, plan, onLog, back }: PageProps) {
  const { locale } = useMeasure();
  const batches = state.batches.filter((b) => b.discardedMin === null).toReversed();
  const [number, setNumber] = useState(String(batches[0]?.number ?? ''));
  const [incident, setIncident] = useState<IncidentKind>('wrong-water');
  const batch = batches.find((b) => String(b.number) === number);
  if (batch === undefined) return <NoEntry words="No batch is mixed yet." back={back} />;
  const todo = badBatchPlan(plan, state, batch.number);
  const why = REASONS.find((r) => r.value === incident)?.word ?? '';
  const log: Makes = (s, stamp) => incidentEntry(s, stamp, { what: incident, batch: batch.number });
  const discard: Makes = (s, stamp) => discardedEntry(s, stamp, batch.number, { by: '', why });
  const after = state.bagsLeft;
  const bags = `${bagsWords(batch.bags, locale)} lost, ${bagsWords(Math.max(0, after), locale)} left.`;
  const edge = state.oldestEdge === null ? '' : edgeWords(state.oldestEdge.leftMin);
  const says: Readonly<Record<BadBatchPlan['kind'], string>> = {
    'throw-out': `Throw the batch out. ${bags}`,
    scrape: `Scrape batch ${batch.number} out within ${todo.leftMin} min, while it is wet. The next batch fills its place. ${bags}`,
    leave: `Keep pouring. The edge cannot wait for it. Mark batch ${batch.number} suspect, and cut it out after it sets.`,
    'too-late': `Batch ${batch.number} is past its working time. It can only be cut out after it sets. ${bags}`,
  };
  return (
    <>
      <div className="pour-more-fields">
        <SelectField
          label="Batch"
          value={number}
          options={batches.map((b) => ({
            value: String(b.number),
            word: `Batch ${b.number}, ${b.placedMin === null ? 'mixed' : 'placed'}`,
          }))}
          onChange={setNumber}
        />
        <SelectField label="Trouble" value={incident} options={REASONS} onChange={setIncident} />
      </div>
      <p className="pour-more-words">{`${says[todo.kind]}${edge} Run a flow test on the next batch.`}</p>
      <div className="pour-more-pair">
        <PourButton onPress={() => onLog(log)} detail={batch.placedMin === null ? 'place it anyway' : 'stays on the floor'}>
          Mark suspect
        </PourButton>
        <PourButton onPress={() => onLog(log, discard)} detail={todo.kind === 'throw-out' ? 'not placed' : 'scraped out'}>
          Discard batch {batch.number}
        </PourButton>
        {back}
      </div>
    </>
  );
}

function edgeWords(leftMin: number): string {
  return leftMin <= 0 ? ' The edge is past its healing time.' : ` The edge beside it stays open ${Math.floor(leftMin)} min.`;
}

const LOST = [
  { value: 'power-lost', word: 'power' },
  { value: 'water-lost', word: 'water' },
  { value: 'mixer-down', word: 'mixer' },
  { value: 'crew-lost', word: 'crew member' },
  { value: 'cold-edge', word: 'edge past healing' },
] as const;

interface StopProps extends PageProps {
  /** `lost`: only the mixed material can be placed; `bags`: also the bags that are left. */
  readonly of: 'lost' | 'bags';
  /** Shows the dams on the plan behind the dialog. */
  readonly onShow: (plan: StopPlan | null) => void;
  /** Other ways to deal with missing bags, in words. */
  readonly choices: readonly string[];
}

/** Where to stop, from the wet edges and what can still be placed. */
export function StopPage({ state, plan, of, choices, onLog, onShow, back }: StopProps) {
  const { units, locale } = useMeasure();
  const [incident, setIncident] = useState<IncidentKind>(
    of === 'bags' ? 'short-of-bags' : (state.oldestEdge?.leftMin ?? 0) < 0 ? 'cold-edge' : 'power-lost',
  );
  const [outageMin, setOutage] = useState<number | null>(null);
  const inHand = placeableBags(state);
  const found = stopPlan(plan, state, { bags: of === 'bags' ? Math.max(0, state.bagsLeft) + inHand : inHand, outageMin });
  const log: Makes = (s, stamp) => incidentEntry(s, stamp, { what: incident });
  const dams = (found?.dams ?? []).map(
    (dam): Makes =>
      (s, stamp) =>
        jointEntry(s, stamp, { roomId: dam.roomId, from: dam.from, to: dam.to, note: '' }),
  );
  return (
    <>
      {of === 'lost' && (
        <div className="pour-more-fields">
          <SelectField label="Reason" value={incident} options={LOST} onChange={setIncident} />
          <NumberField
            label="Minutes until it is back"
            least={0}
            most={600}
            whole
            value={outageMin}
            onChange={setOutage}
            hint="Leave empty if unknown."
          />
        </div>
      )}
      {incident === 'crew-lost' && (
        <p className="pour-more-words">If someone is hurt, help them first. Call 911 in an emergency. The floor comes second.</p>
      )}
      {choices.map((words) => (
        <p key={words} className="pour-more-words">
          {words}
        </p>
      ))}
      <p className="pour-more-words">
        <strong>
          {found === null ? 'No layout. Stop at the wet edge and set a dam.' : stopWords(found, (m) => formatLength(m, units, locale))}
        </strong>
      </p>
      <div className="pour-more-pair">
        <PourButton
          onPress={() => {
            onShow(found);
            onLog(log);
          }}
          detail="log and show the dam"
        >
          Keep pouring for now
        </PourButton>
        <PourButton
          disabled={found === null || dams.length === 0}
          onPress={() => {
            onShow(found);
            onLog(log, ...dams);
          }}
          detail="log the dam as set"
        >
          Dam is set
        </PourButton>
        {back}
      </div>
    </>
  );
}

interface CorrectProps extends PageProps {
  readonly zone: string;
}

/** Corrects an earlier batch without undoing later ones. */
export function CorrectPage({ state, plan, zone, onLog, back }: CorrectProps) {
  const { locale } = useMeasure();
  const entries = state.entries.filter((e) => !e.undone && (e.event.kind === 'mixed' || e.event.kind === 'placed')).toReversed();
  const [id, setId] = useState(entries[0]?.event.id ?? '');
  const [bags, setBags] = useState<number | null>(null);
  const [agoMin, setAgo] = useState<number | null>(null);
  const entry = entries.find((e) => e.event.id === id);
  const toAt =
    agoMin === null || entry === undefined
      ? null
      : new Date(Date.parse(entry.event.instant) + (state.nowMin - entry.min - agoMin) * 60_000).toISOString();
  const save = (): void => {
    if (bags !== null || toAt !== null) onLog((s, stamp) => correctedEntry(s, stamp, { eventId: id, toAt, toBags: bags, by: '', why: '' }));
  };
  const enter = useEnter(save);
  if (entry === undefined) return <NoEntry words="No batch is logged yet." back={back} />;
  return (
    <>
      <div className="pour-more-fields">
        <SelectField
          label="Entry"
          value={id}
          options={entries.map(({ event }) => ({
            value: event.id,
            word: `${entryWords(event, { layout: plan.layout, locale })}, ${formatInstantTime(event.instant, zone, locale)}`,
          }))}
          onChange={setId}
        />
        <NumberField
          label="Bags in this batch"
          least={0.25}
          most={20}
          decimals={2}
          value={bags}
          onChange={setBags}
          onEnter={enter}
          hint="Leave empty to keep it."
        />
        <NumberField
          label="Minutes ago"
          least={0}
          most={600}
          decimals={1}
          value={agoMin}
          onChange={setAgo}
          onEnter={enter}
          hint="Leave empty to keep the time."
        />
      </div>
      <div className="pour-more-pair">
        {back}
        <PourButton saves disabled={bags === null && toAt === null} onPress={save}>
          Save correction
        </PourButton>
      </div>
    </>
  );
}
