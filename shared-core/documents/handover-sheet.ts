/** The handover sheet: what was poured where, when to walk, when to cover, how to care for it. */
import type { Visit } from '../book/cure-record.ts';
import { listed } from '../standing/names.ts';
import type { JobReading } from '../standing/read-job.ts';
import { limitText, valueText } from '../cure/clearance-tests.ts';
import { textWidthPx } from '../drawing/type-metrics.ts';
import { formatDayRange } from '../measure/day.ts';
import { formatDuration } from '../measure/duration.ts';
import { formatDepth, formatLength } from '../measure/length-format.ts';
import { dayOfInstant, formatInstant, formatInstantDay } from '../measure/moment.ts';
import { formatNumber } from '../measure/number.ts';
import { CAUTIONS } from '../substrate/cautions.ts';
import { bareCare, byDate, whileItDries } from './handover-care.ts';
import { daysInWords, handoverDays, handoverPlan, type HandoverPlace } from './handover-picture.ts';
import { type HandoverRoom, handoverRooms } from './handover-rooms.ts';
import { type PaperPhoto, photosBlock, pouredPhotos } from './paper-photos.ts';
import { onLetterhead } from './letterhead.ts';
import type { Block, DocumentTree, Run } from './tree.ts';
import type { ToleranceVerdict } from '../survey/tolerances.ts';

/** From margin to margin, and from end to end of the frame's lines. */
const MEASURE_PX = 696;
const OVER_PX = 38;
/** The plan is as tall as what else stands on the first page lets it be. */
const PLAN_PX = { most: 296, least: 120, perRoom: 58, perLine: 20, perChange: 4, changes: 50, a4: 50 } as const;
/** Changes told in words on the first page; the tables say the rest. */
const MOST_CHANGES = 4;

/** Tables whose cells are compared from sheet to sheet. */
export const USED_CAPTION = 'When each floor may be used';
export const TESTED_CAPTION = 'Tests before covering';
export const POURED_CAPTION = 'What was poured';

const cell = (text: string): Run[] => [{ text }];
const heading = (level: 1 | 2, text: string): Block => ({ kind: 'heading', level, text });
const paragraph = (text: string): Block => ({ kind: 'paragraph', runs: cell(text) });
const list = (items: readonly string[]): Block => ({ kind: 'list', marker: 'none', items: items.map(cell) });

export type HandoverChoice = {
  readonly now: string;
  readonly revision: number;
  readonly changes: readonly string[];
  /** The job's photos; those of the poured floors since their pours began stand on the sheet. */
  readonly photos?: readonly PaperPhoto[];
};

const NOT_RELEASED = 'not yet released for covering';

/** Days from the earliest to the latest, short also across a new year. */
function coverDays(at: HandoverRoom, { zone, locale }: HandoverPlace): string {
  const { cover } = at.schedule;
  if (cover === null) return '';
  if (cover.earliestAt === null || cover.latestAt === null) return cover.likelyAt === null ? 'too cold to say' : 'not yet known';
  const [from, to] = [dayOfInstant(cover.earliestAt, zone), dayOfInstant(cover.latestAt, zone)];
  if (from.slice(0, 4) === to.slice(0, 4)) return formatDayRange(from, to, locale);
  const short = (instant: string): string => formatInstantDay(instant, zone, 'short', locale);
  return `${short(cover.earliestAt)} to ${short(cover.latestAt)}`;
}

/** Covering, depth, walking, furniture and covering by room. */
function usedTable(rooms: readonly HandoverRoom[], place: HandoverPlace): Block {
  const { zone, locale, units } = place;
  const likely = (at: HandoverRoom, kind: string): string | null => at.schedule.milestones.find((m) => m.kind === kind)?.likelyAt ?? null;
  const day = (instant: string | null | undefined): string =>
    instant == null ? 'not yet known' : formatInstantDay(instant, zone, 'short', locale);
  const hour = (instant: string | null): string => (instant === null ? 'not yet known' : formatInstant(instant, zone, 'short', locale));
  return {
    kind: 'table',
    caption: USED_CAPTION,
    columns: [
      { title: 'Room', align: 'start', share: 0.135 },
      { title: 'Flooring', align: 'start', share: 0.13 },
      { title: 'Depth', align: 'end', share: 0.08 },
      { title: 'Walk on from', align: 'start', share: 0.175 },
      { title: 'Furniture', align: 'start', share: 0.175 },
      { title: 'Cover between', align: 'start', share: null },
      { title: 'Likely', align: 'start', share: 0.1 },
    ],
    rows: rooms.map((at) => {
      const { room, schedule, depth } = at;
      const { cover } = schedule;
      return {
        cells: [
          cell(room.name),
          cell(cover?.name ?? 'none chosen'),
          cell(depth === null ? '' : formatDepth(depth.meanM, units, locale)),
          cell(hour(likely(at, 'walk-on'))),
          cell(hour(likely(at, 'furniture'))),
          cell(coverDays(at, place)),
          [{ text: cover === null ? '' : day(cover.likelyAt), bold: true }],
        ],
      };
    }),
    pointedColumn: null,
    pointedNote: '',
  };
}

