/**
 * What to change so that the edge stays wet, and what each change buys. Every change is tried with the same seeded runs as
 * the plan itself, so that the difference is the change and not luck.
 */
import type { PourPlan } from '../book/job.ts';
import { formatDuration } from '../measure/duration.ts';
import { formatLength } from '../measure/length-format.ts';
import type { Parsed } from '../measure/parsed.ts';
import { formatPercent } from '../measure/percent.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { chanceOf, type Chance } from './chance.ts';
import type { PourClocks } from './clocks.ts';
import { limitOfRun, pourModel, withoutChance, type PourModel } from './crew-model.ts';
import { runsOver } from './outlook.ts';
import { planPour, type PourRoom } from './room-bays.ts';
import { simulatePour, type PourRuns } from './simulate.ts';
import type { OpenDoorway } from './lane.ts';

/** What is being planned: rooms in order, one plan for all of them, the powder's yield and the day's clocks. */
export type AdviceCase = {
  readonly rooms: readonly Omit<PourRoom, 'pourPlan'>[];
  /** One plan a room, in the same order. The first one's crew and pattern hold for the pour. */
  readonly plans: readonly PourPlan[];
  readonly doorways: readonly OpenDoorway[];
  readonly bagYieldM3: number;
  readonly clocks: PourClocks;
};

export type ChangeKind = 'none' | 'direction' | 'width' | 'pattern' | 'mixers' | 'spreaders' | 'load' | 'by-hand' | 'joint' | 'two';

export type Change = {
  readonly kind: ChangeKind;
  /** `Add 1 mixing station`, ready to begin a sentence. */
  readonly words: string;
  readonly plans: readonly PourPlan[];
  /** People it takes beside the plan's own: for choosing the least crew. */
  readonly people: number;
};

export type Judged = {
  readonly change: Change;
  readonly coldJoint: Chance;
  readonly tooOld: Chance;
  /** Greatest join and batch ages with every task at its mean, minutes. */
  readonly joinMin: number;
  readonly batchAgeMin: number;
  readonly finishMin: number;
};

export type Advice = {
  readonly now: Judged;
  /** Changes that help, best first. */
  readonly better: readonly { readonly judged: Judged; readonly sentence: string }[];
  /** The plan with fewest people that keeps both chances under the one chosen; null when none does. */
  readonly leastCrew: Judged | null;
  /** The sentence to show first. */
  readonly summary: string;
};

const WIDTHS = [0.5, 0.67, 0.8, 1.25, 1.5] as const;

