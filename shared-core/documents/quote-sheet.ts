/** The quote as the customer reads it: what was found, what is proposed, when, how much. Made from its frozen record alone. */
import type { Frozen, Quote } from '../book/quote.ts';
import { formatDay } from '../measure/day.ts';
import { formatInstantDay } from '../measure/moment.ts';
import { estimateOfQuote, type JobEstimate } from '../price/estimate-job.ts';
import type { RoomEstimate } from '../price/estimate-room.ts';
import { formatMoney } from '../price/money.ts';
import { CAUTIONS } from '../substrate/cautions.ts';
import { type QuotedDates, quotedDates } from './quote-dates.ts';
import { datesBlock, planBlock, sectionBlock } from './quote-drawings.ts';
import { linesTable, optionsTable, roomPriceMinor } from './quote-table.ts';
import { quoteTerms } from './quote-terms.ts';
import { foundWords, MOST_TOLD_APART, paymentRuns, proposedWords, roomsInWords, scopeWords } from './quote-words.ts';
import type { Block, DocumentTree, Run } from './tree.ts';
import { onLetterhead } from './letterhead.ts';

/** How large the plan is drawn, and its column beside the words: what else the first page holds decides. */
const FIRST_PLAN = {
  ample: { width: 440, height: 336, share: 1.84 },
  usual: { width: 440, height: 292, share: 1.84 },
  tight: { width: 400, height: 240, share: 1.4 },
} as const;
const WORDY_SHARE = 1.25;
const OTHER_PLAN_PX = { width: 336, height: 220 } as const;

const cell = (text: string): Run[] => [{ text }];
const heading = (level: 1 | 2 | 3, text: string): Block => ({ kind: 'heading', level, text });
const paragraph = (text: string, more: Partial<Run> = {}): Block => ({ kind: 'paragraph', runs: [{ text, ...more }] });
const list = (items: readonly string[]): Block => ({ kind: 'list', marker: 'none', items: items.map(cell) });

/** All that the paper is made from; a draft in the same shape serves as well. */
export type QuotedRecord = Pick<Quote, 'frozen' | 'issuedAt' | 'revision' | 'validUntil'> & {
  /** True for a paper to look over before it is issued: it says so on every page, and has nowhere to sign. */
  readonly isDraft?: boolean;
};

function headWords({ frozen, issuedAt, revision, validUntil, isDraft = false }: QuotedRecord): string[] {
  const { business } = frozen;
  const day = formatInstantDay(issuedAt, business.timeZone, 'full', business.locale);
  return [
    `Quote ${frozen.job.number}, ${isDraft ? 'draft' : `revision ${revision}`}, page {page} of {pages}`,
    isDraft ? `${day}. Not issued: no offer yet.` : `${day}. Stands until ${formatDay(validUntil, 'short', business.locale)}.`,
  ];
}

interface FirstPage {
  readonly frozen: Frozen;
  readonly estimate: JobEstimate;
  /** The room drawn large. */
  readonly shown: RoomEstimate | null;
  readonly dates: readonly QuotedDates[];
  readonly isDraft: boolean;
}

/** The one page that answers what, when and how much. */
function firstPage({ frozen, estimate, shown, dates, isDraft }: FirstPage): Block[] {
  const { customer, property } = frozen;
  const { suggested, options } = estimate;
  const isTight = dates.length > 0 || Math.min(suggested.rooms.length, MOST_TOLD_APART) + suggested.price.taxes.length > 3;
  const size = FIRST_PLAN[options.length === 1 ? (isTight ? 'usual' : 'ample') : isTight ? 'tight' : 'usual'];
  // The more rooms, the more words: they get the wider column.
  const share = suggested.rooms.length > 2 ? Math.min(size.share, WORDY_SHARE) : size.share;
  const plan = shown === null ? null : planBlock(frozen, shown, size.width, size.height);
  const section = shown === null ? null : sectionBlock(frozen, shown);
  const found = foundWords(frozen, suggested.rooms);
  const beside: Block[] = [
    ...(found === '' ? [] : [heading(2, 'What we found'), paragraph(found)]),
    heading(2, 'What we propose'),
    paragraph(proposedWords(frozen, estimate)),
  ];
  return [
    heading(1, `To level ${roomsInWords(suggested.rooms).replace(/^the /, 'your ')}`),
    paragraph([customer.name, property.address.line, property.address.city].filter((p) => p !== '').join(', ')),
    plan === null ? { kind: 'together', blocks: beside } : { kind: 'columns', shares: [share, 1], columns: [[plan], beside] },
    ...(section === null ? [] : [section]),
    optionsTable(frozen, estimate),
    { kind: 'paragraph', runs: paymentRuns(frozen, suggested, dates) },
    ...(isDraft ? [] : [acceptance(options.length)]),
  ];
}

