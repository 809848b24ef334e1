/** The search for a better pour in one go, as the screen makes it in workers: the plan and every change, with the same runs. */
import type { Found } from '../../../shared-core/measure/parsed.ts';
import {
  adviceFrom,
  type Advice,
  type AdviceCase,
  type Change,
  changeModel,
  changesOf,
  type Judged,
  judgeRuns,
} from '../../../shared-core/pour/advice.ts';
import type { PourProblem } from '../../../shared-core/pour/layout.ts';
import { simulatePour } from '../../../shared-core/pour/simulate.ts';

/** Tries one change. Returns the problem when it cannot be laid out or crewed. */
export function judgeChange(
  c: AdviceCase,
  change: Change,
  choice: { readonly runs: number; readonly seed: number },
): Found<Judged, PourProblem> {
  const model = changeModel(c, change);
  if (!model.ok) return model;
  return { ok: true, value: judgeRuns(model.value, change, simulatePour(model.value, { ...choice, from: 0 })) };
}

export function adviseOn(
  c: AdviceCase,
  choice: { readonly runs: number; readonly seed: number; readonly chance: number },
): Found<Advice, PourProblem> {
  const judged: Judged[] = [];
  for (const change of changesOf(c)) {
    const result = judgeChange(c, change, choice);
    if (result.ok) judged.push(result.value);
    else if (change.kind === 'none') return result;
  }
  const advice = adviceFrom(judged, choice.chance);
  return advice ? { ok: true, value: advice } : { ok: false, problem: { kind: 'no-rooms' } };
}
