/**
 * Suggests changes that keep a wet edge, and the effect of each. Every change is tried with the same seeded runs as
 * the plan itself, so that chance does not affect the comparison.
 */
import type { PourPlan } from '../book/job.ts';
import type { Found } from '../measure/parsed.ts';
import { chanceOf, type Chance } from './chance.ts';
import type { PourClocks } from './clocks.ts';
import type { PourProblem } from './layout.ts';
import { limitOfRun, pourModel, withoutChance, type PourModel } from './crew-model.ts';
import { runsOver } from './outlook.ts';
import { planPour, type PourRoom } from './room-bays.ts';
import { simulatePour, type PourRuns } from './simulate.ts';
import type { OpenDoorway } from './lane.ts';

/** The pour being planned: rooms in order, one plan for all of them, the powder's yield and the clocks of the day. */
export type AdviceCase = {
  readonly rooms: readonly Omit<PourRoom, 'pourPlan'>[];
  /** One plan per room, in the same order. The crew and pattern of the first apply to the whole pour. */
  readonly plans: readonly PourPlan[];
  readonly doorways: readonly OpenDoorway[];
  readonly bagYieldM3: number;
  readonly clocks: PourClocks;
};

export type ChangeKind = 'none' | 'direction' | 'width' | 'pattern' | 'mixers' | 'spreaders' | 'load' | 'by-hand' | 'joint' | 'two';

export type Change = {
  readonly kind: ChangeKind;
  /** The two changes combined, for kind `two`. */
  readonly parts?: readonly [Change, Change];
  readonly plans: readonly PourPlan[];
  /** Additional people compared with the plan; used to find the smallest crew. */
  readonly people: number;
};

export type Judged = {
  readonly change: Change;
  readonly coldJoint: Chance;
  readonly tooOld: Chance;
  /** Maximum join and batch ages with every task at its mean, minutes. */
  readonly joinMin: number;
  readonly finishMin: number;
};

export type Advice = {
  readonly now: Judged;
  /** Whether the current plan keeps both chances below the chosen limit. */
  readonly keepsNow: boolean;
  /** Changes that help, best first. */
  readonly better: readonly Judged[];
  /** The plan with the fewest people that keeps both chances below the chosen limit; null when none does. */
  readonly leastCrew: Judged | null;
};

const WIDTHS = [0.5, 0.67, 0.8, 1.25, 1.5] as const;

/** Every change to try, the current plan first, single changes before pairs. */
export function changesOf(c: AdviceCase): Change[] {
  const first = c.plans[0];
  if (!first) return [];
  const { crew } = first;
  const changeAll = (change: (plan: PourPlan) => PourPlan) => c.plans.map(change);
  const withCrew = (part: Partial<PourPlan['crew']>) => changeAll((plan) => ({ ...plan, crew: { ...plan.crew, ...part } }));
  const singles: Change[] = [];
  const add = (kind: ChangeKind, plans: readonly PourPlan[], people = 0) => singles.push({ kind, plans, people });
  add(
    'direction',
    changeAll((plan) => ({ ...plan, angleDeg: (plan.angleDeg + 90) % 180 })),
  );
  for (const factor of WIDTHS) {
    const width = first.laneWidthM * factor;
    if (width < 0.4 || width > 3) continue;
    add(
      'width',
      changeAll((plan) => ({ ...plan, laneWidthM: plan.laneWidthM * factor })),
    );
  }
  const other = first.pattern === 'one-way' ? 'back-and-forth' : 'one-way';
  add(
    'pattern',
    changeAll((plan) => ({ ...plan, pattern: other })),
  );
  if (crew.mixers < 12) add('mixers', withCrew({ mixers: crew.mixers + 1 }), 1);
  if (crew.mixers < 11) add('mixers', withCrew({ mixers: crew.mixers + 2 }), 2);
  if (crew.mixers > 1) add('mixers', withCrew({ mixers: crew.mixers - 1 }), -1);
  if (crew.spreaders < 12) add('spreaders', withCrew({ spreaders: crew.spreaders + 1 }), 1);
  if (crew.carry === 'cart') {
    for (let load = Math.max(1, crew.cartBatches - 4); load <= crew.cartBatches + 2; load++) {
      if (load === crew.cartBatches || load > 40) continue;
      add('load', withCrew({ cartBatches: load }));
    }
    add('by-hand', withCrew({ carry: 'by-hand', carriers: crew.carriers + 1 }), 1);
  }
  const joint = jointsAcross(c);
  if (joint) add('joint', joint);
  const layoutChanges = singles.filter((s) => ['direction', 'pattern', 'joint'].includes(s.kind));
  const crewChanges = singles.filter((s) => s.people > 0 || s.kind === 'load');
  const pairs = layoutChanges.flatMap((a) =>
    crewChanges.map((b): Change => {
      const plans = a.plans.map((plan, i) => ({ ...plan, crew: b.plans[i]?.crew ?? plan.crew }));
      return { kind: 'two', parts: [a, b], plans, people: b.people };
    }),
  );
  return [{ kind: 'none', plans: c.plans, people: 0 }, ...singles, ...pairs];
}