const METHOD_WORDS: Readonly<Record<string, string>> = {
  'slab-humidity': 'In-slab RH, ASTM F2170',
  'vapor-emission': 'Calcium chloride, ASTM F1869',
  meter: 'Moisture meter, ASTM F2659',
  'wood-moisture': 'Wood moisture content',
  'humidity-hood': 'Surface humidity hood, 72 hours minimum',
  carbide: 'Carbide method, full depth',
  'manufacturer-method': 'Test named on the sealer data sheet',
};

/** The test each covering waits for, its limit, its source, and what came of it. */
function testedTable(rooms: readonly HandoverRoom[], { zone, locale }: HandoverPlace): Block | null {
  const covered = rooms.filter((at) => at.schedule.clearance?.requirement.byHours === false);
  if (covered.length === 0) return null;
  return {
    kind: 'table',
    caption: TESTED_CAPTION,
    columns: [
      { title: 'Room', align: 'start', share: 0.15 },
      { title: 'Test', align: 'start', share: 0.25 },
      { title: 'At most', align: 'start', share: null },
      { title: 'Result', align: 'start', share: 0.31 },
    ],
    rows: covered.map(({ room, schedule }) => {
      const { clearance } = schedule;
      const test = clearance?.test ?? null;
      const methods = clearance?.requirement.methods ?? [];
      const method = methods.find((m) => m.method === test?.method) ?? methods[0];
      const result =
        test === null
          ? NOT_RELEASED
          : `${valueText(test)}, ${test.by}, ${formatInstantDay(test.takenAt, zone, 'short', locale)}: ${clearance?.cleared === true ? 'released' : NOT_RELEASED}`;
      return {
        cells: [
          cell(room.name),
          cell(method === undefined ? '' : (METHOD_WORDS[method.method] ?? '')),
          cell(method === undefined ? '' : `${limitText(method)} (${method.source})`),
          [{ text: result, bold: clearance?.cleared !== true }],
        ],
      };
    }),
    pointedColumn: null,
    pointedNote: '',
  };
}

/** Which published limits for its covering the floor meets, and which it does not. */
function limitWords(limits: readonly ToleranceVerdict[]): string {
  const names = (meets: boolean): string =>
    limits
      .filter((verdict) => verdict.meets === meets)
      .map(({ rule }) =>
        rule.sourceStatus === 'stated by the covering’s maker'
          ? `the covering maker’s own figure, ${rule.limits.map((limit) => limit.said).join(', ')}, from ${rule.source}`
          : rule.name.charAt(0).toLowerCase() + rule.name.slice(1),
      )
      .join('; ');
  const [met, missed] = [names(true), names(false)];
  return `${met === '' ? '' : `. Within the limit for: ${met}`}${missed === '' ? '' : `. Past the limit for: ${missed}`}`;
}

/** Flatness in words: the gap under the straightedge, before and after where both were read. */
function flatWords({ flatness }: HandoverRoom, { units, locale }: HandoverPlace): string {
  const { before, after, limits } = flatness;
  const gap = (found: { readonly gapM: number }): string => formatDepth(found.gapM, units, locale);
  const span = (found: { readonly spanM: number }): string => formatLength(found.spanM, units, locale);
  if (after !== null) return `${gap(after)} under ${span(after)}${before === null ? '' : ` (${gap(before)} before)`}${limitWords(limits)}`;
  return before === null ? 'not read' : `${gap(before)} under ${span(before)} before; not read after`;
}

