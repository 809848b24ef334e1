/** The state of the handover in one sentence, with what it waits for. */
import type { HandoverRoom } from '../../../shared-core/documents/handover-rooms.ts';
import { needsTest } from '../../../shared-core/documents/handover-sheet.ts';
import { lowerFirst } from '../../../shared-core/measure/first-letter.ts';
import { formatInstantDay } from '../../../shared-core/measure/moment.ts';
import { listed } from '../../../shared-core/standing/names.ts';
import { statedDateWords } from '../../../shared-core/standing/time-words.ts';
import { coverWait } from '../../../shared-core/standing/repair-words.ts';

export type HandoverState = {
  /** The floors that are fully placed. */
  readonly rooms: readonly Pick<HandoverRoom, 'room' | 'jobRoom' | 'schedule' | 'rest'>[];
  /** Those of them that are not cleared for their flooring. */
  readonly uncleared: readonly Pick<HandoverRoom, 'schedule'>[];
  readonly roomId: string;
  readonly now: string;
  /** The last handover sheet; null before there is one. */
  readonly revision: number | null;
  readonly isStale: boolean;
  /** Labels of other saved documents that are out of date. */
  readonly outOfDate: readonly string[];
  readonly isCuring: boolean;
  /** What is left to do for the money, in one sentence; null for nothing. */
  readonly moneyLeft: string | null;
};

export function handoverFoot(state: HandoverState, zone: string, locale: string): { readonly text: string; readonly why: string } {
  const { rooms, uncleared, roomId, revision, isStale, isCuring } = state;
  if (rooms.length === 0) return { text: 'No floor is finished yet', why: '' };
  if (revision === null)
    return {
      text: 'No handover sheet yet',
      why:
        uncleared.length === 0
          ? 'The floors are cleared. Save the sheet, then hand them over.'
          : `Flooring goes down only after ${uncleared.some(needsTest) ? 'the floor passes a moisture test' : 'the data sheet’s hours are over'}.`,
    };
  if (isStale)
    return {
      text: `Revision ${revision} is out of date`,
      why: 'The earlier revision stays on record. The next one lists what changed.',
    };
  if (rooms.some(({ jobRoom }) => jobRoom.handedOverAt === null))
    return {
      text: `Revision ${revision} is ready to hand over`,
      why:
        state.outOfDate.length > 0
          ? `Out of date: ${listed(state.outOfDate.map(lowerFirst))}. Save what you hand over again.`
          : walkWords(state, zone, locale),
    };
  const open = rooms.find(({ room }) => room.id === roomId);
  const handedOverAt = open?.jobRoom.handedOverAt ?? null;
  if (open === undefined || handedOverAt === null)
    return { text: 'This floor is not fully placed yet', why: 'The floors that are placed are handed over.' };
  const text = `Handed over ${formatInstantDay(handedOverAt, zone, 'long', locale)}`;
  if (open.rest !== null) return { text, why: `Part of this floor still waits for ${coverWait(open) ?? ''}.` };
  const waits = needsTest(open) ? 'it passes its moisture test' : 'the data sheet’s hours are over';
  return { text, why: isCuring ? `Still curing until ${waits}.` : (state.moneyLeft ?? 'Nothing left to do.') };
}

/** How to hand over: not on floor that is still closed to foot traffic. */
function walkWords({ rooms, now }: Pick<HandoverState, 'rooms' | 'now'>, zone: string, locale: string): string {
  const closed = rooms
    .flatMap(({ schedule }) => schedule.milestones.flatMap((m) => (m.kind === 'walk-on' && (m.statedAt ?? '9') > now ? [m.statedAt] : [])))
    .toSorted((a, b) => (a ?? '9').localeCompare(b ?? '9'));
  const opensAt = closed.at(-1);
  if (opensAt === undefined) return 'Walk the floors together, have the sheet signed, and leave a copy.';
  const from =
    opensAt === null
      ? 'once all of them are'
      : `from ${statedDateWords('walk-on', opensAt, { zone }, 'weekday', locale)}, when all of them are`;
  return `Walk the floors together ${from} open to foot traffic. Then have the sheet signed, and leave a copy.`;
}
