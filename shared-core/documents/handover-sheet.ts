/** The handover sheet: what was poured where, when to walk, when to cover, how to care for it. */
import { jobReadingCures } from '../agenda/job-cures.ts';
import type { JobReading } from '../agenda/read-job.ts';
import { dayNumberAt, dayOfNumber } from '../agenda/local-days.ts';
import { datumMarks, dayTicks, type Scale, scaleX, weekendSpans } from '../drawing/datum.ts';
import { houseDrawing } from '../drawing/house.ts';
import { boxMark, textMark } from '../drawing/ink.ts';
import type { Mark } from '../drawing/marks.ts';
import { dryingBar, slashedLine } from '../drawing/shapes.ts';
import { formatDepth, formatLength } from '../measure/length-format.ts';
import { formatInstant, formatInstantDay } from '../measure/moment.ts';
import { CAUTIONS } from '../substrate/cautions.ts';
import { businessLines } from './quote-sheet.ts';
import type { Block, DocumentTree, Run } from './tree.ts';

const MEASURE_PX = 696;
const cell = (text: string): Run[] => [{ text }];

export type HandoverChoice = { readonly now: string; readonly revision: number; readonly changes: readonly string[] };

/** The sheet for every poured room of the job. */
export function handoverSheet(reading: JobReading, { now, revision, changes }: HandoverChoice): DocumentTree {
  const { whole } = reading;
  const { business, client, property, job } = whole;
  const { units, locale } = business;
  const zone = property.timeZone;
  const rooms = jobReadingCures(reading);
  const day = (at: string | null): string => (at === null ? 'not yet known' : formatInstantDay(at, zone, 'short', locale));
  const rows = rooms.map(({ room, schedule, depth }) => {
    const walk = schedule.milestones.find((m) => m.kind === 'walk-on');
    const furniture = schedule.milestones.find((m) => m.kind === 'furniture');
    const { cover } = schedule;
    return {
      cells: [
        cell(room.name),
        cell(depth === null ? '' : formatDepth(depth.meanM, units)),
        cell(walk?.latestAt == null ? 'not yet known' : formatInstant(walk.latestAt, zone, 'short', locale)),
        cell(furniture === undefined ? '' : day(furniture.latestAt)),
        cell(cover === null ? 'no covering' : `${cover.name}, ${day(cover.earliestAt)} to ${day(cover.latestAt)}`),
        [{ text: cover === null ? '' : day(cover.likelyAt), bold: true }],
      ],
    };
  });
  const poured = rooms.map(({ room, schedule, pour, bags, lots }): Run[] =>
    cell(
      `${room.name}: ${bags} bags on ${formatInstantDay(schedule.placedAt, zone, 'long', locale)}${lots.length === 0 ? '' : `, lot ${lots.join(', ')}`}${pour.fromPaper ? ', times entered from paper' : ''}.`,
    ),
  );
  const tests = rooms.map(({ room, schedule }): Run[] => cell(`${room.name}: ${schedule.release?.sentence ?? 'no covering is chosen.'}`));
  const visits = whole.visits
    .filter((v) => v.doneAt === null && v.cancelledAt === null)
    .map((v): Run[] => cell(`${v.title}: ${formatInstant(v.at, zone, 'weekday', locale)}.`));
  const timeline = timelineOf(rooms, now, zone, locale);
  const house = houseDrawing({
    widthPx: MEASURE_PX,
    heightPx: 270,
    rooms: rooms.map(({ room, schedule }) => ({
      id: room.id,
      plan: room.plan,
      look: 'ours' as const,
      hatch: null,
      lines: [room.name, ...(schedule.cover?.likelyAt == null ? [] : [`${schedule.cover.name} from ${day(schedule.cover.likelyAt)}`])],
      label: room.name,
    })),
    notes: [],
    hasDimensions: true,
    lengthText: (lengthM) => formatLength(lengthM, units, locale),
    scale: null,
    key: null,
  });
  const blocks: Block[] = [
    { kind: 'heading', level: 1, text: 'Your new floors: when to walk, when to cover' },
    { kind: 'paragraph', runs: cell([client.name, property.address.line, property.address.town].filter((p) => p !== '').join(', ')) },
    ...(house.marks.length === 0
      ? []
      : [
          {
            kind: 'drawing' as const,
            drawing: { width: house.width, height: house.height, marks: house.marks },
            alt: `Plan of the rooms poured: ${rooms.map((r) => r.room.name).join(', ')}`,
            caption: '',
          },
        ]),
    ...(timeline === null ? [] : [timeline]),
    {
      kind: 'table',
      caption: 'When each floor may be used',
      columns: [
        { title: 'Room', align: 'start', share: 0.15 },
        { title: 'Depth', align: 'end', share: 0.09 },
        { title: 'Walk on from', align: 'start', share: 0.19 },
        { title: 'Furniture', align: 'start', share: 0.13 },
        { title: 'Cover between', align: 'start', share: null },
        { title: 'Likely', align: 'end', share: 0.12 },
      ],
      rows,
      pointedColumn: null,
      pointedNote: '',
    },
    ...(changes.length === 0
      ? []
      : [
          { kind: 'heading' as const, level: 2 as const, text: 'Changed since the sheet before' },
          { kind: 'list' as const, marker: 'none' as const, items: changes.map(cell) },
        ]),
    {
      kind: 'columns',
      shares: [1, 1],
      columns: [
        [
          { kind: 'heading', level: 2, text: 'Before anything is laid' },
          {
            kind: 'paragraph',
            runs: cell(
              'These dates are what we expect, not a promise of dryness. Have each floor tested on the day; the covering’s own limit decides.',
            ),
          },
          { kind: 'list', marker: 'none', items: tests },
        ],
        [
          { kind: 'heading', level: 2, text: 'While it dries' },
          {
            kind: 'paragraph',
            runs: cell(
              'Keep the rooms steadily warm and aired. No rugs, boards or tape lying flat, felt under chair legs, no wet cleaning. Floor heating comes back by steps of a few degrees a day, once the product’s sheet allows.',
            ),
          },
        ],
      ],
    },
    { kind: 'heading', level: 2, text: 'What was poured' },
    { kind: 'list', marker: 'none', items: poured },
    ...(visits.length === 0
      ? []
      : [
          { kind: 'heading' as const, level: 2 as const, text: 'We come back' },
          { kind: 'list' as const, marker: 'none' as const, items: visits },
        ]),
    { kind: 'heading', level: 2, text: 'Please mind' },
    {
      kind: 'paragraph',
      runs: cell(
        `${CAUTIONS.slips.says} Grinding or sanding this floor later raises stone dust: leave it to people with a vacuum made for it. Questions: ${[business.ownerName, business.phone].filter((p) => p !== '').join(', ')}.`,
      ),
    },
    {
      kind: 'fields',
      fields: [
        { label: 'Handed over by', share: 0.38 },
        { label: 'Received by', share: 0.38 },
        { label: 'Date', share: 0.24 },
      ],
    },
  ];
  return {
    title: `Handover ${job.number}, sheet ${revision}`,
    subject: `Walk-on and covering dates at ${property.address.line}`,
    author: business.name === '' ? business.ownerName : business.name,
    language: locale,
    paper: business.paper,
    madeAt: now,
    head: {
      name: business.name === '' ? business.ownerName : business.name,
      lines: businessLines(business),
      mark: business.mark,
      right: [`Handed over ${formatInstantDay(now, zone, 'long', locale)}`, `Job ${job.number}, sheet ${revision}, page {page} of {pages}`],
    },
    blocks,
    foot: 'Set with Straightedge',
  };
}

