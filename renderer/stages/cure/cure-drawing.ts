/** The schedule of a job's curing rooms as marks on a scale of days. */
import { dayNumberAt, dayOfNumber } from '../../../shared-core/agenda/local-days.ts';
import type { CureSchedule } from '../../../shared-core/cure/cure-schedule.ts';
import { cureRoomMarks, cureRowYs, cureVerdict } from '../../../shared-core/drawing/cure-schedule.ts';
import { datumMarks, dayTicks, type Scale, weekendSpans } from '../../../shared-core/drawing/datum.ts';
import { lineMark, textMark } from '../../../shared-core/drawing/ink.ts';
import type { Drawing, Mark } from '../../../shared-core/drawing/marks.ts';
import { SANS_BOLD, SERIF_ITALIC } from '../../../shared-core/drawing/type-metrics.ts';
import { formatTemperature } from '../../../shared-core/measure/temperature.ts';
import type { UnitSystem } from '../../../shared-core/measure/unit-system.ts';

export type CuringRoom = {
  readonly id: string;
  readonly name: string;
  readonly under: string;
  readonly schedule: CureSchedule;
  readonly readings: readonly { readonly at: string; readonly tempC: number }[];
  readonly assumedC: number;
};

export type CureDrawingInput = {
  readonly rooms: readonly CuringRoom[];
  readonly now: string;
  readonly zone: string;
  readonly locale: string;
  readonly units: UnitSystem;
  readonly widthPx: number;
  readonly isNarrow: boolean;
  /** When a milestone is written at the left: earliest, likely, latest, promised. */
  readonly words: (room: CuringRoom, key: string) => readonly [string, string, string, string];
  readonly sentence: (room: CuringRoom) => { readonly verdict: string; readonly rest: string; readonly isLate: boolean };
};

const ROW_PX = 23;
const DATUM_Y = 34;
/** More points than this say nothing more to the eye. */
const MOST_LOG_POINTS = 240;

/** The columns of words at the left, from the sheet's edge. */
const COLUMNS = { name: 36, milestone: 166, earliest: 262, likely: 350, latest: 438, promised: 526 } as const;

