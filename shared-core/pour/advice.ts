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
import { pourModel, withoutChance } from './crew-model.ts';
import { planPour, type PourRoom } from './room-bays.ts';
import { simulatePour } from './simulate.ts';
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
  /** `One more mixing station`, ready to begin a sentence. */
  readonly words: string;
  readonly plans: readonly PourPlan[];
  /** People it takes beside the plan's own: for choosing the least crew. */
  readonly people: number;
};

export type Judged = {
  readonly change: Change;
  readonly coldJoint: Chance;
  readonly tooOld: Chance;
  /** Greatest seam and batch ages with every task at its mean, minutes. */
  readonly seamMin: number;
  readonly batchAgeMin: number;
  readonly finishMin: number;
};

export type Advice = {
  readonly now: Judged;
  /** Changes that help, best first. */
  readonly better: readonly { readonly judged: Judged; readonly sentence: string }[];
  /** The plan with fewest people that keeps both chances under the one chosen; null when none does. */
  readonly leastCrew: Judged | null;
  /** The first thing to say. */
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
    'Strips turned the other way across the room',
    all((plan) => ({ ...plan, angleDeg: (plan.angleDeg + 90) % 180 })),
  );
  for (const factor of WIDTHS) {
    const width = first.laneWidthM * factor;
    if (width < 0.4 || width > 3) continue;
    add(
      'width',
      `Strips ${formatLength(width, units)} wide`,
      all((plan) => ({ ...plan, laneWidthM: plan.laneWidthM * factor })),
    );
  }
  const other = first.pattern === 'one-way' ? 'back-and-forth' : 'one-way';
  const patternWords = other === 'one-way' ? 'Every strip from the same side' : 'Strips filled back and forth';
  add(
    'pattern',
    patternWords,
    all((plan) => ({ ...plan, pattern: other })),
  );
  if (crew.mixers < 12) add('mixers', 'One more mixing station', withCrew({ mixers: crew.mixers + 1 }), 1);
  if (crew.mixers < 11) add('mixers', 'Two more mixing stations', withCrew({ mixers: crew.mixers + 2 }), 2);
  if (crew.mixers > 1) add('mixers', 'One mixing station fewer', withCrew({ mixers: crew.mixers - 1 }), -1);
  if (crew.spreaders < 12) add('spreaders', 'One more spreading', withCrew({ spreaders: crew.spreaders + 1 }), 1);
  if (crew.carry === 'cart') {
    for (let load = Math.max(1, crew.cartBatches - 4); load <= crew.cartBatches + 2; load++) {
      if (load === crew.cartBatches || load > 40) continue;
      add('load', `${load} ${load === 1 ? 'batch' : 'batches'} a cart load`, withCrew({ cartBatches: load }));
    }
    add('by-hand', 'Carried by hand, one more to carry', withCrew({ carry: 'by-hand', carriers: crew.carriers + 1 }), 1);
  }
  const joint = jointsAcross(c);
  if (joint) add('joint', 'A dammed joint across the middle', joint);
  const layoutChanges = singles.filter((s) => ['direction', 'pattern', 'joint'].includes(s.kind));
  const crewChanges = singles.filter((s) => s.people > 0 || s.kind === 'load');
  const pairs = layoutChanges.flatMap((a) =>
    crewChanges.map((b): Change => {
      const plans = a.plans.map((plan, i) => ({ ...plan, crew: b.plans[i]?.crew ?? plan.crew }));
      return { kind: 'two', words: `${a.words}, and ${b.words.charAt(0).toLowerCase()}${b.words.slice(1)}`, plans, people: b.people };
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
    const at = (v: number) => ({ xM: ux * middle - uy * v, yM: uy * middle + ux * v });
    return { id: 'advised-joint', from: at(Math.min(...across)), to: at(Math.max(...across)) };
  });
  const line = lines[longest];
  const plan = plans[longest];
  if (!line || !plan || plan.joints.length >= 12) return null;
  plans[longest] = { ...plan, joints: [...plan.joints, line] };
  return plans;
}