/** A joint across the middle of the lanes in the room with the longest lanes; null when a room has no outline. */
function jointsAcross(c: AdviceCase): PourPlan[] | null {
  const plans = [...c.plans];
  let longest = -1;
  let lengthM = 0;
  const lines = c.rooms.map((room, i) => {
    const plan = plans[i];
    if (!plan || room.plan.outline.length < 3) return null;
    const turn = (plan.angleDeg * Math.PI) / 180;
    const [ux, uy] = [Math.cos(turn), Math.sin(turn)];
    const along = room.plan.outline.map((p) => p.xM * ux + p.yM * uy);
    const across = room.plan.outline.map((p) => p.yM * ux - p.xM * uy);
    const middle = (Math.min(...along) + Math.max(...along)) / 2;
    if (Math.max(...along) - Math.min(...along) > lengthM) {
      lengthM = Math.max(...along) - Math.min(...along);
      longest = i;
    }
    const pointAt = (v: number) => ({ xM: ux * middle - uy * v, yM: uy * middle + ux * v });
    return { id: 'advised-joint', from: pointAt(Math.min(...across)), to: pointAt(Math.max(...across)) };
  });
  const line = lines[longest];
  const plan = plans[longest];
  if (!line || !plan || plan.joints.length >= 12) return null;
  plans[longest] = { ...plan, joints: [...plan.joints, line] };
  return plans;
}

/** The model of the plan with a change. Returns the problem when it cannot be laid out or crewed. */
export function changeModel(c: AdviceCase, change: Change): Found<PourModel, PourProblem> {
  const first = change.plans[0];
  if (!first) return { ok: false, problem: { kind: 'no-rooms' } };
  const rooms = c.rooms.map((room, i) => ({ ...room, pourPlan: change.plans[i] ?? first }));
  const layout = planPour(rooms, {
    pattern: first.pattern,
    bagYieldM3: c.bagYieldM3,
    bagsPerBatch: first.crew.bagsPerBatch,
    doorways: c.doorways,
  });
  return layout.ok ? pourModel(layout.value, first.crew, c.clocks) : layout;
}

/** Evaluates a change by runs of its model; the same runs and seed give the figures shown by the simulation. */
export function judgeRuns(model: PourModel, change: Change, runs: PourRuns): Judged {
  const steady = simulatePour(withoutChance(model), { runs: 1, seed: 0, from: 0 });
  const cold = runsOver(runs.joinMin, runs.joins, runs.runs, (run) => limitOfRun(model.healingMin, model.healingMostMin, run));
  const old = runsOver(runs.ageMin, runs.batches, runs.runs, (run) => limitOfRun(model.workingTimeMin, model.workingTimeMostMin, run));
  return {
    change,
    coldJoint: chanceOf(cold, runs.runs),
    tooOld: chanceOf(old, runs.runs),
    joinMin: Math.max(0, ...steady.joinMin),
    finishMin: runs.finishMin.reduce((sum, m) => sum + m, 0) / Math.max(1, runs.runs),
  };
}

/** Builds the advice from tried changes; the first has to be the current plan. */
export function adviceFrom(judged: readonly Judged[], chance: number): Advice | null {
  const now = judged[0];
  if (!now) return null;
  const trouble = (j: Judged) => j.coldJoint.share + j.tooOld.share;
  const keeps = (j: Judged) => j.coldJoint.share <= chance && j.tooOld.share <= chance;
  const better = judged
    .slice(1)
    .filter(
      (j) =>
        j.change.people >= 0 &&
        trouble(j) < trouble(now) - 0.005 &&
        j.coldJoint.share <= now.coldJoint.share + 0.005 &&
        j.tooOld.share <= now.tooOld.share + 0.005,
    )
    // A dam across the room ranks after every change without a dam.
    .sort(
      (a, b) =>
        Number(keeps(b)) - Number(keeps(a)) ||
        Number(hasJoint(now, a)) - Number(hasJoint(now, b)) ||
        a.change.people - b.change.people ||
        trouble(a) - trouble(b),
    )
    .slice(0, 6);
  const leastCrew = judged
    .filter(keeps)
    .reduce<Judged | null>(
      (best, j) =>
        !best || j.change.people < best.change.people || (j.change.people === best.change.people && trouble(j) < trouble(best)) ? j : best,
      null,
    );
  return { now, keepsNow: keeps(now), better, leastCrew };
}

const jointsOf = (j: Judged): number => j.change.plans.reduce((sum, plan) => sum + plan.joints.length, 0);
const hasJoint = (now: Judged, j: Judged): boolean => jointsOf(j) > jointsOf(now);