type Cured = ReturnType<typeof jobReadingCures>[number];

/** The dates as a small datum: each floor's drying, and when it may be covered. */
function timelineOf(rooms: readonly Cured[], now: string, zone: string, locale: string): Block | null {
  if (rooms.length === 0) return null;
  const dayAt = (at: string): number => dayNumberAt(at, zone);
  const known = rooms
    .flatMap(({ schedule }) => [schedule.placedAt, schedule.cover?.latestAt ?? schedule.cover?.likelyAt ?? schedule.placedAt])
    .map(dayAt);
  const first = Math.floor(Math.min(dayAt(now), ...known));
  const days = Math.max(7, Math.ceil(Math.max(...known, dayAt(now))) + 3 - first);
  const scale: Scale = { from: 0, to: days, x0: 150, x1: MEASURE_PX - 90, isLog: false };
  const datumY = 26;
  const marks: Mark[] = [];
  rooms.forEach(({ room, schedule }, i) => {
    const y = datumY + 30 + i * 28;
    const x = (at: string): number => scaleX(scale, dayAt(at) - first);
    const { cover } = schedule;
    const from = x(schedule.placedAt);
    marks.push(textMark(0, y + 5, room.name, { sizePx: 15 }), boxMark({ x: from, y: y - 8, width: 8, height: 16 }, { fill: 'ink' }));
    if (cover?.likelyAt == null) return;
    marks.push(...dryingBar({ x: from + 8, y: y - 8, width: Math.max(4, x(cover.likelyAt) - from - 8), height: 16 }));
    const last = cover.latestAt ?? cover.likelyAt;
    if (cover.earliestAt !== null) marks.push(...slashedLine(x(cover.earliestAt), y, x(last)));
    marks.push(textMark(x(last) + 12, y + 5, cover.name, { sizePx: 15 }));
  });
  marks.push(
    ...datumMarks({
      y: datumY,
      fromX: 0,
      toX: MEASURE_PX,
      scale,
      ticks: dayTicks(dayOfNumber(first), days, locale),
      hatched: weekendSpans(dayOfNumber(first), days),
      pointerAt: dayAt(now) - first,
    }),
  );
  return {
    kind: 'drawing',
    drawing: { width: MEASURE_PX, height: datumY + 24 + rooms.length * 28, marks },
    alt: `Days from pour to covering: ${rooms.map(({ room, schedule }) => `${room.name}, ${schedule.cover?.name ?? 'no covering'}`).join('; ')}`,
    caption: 'Dots thin out as the floor dries; between the slashes it may be covered, after a test.',
  };
}
