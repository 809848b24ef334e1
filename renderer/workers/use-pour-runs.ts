import { type Remote, wrap } from 'comlink';
import { useCallback, useRef, useState } from 'react';
import { adviceFrom, changeModel, changesOf, judgeRuns, type Advice, type AdviceCase, type Judged } from '../../shared-core/pour/advice.ts';
import type { PourModel } from '../../shared-core/pour/crew-model.ts';
import { outlookOf, type PourOutlook } from '../../shared-core/pour/outlook.ts';
import { mergeRuns, type PourRuns } from '../../shared-core/pour/simulate.ts';
import type { PourWork } from './pour.worker.ts';

/** Runs of the plan and of each change: enough for the chance to be within about 2%. */
const RUNS = 4000;
const PIECE = 500;
const RUNS_A_CHANGE = 400;
/** Number of changes to simulate in full and show. */
const SHOWN_CHANGES = 3;
/** A fixed seed, so that the same plan gives the same result. */
export const RUNS_SEED = 20;

/** Result of a simulation. */
export interface PourRunsHad {
  /** What was simulated: an older result is not shown for a newer model. */
  readonly model: PourModel;
  readonly outlook: PourOutlook;
  /** Null while changes are still being tried. */
  readonly advice: Advice | null;
}

export interface PourRunsWork {
  readonly result: PourRunsHad | null;
  /** Progress, 0 to 1; null when nothing runs. */
  readonly progress: number | null;
  readonly problem: string | null;
  /** Simulates only the plan; saves nothing. */
  readonly look: (model: PourModel) => void;
  /** Simulates the plan and then each change. */
  readonly start: (asked: {
    readonly model: PourModel;
    readonly advised: AdviceCase;
    /** Acceptable chances of a cold joint and of a batch too old to place. */
    readonly chance: number;
    /** Called when all changes are simulated. */
    readonly onOutlook: (outlook: PourOutlook) => void;
  }) => void;
  readonly stop: () => void;
}

let worker: Remote<PourWork> | null = null;

function pourWorker(): Remote<PourWork> {
  worker ??= wrap<PourWork>(new Worker(new URL('./pour.worker.ts', import.meta.url), { type: 'module' }));
  return worker;
}

/** Simulates a planned pour thousands of times and then tries changes; both can be canceled. */
export function usePourRuns(): PourRunsWork {
  const [result, setResult] = useState<PourRunsHad | null>(null);
  const [progress, setProgress] = useState<number | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const turn = useRef(0);
  const stop = useCallback(() => {
    turn.current += 1;
    setProgress(null);
  }, []);
  const startRuns = useCallback((): (() => boolean) => {
    turn.current += 1;
    const mine = turn.current;
    setProblem(null);
    return () => turn.current !== mine;
  }, []);
  const runAll = useCallback(async (model: PourModel, isGone: () => boolean, onPiece: (done: number) => void): Promise<PourRuns | null> => {
    let all: PourRuns | null = null;
    for (let from = 0; from < RUNS; from += PIECE) {
      const piece = await pourWorker().simulatePour(model, { runs: PIECE, seed: RUNS_SEED, from });
      if (isGone()) return null;
      all = all === null ? piece : mergeRuns(all, piece);
      onPiece(from / PIECE + 1);
    }
    return all;
  }, []);
  const failed = useCallback((isGone: () => boolean) => {
    if (isGone()) return;
    setProgress(null);
    setProblem('The simulation did not run. The edge ages shown are still right. Close other windows and try again.');
  }, []);
  const look = useCallback<PourRunsWork['look']>(
    (model) => {
      const isGone = startRuns();
      setProgress(null);
      runAll(model, isGone, () => undefined)
        .then((all) => {
          if (all !== null) setResult({ model, outlook: outlookOf(model, all), advice: null });
        })
        .catch(() => failed(isGone));
    },
    [startRuns, runAll, failed],
  );
  const start = useCallback<PourRunsWork['start']>(
    ({ model, advised, chance, onOutlook }) => {
      const isGone = startRuns();
      const changes = changesOf(advised);
      const steps = RUNS / PIECE + changes.length;
      const run = async (): Promise<void> => {
        const all = await runAll(model, isGone, (done) => setProgress(done / steps));
        if (all === null) return;
        const outlook = outlookOf(model, all);
        setResult({ model, outlook, advice: null });
        const judged: Judged[] = [];
        for (const [i, change] of changes.entries()) {
          // Laid out in the page, because the depth at a place is a function, which cannot be sent to a worker.
          const of = changeModel(advised, change);
          const runs = of.ok ? await pourWorker().simulatePour(of.value, { runs: RUNS_A_CHANGE, seed: RUNS_SEED, from: 0 }) : null;
          if (isGone()) return;
          if (of.ok && runs !== null) judged.push(judgeRuns(of.value, change, runs));
          setProgress((RUNS / PIECE + i + 1) / steps);
        }
        // The best changes get all runs from the same seed, so that the plan then shows the promised result.
        const best = adviceFrom(judged, chance)?.better.slice(0, SHOWN_CHANGES) ?? [];
        const sure: Judged[] = [];
        for (const change of [changes[0], ...best.map((b) => b.change)]) {
          const of = change === undefined ? null : changeModel(advised, change);
          if (change === undefined || of === null || !of.ok) continue;
          const every = await runAll(of.value, isGone, () => undefined);
          if (every === null) return;
          sure.push(judgeRuns(of.value, change, every));
        }
        setResult({ model, outlook, advice: adviceFrom(sure, chance) });
        setProgress(null);
        onOutlook(outlook);
      };
      setProgress(0);
      run().catch(() => failed(isGone));
    },
    [startRuns, runAll, failed],
  );
  return { result, progress, problem, look, start, stop };
}