/** Tries one change. A message when it cannot be laid out or manned. */
export function judgeChange(c: AdviceCase, change: Change, choice: { readonly runs: number; readonly seed: number }): Parsed<Judged> {
  const first = change.plans[0];
  if (!first) return { ok: false, message: 'There is no room to plan: choose the rooms of this pour.' };
  const rooms = c.rooms.map((room, i) => ({ ...room, pourPlan: change.plans[i] ?? first }));
  const layout = planPour(rooms, {
    pattern: first.pattern,
    bagYieldM3: c.bagYieldM3,
    bagsPerBatch: first.crew.bagsPerBatch,
    doorways: c.doorways,
  });
  if (!layout.ok) return layout;
  const model = pourModel(layout.value, first.crew, c.clocks);
  if (!model.ok) return model;
  const steady = simulatePour(withoutChance(model.value), { runs: 1, seed: choice.seed, from: 0 });
  const r = simulatePour(model.value, { ...choice, from: 0 });
  let cold = 0;
  let old = 0;
  for (let run = 0; run < r.runs; run++) {
    if (anyOver(r.seamMin, r.seams, run, c.clocks.healingMin)) cold++;
    if (anyOver(r.ageMin, r.batches, run, c.clocks.flowLifeMin)) old++;
  }
  return {
    ok: true,
    value: {
      change,
      coldJoint: chanceOf(cold, r.runs),
      tooOld: chanceOf(old, r.runs),
      seamMin: Math.max(0, ...steady.seamMin),
      batchAgeMin: Math.max(0, ...steady.ageMin),
      finishMin: r.finishMin.reduce((sum, m) => sum + m, 0) / Math.max(1, r.runs),
    },
  };
}

function anyOver(values: Float32Array, width: number, run: number, limit: number): boolean {
  for (let i = run * width; i < (run + 1) * width; i++) if ((values[i] ?? 0) > limit) return true;
  return false;
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
    .sort((a, b) => Number(keeps(b)) - Number(keeps(a)) || a.change.people - b.change.people || trouble(a) - trouble(b))
    .slice(0, 6)
    .map((j) => ({ judged: j, sentence: sentenceOf(now, j, locale) }));
  const leastCrew = judged
    .filter(keeps)
    .reduce<Judged | null>(
      (best, j) =>
        !best || j.change.people < best.change.people || (j.change.people === best.change.people && trouble(j) < trouble(best)) ? j : best,
      null,
    );
  return { now, better, leastCrew, summary: summaryOf(now, leastCrew, better[0]?.sentence ?? null, keeps(now), chance, locale) };
}

function sentenceOf(now: Judged, j: Judged, locale?: string): string {
  const parts: string[] = [];
  const percent = (share: number) => formatPercent(share, share > 0 && share < 0.01 ? 1 : 0, locale);
  const minutes = (min: number) => formatDuration(Math.round(min) * 60, locale);
  if (Math.abs(now.coldJoint.share - j.coldJoint.share) >= 0.005) {
    parts.push(`chance of a cold joint from ${percent(now.coldJoint.share)} to ${percent(j.coldJoint.share)}`);
  }
  if (Math.abs(now.tooOld.share - j.tooOld.share) >= 0.005) {
    parts.push(`chance of a batch too old from ${percent(now.tooOld.share)} to ${percent(j.tooOld.share)}`);
  }
  if (now.seamMin - j.seamMin >= 1) parts.push(`seams at most ${minutes(j.seamMin)} old instead of ${minutes(now.seamMin)}`);
  if (Math.abs(now.finishMin - j.finishMin) >= 2) {
    parts.push(`done in about ${minutes(j.finishMin)} instead of ${minutes(now.finishMin)}`);
  }
  return `${j.change.words}: ${parts.join('; ')}.`;
}

function summaryOf(now: Judged, least: Judged | null, best: string | null, keepsNow: boolean, chance: number, locale?: string): string {
  const limit = formatPercent(chance, chance < 0.1 && !Number.isInteger(chance * 100) ? 1 : 0, locale);
  if (keepsNow) {
    return least && least.change.people < 0
      ? `The plan keeps both chances under ${limit}. ${least.change.words} would still do.`
      : `The plan keeps the chance of a cold joint, and of a batch too old, under ${limit}.`;
  }
  const cold = `A cold joint comes in ${formatPercent(now.coldJoint.share, 0, locale)} of pours like this, a batch too old in ${formatPercent(now.tooOld.share, 0, locale)}.`;
  if (!least)
    return `${cold} No single change or pair tried brings both under ${limit}: pour it in smaller bays, on separate days if need be.`;
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
  return advice ? { ok: true, value: advice } : { ok: false, message: 'There is no room to plan: choose the rooms of this pour.' };
}