/** Where the customer signs, and names the way chosen where there is more than one. */
function acceptance(ways: number): Block {
  return {
    kind: 'fields',
    fields:
      ways > 1
        ? [
            { label: 'Accepted by', share: 0.4 },
            { label: `which of the ${ways === 2 ? 'two' : 'three'}`, share: 0.33 },
            { label: 'Date', share: 0.27 },
          ]
        : [
            { label: 'Accepted by', share: 0.6 },
            { label: 'Date', share: 0.4 },
          ],
  };
}

/** Scope, room by room, with the plans that the first page had no place for. */
function scope(frozen: Frozen, estimate: JobEstimate, shown: RoomEstimate | null): Block[] {
  const { suggested } = estimate;
  const { currency, locale } = frozen.business;
  const isMany = suggested.rooms.length > MOST_TOLD_APART;
  return suggested.rooms.flatMap((room): Block[] => {
    const plan = room.roomId === shown?.roomId ? null : planBlock(frozen, room, OTHER_PLAN_PX.width, OTHER_PLAN_PX.height);
    const price = isMany ? [`before tax ${formatMoney(roomPriceMinor(suggested, room.roomId), currency, locale)}`] : [];
    const found = isMany ? foundWords(frozen, [room]) : '';
    const told: Block[] = [
      heading(2, room.name),
      ...(found === '' ? [] : [paragraph(found)]),
      list([...scopeWords(frozen, room), ...price]),
    ];
    return plan === null ? told : [{ kind: 'columns', shares: [1, 1], columns: [told, [plan]] }];
  });
}

/**
 * The quote.
 * @param quote the frozen revision, or a draft in the same shape; nothing else is read, so that it says the same years later
 */
export function quoteSheet(quote: QuotedRecord): DocumentTree {
  const { frozen } = quote;
  const { business, property, job } = frozen;
  const estimate = estimateOfQuote(quote);
  const { suggested } = estimate;
  const [shown = null] = [...suggested.rooms].sort((a, b) => b.takeoff.room.areaM2 - a.takeoff.room.areaM2);
  const dates = quotedDates(frozen, suggested);
  const along = datesBlock(frozen, dates);
  const terms = quoteTerms(frozen);
  const blocks: Block[] = [
    { kind: 'cover', blocks: firstPage({ frozen, estimate, shown, dates, isDraft: quote.isDraft ?? false }) },
    heading(1, 'What is done, room by room'),
    ...scope(frozen, estimate, shown),
    ...(along === null
      ? []
      : [
          heading(1, 'When'),
          along,
          paragraph(
            'Days are reckoned from the day the pour is meant for and move with it. Each covering waits for its moisture test, whatever the date.',
            {
              italic: true,
            },
          ),
        ]),
    heading(1, 'What this rests on'),
    list(terms.assumptions),
    heading(2, 'Not in the price'),
    list(terms.excluded),
    heading(2, 'Please mind'),
    list([CAUTIONS.silica.says, CAUTIONS['wet-cement'].says]),
    ...(business.quoteTerms.trim() === '' ? [] : [heading(2, 'Terms'), paragraph(business.quoteTerms.trim())]),
    {
      kind: 'together',
      blocks: [
        heading(1, estimate.options.length > 1 ? `The price of “${suggested.name}”, line by line` : 'The price, line by line'),
        linesTable(frozen, suggested),
      ],
    },
  ];
  return onLetterhead(business, {
    title: `Quote ${job.number}, ${quote.isDraft === true ? 'draft' : `revision ${quote.revision}`}`,
    subject: `To level ${roomsInWords(suggested.rooms)} at ${property.address.line}`,
    madeAt: quote.issuedAt,
    right: headWords(quote),
    blocks,
  });
}
