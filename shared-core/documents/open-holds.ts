/** Open holds on a job's rooms and known defects the pour leaves, printed in the quote. */
import type { Quote } from '../book/quote.ts';
import { findingWords } from '../assess/overrides.ts';
import { formatListOr } from '../measure/list.ts';
import { lineHeldBy, type PourHold } from '../prep/pour-held.ts';
import { withOptionAccepted } from '../price/accept-option.ts';
import type { OptionEstimate } from '../price/estimate-job.ts';
import { finishedPours } from '../standing/job-bundle.ts';
import { figuresOf } from '../standing/job-figures.ts';
import type { Finding } from '../substrate/rule.ts';
import { glanceJob, type JobReading, type RoomGlance } from '../standing/read-job.ts';

/** Before a hold that was overridden with a reason. The customer reads it. */
export const OVERRIDDEN_HOLD = 'We go ahead despite this: ';

/** What decides which papers print an override. */
export type OverrideOf = {
  /** What holds the pour; null for a hold on other work only. */
  readonly by: PourHold['by'] | null;
  /** Whether a document clears the hold, so that it is a hold no more. */
  readonly isDocument: boolean;
  /** Whether the quote is accepted: then there is no next one. */
  readonly isAccepted: boolean;
};

/** The papers that print an override, within a sentence. */
export function overridePapers({ by, isDocument, isAccepted }: OverrideOf): string {
  if (by === null || isDocument) return 'in the job record';
  return by === 'finding' && !isAccepted
    ? 'on the next quote, on the prep sheet, and in the job record'
    : 'on the prep sheet and in the job record';
}

/** A hold or a defect of a room, as one option has it. */
type OpenPoint = {
  readonly text: string;
  /** The finding or problem where another depth in the estimate alone mends it; undefined for the others. */
  readonly ours?: string | undefined;
  /** Why the hold was overridden; undefined where it was not. */
  readonly why?: string | undefined;
};

/** The rooms as they would be with an option accepted. */
const roomsWith = (option: OptionEstimate, { whole, estimate, rooms }: JobReading, now: string): readonly RoomGlance[] =>
  option === estimate.base
    ? rooms
    : glanceJob({ ...whole, job: withOptionAccepted(whole.job, option.id, whole.job.estimate.options) }, figuresOf({ base: option }), now)
        .rooms;

/** The findings that hold the pour, and those that hold a line which the pour waits for. */
function openFindings({ assessment, preparation }: RoomGlance): readonly Finding[] {
  const waiting = preparation.lines.filter(({ item, state }) => item?.holdsPour === true && state !== 'signed');
  const onLines = waiting.flatMap((line) => lineHeldBy(line, assessment.findings));
  return [...new Set([...assessment.holdsPour, ...onLines])].filter(({ verdict }) => verdict === 'hold');
}

function pointsOf(glance: RoomGlance, { problems }: OptionEstimate): OpenPoint[] {
  const { room, assessment } = glance;
  const overridden = new Map(assessment.overrides.map((override) => [override.key, override]));
  const holds = openFindings(glance).map((finding) => {
    const { key, title, lifts } = finding;
    const why = overridden.get(key)?.why;
    const ours = lifts === 'jobRoom.level.leastThicknessM' ? key : undefined;
    return why === undefined ? { text: findingWords(finding), ours } : { text: title, why };
  });
  const defects = problems
    .filter((problem) => problem.roomId === room.id && !problem.stops && problem.key.startsWith('level:'))
    .map(({ key, message }) => ({
      text: message.replace(`${room.name}: `, ''),
      ours: key === 'level:too-low' ? key : undefined,
    }));
  return [...holds, ...defects];
}

/** What is open of a job's options. */
export type OpenPoints = {
  /** Printed in the quote. */
  readonly holds: Quote['holds'];
  /** Why the quote cannot be issued: an added option is too thin where the job's own is not. Its customer could not choose it. */
  readonly stops: readonly string[];
};

/**
 * Open holds and defects of every room that is not poured; a hold that was overridden is printed with its reason. Each option is judged
 * by its own finish: what not all of them have is printed with the names of those that do.
 * @param now instant the options are judged at
 */
export function openPoints(reading: JobReading, now: string): OpenPoints {
  const { estimate, bundle } = reading;
  const judged = estimate.options.map((option) => ({ option, rooms: roomsWith(option, reading, now) }));
  const stops: string[] = [];
  const holds = reading.rooms.flatMap(({ room }) => {
    if (finishedPours(bundle, room.id).length > 0) return [];
    const byOption = judged.map(({ option, rooms }) => ({
      name: `“${option.name}”`,
      points: rooms.filter((one) => one.room.id === room.id).flatMap((one) => pointsOf(one, option)),
    }));
    const known = new Set([undefined, ...(byOption[0]?.points ?? []).map(({ ours }) => ours)]);
    const found = new Map<string, { readonly point: OpenPoint; readonly options: string[] }>();
    for (const { name, points } of byOption) {
      if (points.some(({ ours }) => !known.has(ours)))
        stops.push(`${room.name}, option ${name}: too thin for the data sheet over this floor. Delete the option, then add it again.`);
      for (const [key, point] of new Map(points.filter(({ ours }) => known.has(ours)).map((one) => [`${one.why}/${one.text}`, one])))
        found.set(key, { point, options: [...(found.get(key)?.options ?? []), name] });
    }
    return [...found.values()].map(({ point: { text, why }, options }) => {
      const some = options.length < judged.length ? formatListOr(options) : '';
      const open = some === '' ? text : `If you choose ${some}: ${text}`;
      const printed = why === undefined ? open : `${OVERRIDDEN_HOLD}${text}${some === '' ? '' : `, with ${some}`}. Our reason: ${why}`;
      return { roomId: room.id, text: printed.slice(0, 2000) };
    });
  });
  return { holds, stops };
}