/** Every change worth trying, the plan as it stands first. Pairs of changes follow the single ones. */
export function changesOf(c: AdviceCase, units: UnitSystem): Change[] {
  const first = c.plans[0];
  if (!first) return [];
  const { crew } = first;
  const all = (change: (plan: PourPlan) => PourPlan) => c.plans.map(change);
  const withCrew = (part: Partial<PourPlan['crew']>) => all((plan) => ({ ...plan, crew: { ...plan.crew, ...part } }));
  const singles: Change[] = [];
  const add = (kind: ChangeKind, words: string, plans: readonly PourPlan[], people = 0) => singles.push({ kind, words, plans, people });
  add(
    'direction',
    'Turn the lanes the other way',
    all((plan) => ({ ...plan, angleDeg: (plan.angleDeg + 90) % 180 })),
  );
  for (const factor of WIDTHS) {
    const width = first.laneWidthM * factor;
    if (width < 0.4 || width > 3) continue;
    add(
      'width',
      `Lanes ${formatLength(width, units)} wide`,
      all((plan) => ({ ...plan, laneWidthM: plan.laneWidthM * factor })),
    );
  }
  const other = first.pattern === 'one-way' ? 'back-and-forth' : 'one-way';
  const patternWords = other === 'one-way' ? 'Fill every lane from the same end' : 'Fill lanes back and forth';
  add(
    'pattern',
    patternWords,
    all((plan) => ({ ...plan, pattern: other })),
  );
  if (crew.mixers < 12) add('mixers', 'Add 1 mixing station', withCrew({ mixers: crew.mixers + 1 }), 1);
  if (crew.mixers < 11) add('mixers', 'Add 2 mixing stations', withCrew({ mixers: crew.mixers + 2 }), 2);
  if (crew.mixers > 1) add('mixers', 'Use 1 mixing station fewer', withCrew({ mixers: crew.mixers - 1 }), -1);
  if (crew.spreaders < 12) add('spreaders', 'Add 1 spreader', withCrew({ spreaders: crew.spreaders + 1 }), 1);
  if (crew.carry === 'cart') {
    for (let load = Math.max(1, crew.cartBatches - 4); load <= crew.cartBatches + 2; load++) {
      if (load === crew.cartBatches || load > 40) continue;
      add('load', `${load} ${load === 1 ? 'batch' : 'batches'} per cart load`, withCrew({ cartBatches: load }));
    }
    add('by-hand', 'Carry by hand with 1 more carrier', withCrew({ carry: 'by-hand', carriers: crew.carriers + 1 }), 1);
  }
  const joint = jointsAcross(c);
  if (joint) add('joint', 'Set a dammed joint across the middle', joint);
  const layoutChanges = singles.filter((s) => ['direction', 'pattern', 'joint'].includes(s.kind));
  const crewChanges = singles.filter((s) => s.people > 0 || s.kind === 'load');
  const pairs = layoutChanges.flatMap((a) =>
    crewChanges.map((b): Change => {
      const plans = a.plans.map((plan, i) => ({ ...plan, crew: b.plans[i]?.crew ?? plan.crew }));
      return { kind: 'two', words: `${a.words} and ${b.words.charAt(0).toLowerCase()}${b.words.slice(1)}`, plans, people: b.people };
    }),
  );
  return [{ kind: 'none', words: 'As planned', plans: c.plans, people: 0 }, ...singles, ...pairs];
}

/** A joint across the middle of the strips in the room with the longest ones; null when a room is without an outline. */
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

/** The model of the plan with a change. A message when it cannot be laid out or manned. */
export function changeModel(c: AdviceCase, change: Change): Parsed<PourModel> {
  const first = change.plans[0];
  if (!first) return { ok: false, message: 'Select the rooms of this pour.' };
  const rooms = c.rooms.map((room, i) => ({ ...room, pourPlan: change.plans[i] ?? first }));
  const layout = planPour(rooms, {
    pattern: first.pattern,
    bagYieldM3: c.bagYieldM3,
    bagsPerBatch: first.crew.bagsPerBatch,
    doorways: c.doorways,
  });
  return layout.ok ? pourModel(layout.value, first.crew, c.clocks) : layout;
}

/** Judges a change by runs of its model; the same runs and seed give the figures that the simulation of the plan then shows. */
export function judgeRuns(model: PourModel, change: Change, runs: PourRuns): Judged {
  const steady = simulatePour(withoutChance(model), { runs: 1, seed: 0, from: 0 });
  const cold = runsOver(runs.joinMin, runs.joins, runs.runs, (run) => limitOfRun(model.healingMin, model.healingMostMin, run));
  const old = runsOver(runs.ageMin, runs.batches, runs.runs, (run) => limitOfRun(model.workingTimeMin, model.workingTimeMostMin, run));
  return {
    change,
    coldJoint: chanceOf(cold, runs.runs),
    tooOld: chanceOf(old, runs.runs),
    joinMin: Math.max(0, ...steady.joinMin),
    batchAgeMin: Math.max(0, ...steady.ageMin),
    finishMin: runs.finishMin.reduce((sum, m) => sum + m, 0) / Math.max(1, runs.runs),
  };
}

/** Tries one change. A message when it cannot be laid out or manned. */
export function judgeChange(c: AdviceCase, change: Change, choice: { readonly runs: number; readonly seed: number }): Parsed<Judged> {
  const model = changeModel(c, change);
  if (!model.ok) return model;
  return { ok: true, value: judgeRuns(model.value, change, simulatePour(model.value, { ...choice, from: 0 })) };
}

