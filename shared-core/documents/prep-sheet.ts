/**
 * The prep sheet for the crew: holds, the marked plan, the checklist with quantities, and the respirators and cautions its lines
 * call for.
 */
import { isDammed } from '../plan/dammed-openings.ts';
import { cutWords } from '../substrate/exposed-layers.ts';
import { readThen } from '../assess/overrides.ts';
import { type JobReading, nextPrimer, type RoomReading } from '../standing/read-job.ts';
import { roomFloorOf } from '../standing/read-pour.ts';
import { capital } from '../measure/first-letter.ts';
import { theRoom } from '../standing/names.ts';
import { planDrawing } from '../drawing/plan.ts';
import { lineNumbers, prepPlan } from '../drawing/prep-plan.ts';
import { formatWork } from '../measure/duration.ts';
import { joined } from '../measure/list.ts';
import { formatInstant, formatInstantDay, isPastDay } from '../measure/moment.ts';
import { primerWindowWords } from '../prep/primer-clock.ts';
import { formatLiquid } from '../measure/volume.ts';
import { lineAmount } from '../prep/line-words.ts';
import { lineHeldBy } from '../prep/pour-held.ts';
import type { SignedLine } from '../prep/signed-lines.ts';
import { dustWords } from '../substrate/silica.ts';
import { CAUTIONS, cautionText, type CautionId } from '../substrate/cautions.ts';
import { LEAD_RESPIRATOR } from '../substrate/lead-paint.ts';
import { type Finding, PAINT_DISTURBING } from '../substrate/rule.ts';
import { type Wording, wordingFor } from '../substrate/wording.ts';
import { drawingBlock, fieldsBlock, headingBlock, listPart, tableBlocks, textBlock, textCell } from './blocks.ts';
import { type PaperPhoto, photosBlock, prepPhotos } from './paper-photos.ts';
import type { Block, DocumentTree, Run } from './tree.ts';
import { onLetterhead } from './letterhead.ts';

const PLAN_PX = { width: 440, height: 268 } as const;

/** The key's location is left out, because the sheet stays on site. */
const KEY_LETTER = 'K';

const sentence = (text: string): string => {
  const words = text.trim();
  return `${capital(words)}${/[.!?]$/.test(words) ? '' : '.'}`;
};

/** Input of the prep sheet. */
export type PrepSheetInput = {
  readonly reading: JobReading;
  readonly roomReading: RoomReading;
  readonly madeAt: string;
  readonly revision: number;
  /** The job's photos; the best of the room are printed. */
  readonly photos?: readonly PaperPhoto[];
};

type Say = { readonly wording: Wording; readonly locale: string; readonly zone: string };

function planBlock({ reading, roomReading }: PrepSheetInput, numberOf: ReadonlyMap<string, number>): Block[] {
  const { room } = roomReading;
  if (room.plan.outline.length < 3) return [textBlock('The room is not drawn yet. Use the checklist alone.')];
  const { units, locale } = reading.whole.business;
  const plan = prepPlan({ roomReading, units, locale, widthPx: PLAN_PX.width, heightPx: PLAN_PX.height, numberOf });
  const drawing = planDrawing({ ...plan, marginPx: { left: 52, top: 34, right: 66, bottom: 50 } });
  const key = [
    ...((plan.notes ?? []).length > 0 ? ['Numbers are lines of the checklist.'] : []),
    ...(room.plan.openings.some(isDammed) ? ['Heavy bar: dam.'] : []),
    ...((plan.areas ?? []).length > 0 ? [`Cross-hatched: ${cutWords(room).verb}.`] : []),
  ];
  const alt = `Plan of ${theRoom(room.name)} with cracks, hollow places, dams and high spots, each with the number of its line`;
  return [drawingBlock(drawing, alt, { caption: key.join(' ') })];
}

