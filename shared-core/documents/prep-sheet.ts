/** The prep sheet: what a helper takes to the room, the plan with everything to be done drawn in, the list with quantities, and what may not be touched. */
import type { JobReading, RoomReading } from '../standing/read-job.ts';
import { planDrawing } from '../drawing/plan.ts';
import { lineNumbers, prepPlan } from '../drawing/prep-plan.ts';
import { formatDuration, HOUR_S } from '../measure/duration.ts';
import { formatInstant, formatInstantDay, formatInstantTime } from '../measure/moment.ts';
import { formatLiquid } from '../measure/volume.ts';
import { lineAmount } from '../prep/line-words.ts';
import { lineHeldBy } from '../prep/pour-held.ts';
import type { SignedLine } from '../prep/signed-lines.ts';
import { CAUTIONS, type CautionId } from '../substrate/cautions.ts';
import type { Finding } from '../substrate/rule.ts';
import { type Wording, wordingFor } from '../substrate/wording.ts';
import { type PaperPhoto, photosBlock, prepPhotos } from './paper-photos.ts';
import type { Block, DocumentTree, Run } from './tree.ts';
import { onLetterhead } from './letterhead.ts';

const PLAN_PX = { width: 440, height: 268 } as const;

/** Where the key is stays in the book: a paper lies about on site. */
const KEY_LETTER = 'K';

const sentence = (text: string): string => {
  const words = text.trim();
  const first = words.charAt(0).toUpperCase() + words.slice(1);
  return /[.!?]$/.test(words) ? first : `${first}.`;
};
const heading = (level: 1 | 2, text: string): Block => ({ kind: 'heading', level, text });
const paragraph = (text: string): Block => ({ kind: 'paragraph', runs: [{ text }] });

/** What the sheet is made from. */
export type PrepSheetInput = {
  readonly reading: JobReading;
  readonly at: RoomReading;
  readonly madeAt: string;
  /** The job's photos; those of the room that show most stand on the sheet. */
  readonly photos?: readonly PaperPhoto[];
};

type Told = { readonly wording: Wording; readonly locale: string; readonly zone: string };

function planBlock({ reading, at }: PrepSheetInput, numberOf: ReadonlyMap<string, number>): Block[] {
  const { room } = at;
  if (room.plan.outline.length < 3) return [paragraph('The room is not drawn yet: see the list alone.')];
  const { units, locale } = reading.whole.business;
  const drawing = planDrawing({
    ...prepPlan({ at, units, locale, widthPx: PLAN_PX.width, heightPx: PLAN_PX.height, numberOf }),
    marginPx: { left: 52, top: 34, right: 66, bottom: 50 },
  });
  return [
    {
      kind: 'drawing',
      drawing: { width: drawing.width, height: drawing.height, marks: drawing.marks },
      alt: `Plan of the ${room.name.toLowerCase()} with cracks, hollow places, dams and spots to grind, each with the number of its line`,
      caption: 'Figures: lines of the list. Heavy bar: dam. Cross-hatched: take off.',
    },
  ];
}

/** The state of a line in its last column: signed with when, held, or free for a pen. */
function doneRuns(line: SignedLine, held: boolean, { zone, locale }: Told): Run[] {
  if (held) return [{ text: 'held', bold: true }];
  if (line.state === 'changed') return [{ text: 'changed: sign again', bold: true }];
  if (line.signature === null) return [];
  const { doneAt, initials } = line.signature;
  return [{ text: `${initials}, ${formatInstantTime(doneAt, zone, locale)}, ${formatInstantDay(doneAt, zone, 'short', locale)}` }];
}

