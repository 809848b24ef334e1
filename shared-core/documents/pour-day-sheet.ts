/**
 * The pour-day sheet. Page 1 goes on the wall and is read from across the room: three figures, the plan with its lanes, stations, when to
 * stop, who to call. Page 2 has the details.
 */
import { countWords } from '../measure/count-words.ts';
import { capital } from '../measure/first-letter.ts';
import { lowerLifts } from '../standing/lift-cover.ts';
import { listed, roomWords } from '../standing/names.ts';
import type { JobReading } from '../standing/read-job.ts';
import {
  hasFirstExit,
  hasNothingStuckIn,
  isOnJoists,
  isOverHeat,
  pourAggregateKg,
  pourMinutes,
  type PourReading,
  readPour,
} from '../standing/read-pour.ts';
import type { Crew } from '../book/job.ts';
import type { WholeJob } from '../book/whole-job.ts';
import { planDrawing } from '../drawing/plan.ts';
import { pourOnPlan } from '../drawing/pour-plan.ts';
import { formatDuration } from '../measure/duration.ts';
import { formatLength } from '../measure/length-format.ts';
import { formatInstant, isPastDay } from '../measure/moment.ts';
import { formatNumber } from '../measure/number.ts';
import type { Parsed } from '../measure/parsed.ts';
import { formatTemperature } from '../measure/temperature.ts';
import { namesAt, type StationName } from '../pour/crew-names.ts';
import { batchesOf, type PourLayout } from '../pour/layout.ts';
import { batchWords } from '../price/batch-words.ts';
import { AFTER_POUR, mixingRules } from './mixing-rules.ts';
import { BAGS_A_STACK, limitMinutes, recipeOf, stagingOf, stopRules, toolsInHand } from './staging.ts';
import { asbestosLeftLines } from './asbestos-left.ts';
import { isOnGenerator } from '../prep/site-power.ts';
import { cautionText, generatorDistance } from '../substrate/cautions.ts';
import { wordingFor } from '../substrate/wording.ts';
import { heldFindings } from './prep-sheet.ts';
import type { Block, DocumentTree } from './tree.ts';
import { drawingBlock, headingBlock, listBlock, listPart, textBlock, textCell } from './blocks.ts';
import { addressLine, addressOrBlank, onLetterhead } from './letterhead.ts';
import { liftWords, pourProblemWords } from './pour-words.ts';

/** The plan's place on the page, shallower when rooms share it. */
const PLAN_PX = { width: 680, height: 330 } as const;
const SHARED_PLAN_PX = { width: 680, height: 112 } as const;
const SHARED_SHALLOW_PLAN_PX = { width: 680, height: 92 } as const;
const SHALLOW_PLAN_PX = { width: 680, height: 186 } as const;
/** A crew this large needs more lines, as holds do, and the plan gives up height to them. */
const CROWD = 5;
/** Letters on a line of stations that are read from across the room, and the most such lines beside the plan. */
const LARGE_LINE = 22;
const MOST_LARGE_LINES = 6;
/** Rooms drawn on the one page; more are named in the table of lanes. */
const MOST_PLANS = 2;
/** Lanes listed one by one; more follow in the same order. */
const MOST_LANES = 8;

const boldList = (items: readonly string[]): Extract<Block, { kind: 'list' }> => ({
  kind: 'list',
  marker: 'none',
  items: items.map((text) => textCell(text, { bold: true })),
});

/** Input of the sheet: the job as every document reads it, and the rooms poured together, in pouring order. */
export type PourDay = {
  readonly reading: JobReading;
  readonly roomIds: readonly string[];
  readonly madeAt: string;
  readonly revision: number;
};

/** A station: who stands there, read from across the room, and what they do. */
export type StationLine = { readonly who: string; readonly task: string };

