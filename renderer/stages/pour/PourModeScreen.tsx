import { useMemo, useEffect, useRef, useState } from 'react';
import { useLocation } from 'wouter';
import { readPourRecord } from '../../../shared-core/standing/read-poured.ts';
import { pourProblemWords } from '../../../shared-core/documents/pour-words.ts';
import type { JobReading } from '../../../shared-core/standing/read-job.ts';
import type { Pour, PourEvent } from '../../../shared-core/book/pour-record.ts';
import { formatInstant } from '../../../shared-core/measure/moment.ts';
import { TYPICAL_FLOW_LIFE_MIN, TYPICAL_HEALING_MIN } from '../../../shared-core/pour/clocks.ts';
import { pourTempC } from '../../../shared-core/pour/pour-regions.ts';
import type { PourRecordPlan } from '../../../shared-core/pour/pour-state.ts';
import { useJobReading } from '../../book/use-job-reading.ts';
import { useOne, usePourLogEntries } from '../../book/use-records.ts';
import { stageHref } from '../../parts/job/stage-words.ts';
import { PourButton } from '../../parts/Buttons.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { PourRunning } from './PourRunning.tsx';
import './pour-mode.css';
import './pour-mode-sizes.css';
import { openBackup } from '../../book/open-read-only.ts';
import { followPour } from '../../book/recovery-log.ts';

/** Pour mode: the whole screen for one pour, run with one key. It shows only stored entries. */
export function PourModeScreen({ pourId }: { readonly pourId: string }) {
  const pour = useOne('pours', pourId);
  const events = usePourLogEntries(pourId);
  const reading = useJobReading(pour?.jobId ?? '', pourId);
  const journalSays = useJournal(pour, events);
  if (pour === undefined || events === undefined || (pour !== null && reading === undefined))
    return <p className="app-opening caption">Loading…</p>;
  if (pour === null || reading === null || reading === undefined) return <NoPour />;
  if (pour.finishedAt !== null) return <Over pour={pour} reading={reading} />;
  return <Opened key={pour.id} pour={pour} events={events} reading={reading} journalSays={journalSays} />;
}

interface OpenedProps {
  readonly pour: Pour;
  readonly events: readonly PourEvent[];
  readonly reading: JobReading;
  readonly journalSays: string | null;
}

function Opened({ pour, events, reading, journalSays }: OpenedProps) {
  const airC = pourTempC(pour, events);
  const read = useMemo(() => readPourRecord(reading, pour, airC), [reading, pour, airC]);
  const plan = useMemo(
    (): PourRecordPlan =>
      read.ok
        ? read.value.recordPlan
        : { layout: null, hasLater: false, healingMin: TYPICAL_HEALING_MIN, workingTimeMin: TYPICAL_FLOW_LIFE_MIN, bagsPerBatch: 1 },
    [read],
  );
  const trouble = !read.ok ? pourProblemWords(read.problem) : !read.value.layout.ok ? pourProblemWords(read.value.layout.problem) : null;
  return (
    <PourRunning
      pour={pour}
      events={events}
      whole={reading.whole}
      read={read.ok ? read.value : null}
      plan={plan}
      trouble={trouble}
      journalSays={journalSays}
    />
  );
}

function Over({ pour, reading }: { readonly pour: Pour; readonly reading: JobReading }) {
  const [, go] = useLocation();
  const { locale } = useMeasure();
  const when = pour.finishedAt === null ? '' : formatInstant(pour.finishedAt, reading.whole.property.timeZone, 'weekday', locale);
  return (
    <main className="pour-finished">
      <h1>The pour is finished</h1>
      <p>{`Finished ${when}. The log is saved with the job.`}</p>
      <PourButton kind="next" onPress={() => go(stageHref(pour.jobId, 'pour', pour.roomIds[0] ?? ''))}>
        Back to job
      </PourButton>
    </main>
  );
}

function NoPour() {
  const [, go] = useLocation();
  return (
    <main className="pour-finished">
      <h1>Pour not found</h1>
      <p>Open the job and go to Pour.</p>
      <PourButton kind="next" onPress={() => go('/jobs')}>
        Go to Jobs
      </PourButton>
    </main>
  );
}

/** Long enough to read with both hands full, ms. */
const SHOWN_MS = 90_000;

/**
 * Follows a pour with its recovery log until its last entry.
 * @returns recovered entries or why the log cannot be written, for a while; else null
 */
function useJournal(pour: Pour | null | undefined, events: readonly PourEvent[] | undefined): string | null {
  const [message, setMessage] = useState<string | null>(null);
  const follow = useRef<{ readonly pourId: string; readonly on: ReturnType<typeof followPour> } | null>(null);
  useEffect(() => {
    if (message === null) return undefined;
    const timer = setTimeout(() => setMessage(null), SHOWN_MS);
    return () => clearTimeout(timer);
  }, [message]);
  useEffect(() => {
    if (pour === null || pour === undefined || events === undefined || openBackup() !== null) return;
    // A finished pour was already followed.
    if (follow.current?.pourId !== pour.id)
      follow.current = pour.finishedAt === null ? { pourId: pour.id, on: followPour(pour.id, setMessage) } : null;
    follow.current?.on(pour, events);
  }, [pour, events]);
  return message;
}
