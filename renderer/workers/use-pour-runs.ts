import { type Remote, wrap } from 'comlink';
import { useCallback, useRef, useState } from 'react';
import type { UnitSystem } from '../../shared-core/measure/unit-system.ts';
import { adviceFrom, changesOf, type Advice, type AdviceCase, type Judged } from '../../shared-core/pour/advice.ts';
import type { PourModel } from '../../shared-core/pour/crew-model.ts';
import { outlookOf, type PourOutlook } from '../../shared-core/pour/outlook.ts';
import { mergeRuns, type PourRuns } from '../../shared-core/pour/simulate.ts';
import type { PourWork } from './pour.worker.ts';

/** Runs of the plan, and of each change tried: enough that the chance stands to about two in a hundred. */
const RUNS = 4000;
const PIECE = 500;
const RUNS_A_CHANGE = 400;
/** The runs are the same whenever the plan is. */
export const RUNS_SEED = 20;

/** What came of running a plan many times. */
export interface PourRunsHad {
  /** What plan it was, so that an older result is not taken for a newer plan's. */
  readonly key: string;
  readonly outlook: PourOutlook;
  /** Null while the changes are still being tried. */
  readonly advice: Advice | null;
}

export interface PourRunsWork {
  readonly had: PourRunsHad | null;
  /** Share done, 0 to 1; null while nothing runs. */
  readonly progress: number | null;
  readonly problem: string | null;
  /** Runs the plan alone: quick, and nothing is written. */
  readonly look: (asked: { readonly key: string; readonly model: PourModel }) => void;
  /** Runs the plan and then tries every change. */
  readonly start: (asked: {
    readonly key: string;
    readonly model: PourModel;
    readonly advised: AdviceCase;
    /** The chance of a cold joint, and of a batch too old, that a plan may carry. */
    readonly chance: number;
    readonly units: UnitSystem;
    readonly locale: string;
    /** Called once everything is tried. */
    readonly onOutlook: (outlook: PourOutlook) => void;
  }) => void;
  readonly stop: () => void;
}

let worker: Remote<PourWork> | null = null;

function pourWorker(): Remote<PourWork> {
  worker ??= wrap<PourWork>(new Worker(new URL('./pour.worker.ts', import.meta.url), { type: 'module' }));
  return worker;
}

/** Runs a planned pour thousands of times and then tries what could be changed; both can be stopped. */
export function usePourRuns(): PourRunsWork {
  const [had, setHad] = useState<PourRunsHad | null>(null);
  const [progress, setProgress] = useState<number | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const turn = useRef(0);
  const stop = useCallback(() => {
    turn.current += 1;
    setProgress(null);
  }, []);
  const begin = useCallback((): (() => boolean) => {
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
    setProblem(
      'The runs could not be made on this machine just now. The edge ages beside it still hold: close other windows and try once more.',
    );
  }, []);
  const look = useCallback<PourRunsWork['look']>(
    ({ key, model }) => {
      const isGone = begin();
      setProgress(null);
      runAll(model, isGone, () => undefined)
        .then((all) => {
          if (all !== null) setHad({ key, outlook: outlookOf(model, all), advice: null });
        })
        .catch(() => failed(isGone));
    },
    [begin, runAll, failed],
  );
  const start = useCallback<PourRunsWork['start']>(
    ({ key, model, advised, chance, units, locale, onOutlook }) => {
      const isGone = begin();
      const changes = changesOf(advised, units);
      const steps = RUNS / PIECE + changes.length;
      const run = async (): Promise<void> => {
        const all = await runAll(model, isGone, (done) => setProgress(done / steps));
        if (all === null) return;
        const outlook = outlookOf(model, all);
        setHad({ key, outlook, advice: null });
        const judged: Judged[] = [];
        for (const [i, change] of changes.entries()) {
          const one = await pourWorker().judgeChange(advised, change, { runs: RUNS_A_CHANGE, seed: RUNS_SEED });
          if (isGone()) return;
          if (one.ok) judged.push(one.value);
          setProgress((RUNS / PIECE + i + 1) / steps);
        }
        setHad({ key, outlook, advice: adviceFrom(judged, chance, locale) });
        setProgress(null);
        onOutlook(outlook);
      };
      setProgress(0);
      run().catch(() => failed(isGone));
    },
    [begin, runAll, failed],
  );
  return { had, progress, problem, look, start, stop };
}
