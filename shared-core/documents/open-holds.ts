/** Open holds on a job's rooms and known defects the pour leaves, printed in the quote. */
import type { Quote } from '../book/quote.ts';
import { capital } from '../measure/first-letter.ts';
import { formatListOr } from '../measure/list.ts';
import type { PourHold } from '../prep/pour-held.ts';
import { withOptionAccepted } from '../price/accept-option.ts';
import type { OptionEstimate } from '../price/estimate-job.ts';
import { finishedPours } from '../standing/job-bundle.ts';
import { figuresOf } from '../standing/job-figures.ts';
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
  /** Why the hold was overridden; undefined where it was not. */
  readonly why?: string | undefined;
};

/** The rooms as they would be with an option accepted. */
const roomsWith = (option: OptionEstimate, { whole, estimate, rooms }: JobReading, now: string): readonly RoomGlance[] =>
  option === estimate.base
    ? rooms
    : glanceJob({ ...whole, job: withOptionAccepted(whole.job, option.id, whole.job.estimate.options) }, figuresOf({ base: option }), now)
        .rooms;

function pointsOf({ room, assessment }: RoomGlance, { problems }: OptionEstimate): OpenPoint[] {
  const overridden = new Map(assessment.overrides.map((override) => [override.key, override]));
  const holds = assessment.holdsPour
    .filter((finding) => finding.verdict === 'hold')
    .map(({ key, title, text }) => {
      const why = overridden.get(key)?.why;
      return why === undefined ? { text: `${capital(title)}. ${text}` } : { text: title, why };
    });
  const defects = problems
    .filter((problem) => problem.roomId === room.id && !problem.stops && problem.key.startsWith('level:'))
    .map((problem) => ({ text: problem.message.replace(`${room.name}: `, '') }));
  return [...holds, ...defects];
}

/**
 * Open holds and defects of every room that is not poured; a hold that was overridden is printed with its reason. Each option is judged
 * by its own finish: what not all of them have is printed with the names of those that do.
 * @param now instant the options are judged at
 */
export function openHolds(reading: JobReading, now: string): Quote['holds'] {
  const { estimate, bundle } = reading;
  const judged = estimate.options.map((option) => ({ option, rooms: roomsWith(option, reading, now) }));
  return reading.rooms.flatMap(({ room }) => {
    if (finishedPours(bundle, room.id).length > 0) return [];
    const found = new Map<string, { readonly point: OpenPoint; readonly options: string[] }>();
    for (const { option, rooms } of judged) {
      const own = rooms.filter((one) => one.room.id === room.id).flatMap((one) => pointsOf(one, option));
      for (const [key, point] of new Map(own.map((one) => [`${one.why}/${one.text}`, one]))) {
        found.set(key, { point, options: [...(found.get(key)?.options ?? []), `“${option.name}”`] });
      }
    }
    return [...found.values()].map(({ point: { text, why }, options }) => {
      const some = options.length < judged.length ? formatListOr(options) : '';
      const open = some === '' ? text : `If you choose ${some}: ${text}`;
      const printed = why === undefined ? open : `${OVERRIDDEN_HOLD}${text}${some === '' ? '' : `, with ${some}`}. Our reason: ${why}`;
      return { roomId: room.id, text: printed.slice(0, 2000) };
    });
  });
}