/** Stations in the order of the work. */
export function stationsOf(crew: Crew, crewNames: readonly string[], locale: string): StationLine[] {
  const people = (n: number, station: StationName) => {
    const names = namesAt(crew, crewNames, station);
    const more = n - names.length;
    if (names.length === 0) return n === 1 ? '1 person' : `${formatNumber(n, { most: 0 }, locale)} people`;
    return listed(more > 0 ? [...names, `${formatNumber(more, { most: 0 }, locale)} more`] : [...names]);
  };
  const count = (n: number) => formatNumber(n, { most: 0 }, locale);
  const bags = formatNumber(crew.bagsPerBatch, { most: 2 }, locale);
  const lines: StationLine[] = [
    {
      who: `Mixing: ${people(crew.mixers, 'mixing')}`,
      task: `${bags} ${crew.bagsPerBatch === 1 ? 'bag' : 'bags'} per batch. Call out when water meets powder.`,
    },
  ];
  if (crew.carry === 'cart')
    lines.push(
      crew.carriers === 0
        ? { who: 'Cart: spreader', task: `${countWords(crew.cartBatches, 'batch', locale)} per load.` }
        : { who: `Cart: ${people(crew.carriers, 'carrying')}`, task: `${countWords(crew.cartBatches, 'batch', locale)} per load.` },
    );
  else lines.push({ who: `Carrying: ${crew.carriers === 0 ? 'mixers' : people(crew.carriers, 'carrying')}`, task: 'By hand.' });
  const spreading = crew.spreaders > 0 ? people(crew.spreaders, 'spreading') : crew.carriers > 0 ? 'carriers' : 'mixers';
  lines.push({ who: `Spreading: ${spreading}`, task: 'Back toward the exit. Call out each batch placed.' });
  const loose = crewNames.filter((name) => crew.stations?.some((s) => s.name === name) !== true);
  const unnamed =
    crewNames.length === 0 || loose.length < crewNames.length ? 0 : crew.mixers + crew.carriers + crew.spreaders - crewNames.length;
  const everyone = unnamed > 0 ? [...loose, `${count(unnamed)} more`] : loose;
  if (loose.length > 0) lines.push({ who: `${loose.length < crewNames.length ? 'No station' : 'On site'}: ${listed(everyone)}`, task: '' });
  return lines;
}

function planBlocks({ rooms }: PourReading, { units, locale }: WholeJob['business'], layout: PourLayout, isShallow: boolean): Block[] {
  const size = rooms.length > 1 ? (isShallow ? SHARED_SHALLOW_PLAN_PX : SHARED_PLAN_PX) : isShallow ? SHALLOW_PLAN_PX : PLAN_PX;
  return rooms.slice(0, MOST_PLANS).map(({ room }): Block => {
    const onPlan = pourOnPlan(layout, room.id, null, false);
    // Batches are numbered here; a lane's name beside them would cross its lines.
    const unnamed = onPlan.lanes.map((lane) => ({ ...lane, text: '' }));
    const drawing = planDrawing({
      plan: room.plan,
      widthPx: size.width,
      heightPx: size.height,
      shows: 'lanes',
      lengthText: (lengthM) => formatLength(lengthM, units, locale),
      pour: { ...onPlan, lanes: unnamed, letteringPx: rooms.length === 1 ? 26 : 20 },
      hasDimensions: false,
      openingWords: (opening) => (opening.isWayOut ? ['exit'] : []),
      marginPx: { left: 18, top: 20, right: 70, bottom: 34 },
    });
    const lanes = layout.lanes.filter((s) => s.roomId === room.id);
    const mine = new Set(lanes.map((s) => s.number));
    const batches = layout.batches.filter((b) => b.pieces.some((piece) => mine.has(piece.lane)));
    return drawingBlock(
      drawing,
      `${room.name}: ${countWords(lanes.length, 'lane', locale)}, batches ${batches[0]?.number ?? 1} to ${batches.at(-1)?.number ?? 1} numbered where they are placed`,
      { caption: rooms.length === 1 ? 'Batches by number, in pouring order.' : `${room.name}: batches by number.`, gives: true },
    );
  });
}

