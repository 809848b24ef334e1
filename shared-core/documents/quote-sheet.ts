/** The quote as the customer reads it: what was found, what is proposed, when, how much. Made from its frozen record alone. */
import type { Frozen, Quote } from '../book/quote.ts';
import { planDrawing } from '../drawing/plan.ts';
import { roomPlan, usualSection } from '../drawing/room-plan.ts';
import { roomSection } from '../drawing/room-section.ts';
import { sectionDrawing } from '../drawing/section.ts';
import { formatArea } from '../measure/area.ts';
import { formatDay } from '../measure/day.ts';
import { formatDepth } from '../measure/length-format.ts';
import { dayOfInstant, formatInstantDay } from '../measure/moment.ts';
import { estimateOfQuote, type JobEstimate, type OptionEstimate } from '../price/estimate-job.ts';
import type { RoomEstimate } from '../price/estimate-room.ts';
import { formatMoney } from '../price/money.ts';
import { CAUTIONS } from '../substrate/cautions.ts';
import { quoteTerms } from './quote-terms.ts';
import type { Block, DocumentTree, Run } from './tree.ts';

const MEASURE_PX = 696;
const run = (text: string, more: Partial<Run> = {}): Run => ({ text, ...more });
const paragraph = (...runs: Run[]): Block => ({ kind: 'paragraph', runs });
const cell = (text: string): Run[] => [run(text)];

export type QuotedRecord = Pick<Quote, 'frozen' | 'issuedAt' | 'revision' | 'validUntil'>;