/** Advice from changes already tried; the first has to be the plan as it stands. */
export function adviceFrom(judged: readonly Judged[], chance: number, locale?: string): Advice | null {
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
    // A dam across the room comes after every change that needs none.
    .sort(
      (a, b) =>
        Number(keeps(b)) - Number(keeps(a)) ||
        Number(hasJoint(now, a)) - Number(hasJoint(now, b)) ||
        a.change.people - b.change.people ||
        trouble(a) - trouble(b),
    )
    .slice(0, 6)
    .map((j) => ({ judged: j, sentence: sentenceOf(now, j, locale) }));
  const leastCrew = judged
    .filter(keeps)
    .reduce<Judged | null>(
      (best, j) =>
        !best || j.change.people < best.change.people || (j.change.people === best.change.people && trouble(j) < trouble(best)) ? j : best,
      null,
    );
  return {
    now,
    better,
    leastCrew,
    summary: summaryOf({ now, least: leastCrew, best: better[0]?.sentence ?? null, keepsNow: keeps(now) }, chance, locale),
  };
}

/** Whether a change sets a joint that the plan has not. */
const jointsOf = (j: Judged): number => j.change.plans.reduce((sum, plan) => sum + plan.joints.length, 0);
const hasJoint = (now: Judged, j: Judged): boolean => jointsOf(j) > jointsOf(now);

function sentenceOf(now: Judged, j: Judged, locale?: string): string {
  const parts: string[] = [];
  const percent = (share: number) => formatPercent(share, share > 0 && share < 0.01 ? 1 : 0, locale);
  const minutes = (min: number) => formatDuration(Math.round(min) * 60, locale);
  if (Math.abs(now.coldJoint.share - j.coldJoint.share) >= 0.005) {
    parts.push(`chance of a cold joint from ${percent(now.coldJoint.share)} to ${percent(j.coldJoint.share)}`);
  }
  if (Math.abs(now.tooOld.share - j.tooOld.share) >= 0.005) {
    parts.push(`chance of an old batch from ${percent(now.tooOld.share)} to ${percent(j.tooOld.share)}`);
  }
  if (now.joinMin - j.joinMin >= 1) parts.push(`edges at most ${minutes(j.joinMin)} old instead of ${minutes(now.joinMin)}`);
  if (Math.abs(now.finishMin - j.finishMin) >= 2) {
    parts.push(`done in about ${minutes(j.finishMin)} instead of ${minutes(now.finishMin)}`);
  }
  return `${j.change.words}: ${parts.join(', ')}.`;
}

function summaryOf(
  {
    now,
    least,
    best,
    keepsNow,
  }: { readonly now: Judged; readonly least: Judged | null; readonly best: string | null; readonly keepsNow: boolean },
  chance: number,
  locale?: string,
): string {
  const limit = formatPercent(chance, chance < 0.1 && !Number.isInteger(chance * 100) ? 1 : 0, locale);
  if (keepsNow) {
    return least && least.change.people < 0
      ? `Both chances stay under ${limit}. ${least.change.words} also works.`
      : `The chance of a cold joint and of an old batch stays under ${limit}.`;
  }
  const cold = `Cold joint in ${formatPercent(now.coldJoint.share, 0, locale)} of simulated pours, old batch in ${formatPercent(now.tooOld.share, 0, locale)}.`;
  if (!least)
    return `${cold} No change tried brings both under ${limit}. Divide the floor into smaller sections with dams, use cooler mix water within the data sheet’s range, or choose a slower-setting product.`;
  return best ? `${cold} ${best}` : cold;
}

/** The whole search at once: the plan, every change, and what to say. Slow changes are better tried one by one in a worker. */
export function adviseOn(
  c: AdviceCase,
  choice: { readonly runs: number; readonly seed: number; readonly chance: number; readonly units: UnitSystem; readonly locale?: string },
): Parsed<Advice> {
  const judged: Judged[] = [];
  for (const change of changesOf(c, choice.units)) {
    const one = judgeChange(c, change, choice);
    if (one.ok) judged.push(one.value);
    else if (change.kind === 'none') return one;
  }
  const advice = adviceFrom(judged, choice.chance, choice.locale);
  return advice ? { ok: true, value: advice } : { ok: false, message: 'Select the rooms of this pour.' };
}