/** What went into each floor. */
function pouredTable(rooms: readonly HandoverRoom[], place: HandoverPlace): Block {
  const { zone, locale, units } = place;
  return {
    kind: 'table',
    caption: POURED_CAPTION,
    columns: [
      { title: 'Room', align: 'start', share: 0.135 },
      { title: 'Poured', align: 'start', share: 0.08 },
      { title: 'Material', align: 'start', share: 0.22 },
      { title: 'Bags, lots', align: 'start', share: 0.195 },
      { title: 'Deepest', align: 'end', share: 0.085 },
      { title: 'Out of flat', align: 'start', share: null },
    ],
    rows: rooms.map((at) => {
      const { room, schedule, material, bags, lots, lifts, depth, pour } = at;
      const counted = `${formatNumber(bags, { most: 1 }, locale)} ${bags === 1 ? 'bag' : 'bags'}`;
      return {
        cells: [
          cell(room.name),
          cell(formatInstantDay(schedule.placedAt, zone, 'short', locale)),
          cell(`${material?.name ?? 'no longer in the book'}${lifts > 1 ? `, ${lifts} lifts` : ''}`),
          cell(`${counted}${lots.length === 0 ? ', lot not noted' : `, ${lots.join(', ')}`}${pour.fromPaper ? ' (times from paper)' : ''}`),
          cell(depth === null ? '' : formatDepth(depth.deepestM, units, locale)),
          cell(flatWords(at, place)),
        ],
      };
    }),
    pointedColumn: null,
    pointedNote: '',
  };
}

/** The page that answers when: plan, days, table, the two things to mind, signatures. */
function firstPage(reading: JobReading, rooms: readonly HandoverRoom[], place: HandoverPlace, changes: readonly string[]): Block[] {
  const { customer, property } = reading.whole;
  const told =
    changes.length > MOST_CHANGES
      ? [...changes.slice(0, MOST_CHANGES - 1), `${changes.length - MOST_CHANGES + 1} more changes stand in the tables.`]
      : changes;
  const lines = told.reduce((sum, words) => sum + Math.ceil(textWidthPx(words, 15) / (MEASURE_PX - 20)), 0);
  const changesPx = told.length === 0 ? 0 : PLAN_PX.changes + told.length * PLAN_PX.perChange + lines * PLAN_PX.perLine;
  const paperPx = reading.whole.business.paper === 'a4' ? PLAN_PX.a4 : 0;
  const planPx = Math.max(PLAN_PX.least, PLAN_PX.most + paperPx - Math.max(0, rooms.length - 3) * PLAN_PX.perRoom - changesPx);
  const plan = handoverPlan(rooms, place, MEASURE_PX, planPx);
  const days = handoverDays(rooms, place, { widthPx: MEASURE_PX + 2 * OVER_PX, insetPx: OVER_PX, hasKey: true, isNarrow: false });
  return [
    heading(1, 'Your new floors: when to walk, when to cover'),
    paragraph([customer.name, property.address.line, property.address.city].filter((p) => p !== '').join(', ')),
    ...(told.length === 0 ? [] : [heading(2, 'Changed since the sheet before'), list(told)]),
    ...(plan.marks.length === 0
      ? []
      : [
          {
            kind: 'drawing' as const,
            drawing: plan,
            alt: `Plan of the rooms poured: ${rooms.map((at) => `${at.room.name}, ${daysInWords(at, place)}`).join('; ')}`,
            caption: '',
            gives: true,
          },
        ]),
    ...(days === null
      ? []
      : [
          {
            kind: 'drawing' as const,
            drawing: days,
            alt: `Days from pour to covering. ${rooms.map((at) => `${at.room.name}: ${daysInWords(at, place)}`).join('; ')}`,
            caption: '',
            wide: true,
          },
        ]),
    usedTable(rooms, place),
    {
      kind: 'columns',
      shares: [1, 1],
      columns: [
        [
          heading(2, 'Before anything is laid'),
          paragraph(
            'These dates are what we expect, not a promise of dryness. Plan on the day in bold, no sooner. Have each floor tested on that day; the covering’s own limit decides.',
          ),
        ],
        [heading(2, 'While it dries'), paragraph(whileItDries(rooms, place))],
      ],
    },
    {
      kind: 'fields',
      fields: [
        { label: 'Handed over by', share: 0.382 },
        { label: 'Received by', share: 0.382 },
        { label: 'Date', share: 0.236 },
      ],
    },
  ];
}

/** What may be done from each day, and what not before it. */
function datedTable(rooms: readonly HandoverRoom[], visits: readonly Visit[], place: HandoverPlace): Block[] {
  const dates = byDate(rooms, visits, place);
  if (dates.length === 0) return [];
  const caption = 'Do and don’t, by date';
  return [
    heading(2, caption),
    {
      kind: 'table',
      caption,
      columns: [
        { title: 'From', align: 'start', share: 0.21 },
        { title: 'Where', align: 'start', share: 0.16 },
        { title: 'Do', align: 'start', share: 0.32 },
        { title: 'Before then', align: 'start', share: null },
      ],
      rows: dates.map((d) => ({ cells: [cell(d.when), cell(d.where), cell(d.what), cell(d.spared)] })),
      pointedColumn: null,
      pointedNote: '',
    },
  ];
}

