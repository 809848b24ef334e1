/** Where a room stands in its stages, and the one thing that moves it on. */
import { STAGES, type Stage } from '../book/job.ts';
import type { QuoteState } from '../book/quote.ts';
import { formatDay } from '../measure/day.ts';
import { dayToldBy, formatInstant, formatInstantDay, formatInstantTime } from '../measure/moment.ts';
import { DEFAULT_LOCALE } from '../measure/number.ts';
import { type AgendaBusiness, finishedPours, type JobBundle, type JobRoomFacts, roomsOf, standingQuote } from './job-bundle.ts';
import { countWord, roomWords } from './names.ts';
import { primerWindow, roomCure } from './room-cure.ts';
/** `waiting`, `under-way`, `done`, `held`: the shape before the room's name. */
export type RoomState = 'waiting' | 'under-way' | 'done' | 'held';

export type StageState = { readonly stage: Stage; readonly state: RoomState };

export type NextStep = {
  readonly roomId: string;
  readonly stages: readonly StageState[];
  /** What it means now, at the foot of the sheet. */
  readonly sentence: string;
  /** The one action: what it says and where it leads. Null when nothing can be done but wait. */
  readonly action: { readonly label: string; readonly opens: Stage } | null;
};

type Asked = { readonly bundle: JobBundle; readonly facts: JobRoomFacts; readonly business: AgendaBusiness; readonly now: string };
/** The standing quote's state, or none. */
type PriceState = Exclude<QuoteState, 'superseded'> | 'none';
type Said = Pick<NextStep, 'sentence' | 'action'>;

const go = (sentence: string, label: string, opens: Stage): Said => ({ sentence, action: { label, opens } });
const wait = (sentence: string): Said => ({ sentence, action: null });

function assess({ facts }: Asked): Said {
  const name = roomWords(facts.room.name);
  const { summary } = facts;
  if (summary?.planDrawn !== true) return go(`The ${name} has no outline yet.`, 'Draw the room', 'assess');
  if (summary.readingsTaken < 3)
    return go(
      `The ${name} is drawn; its floor has ${summary.readingsTaken === 0 ? 'no readings' : 'too few readings'} yet.`,
      'Take readings',
      'assess',
    );
  if (facts.room.layers.length === 0) return go('The floor’s layers are not written down yet.', 'Describe the floor', 'assess');
  if (facts.jobRoom.flooring === null) return go('What will go on the floor decides what it must be.', 'Choose the covering', 'assess');
  return go(`The ${name} is assessed.`, 'Go on to prep', 'prep');
}

function prep({ bundle, facts }: Asked): Said {
  const { summary } = facts;
  // Before the quote is accepted the checklist is there to be priced; it is signed when the work is done.
  if (summary !== null && summary.prepOpen > 0 && standingQuote(bundle)?.state !== 'accepted') {
    return go(`Prep will take ${countWord(summary.prepTotal)} lines; price it first.`, 'Go on to the estimate', 'estimate');
  }
  if (summary === null || summary.prepOpen === 0) return go('Every line of the checklist is signed.', 'Go on to the estimate', 'estimate');
  const open = `${countWord(summary.prepOpen)} of ${countWord(summary.prepTotal)} lines open`;
  return go(`Prep has ${open}${summary.prepNext === null ? '' : `; next: ${summary.prepNext}`}.`, 'Sign the next line', 'prep');
}

function estimate({ facts }: Asked): Said {
  if (facts.jobRoom.materialId === null) return go('No material is chosen yet.', 'Choose the material', 'estimate');
  const bags = facts.summary?.bags ?? null;
  if (bags === null)
    return go('The bags cannot be counted yet: a reading, a level or a data sheet is missing.', 'Open the estimate', 'estimate');
  return go(`${bags} ${bags === 1 ? 'bag' : 'bags'}.`, 'Price it', 'quote');
}

const QUOTE_SAID: Readonly<Record<PriceState, (a: Asked, day: string) => Said>> = {
  none: () => go('No quote has been issued.', 'Issue the quote', 'quote'),
  issued: (_, day) => go(`The quote is with the customer until ${day}.`, 'Record the answer', 'quote'),
  lapsed: (_, day) => go(`The quote lapsed after ${day}.`, 'Issue the next revision', 'quote'),
  declined: () => go('The quote was declined.', 'Issue another', 'quote'),
  accepted: () => go('The quote is accepted.', 'Plan the pour', 'pour'),
};

function quote(asked: Asked): Said {
  const standing = standingQuote(asked.bundle);
  if (standing === null || standing.state === 'superseded') return QUOTE_SAID.none(asked, '');
  const until = `${standing.validUntil}T12:00:00.000Z`;
  const day = formatInstantDay(until, 'UTC', 'long', asked.business.locale || DEFAULT_LOCALE);
  const over = standing.state === 'issued' && asked.now.slice(0, 10) > standing.validUntil;
  return QUOTE_SAID[over ? 'lapsed' : standing.state](asked, day);
}

