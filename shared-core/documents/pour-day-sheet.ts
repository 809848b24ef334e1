/** The pour-day sheet: one page to tape to the wall, with the lanes in large type, who does what, the recipe, the clocks, when to stop. */
import { capital, listed } from '../standing/names.ts';
import { liftWords, type PourReading } from '../standing/read-pour.ts';
import type { Crew } from '../book/job.ts';
import type { WholeJob } from '../book/whole-job.ts';
import { planDrawing } from '../drawing/plan.ts';
import { pourOnPlan } from '../drawing/pour-plan.ts';
import { formatDuration } from '../measure/duration.ts';
import { formatLength } from '../measure/length-format.ts';
import { formatInstant } from '../measure/moment.ts';
import { formatNumber } from '../measure/number.ts';
import type { Parsed } from '../measure/parsed.ts';
import { formatTemperature } from '../measure/temperature.ts';
import { namesAt, type StationName } from '../pour/crew-names.ts';
import type { PourLayout } from '../pour/layout.ts';
import { BAGS_A_STACK, recipeOf, stagingOf, stopRules } from '../pour/staging.ts';
import { CAUTIONS } from '../substrate/cautions.ts';
import type { Block, DocumentTree } from './tree.ts';
import { onLetterhead } from './letterhead.ts';

/** The plan's place on the page: wide beside the clocks, shallower when rooms share it. */
const PLAN_PX = { width: 430, height: 320 } as const;
const SHARED_PLAN_PX = { width: 430, height: 164 } as const;
const SHALLOW_PLAN_PX = { width: 430, height: 200 } as const;
/** More names on site than stand in the column beside the plan. */
const CROWD = 6;
/** Rooms drawn on the one page; more are named in the table of lanes. */
const MOST_PLANS = 2;
/** Strips told one by one; more follow in the same order. */
const MOST_LANES = 8;

const heading = (level: 1 | 2, text: string): Block => ({ kind: 'heading', level, text });
const paragraph = (text: string): Block => ({ kind: 'paragraph', runs: [{ text }] });
const list = (items: readonly string[]): Block => ({ kind: 'list', marker: 'none', items: items.map((text) => [{ text }]) });

/** What the sheet is made from. */
export type PourDay = {
  readonly whole: WholeJob;
  readonly read: PourReading;
  /** Likely minutes of the pour; null before it was run through. */
  readonly likelyMin: number | null;
  readonly madeAt: string;
};

/** Who stands where, a line each. */
export function stationsOf(crew: Crew, crewNames: readonly string[], locale: string): string[] {
  const people = (n: number, at: StationName) => {
    const names = namesAt(crew, crewNames, at);
    const more = n - names.length;
    if (names.length === 0) return formatNumber(n, { most: 0 }, locale);
    return listed(more > 0 ? [...names, `${formatNumber(more, { most: 0 }, locale)} more`] : [...names]);
  };
  const count = (n: number) => formatNumber(n, { most: 0 }, locale);
  const bags = formatNumber(crew.bagsPerBatch, { most: 2 }, locale);
  const lines = [
    `Mixing: ${people(crew.mixers, 'mixing')}, ${bags} ${crew.bagsPerBatch === 1 ? 'bag' : 'bags'} a batch. Call out when water meets powder.`,
  ];
  if (crew.carry === 'cart')
    lines.push(
      crew.carriers === 0
        ? `Cart: ${count(crew.cartBatches)} batches a load, pushed by who spreads.`
        : `Cart: ${people(crew.carriers, 'carrying')}, ${count(crew.cartBatches)} batches a load.`,
    );
  else lines.push(`Carrying: ${people(crew.carriers, 'carrying')}, by hand.`);
  lines.push(`Spreading: ${people(crew.spreaders, 'spreading')}, backward toward the way out. Call out each batch as it lands.`);
  const loose = crewNames.filter((name) => crew.stations?.some((s) => s.name === name) !== true);
  if (loose.length > 0) lines.push(`${loose.length < crewNames.length ? 'No station yet' : 'On site'}: ${listed(loose)}.`);
  return lines;
}