function listBlock(lines: readonly SignedLine[], findings: readonly Finding[], numberOf: ReadonlyMap<string, number>, told: Told): Block {
  return {
    kind: 'table',
    caption: 'What is to be done, in this order',
    columns: [
      { title: 'What is to be done', align: 'start', share: 0.37 },
      { title: 'because', align: 'start', share: 0.3 },
      { title: 'amount', align: 'end', share: 0.1 },
      { title: 'about', align: 'end', share: 0.1 },
      { title: 'by whom', align: 'start', share: 0.13 },
    ],
    rows: lines.flatMap((line) => {
      const { item } = line;
      if (item === null) return [];
      const held = lineHeldBy(line, findings).length > 0;
      const who = item.who === 'licensed-only' ? [{ text: ' Licensed firms only.', bold: true }] : [];
      return [
        {
          cells: [
            [
              { text: `${numberOf.get(line.key) ?? ''}\u00a0\u00a0`, bold: true },
              { text: item.what, bold: line.state !== 'signed' },
              ...who,
            ],
            [{ text: item.why, italic: true, serif: true }],
            [{ text: lineAmount(item, told.wording, told.locale) }],
            [{ text: item.hours === null ? '' : formatDuration(item.hours * HOUR_S, told.locale) }],
            doneRuns(line, held, told),
          ],
        },
      ];
    }),
    pointedColumn: null,
    pointedNote: '',
  };
}

/** What may not be touched, said before everything else. */
function heldBlocks(lines: readonly SignedLine[], findings: readonly Finding[], numberOf: ReadonlyMap<string, number>): Block[] {
  const holding = findings.filter((f) => f.verdict === 'hold' || lines.some((line) => lineHeldBy(line, findings).includes(f)));
  if (holding.length === 0) return [];
  const items = holding.map((finding): Run[] => {
    const stops = lines.filter((line) => lineHeldBy(line, [finding]).length > 0).map((line) => numberOf.get(line.key) ?? 0);
    const which = stops.length === 0 ? '' : ` Stops ${stops.length === 1 ? 'line' : 'lines'} ${stops.join(', ')}.`;
    return [
      { text: `${sentence(finding.title)} `, bold: true },
      { text: `${finding.says}${which} ` },
      { text: finding.source, italic: true, serif: true },
    ];
  });
  return [heading(2, 'Held: do not touch'), { kind: 'list', marker: 'none', items }];
}

function primerWords({ at }: PrepSheetInput, { zone, locale, wording }: Told): string {
  const { primer, estimate, preparation } = at;
  const need = estimate?.takeoff.primer ?? null;
  if (primer === null || need === null) return 'No primer is chosen yet: ask before priming.';
  const coats = need.coats === 1 ? 'one coat' : `${need.coats} coats`;
  const neat = formatLiquid(need.neatL, wording.units, locale);
  const mixed =
    need.waterParts > 0
      ? `, ${neat} with ${formatLiquid(need.waterL, wording.units, locale)} of water (1 to ${wording.number(need.waterParts, 2)})`
      : `, ${neat} neat`;
  const dries = `Dry after ${need.dryHours.least} h; takes cement until ${need.dryHours.most} h after the last coat.`;
  const { clock } = preparation;
  const window =
    clock === null || clock.earliestAt === null
      ? ' Write the time of the last coat below.'
      : ` Pour from ${formatInstantTime(clock.earliestAt, zone, locale)} until ${formatInstant(clock.latestAt, zone, 'weekday', locale)}.`;
  return `${primer.name}: ${coats}${mixed}. ${dries}${window}`;
}

/** The gone-past holds, with who wrote why: they stand on every record. */
function pastBlocks({ at }: PrepSheetInput, { zone, locale }: Told): Block[] {
  const past = at.preparation.holds.flatMap((hold) => (hold.overridden === null ? [] : [{ hold, why: hold.overridden }]));
  if (past.length === 0) return [];
  return [
    heading(2, 'Gone past in writing'),
    {
      kind: 'list',
      marker: 'none',
      items: past.map(({ hold, why }): Run[] => [
        { text: `${hold.says} ` },
        { text: `${why.initials}, ${formatInstant(why.at, zone, 'weekday', locale)}: ${why.why}`, italic: true, serif: true },
      ]),
    },
  ];
}