/** The last column of a line: signed with the day, hold, or empty for a pen. */
function doneRuns(line: SignedLine, held: boolean, { zone, locale }: Say): Run[] {
  if (held) return [{ text: 'hold', bold: true }];
  if (line.state === 'changed') return [{ text: 'changed, sign again', bold: true }];
  if (line.signature === null) return [];
  const { doneAt, initials } = line.signature;
  return [{ text: `${initials}, ${formatInstantDay(doneAt, zone, 'short', locale)}` }];
}

/** The published standard behind a caution, in parentheses. Common practice and data sheets are not cited on a crew's sheet. */
function standardRun(source: string): Run[] {
  const published = source.split('; ').filter((part) => /\d/.test(part) && !/^(?:common practice|arithmetic|typical)/.test(part));
  return published.length === 0 ? [] : [{ text: `(${published.join('; ')})`, italic: true, serif: true }];
}

function checklist(lines: readonly SignedLine[], findings: readonly Finding[], numberOf: ReadonlyMap<string, number>, place: Say): Block[] {
  const rows = lines.flatMap((line) => {
    const held = lineHeldBy(line, findings).length > 0;
    return line.item === null ? [] : [{ line, item: line.item, done: doneRuns(line, held, place) }];
  });
  return tableBlocks(
    'Checklist, in this order',
    rows,
    [
      [
        'Description',
        0.39,
        ({ line, item }) => [
          { text: `${numberOf.get(line.key) ?? ''}\u00a0\u00a0`, bold: true },
          { text: item.what, bold: line.state !== 'signed' },
          ...(item.who === 'licensed-only' ? [{ text: '. Licensed firm only.', bold: true }] : []),
        ],
      ],
      ['Reason', 0.275, ({ item }) => textCell(capital(item.why), { italic: true, serif: true })],
      ['Quantity', 0.1, ({ item }) => lineAmount(item, place.wording, place.locale), 'end'],
      ['Time', 0.11, ({ item }) => (item.hours === null ? '' : formatWork(item.hours, place.locale)), 'end'],
      ['By', 0.125, ({ done }) => done],
    ],
    ({ done }) => (done.length === 0 ? { box: true } : {}),
  );
}

/** The findings that hold a room's crew, also on work that is on no line, such as asbestos that stays. The flooring is not its work. */
export function heldFindings({ assessment: { findings }, preparation: { lines } }: RoomReading): Finding[] {
  return findings.filter(
    (f) =>
      (f.verdict === 'hold' && f.holds.some((task) => task !== 'cover')) || lines.some((line) => lineHeldBy(line, findings).includes(f)),
  );
}

/** Holds, before everything else. */
function heldBlocks(lines: readonly SignedLine[], holding: readonly Finding[], numberOf: ReadonlyMap<string, number>): Block[] {
  const items = holding.map((finding): Run[] => {
    const stops = lines.filter((line) => lineHeldBy(line, [finding]).length > 0).map((line) => numberOf.get(line.key) ?? 0);
    const blockedWords = stops.length === 0 ? '' : ` Blocks ${stops.length === 1 ? 'line' : 'lines'} ${stops.join(', ')}.`;
    return [
      { text: `${sentence(finding.title)} `, bold: true },
      { text: `${finding.text}${blockedWords} ` },
      ...standardRun(finding.source),
    ];
  });
  return listPart(2, 'Holds', items);
}

function primerWords({ roomReading, madeAt }: PrepSheetInput, { zone, locale, wording }: Say): string {
  const { primer, preparation } = roomReading;
  const need = nextPrimer(roomReading);
  if (primer === null || need === null) return 'No primer selected. Ask before priming.';
  const coats = need.coats === 1 ? '1 coat' : `${need.coats} coats`;
  const neat = formatLiquid(need.neatL, wording.units, locale);
  const mixed =
    need.waterParts > 0
      ? `, ${neat} with ${formatLiquid(need.waterL, wording.units, locale)} of water (1 to ${wording.number(need.waterParts, 2)})`
      : `, ${neat} undiluted`;
  const dries = `Dry after ${need.dryHours.least} h, tack-free and clear. Pour within ${need.dryHours.most} h of the last coat.`;
  const { clock } = preparation;
  // A poured floor has no window.
  const window = clock === null ? '' : ` ${primerWindowWords(clock, madeAt, zone, locale) ?? 'Enter the time of the last coat below.'}`;
  return `${primer.name}: ${coats}${mixed}. ${dries}${window}`;
}