/** Which batches go into which lane, in one paragraph: `Lane 1: batches 1 to 6, 5.2 bags.` */
function laneWords(layout: PourLayout, read: PourReading, locale: string): string {
  const laneTexts = layout.lanes.slice(0, MOST_LANES).map((lane) => {
    const batches = layout.batches.filter((b) => b.pieces.some((piece) => piece.lane === lane.number));
    const first = batches[0]?.number ?? 0;
    const last = batches.at(-1)?.number ?? first;
    const count = lane.volumeM3 / read.bagYieldM3;
    const bags = `${count < 0.05 ? 'under ' : ''}${formatNumber(Math.max(0.1, count), { least: 1, most: 1 }, locale)}`;
    return `Lane\u00a0${lane.number}: ${first === last ? `batch\u00a0${first}` : `batches\u00a0${first} to\u00a0${last}`}, ${bags}\u00a0bags.`;
  });
  const more = layout.lanes.length - laneTexts.length;
  return [...laneTexts, ...(more > 0 ? [`${more} more ${more === 1 ? 'lane follows' : 'lanes follow'} in the same order.`] : [])].join(' ');
}

/** Doorways without a dam: a wet edge runs through. */
function throughWords(read: PourReading): string[] {
  const nameOf = (id: string) => read.rooms.find(({ room }) => room.id === id)?.room.name;
  const pairs = (read.first.openDoorways ?? []).flatMap((d) => {
    const [a, b] = [nameOf(d.roomId), nameOf(d.toRoomId)];
    return a === undefined || b === undefined ? [] : [`${roomWords(a)} to ${roomWords(b)}`];
  });
  return pairs.length === 0 ? [] : [`Open doorways: ${listed(pairs)}.`];
}

/**
 * The prep sheet's holds that are not overridden, before everything else: whoever has this sheet alone must not pour over them. Those that
 * can hurt somebody, which no reason overrides, say what to do.
 */
function openHolds({ rooms }: PourReading): string[] {
  return rooms.flatMap((roomReading) => {
    const overridden = new Set(roomReading.assessment.overrides.map(({ key }) => key));
    const open = heldFindings(roomReading).filter(({ key, clearedBy }) => clearedBy !== 'reason' || !overridden.has(key));
    const room = rooms.length === 1 ? '' : `${roomReading.room.name}: `;
    return open.map(({ title, text, clearedBy }) => `${room}${capital(title)}.${clearedBy === 'reason' ? '' : ` ${text}`}`);
  });
}

/** The staging list in short; the screen has the details. */
function readyLines(read: PourReading, layout: PourLayout, { business: { units, locale }, property }: WholeJob): string[] {
  const onGenerator = isOnGenerator(property);
  const n = (value: number) => formatNumber(value, { most: 0 }, locale);
  const { crew } = read.first;
  const aggregateKg = pourAggregateKg(read);
  const counted = (count: number, word: string, words: string) => `${n(count)} ${count === 1 ? word : words}`;
  const counts = new Map(
    stagingOf(layout, crew, read.material.powder, {
      units: 'metric',
      locale,
      bagsOnSite: read.bagsToBring,
      aggregateKg,
      onJoists: isOnJoists(read),
      nothingStuckIn: hasNothingStuckIn(read),
      onGenerator,
    }).map((item) => [item.key, item.count ?? 0]),
  );
  const stacks = Math.ceil(read.bagsToBring / BAGS_A_STACK);
  return [
    `${counted(read.bagsToBring, 'bag', 'bags')} in ${counted(stacks, 'stack', 'stacks')}, counted`,
    ...(aggregateKg > 0 ? ['Aggregate weighed out, batch by batch'] : []),
    `${counted(counts.get('water') ?? 0, 'bucket', 'buckets')} of measured water ahead, 1 per batch`,
    `${counted(counts.get('wash') ?? 0, 'bucket', 'buckets')} for washout`,
    `${counted(counts.get('power') ?? 0, 'drill', 'drills')}, on GFCI`,
    ...(onGenerator ? [`Generator outdoors, ${generatorDistance({ units })} or more from doors, windows and vents`] : []),
    ...(crew.carry === 'cart' && isOnJoists(read) ? ['Plywood runways across the joists, lighter cart loads'] : []),
    ...(crew.carry === 'cart' ? [`Cart outlet tested with water, ${counted(counts.get('cart') ?? 0, 'trip', 'trips')}`] : []),
    `${hasNothingStuckIn(read) ? 'Knee' : 'Spiked shoes, knee'} boards, gauge rake, smoother, dam to set`,
    ...(isOverHeat(read) ? ['Heat tested, its alarm or gauge in view'] : []),
    `${toolsInHand(aggregateKg)}, rinse water`,
    'Exit clear',
    'Gaps, pipe holes and dams checked',
  ];
}