/** What the room looked like, and what was done in it: each photo with the line it was signed with. */
function photoBlocks({ at, photos = [] }: PrepSheetInput, numberOf: ReadonlyMap<string, number>, told: Told): Block[] {
  const shown = prepPhotos(photos, at.room.id, at.preparation.lines);
  if (shown.length === 0) return [];
  const lineOf = (id: string): string => {
    const line = at.preparation.lines.find(({ signature }) => signature?.photoIds.includes(id) === true);
    const number = line === undefined ? undefined : numberOf.get(line.key);
    return number === undefined ? '' : `Line ${number}`;
  };
  return [heading(2, 'Photos'), photosBlock(shown, told, (photo) => lineOf(photo.id))];
}

/** The prep sheet of one room. A room without a list yet says what is missing. */
export function prepSheet(input: PrepSheetInput): DocumentTree {
  const { reading, at } = input;
  const { business, property, customer, job } = reading.whole;
  const { locale, units } = business;
  const told: Told = { wording: wordingFor(units, locale), locale, zone: property.timeZone };
  const { lines, hours } = at.preparation;
  const { findings } = at.assessment;
  const wanted = lines.filter((line) => line.item !== null);
  const numberOf = lineNumbers(lines);
  const cautions: CautionId[] = [...new Set(wanted.flatMap((line) => line.item?.cautions ?? []))];
  const pourAt = at.jobRoom.pourAt;
  const where = [property.address.line, property.address.city].filter((part) => part !== '').join(', ');
  const notes = property.access.filter((note) => note.letter !== KEY_LETTER && note.text.trim() !== '').map((note) => sentence(note.text));
  const open = wanted.filter((line) => line.state !== 'signed').length;
  const count = wanted.length === 0 ? '' : ` ${open === 0 ? 'Every line is signed.' : `${open} of ${wanted.length} lines open.`}`;
  const blocks: Block[] = [
    heading(1, `${at.room.name}: made ready to pour on`),
    paragraph(
      `${pourAt === null ? 'No day is set for the pour.' : `The pour is set for ${formatInstant(pourAt, told.zone, 'weekday', locale)}.`}${
        hours > 0 ? ` About ${formatDuration(hours * HOUR_S, locale)} for the own crew, all in.` : ''
      }${count}`,
    ),
    ...heldBlocks(wanted, findings, numberOf),
    {
      kind: 'columns',
      shares: [1.84, 1],
      columns: [
        planBlock(input, numberOf),
        [
          heading(2, 'Primer'),
          paragraph(primerWords(input, told)),
          ...(notes.length === 0 ? [] : [heading(2, 'On site'), ...notes.map(paragraph)]),
        ],
      ],
    },
    ...(wanted.length === 0
      ? [paragraph('The list comes from the layers, the findings and the plan: assess the room first.')]
      : [listBlock(wanted, findings, numberOf, told)]),
    ...pastBlocks(input, told),
    ...photoBlocks(input, numberOf, told),
    ...(cautions.length === 0 ? [] : [heading(2, 'Mind')]),
    ...cautions.map(
      (id): Block => ({
        kind: 'paragraph',
        small: true,
        runs: [{ text: `${CAUTIONS[id].says} ` }, { text: CAUTIONS[id].source, italic: true, serif: true }],
      }),
    ),
    {
      kind: 'paragraph',
      small: true,
      runs: [{ text: 'Local codes, the data sheets and licensed trades come first; in doubt stop and ask.', bold: true }],
    },
    {
      kind: 'fields',
      fields: [
        { label: 'Done by', share: 0.5 },
        { label: 'Date', share: 0.25 },
        { label: 'Primed at', share: 0.25 },
      ],
    },
  ];
  return onLetterhead(business, {
    title: `Prep sheet ${job.number}, ${at.room.name}`,
    subject: `What is done to the ${at.room.name.toLowerCase()} before the pour at ${property.address.line}`,
    madeAt: input.madeAt,
    lines: [[customer.name, where].filter((part) => part !== '').join(', ')].filter((line) => line !== ''),
    right: [`Prep sheet, job ${job.number}, page {page} of {pages}`, formatInstant(input.madeAt, told.zone, 'weekday', locale)],
    blocks,
  });
}