/** Overridden holds with reason and initials. */
function pastBlocks({ roomReading }: PrepSheetInput, { zone, locale }: Say): Block[] {
  const past = roomReading.preparation.holds.flatMap((hold) => (hold.overridden === null ? [] : [{ hold, why: hold.overridden }]));
  return listPart(
    2,
    'Overridden holds',
    past.map(({ hold, why }): Run[] => [
      { text: `${hold.text} ` },
      {
        text: `${why.initials}, ${formatInstant(why.instant, zone, 'weekday', locale)}: ${why.why}${readThen(why, hold.text)}`,
        italic: true,
        serif: true,
      },
    ]),
  );
}

/** Photos of the room from before its pour, each with the line it was signed with. */
function photoBlocks({ reading, roomReading, photos = [] }: PrepSheetInput, numberOf: ReadonlyMap<string, number>, place: Say): Block[] {
  const { id } = roomReading.room;
  const pours = reading.whole.pours.filter((pour) => pour.deletedAt === null && pour.roomIds.includes(id));
  const begun = pours.flatMap(({ startedAt }) => startedAt ?? []).toSorted()[0] ?? null;
  const linePhotos = prepPhotos(photos, id, roomReading.preparation.lines, begun);
  if (linePhotos.length === 0) return [];
  const lineOf = (id: string): string => {
    const line = roomReading.preparation.lines.find(({ signature }) => signature?.photoIds.includes(id) === true);
    const number = line === undefined ? undefined : numberOf.get(line.key);
    return number === undefined ? '' : `Line ${number}`;
  };
  return [headingBlock(2, 'Photos'), photosBlock(linePhotos, place, { before: ({ id: photoId }) => lineOf(photoId) })];
}

/** Respirator and controls of the dusty lines, each tool once. */
function dustBlocks(lines: readonly SignedLine[], numberOf: ReadonlyMap<string, number>): Block[] {
  const tools = [...new Set(lines.flatMap(({ item }) => item?.dust ?? []))];
  const items = tools.map((tool): Run[] => {
    const dusty = lines.filter(({ item }) => item?.dust === tool);
    const numbers = dusty.flatMap((line) => numberOf.get(line.key) ?? []).join(', ');
    const hours = dusty.reduce((sum, { item }) => sum + (item?.hours ?? 0), 0);
    return [{ text: `${dusty.length === 1 ? 'Line' : 'Lines'} ${numbers}. `, bold: true }, { text: dustWords(tool, hours) }];
  });
  const lead = lines.filter(
    ({ item }) => item?.who === 'own-crew' && item.cautions.includes('lead') && item.tasks.some((task) => PAINT_DISTURBING.includes(task)),
  );
  if (lead.length > 0) {
    const numbers = lead.flatMap((line) => numberOf.get(line.key) ?? []).join(', ');
    items.push([{ text: `${lead.length === 1 ? 'Line' : 'Lines'} ${numbers}. `, bold: true }, { text: LEAD_RESPIRATOR }]);
  }
  // In the order of the lines, as `Line 5. ` or `Lines 4, 6. ` begins.
  const firstLine = (runs: readonly Run[]): number => Number(/\d+/.exec(runs[0]?.text ?? '')?.[0] ?? 0);
  items.sort((a, b) => firstLine(a) - firstLine(b));
  return listPart(2, 'Respirators and dust controls', items);
}

const cautionBlock = (id: CautionId, wording: Wording): Block => ({
  kind: 'paragraph',
  small: true,
  runs: [{ text: `${cautionText(id, wording)} ` }, ...standardRun(CAUTIONS[id].source)],
});