/** The page that says the rest. */
function secondPage(reading: JobReading, rooms: readonly HandoverRoom[], place: HandoverPlace): Block[] {
  const { whole } = reading;
  const { business } = whole;
  const tested = testedTable(rooms, place);
  const care = bareCare(rooms);
  const seams = rooms.flatMap((at) =>
    at.seams.map(
      (seam) =>
        `${seam.letter} on the plan, ${at.room.name}, beside batch ${seam.besideBatch}: open ${formatDuration(Math.round(seam.openMin) * 60, place.locale)}, longer than its material blends. Look along it for a ridge or a hair crack before covering.`,
    ),
  );
  const call = [business.ownerName, business.phone, business.email].filter((p) => p !== '');
  const minded = [
    heading(2, 'Please mind'),
    paragraph(
      `${CAUTIONS.slips.says} Grinding or sanding this floor later raises stone dust that scars lungs: leave it to people with a shroud and a vacuum made for it. Neither this sheet nor its dates approve a structure; local codes and the data sheets come first.`,
    ),
    paragraph(
      `Questions, or a crack, a hollow sound, a damp patch: ${call.length === 0 ? 'call us' : `call ${listed([call.join(', ')])}`}.`,
    ),
  ];
  return [
    ...datedTable(rooms, whole.visits, place),
    ...(tested === null ? [] : [heading(2, 'The test each covering waits for'), tested]),
    heading(2, 'What was poured'),
    pouredTable(rooms, place),
    ...(seams.length === 0 ? [] : [heading(2, 'Seams to watch'), list(seams)]),
    ...(care === null
      ? minded
      : [{ kind: 'columns' as const, shares: [1, 1], columns: [[heading(2, 'Care of a bare floor'), paragraph(care)], minded] }]),
  ];
}

/** When it is handed over: as recorded, else as planned; else the day whose dates it tells. */
function handedOver(rooms: readonly HandoverRoom[], reading: JobReading, { now, zone, locale }: HandoverPlace): string {
  const days = rooms.flatMap((at) => (at.jobRoom.handedOverAt === null ? [] : [at.jobRoom.handedOverAt])).sort();
  const last = days.length === rooms.length ? days.at(-1) : undefined;
  if (last !== undefined) return `Handed over ${formatInstantDay(last, zone, 'full', locale)}`;
  const planned = reading.whole.job.handoverAt;
  const isAhead = planned !== null && dayOfInstant(planned, zone) > dayOfInstant(now, zone);
  return isAhead
    ? `To be handed over ${formatInstantDay(planned, zone, 'full', locale)}`
    : `As of ${formatInstantDay(now, zone, 'full', locale)}`;
}

/** The floors as they were poured. */
function photoBlocks(rooms: readonly HandoverRoom[], photos: readonly PaperPhoto[], place: HandoverPlace): Block[] {
  const begunAt = new Map(rooms.map(({ room, pour }) => [room.id, pour.startedAt ?? pour.createdAt]));
  const shown = pouredPhotos(photos, begunAt);
  if (shown.length === 0) return [];
  const nameOf = (id: string | null): string => rooms.find(({ room }) => room.id === id)?.room.name ?? '';
  return [heading(2, 'Photos'), photosBlock(shown, place, (photo) => nameOf(photo.roomId))];
}

/** The sheet for every poured room of the job. Without a poured room it says so and nothing else. */
export function handoverSheet(reading: JobReading, { now, revision, changes, photos = [] }: HandoverChoice): DocumentTree {
  const { business, property, job } = reading.whole;
  const { units, locale } = business;
  const rooms = handoverRooms(reading);
  const place: HandoverPlace = { now, zone: property.timeZone, locale, units };
  return onLetterhead(business, {
    title: `Handover ${job.number}, sheet ${revision}`,
    subject: `Walk-on and covering dates at ${property.address.line}`,
    madeAt: now,
    right: [handedOver(rooms, reading, place), `Job ${job.number}, sheet ${revision}, page {page} of {pages}`],
    blocks:
      rooms.length === 0
        ? [heading(1, 'Nothing is poured yet'), paragraph('This sheet is made once a pour is finished.')]
        : [
            { kind: 'cover' as const, blocks: firstPage(reading, rooms, place, changes) },
            ...secondPage(reading, rooms, place),
            ...photoBlocks(rooms, photos, place),
          ],
  });
}