function planBlocks(day: PourDay, layout: PourLayout, isShallow: boolean): Block[] {
  const { rooms } = day.read;
  const { units, locale } = day.whole.business;
  const size = rooms.length > 1 ? SHARED_PLAN_PX : isShallow ? SHALLOW_PLAN_PX : PLAN_PX;
  return rooms.slice(0, MOST_PLANS).map(({ room }): Block => {
    const drawing = planDrawing({
      plan: room.plan,
      widthPx: size.width,
      heightPx: size.height,
      shows: 'lanes',
      lengthText: (lengthM) => formatLength(lengthM, units, locale),
      pour: { ...pourOnPlan(layout, room.id, null, false), letteringPx: rooms.length === 1 ? 20 : 15 },
      hasDimensions: false,
      openingWords: (opening) => (opening.isWayOut ? ['way out'] : []),
      marginPx: { left: 18, top: 20, right: 70, bottom: 34 },
    });
    const lanes = layout.lanes.filter((s) => s.roomId === room.id);
    const mine = new Set(lanes.map((s) => s.number));
    const batches = layout.batches.filter((b) => b.pieces.some((piece) => mine.has(piece.lane)));
    return {
      kind: 'drawing',
      drawing: { width: drawing.width, height: drawing.height, marks: drawing.marks },
      alt: `${room.name}: ${lanes.length} lanes, batches ${batches[0]?.number ?? 1} to ${batches.at(-1)?.number ?? 1} numbered where they land`,
      caption: rooms.length === 1 ? 'Batches by number, in the order they land.' : `${room.name}: batches by number.`,
    };
  });
}

/** Which batches go into which strip, in one paragraph: `Lane 1: batches 1 to 6, 5.2 bags.` */
function laneWords(layout: PourLayout, read: PourReading, locale: string): string {
  const said = layout.lanes.slice(0, MOST_LANES).map((lane) => {
    const batches = layout.batches.filter((b) => b.pieces.some((piece) => piece.lane === lane.number));
    const first = batches[0]?.number ?? 0;
    const last = batches.at(-1)?.number ?? first;
    const count = lane.volumeM3 / read.bagYieldM3;
    const bags = `${count < 0.05 ? 'under ' : ''}${formatNumber(Math.max(0.1, count), { least: 1, most: 1 }, locale)}`;
    return `Lane\u00a0${lane.number}: ${first === last ? `batch\u00a0${first}` : `batches\u00a0${first} to\u00a0${last}`}, ${bags}\u00a0bags.`;
  });
  const more = layout.lanes.length - said.length;
  return [...said, ...(more > 0 ? [`${more} more ${more === 1 ? 'lane follows' : 'lanes follow'} in the same order.`] : [])].join(' ');
}

/** Doorways of the go that have no dam: a wet edge runs through. */
function throughWords(read: PourReading): string[] {
  const nameOf = (id: string) => read.rooms.find(({ room }) => room.id === id)?.room.name.toLowerCase();
  const pairs = (read.first.openDoorways ?? []).flatMap((d) => {
    const [a, b] = [nameOf(d.roomId), nameOf(d.toRoomId)];
    return a === undefined || b === undefined ? [] : [`${a} to ${b}`];
  });
  return pairs.length === 0 ? [] : [`No dam, poured through: ${pairs.join('; ')}.`];
}

/** What stands ready, as short as a wall wants it; the screen says more about each. */
function readyLines(read: PourReading, layout: PourLayout, locale: string): string[] {
  const n = (value: number) => formatNumber(value, { most: 0 }, locale);
  const { crew } = read.first;
  const one = (count: number, word: string, words: string) => `${n(count)} ${count === 1 ? word : words}`;
  const counts = new Map(
    stagingOf(layout, crew, read.material.powder, { units: 'metric', bagsOnSite: read.bagsNeeded }).map((item) => [
      item.key,
      item.count ?? 0,
    ]),
  );
  const stacks = Math.ceil(read.bagsNeeded / BAGS_A_STACK);
  return [
    `${one(read.bagsNeeded, 'bag', 'bags')} in ${one(stacks, 'stack', 'stacks')}, counted`,
    `${one(counts.get('water') ?? 0, 'bucket', 'buckets')} of measured water ahead, ${n(layout.batches.length)} in all`,
    `${one(counts.get('wash') ?? 0, 'bucket', 'buckets')} to wash out in`,
    `${one(counts.get('power') ?? 0, 'drill', 'drills')}, each behind residual-current (GFCI) protection`,
    ...(crew.carry === 'cart' ? [`Cart’s outlet tried; ${one(counts.get('cart') ?? 0, 'trip', 'trips')}`] : []),
    'Spiked shoes, gauge rake, smoother, dam to set',
    'Way out clear',
  ];
}