const listed = (names: readonly string[]): string =>
  names.length <= 1 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} and ${names.at(-1) ?? ''}`;

function headOf({ frozen, issuedAt, revision, validUntil }: QuotedRecord): DocumentTree['head'] {
  const { business } = frozen;
  const { address } = business;
  return {
    name: business.name === '' ? business.ownerName : business.name,
    lines:
      [[address.line, address.town].filter((p) => p !== '').join(', '), business.phone].filter((p) => p !== '').length === 0
        ? []
        : [
            [[address.line, address.town].filter((p) => p !== '').join(', '), business.phone, business.email]
              .filter((p) => p !== '')
              .join('   '),
          ],
    mark: business.mark,
    right: [
      `Quote ${frozen.job.number}, revision ${revision}, page {page} of {pages}`,
      `${formatInstantDay(issuedAt, business.timeZone, 'full', business.locale)}. Stands until ${formatDay(validUntil, 'short', business.locale)}.`,
    ],
  };
}

/** What the readings showed, in words. */
function foundWords(frozen: Frozen, rooms: readonly RoomEstimate[]): string {
  const { units } = frozen.business;
  const said = rooms.flatMap((estimate) => {
    const room = frozen.rooms.find((r) => r.id === estimate.roomId);
    if (room === undefined || estimate.survey.state !== 'surveyed') return [];
    const { floor } = estimate.survey;
    const outM = floor.highestM - floor.lowestM;
    return [
      `The ${room.name.toLowerCase()}, read with a laser in ${room.survey.readings.length} places, is ${formatDepth(outM, units)} out of level.`,
    ];
  });
  return said.join(' ');
}

function proposedWords(estimate: OptionEstimate, frozen: Frozen): string {
  const { units } = frozen.business;
  return estimate.rooms
    .map((room) => {
      const name = room.name.toLowerCase();
      if (room.level.mode === 'follow')
        return `In the ${name} we lay ${formatDepth(room.level.followThicknessM, units)} over the floor as it lies: smooth, no more level than now.`;
      const ground =
        room.survey.state === 'surveyed' && room.survey.level.highSpotsAreGround
          ? Math.max(0, ...room.survey.level.highSpots.map((s) => s.depthM))
          : 0;
      const deepest = room.takeoff.room.depths?.mostM ?? 0;
      const first = ground > 0 ? `we take ${formatDepth(ground, units)} off the high places, then pour` : 'we pour';
      return `In the ${name} ${first} a leveling cement that finds its own ${room.level.mode === 'ramp' ? 'slope' : 'level'}, ${formatDepth(deepest, units)} at the deepest.`;
    })
    .join(' ');
}

function planBlock(frozen: Frozen, room: RoomEstimate, widthPx: number): Block | null {
  const record = frozen.rooms.find((r) => r.id === room.roomId);
  if (record === undefined || record.plan.outline.length < 3) return null;
  const { units, locale } = frozen.business;
  const cut = usualSection(record, room.survey);
  const input = roomPlan({
    room: record,
    survey: room.survey,
    level: room.level,
    shows: 'depth',
    widthPx,
    heightPx: Math.round(widthPx * 0.72),
    section: cut === null ? null : [...cut],
    isSparse: true,
    units,
    locale,
  });
  const drawing = planDrawing({ ...input, hasKey: false });
  return {
    kind: 'drawing',
    drawing: { width: drawing.width, height: drawing.height, marks: drawing.marks },
    alt: `Plan of the ${room.name.toLowerCase()} with the depth of fill${room.takeoff.room.depths === null ? '' : `, ${formatDepth(room.takeoff.room.depths.mostM, units)} at the deepest`}`,
    caption: room.name,
  };
}

function sectionBlock(frozen: Frozen, room: RoomEstimate): Block | null {
  const record = frozen.rooms.find((r) => r.id === room.roomId);
  if (record === undefined || room.survey.state !== 'surveyed') return null;
  const cut = usualSection(record, room.survey);
  if (cut === null) return null;
  const input = roomSection({
    room: record,
    survey: room.survey,
    level: room.level,
    cut,
    units: frozen.business.units,
    widthPx: MEASURE_PX,
    heightPx: 120,
    datumY: 44,
    x0: 60,
    x1: MEASURE_PX - 60,
  });
  if (input === null) return null;
  const drawing = sectionDrawing({ ...input, lineWords: '', floorWords: '' });
  return {
    kind: 'drawing',
    drawing: { width: drawing.width, height: drawing.height, marks: drawing.marks },
    alt: `Section through the ${room.name.toLowerCase()} under the new floor`,
    caption: `The heavy line is the new floor of the ${room.name.toLowerCase()}; heights are drawn ${drawing.exaggeration} times too tall, to be seen.`,
  };
}

function optionsTable(frozen: Frozen, estimate: JobEstimate): Block {
  const { units, locale, currency } = frozen.business;
  const { options, suggested } = estimate;
  const money = (minor: number): string => formatMoney(minor, currency, locale, 'bare');
  const pointed = options.length < 2 ? null : options.indexOf(suggested) + 1;
  const rows: { cells: Run[][]; strong?: boolean }[] = [];
  const row = (name: string, of: (option: OptionEstimate) => string): void =>
    void rows.push({ cells: [cell(name), ...options.map((option) => cell(of(option)))] });
  if (options.length > 1) {
    row('Deepest', (o) => (o.mostDepthM === null ? '' : formatDepth(o.mostDepthM, units)));
    row('Bags', (o) => String(o.takeoff.bags));
    row('Days on site', (o) => String(o.days));
  }
  for (const room of suggested.rooms) row(room.name, (o) => money(o.price.rooms.find((r) => r.roomId === room.roomId)?.allInMinor ?? 0));
  if (options.some((o) => o.price.discountMinor > 0)) row('Discount, taken off above', (o) => money(o.price.discountMinor));
  row('Before tax', (o) => money(o.price.netMinor));
  for (const tax of suggested.price.taxes) row(tax.name, (o) => money(o.price.taxes.find((t) => t.taxId === tax.taxId)?.taxMinor ?? 0));
  rows.push({ cells: [cell('In all'), ...options.map((o) => cell(formatMoney(o.price.totalMinor, currency, locale)))], strong: true });
  return {
    kind: 'table',
    caption: 'What it costs',
    columns: [
      { title: options.length > 1 ? `${options.length === 2 ? 'Two' : 'Three'} ways to do it` : '', align: 'start', share: null },
      ...options.map((o) => ({ title: o.name, align: 'end' as const, share: options.length > 2 ? 0.2 : 0.26 })),
    ],
    rows,
    pointedColumn: pointed,
    pointedNote: pointed === null ? '' : 'we suggest',
  };
}

const DUE = {
  'on-acceptance': 'on acceptance',
  'before-pour': 'before the pour',
  'after-pour': 'after the pour',
  'on-handover': 'at the handover',
  'thirty-days': 'within thirty days',
} as const;

function paymentWords(frozen: Frozen, option: OptionEstimate): Run[] {
  const { locale, currency, timeZone } = frozen.business;
  const stages = option.price.stages.flatMap((stage, i): Run[] => [
    run(i === 0 ? '' : '; '),
    run(`${stage.name} `),
    run(formatMoney(stage.amountMinor, currency, locale), { bold: true }),
    run(` ${DUE[stage.due]}`),
  ]);
  const pours = [
    ...new Set(
      frozen.job.rooms.flatMap((r) =>
        r.pourAt === null ? [] : [formatInstantDay(r.pourAt, frozen.property.timeZone || timeZone, 'long', locale)],
      ),
    ),
  ];
  const when =
    pours.length === 0
      ? [run('. The day of the pour is agreed when you accept.')]
      : [run('. We mean to pour on '), run(listed(pours), { bold: true }), run('.')];
  return [...stages, ...when, run(' Every covering waits for a moisture test, whatever the date.')];
}

function scopeBlocks(frozen: Frozen, option: OptionEstimate): Block[] {
  const { units, locale } = frozen.business;
  return option.rooms.flatMap((room): Block[] => {
    const { takeoff } = room;
    const items: Run[][] = [
      cell(
        `${formatArea(takeoff.room.areaM2, units, locale)} of floor${takeoff.room.depths === null ? '' : `, ${formatDepth(takeoff.room.depths.meanM, units)} deep on average and ${formatDepth(takeoff.room.depths.mostM, units)} at the deepest`}`,
      ),
      ...(takeoff.primer === null ? [] : [cell(`primer in ${takeoff.primer.coats === 1 ? 'one coat' : `${takeoff.primer.coats} coats`}`)]),
      ...(takeoff.dams === 0
        ? []
        : [cell(`${takeoff.dams === 1 ? 'one opening' : `${takeoff.dams} openings`} dammed, a strip round the walls`)]),
      ...(takeoff.disposal.areaM2 > 0 ? [cell('the old covering taken up and disposed of')] : []),
      ...(takeoff.room.grind.areaM2 > 0
        ? [cell(`${formatArea(takeoff.room.grind.areaM2, units, locale)} ground under a vacuum first`)]
        : []),
      ...(takeoff.lifts !== null && takeoff.lifts.count > 1 ? [cell(`poured in ${takeoff.lifts.count} lifts, with a wait between`)] : []),
    ];
    return [
      { kind: 'heading', level: 2, text: room.name },
      { kind: 'list', marker: 'none', items },
    ];
  });
}

/**
 * The quote.
 * @param quote the frozen revision, or a draft in the same shape; nothing else is read, so that it says the same years later
 */
export function quoteSheet(quote: QuotedRecord): DocumentTree {
  const { frozen } = quote;
  const { business, client, property, job } = frozen;
  const estimate = estimateOfQuote(quote);
  const { suggested } = estimate;
  const names = suggested.rooms.map((r) => r.name.toLowerCase());
  const [first] = [...suggested.rooms].sort((a, b) => b.takeoff.room.areaM2 - a.takeoff.room.areaM2);
  const plan = first === undefined ? null : planBlock(frozen, first, 430);
  const section = first === undefined ? null : sectionBlock(frozen, first);
  const beside: Block[] = [
    { kind: 'heading', level: 2, text: 'What we found' },
    paragraph(run(foundWords(frozen, suggested.rooms))),
    { kind: 'heading', level: 2, text: 'What we propose' },
    paragraph(run(proposedWords(suggested, frozen))),
    paragraph(run('Denser dots, deeper cement.', { italic: true })),
  ];
  const others = suggested.rooms.filter((r) => r.roomId !== first?.roomId);
  const otherPlans = others.flatMap((room) => planBlock(frozen, room, 330) ?? []);
  const terms = quoteTerms(frozen);
  const blocks: Block[] = [
    { kind: 'heading', level: 1, text: `To level your ${listed(names)}` },
    paragraph(run([client.name, property.address.line, property.address.town].filter((p) => p !== '').join(', '))),
    plan === null ? { kind: 'together', blocks: beside } : { kind: 'columns', shares: [1.75, 1], columns: [[plan], beside] },
    ...(section === null ? [] : [section]),
    optionsTable(frozen, estimate),
    {
      kind: 'figure',
      label: estimate.options.length > 1 ? `In all, ${suggested.name.toLowerCase()}` : 'In all',
      figure: formatMoney(suggested.price.totalMinor, business.currency, business.locale),
    },
    { kind: 'paragraph', runs: paymentWords(frozen, suggested) },
    {
      kind: 'fields',
      fields:
        estimate.options.length > 1
          ? [
              { label: 'Accepted by', share: 0.4 },
              { label: `which of the ${estimate.options.length === 2 ? 'two' : 'three'}`, share: 0.33 },
              { label: 'Date', share: 0.27 },
            ]
          : [
              { label: 'Accepted by', share: 0.6 },
              { label: 'Date', share: 0.4 },
            ],
    },
    { kind: 'heading', level: 1, text: 'What is done, room by room' },
    ...scopeBlocks(frozen, suggested),
    ...(otherPlans.length === 0
      ? []
      : otherPlans.length === 1
        ? otherPlans
        : [
            { kind: 'columns' as const, shares: otherPlans.slice(0, 2).map(() => 1), columns: otherPlans.slice(0, 2).map((p) => [p]) },
            ...otherPlans.slice(2),
          ]),
    { kind: 'heading', level: 1, text: 'What this rests on' },
    { kind: 'list', marker: 'none', items: terms.assumptions.map(cell) },
    { kind: 'heading', level: 2, text: 'Not in the price' },
    { kind: 'list', marker: 'none', items: terms.excluded.map(cell) },
    { kind: 'heading', level: 2, text: 'Please mind' },
    { kind: 'list', marker: 'none', items: [cell(CAUTIONS.silica.says), cell(CAUTIONS['wet-cement'].says)] },
    ...(business.quoteTerms.trim() === ''
      ? []
      : [{ kind: 'heading' as const, level: 2 as const, text: 'Terms' }, paragraph(run(business.quoteTerms.trim()))]),
  ];
  return {
    title: `Quote ${job.number}, revision ${quote.revision}`,
    subject: `To level the ${listed(names)} at ${property.address.line}`,
    author: business.name === '' ? business.ownerName : business.name,
    language: business.locale,
    paper: business.paper,
    madeAt: quote.issuedAt,
    head: headOf(quote),
    blocks,
    foot: 'Set with Straightedge',
  };
}

/** The day a quote was issued, for its file name. */
export function quoteDay(quote: QuotedRecord): string {
  return dayOfInstant(quote.issuedAt, quote.frozen.business.timeZone);
}