function pouredWords({ reading, roomReading: { room, nextPourAt }, madeAt }: PrepSheetInput, { zone, locale }: Say): string {
  const floor = roomFloorOf(reading, room.id);
  const placedAt = floor.extent === 'whole' ? (floor.pours.at(-1)?.finishedAt ?? null) : null;
  if (placedAt !== null) return `Poured ${formatInstantDay(placedAt, zone, 'weekday', locale)}.`;
  return nextPourAt === null || isPastDay(nextPourAt, madeAt, zone)
    ? 'No pour date set.'
    : `Pour planned for ${formatInstant(nextPourAt, zone, 'weekday', locale)}.`;
}

/** The prep sheet of one room. A room without a checklist says what is missing. */
export function prepSheet(input: PrepSheetInput): DocumentTree {
  const { reading, roomReading } = input;
  const { business, property, customer, job } = reading.whole;
  const { locale, units } = business;
  const place: Say = { wording: wordingFor(units, locale), locale, zone: property.timeZone };
  const { lines, hours } = roomReading.preparation;
  const { findings } = roomReading.assessment;
  const neededLines = lines.filter((line) => line.item !== null);
  const numberOf = lineNumbers(lines);
  const cautions: CautionId[] = [...new Set(neededLines.flatMap((line) => line.item?.cautions ?? []))];
  const notes = property.access.filter((note) => note.letter !== KEY_LETTER && note.text.trim() !== '').map((note) => sentence(note.text));
  const open = neededLines.filter((line) => line.state !== 'signed').length;
  const count =
    neededLines.length === 0 ? '' : ` ${open === 0 ? 'All lines signed.' : `${open} of ${neededLines.length} lines not signed.`}`;
  const blocks: Block[] = [
    headingBlock(1, `${roomReading.room.name}: prep`),
    textBlock(`${pouredWords(input, place)}${hours > 0 ? ` About ${formatWork(hours, locale)} of own labor.` : ''}${count}`),
    ...heldBlocks(neededLines, heldFindings(roomReading), numberOf),
    {
      kind: 'columns',
      shares: [1.84, 1],
      columns: [
        planBlock(input, numberOf),
        [
          headingBlock(2, 'Primer'),
          textBlock(primerWords(input, place)),
          ...(notes.length === 0 ? [] : [headingBlock(2, 'On site'), ...notes.map((note) => textBlock(note))]),
        ],
      ],
    },
    ...(neededLines.length === 0
      ? [textBlock('Complete Assess first. The checklist comes from the layers, the findings and the plan.')]
      : checklist(neededLines, findings, numberOf, place)),
    ...pastBlocks(input, place),
    ...photoBlocks(input, numberOf, place),
    ...dustBlocks(neededLines, numberOf),
    {
      kind: 'together',
      blocks: [
        ...(cautions.length === 0 ? [] : [headingBlock(2, 'Safety')]),
        ...cautions.map((id) => cautionBlock(id, place.wording)),
        {
          kind: 'paragraph',
          small: true,
          runs: [{ text: 'Local codes, the data sheets and licensed trades come first. If in doubt, stop and ask.', bold: true }],
        },
        fieldsBlock(
          { label: 'Done by', share: 0.28 },
          { label: 'Date', share: 0.16 },
          { label: 'Last coat at', share: 0.16 },
          { label: 'Air', share: 0.13 },
          { label: 'Floor', share: 0.13 },
          { label: 'RH', share: 0.14 },
        ),
      ],
    },
  ];
  return onLetterhead(business, {
    title: `Prep sheet ${job.number} revision ${input.revision}, ${roomReading.room.name}`,
    subject: `Prep of ${theRoom(roomReading.room.name)} before the pour at ${property.address.line}`,
    madeAt: input.madeAt,
    lines: [joined([customer.name, property.address.line, property.address.city])].filter((line) => line !== ''),
    right: [
      `Prep sheet, job ${job.number}, revision ${input.revision}, page {page} of {pages}`,
      formatInstant(input.madeAt, place.zone, 'weekday', locale),
    ],
    blocks,
  });
}