/** Rooms one under the other, words left, schedule right, one scale for all. */
export function cureDrawing(input: CureDrawingInput): Drawing {
  const { rooms, zone, widthPx, isNarrow } = input;
  const day = (at: string): number => dayNumberAt(at, zone);
  const now = day(input.now);
  const known = rooms
    .flatMap((r) => [r.schedule.placedAt, ...r.schedule.milestones.flatMap((m) => [m.latestAt ?? m.likelyAt ?? r.schedule.placedAt])])
    .map(day);
  const first = Math.floor(Math.min(now, ...known)) - 1;
  const days = Math.max(7, Math.ceil(Math.max(now, ...known)) + 2 - first);
  const scale: Scale = { from: 0, to: days, x0: isNarrow ? 18 : 640, x1: widthPx - (isNarrow ? 18 : 44), isLog: false };
  const marks: Mark[] = [];
  let y = DATUM_Y + 26;
  rooms.forEach((room, i) => {
    if (i > 0) marks.push(lineMark([isNarrow ? 18 : COLUMNS.name, y - 12, widthPx - 36, y - 12], { pen: 'witness', ink: 'line' }));
    const { schedule } = room;
    if (isNarrow) {
      marks.push(textMark(18, y + 10, room.name, { face: SANS_BOLD, sizePx: 16 }));
      y += 22;
    }
    const step = Math.max(1, Math.ceil(room.readings.length / MOST_LOG_POINTS));
    const at = { topY: y, rowPx: ROW_PX, scale, now: now - first };
    const drawn = {
      id: room.id,
      pouredAt: day(schedule.placedAt) - first,
      milestones: schedule.milestones.map((m) => {
        const likely = m.likelyAt === null ? days : day(m.likelyAt) - first;
        const verdict = schedule.verdicts.find((v) => v.promise.milestone === m.kind && v.promise.covering === m.covering);
        return {
          id: m.key,
          earliest: m.earliestAt === null ? likely : day(m.earliestAt) - first,
          likely,
          latest: m.latestAt === null ? days : day(m.latestAt) - first,
          promised: schedule.verdicts
            .filter((v) => v.promise.milestone === m.kind && v.promise.covering === m.covering)
            .map((v) => day(v.promise.promisedFor) - first),
          isDone: m.by === 'strength' && m.latestAt !== null && m.latestAt <= input.now,
          isLate: verdict?.state === 'late',
          isDrying: m.by === 'drying',
          label: `${room.name}: ${m.name}`,
        };
      }),
      log: {
        readings: room.readings.filter((_, k) => k % step === 0).map((r) => ({ at: day(r.at) - first, tempC: r.tempC })),
        assumedC: room.assumedC,
        assumedTo: Math.max(now - first + 2, ...schedule.milestones.map((m) => (m.likelyAt === null ? 0 : day(m.likelyAt) - first))),
        assumedText: `${formatTemperature(room.assumedC, input.units, input.locale)} assumed`,
        leastC: schedule.leastCureTempC,
        leastText: formatTemperature(schedule.leastCureTempC, input.units, input.locale),
        stoodStill: schedule.log.stoodStill.map((s) => ({
          from: day(new Date(s.fromMs).toISOString()) - first,
          to: day(new Date(s.toMs).toISOString()) - first,
        })),
      },
    };
    marks.push(...cureRoomMarks(drawn, at));
    const ys = cureRowYs(drawn, at);
    if (!isNarrow) {
      marks.push(textMark(COLUMNS.name, y + 14, room.name, { face: SANS_BOLD, sizePx: 16 }));
      room.under
        .split('\n')
        .forEach((line, k) => marks.push(textMark(COLUMNS.name, y + 36 + k * 20, line, { face: SERIF_ITALIC, sizePx: 15, ink: 'ink2' })));
      schedule.milestones.forEach((m, k) => {
        const baseline = (ys.milestones[k] ?? y) + 5;
        const [earliest, likely, latest, promised] = input.words(room, m.key);
        const verdict = schedule.verdicts.find((v) => v.promise.milestone === m.kind && v.promise.covering === m.covering);
        marks.push(
          textMark(COLUMNS.milestone, baseline, m.name, { sizePx: 15 }),
          textMark(COLUMNS.earliest, baseline, earliest, { sizePx: 15 }),
          textMark(COLUMNS.likely, baseline, likely, { face: SANS_BOLD, sizePx: 15 }),
          textMark(COLUMNS.latest, baseline, latest, { sizePx: 15 }),
          textMark(
            COLUMNS.promised,
            baseline,
            promised,
            verdict?.state === 'late' ? { face: SANS_BOLD, sizePx: 15, ink: 'chalk' } : { sizePx: 15 },
          ),
        );
      });
    }
    const said = input.sentence(room);
    const sentenceY = ys.bottom + 14;
    marks.push(...cureVerdict(isNarrow ? 18 : COLUMNS.milestone, sentenceY, said.verdict, said.rest, said.isLate));
    y = sentenceY + 34;
  });
  const height = y + 6;
  const nowX = scale.x0 + ((now - first) / days) * (scale.x1 - scale.x0);
  marks.unshift(lineMark([nowX, DATUM_Y, nowX, height - 20], { pen: 'thin', ink: 'ink2' }));
  if (!isNarrow) {
    for (const [x, caption] of [
      [COLUMNS.earliest, 'earliest'],
      [COLUMNS.likely, 'likely'],
      [COLUMNS.latest, 'latest'],
      [COLUMNS.promised, 'promised'],
    ] as const)
      marks.push(textMark(x, DATUM_Y - 10, caption, { face: SERIF_ITALIC, sizePx: 15, ink: 'ink2' }));
  }
  marks.push(
    ...datumMarks({
      y: DATUM_Y,
      fromX: 0,
      toX: widthPx,
      scale,
      ticks: dayTicks(dayOfNumber(first), days, input.locale),
      hatched: weekendSpans(dayOfNumber(first), days),
      pointerAt: now - first,
    }),
  );
  return { width: widthPx, height, marks };
}