/** The sheet for the wall; a message when the pour cannot be laid out. */
export function pourDaySheet(day: PourDay): Parsed<DocumentTree> {
  const { whole, read } = day;
  if (!read.layout.ok) return read.layout;
  const layout = read.layout.value;
  const { business, property, job } = whole;
  const { units, locale } = business;
  const minutes = (min: number) => formatDuration(Math.round(min) * 60, locale);
  const { first, clocks, rooms } = read;
  const names = rooms.map((r) => r.room.name).join(', ');
  const pourAt = rooms[0]?.jobRoom.pourAt ?? null;
  const { powder } = read.material;
  const recipe = recipeOf(first.crew, powder, { units, locale });
  const bags = `${formatNumber(read.bagsNeeded, { most: 0 }, locale)} ${read.bagsNeeded === 1 ? 'bag' : 'bags'}`;
  const batches = `${formatNumber(layout.batches.length, { most: 0 }, locale)} ${layout.batches.length === 1 ? 'batch' : 'batches'}`;
  const lift = liftWords(read.lift);
  const likely = day.likelyMin === null ? '' : `, likely ${minutes(day.likelyMin)}`;
  // Many names need the whole width, and the plan gives up its height to them.
  const isCrowd = job.crewNames.length > CROWD;
  const stations = [heading(2, 'Who stands where'), list(stationsOf(first.crew, job.crewNames, locale))];
  const blocks: Block[] = [
    heading(1, `${names}: ${bags}, ${batches}`),
    paragraph(
      `${pourAt === null ? 'No day is set' : formatInstant(pourAt, property.timeZone, 'weekday', locale)}${likely}. ${lift === '' ? '' : `${capital(lift)}. `}${read.material.name}.`,
    ),
    {
      kind: 'columns',
      shares: [1.6, 1],
      columns: [
        planBlocks(day, layout, isCrowd),
        [
          { kind: 'figure', label: 'Edge open', figure: minutes(clocks.healingMin) },
          { kind: 'figure', label: 'Batch old', figure: minutes(clocks.flowLifeMin) },
          paragraph(
            `At most, at ${formatTemperature(clocks.tempC, units, locale)}${clocks.healingTypical || clocks.flowLifeTypical ? ' (typical)' : ''}. A flow test on the day overrules them.`,
          ),
          ...(isCrowd ? [] : stations),
        ],
      ],
    },
    ...(isCrowd ? stations : []),
    { kind: 'paragraph', runs: [{ text: `Each batch. ${recipe.words}`, bold: true }] },
    paragraph([laneWords(layout, read, locale), ...throughWords(read)].join(' ')),
    {
      kind: 'columns',
      shares: [1, 1],
      columns: [
        [heading(2, 'Stop when'), list(stopRules(clocks, locale))],
        [heading(2, 'Stands ready'), { kind: 'list', marker: 'box', items: readyLines(read, layout, locale).map((text) => [{ text }]) }],
      ],
    },
    {
      kind: 'paragraph',
      small: true,
      runs: [{ text: `${CAUTIONS['wet-cement'].says} ${CAUTIONS.silica.says} Local codes and the data sheet come first.` }],
    },
  ];
  return {
    ok: true,
    value: onLetterhead(business, {
      title: `Pour-day sheet, job ${job.number}`,
      subject: `The pour of the ${names.toLowerCase()} at ${property.address.line}`,
      madeAt: day.madeAt,
      lines: [[property.address.line, property.address.city].filter((part) => part !== '').join(', ')].filter((line) => line !== ''),
      right: [`Pour-day sheet, job ${job.number}`, 'For the wall: take it down when the floor is done.'],
      blocks,
    }),
  };
}