function pour({ bundle, facts, business, now }: Asked): Said {
  const { jobRoom, summary } = facts;
  const locale = business.locale || DEFAULT_LOCALE;
  const zone = bundle.property.timeZone;
  const running = bundle.pours.find(
    (p) => p.deletedAt === null && p.startedAt !== null && p.finishedAt === null && p.roomIds.includes(facts.room.id),
  );
  if (running !== undefined) return go('The pour is under way.', 'Back to the pour', 'pour');
  if (jobRoom.pourAt === null) return go('No day is set for the pour.', 'Set the day', 'pour');
  if (summary !== null && summary.prepOpen > 0) {
    const next = summary.prepNext === null ? '' : `; next: ${summary.prepNext}`;
    return go(
      `The pour waits for ${countWord(summary.prepOpen)} open ${summary.prepOpen === 1 ? 'line' : 'lines'} of prep${next}.`,
      'Sign the next line',
      'prep',
    );
  }
  const window = primerWindow(bundle, facts);
  if (window !== null && now > window.untilAt) return go('The primer is too old: prime again.', 'Prime again', 'prep');
  if (window !== null && now < window.fromAt) return wait(`The primer dries until ${formatInstantTime(window.fromAt, zone, locale)}.`);
  return go(`The pour is set for ${formatInstant(jobRoom.pourAt, zone, 'long', locale)}.`, 'Open the pour', 'pour');
}

function cure(asked: Asked): Said {
  const { bundle, facts, business, now } = asked;
  const locale = business.locale || DEFAULT_LOCALE;
  const zone = bundle.property.timeZone;
  const found = roomCure(bundle, facts, business);
  if (found === null || !found.poured) return go('There is no finished pour to reckon the cure from.', 'Open the pour', 'pour');
  const { gravest, release, cover, milestones } = found.schedule;
  const late = gravest?.state === 'late' ? gravest : null;
  const milestone = milestones.find(
    (m) => m.kind === late?.promise.milestone && (m.kind !== 'cover' || m.flooring === late.promise.flooring),
  );
  if (late !== null && milestone !== undefined && milestone.likelyAt !== null) {
    const day = formatInstantDay(milestone.likelyAt, zone, 'long', locale);
    const was = formatDay(dayToldBy(late.promise.promisedFor, zone), 'short', locale);
    return go(`Promise ${day} instead of ${was}.`, `Promise ${formatInstantDay(milestone.likelyAt, zone, 'short', locale)}`, 'cure');
  }
  if (release?.released === true) return go(release.sentence, 'Go on to the handover', 'handover');
  if (cover === null || cover.likelyAt === null)
    return cover === null
      ? go('Nothing is waited for but the sheet’s own hours.', 'Go on to the handover', 'handover')
      : wait('The room is too cold: the clock stands still. Warm it, or note the temperature it has.');
  if (cover.earliestAt !== null && cover.earliestAt <= now)
    return go(`Test the ${roomWords(facts.room.name)} before ${cover.name}.`, 'Enter the test', 'cure');
  return go(
    `Dry enough to test for ${cover.name} about ${formatInstantDay(cover.likelyAt, zone, 'long', locale)}.`,
    'Enter a reading',
    'cure',
  );
}

function handover({ facts, bundle, business }: Asked): Said {
  if (facts.jobRoom.handedOverAt !== null) {
    // A floor handed over to dry is watched on until its test.
    const schedule = roomCure(bundle, facts, business)?.schedule ?? null;
    if (schedule === null || schedule.cover === null || schedule.release?.released === true)
      return go('Handed over.', 'Close the room', 'done');
    return go('Handed over, not yet released for covering.', 'Enter the test', 'cure');
  }
  const at = bundle.job.handoverAt;
  const day = at === null ? '' : ` ${formatInstantDay(at, bundle.property.timeZone, 'long', business.locale || DEFAULT_LOCALE)}`;
  return go(at === null ? 'No day is set for the handover.' : `To be handed over${day}.`, 'Make the handover sheet', 'handover');
}

const STEP: Readonly<Record<Stage, (asked: Asked) => Said>> = {
  assess,
  prep,
  estimate,
  quote,
  pour,
  cure,
  handover,
  done: () => wait('Done.'),
};

/** Stages a hold stops: nothing is disturbed or poured while it stands. */
const HELD_STAGES: readonly Stage[] = ['prep', 'pour'];

function stageStates({ bundle, facts }: Asked): readonly StageState[] {
  const at = STAGES.indexOf(facts.jobRoom.stage);
  const held = (facts.summary?.holds.length ?? 0) > 0 && finishedPours(bundle, facts.room.id).length === 0;
  return STAGES.filter((s) => s !== 'done').map((stage) => {
    const i = STAGES.indexOf(stage);
    if (i < at) return { stage, state: 'done' };
    if (held && HELD_STAGES.includes(stage)) return { stage, state: 'held' };
    return { stage, state: i === at ? 'under-way' : 'waiting' };
  });
}

/**
 * The next step of one room.
 * @returns null when the job does not have the room
 */
export function nextStep(bundle: JobBundle, roomId: string, business: AgendaBusiness, now: string): NextStep | null {
  const facts = roomsOf(bundle).find((r) => r.room.id === roomId);
  if (facts === undefined) return null;
  const asked: Asked = { bundle, facts, business, now };
  const hold = finishedPours(bundle, roomId).length === 0 ? facts.summary?.holds[0] : undefined;
  const { stage } = facts.jobRoom;
  const stopped = hold !== undefined && HELD_STAGES.includes(stage);
  const said = stopped ? go(`Held: ${hold.why}.`, 'See what lifts it', 'assess') : STEP[stage](asked);
  return { roomId, stages: stageStates(asked), ...said };
}