/** Phone numbers and the address, for whoever has to call from the site. */
function callLines({ business, customer, property }: WholeJob): string[] {
  const phoneLine = (name: string, phone: string): string[] => (phone === '' ? [] : [`${name}: ${phone}`]);
  return [
    ...(property.address.country === 'US' ? ['Emergency: 911'] : []),
    ...phoneLine(business.ownerName, business.phone),
    ...phoneLine(customer.name, customer.phone),
    `Address: ${addressOrBlank(property.address)}`,
  ];
}

/** Common practice and the data sheet's own cautions; not medical advice. */
const FIRST_AID = [
  'Cement in the eye: rinse with clean water for 15 minutes, then see a doctor.',
  'Cement on skin: rinse at once with plenty of water. Take off wet clothes.',
  'Shock: cut the power before you touch anyone.',
] as const;

/** The pour-day sheet; a message when the pour cannot be laid out. */
export function pourDaySheet(day: PourDay): Parsed<DocumentTree> {
  const { whole } = day.reading;
  const asked = readPour(day.reading, day.roomIds);
  if (!asked.ok) return { ok: false, message: pourProblemWords(asked.problem) };
  const read = asked.value;
  if (!read.layout.ok) return { ok: false, message: pourProblemWords(read.layout.problem) };
  const layout = read.layout.value;
  const { business, property, job } = whole;
  const { units, locale } = business;
  const minutes = (min: number) => formatDuration(Math.round(min * 2) * 30, locale);
  const { first, clocks, rooms } = read;
  const names = rooms.map((r) => r.room.name).join(', ');
  const pourAt = rooms[0]?.nextPourAt ?? null;
  const { powder } = read.material;
  const aggregateKg = pourAggregateKg(read);
  const recipe = recipeOf(first.crew, powder, { units, locale, aggregateKg });
  const count = (n: number) => formatNumber(n, { most: 1 }, locale);
  const batches = batchWords(batchesOf(read, layout), locale);
  const lift = liftWords(read);
  const likelyMin = pourMinutes(read, layout);
  const stations = stationsOf(first.crew, job.crewNames, locale);
  const isCrowd = job.crewNames.length > CROWD;
  const isLarge =
    rooms.length === 1 && stations.reduce((lines, { who }) => lines + Math.ceil(who.length / LARGE_LINE), 0) <= MOST_LARGE_LINES;
  const bagsPer = `${count(recipe.bags)} ${recipe.bags === 1 ? 'bag' : 'bags'}`;
  const holds = openHolds(read);
  const onTheWall: Block[] = [
    headingBlock(1, `Pour: ${names}`),
    {
      kind: 'paragraph',
      runs: [
        {
          text: `${pourAt === null || isPastDay(pourAt, day.madeAt, property.timeZone) ? 'No pour date' : formatInstant(pourAt, property.timeZone, 'weekday', locale)}, about ${formatDuration(Math.round(likelyMin) * 60, locale)}. ${lift === '' ? '' : `${capital(lift)}. `}${read.material.name}.`,
        },
        ...(holds.length === 0
          ? textCell(' No holds from the assessment. Check prep and the day’s temperatures first.', { bold: true })
          : []),
      ],
    },
    ...(holds.length === 0
      ? []
      : [textBlock(`On hold, do not pour. ${holds.join(' ')} The prep sheet says how to clear each.`, { bold: true })]),
    {
      kind: 'columns',
      shares: [1, 1.7, 1.4],
      columns: [
        [{ kind: 'figure', label: 'Bags', figure: count(read.bagsToBring) }, textBlock(`${count(read.bagsNeeded)} in ${batches}`)],
        [{ kind: 'figure', label: 'Water', figure: recipe.waterMost }, textBlock(`Per batch of ${bagsPer}, at most`)],
        [{ kind: 'figure', label: 'Pace', figure: minutes(likelyMin / layout.batches.length) }, textBlock('Time per batch')],
      ],
    },
    ...planBlocks(read, business, layout, holds.length > 0 || isCrowd || isLarge),
    {
      kind: 'columns',
      shares: [1.2, 1],
      columns: [
        [
          headingBlock(2, 'Stations'),
          isLarge
            ? { ...boldList(stations.map(({ who }) => who)), isLarge: true }
            : boldList(stations.map(({ who, task }) => `${who}. ${task}`.trim())),
        ],
        [headingBlock(2, 'Stop if'), boldList(stopRules(clocks, isOverHeat(read), locale))],
      ],
    },
    {
      kind: 'columns',
      shares: [1, 1.2],
      columns: [
        [headingBlock(2, 'Call'), listBlock(callLines(whole))],
        [headingBlock(2, 'First aid'), listBlock(FIRST_AID)],
      ],
    },
  ];
  const details: Block[] = [
    headingBlock(2, 'Mixing and placing'),
    textBlock(recipe.words, { bold: true }),
    textBlock(
      `Wet edge at most ${limitMinutes(clocks.healingMin, locale)}, batch at most ${limitMinutes(clocks.workingTimeMin, locale)} from water, at ${formatTemperature(clocks.tempC, units, locale)}${clocks.healingTypical || clocks.workingTimeTypical ? ' (typical)' : ''}. A flow test on site overrides both.`,
    ),
    textBlock([laneWords(layout, read, locale), ...throughWords(read)].join(' ')),
    {
      kind: 'columns',
      shares: [1.12, 1],
      columns: [
        [
          listBlock(
            mixingRules({
              crew: first.crew,
              sheet: powder,
              leastM: read.leastM,
              clocks,
              lower: lowerLifts(read),
              roomCount: read.rooms.length,
              hasExit: hasFirstExit(read),
              overHeat: isOverHeat(read),
              nothingStuckIn: hasNothingStuckIn(read),
              aggregateKg,
              units,
              locale,
            }),
          ),
          ...listPart(
            2,
            'At each station',
            stations.filter(({ task }) => isLarge && task !== '').map(({ who, task }) => `${who.split(':')[0] ?? who}: ${task}`),
          ),
        ],
        [...listPart(2, 'Staging', readyLines(read, layout, whole), 'box'), headingBlock(2, 'After the last batch'), listBlock(AFTER_POUR)],
      ],
    },
    headingBlock(2, 'Safety'),
    ...asbestosLeftLines(rooms).map((text) => textBlock(text, { bold: true })),
    textBlock(
      `${(['wet-cement', 'silica'] as const).map((id) => cautionText(id, wordingFor(units, locale))).join(' ')} Local codes and the data sheet come first.`,
    ),
  ];
  const blocks: Block[] = [{ kind: 'cover', blocks: onTheWall }, { kind: 'page' }, { kind: 'cover', blocks: details }];
  return {
    ok: true,
    value: onLetterhead(business, {
      title: `Pour-day sheet ${job.number} revision ${day.revision}, ${names}`,
      subject: `Pour of ${names} at ${property.address.line}`,
      madeAt: day.madeAt,
      lines: [addressLine(property.address)].filter((line) => line !== ''),
      right: [
        `Job ${job.number}, ${formatInstant(day.madeAt, property.timeZone, 'short', locale)}`,
        `${names}, revision ${day.revision}, page {page} of {pages}`,
      ],
      blocks,
    }),
  };
}
