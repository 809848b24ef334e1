/** The quote as the customer reads and signs it. Built once, when it is issued; reprints use the stored tree. */
import { printedCredentials } from '../book/contract-terms.ts';
import { isSealed } from '../book/flooring.ts';
import type { Frozen, Quote, QuotedOption, QuotedPrice } from '../book/quote.ts';
import { formatDay } from '../measure/day.ts';
import { formatInstantDay } from '../measure/moment.ts';
import { differencesSince } from '../price/change-order.ts';
import { type QuoteDifference, toldDifferences } from '../price/quote-differences.ts';
import { estimateJob, type OptionEstimate } from '../price/estimate-job.ts';
import { suggestedOption } from '../price/quoted-price.ts';
import type { RoomEstimate } from '../price/estimate-room.ts';
import { formatMoney } from '../price/money.ts';
import { dayOfInstant } from '../measure/moment.ts';
import { quoteClauses } from './clauses.ts';
import { hasCancellationNotice } from '../standing/right-to-cancel.ts';
import { cancellationNotice, leadReceipt, needsLeadPamphlet, RIGHT_TO_CANCEL } from './legal-notices.ts';
import { customerSignatures, headingBlock, listBlock, listPart, namedBlock, signatureBlock, textBlock } from './blocks.ts';
import { addressOrBlank, customerLine, issuerName, onLetterhead } from './letterhead.ts';
import { OVERRIDDEN_HOLD } from './open-holds.ts';
import { type QuotedDates, quotedDates } from './quote-dates.ts';
import { datesBlock, planBlock, sectionBlock } from './quote-drawings.ts';
import { otherScopes } from './option-scopes.ts';
import { heightBlocks } from './quote-heights.ts';
import { choiceWords, FLATNESS_ROW, flatnessWords, optionsTable, paymentLines } from './quote-table.ts';
import { quoteTerms } from './quote-terms.ts';
import { capital } from '../measure/first-letter.ts';
import { addedWords, flooringWords, foundWords, MAX_NAMED_ROOMS, proposedWords, roomsInWords, scopeWords } from './quote-words.ts';
import { workCalendar } from '../cure/stated-date.ts';
import { statedDateWords } from '../standing/time-words.ts';
import type { Block, DocumentTree } from './tree.ts';
import { countWords } from '../measure/count-words.ts';

/** Size of the plan on page 1, by the other content of the page. */
const FIRST_PLAN = { width: 440, share: 1.5, heightPx: { least: 130, most: 230 } } as const;
/** The words beside the plan: characters of a line, its height, and that of their two headings. The plan may be as tall. */
const BESIDE = { charsPerLine: 42, linePx: 20, headingsPx: 78 } as const;
const WORDY_SHARE = { rooms: 1.2, options: 0.85 } as const;
const OTHER_PLAN_PX = { width: 336, height: 220 } as const;

/** The dates of each option, the recommended one first. */
type OptionDates = readonly { readonly id: string; readonly dates: readonly QuotedDates[] }[];

/** All the quote is built from; a draft in the same shape serves as well. */
export type QuotedRecord = Pick<Quote, 'frozen' | 'priced' | 'holds' | 'issuedAt' | 'revision' | 'validUntil'> & {
  /** A draft is watermarked and has nowhere to sign. */
  readonly isDraft?: boolean;
  /** The revision it replaces; null for the first. */
  readonly replaces?: Pick<Quote, 'revision' | 'issuedAt' | 'priced' | 'acceptedOptionId' | 'orders'> | null;
};

function headLines({ frozen, issuedAt, revision, validUntil, isDraft = false }: QuotedRecord): string[] {
  const { business } = frozen;
  const day = formatInstantDay(issuedAt, business.timeZone, 'dated', business.locale);
  return [
    `Quote ${frozen.job.number}, ${isDraft ? 'draft' : `revision ${revision}`}, page {page} of {pages}`,
    isDraft ? `${day}. Draft, not an offer.` : `${day}. Valid until ${formatDay(validUntil, 'dated', business.locale)}.`,
  ];
}

/** What a revision replaces and what changed. */
function replacedBlocks({ frozen, priced, replaces = null }: QuotedRecord): Block[] {
  if (replaces === null) return [];
  const { business } = frozen;
  const { differences, text } = differencesSince(replaces, priced, business);
  const day = formatInstantDay(replaces.issuedAt, business.timeZone, 'short', business.locale);
  const rooms = [...priced.options, ...replaces.priced.options].flatMap((option) => option.rooms);
  const told = toldDifferences(differences, (id) => rooms.find(({ roomId }) => roomId === id)?.name ?? '');
  const scope = [...new Set(told.map((difference) => differenceWords(told, difference, priced.options.length)))];
  return [
    headingBlock(2, `Replaces revision ${replaces.revision} of ${day}`),
    listBlock([
      ...scope.slice(0, 8),
      ...(scope.length > 8 ? [`${countWords(scope.length - 8, 'more change', business.locale)}.`] : []),
      text,
    ]),
  ];
}

/** A difference with the option that has it, where not every one has. */
function differenceWords(all: readonly QuoteDifference[], { optionName, text }: QuoteDifference, options: number): string {
  const isOfAll = all.filter((other) => other.text === text).length >= options;
  return isOfAll || text.includes(`“${optionName}”`) ? text : `${text.replace(/\.$/, '')}, in “${optionName}”.`;
}

/** A room's foot traffic as stated; '' without one. */
function walkWords(frozen: Frozen, { walkOnAt }: QuotedDates): string {
  const place = workCalendar(frozen.business, frozen.property.timeZone);
  return walkOnAt === null ? '' : statedDateWords('walk-on', walkOnAt, place, 'short', frozen.business.locale);
}

/** When the last room of each option opens to foot traffic; null where all open alike. */
function walksByOption(frozen: Frozen, options: OptionDates): ReadonlyMap<string, string> | null {
  const walks = options.map(({ dates }) => dates.map(({ walkOnAt }) => walkOnAt ?? ''));
  if (walks.every((instants) => instants.join() === walks[0]?.join())) return null;
  return new Map(
    options.map(({ id, dates }) => {
      const last = dates.toSorted((a, b) => (a.walkOnAt ?? '').localeCompare(b.walkOnAt ?? '')).at(-1);
      return [id, (last === undefined ? '' : walkWords(frozen, last)) || 'No date'];
    }),
  );
}

/** Dates for the customer: the pour and foot traffic, as days. */
function dateLines(frozen: Frozen, dates: readonly QuotedDates[], rooms: readonly RoomEstimate[]): string[] {
  if (dates.length === 0) return ['We agree on the pour date when you accept.'];
  const { locale } = frozen.business;
  const zone = frozen.property.timeZone;
  const lines = dates.slice(0, MAX_NAMED_ROOMS).map((date) => {
    const walk = walkWords(frozen, date);
    const day = (instant: string): string => formatInstantDay(instant, zone, 'weekday', locale);
    const pour =
      date.lastPourAt === null ? `pour on ${day(date.pourAt)}` : `first pour on ${day(date.pourAt)}, last pour on ${day(date.lastPourAt)}`;
    return `${date.roomName}: ${pour}${walk === '' ? '' : `, open to foot traffic ${walk}`}.`;
  });
  if (dates.length > MAX_NAMED_ROOMS) return [...lines, 'The other rooms are under “Dates”.'];
  const open = rooms.filter(({ roomId }) => dates.every((date) => date.roomId !== roomId));
  return open.length === 0 ? lines : [...lines, `${capital(roomsInWords(open))}: we agree on the pour date when you accept.`];
}

interface FirstPage {
  readonly quote: QuotedRecord;
  readonly estimate: OptionEstimate;
  /** The room drawn large. */
  readonly shown: RoomEstimate | null;
  readonly dates: OptionDates;
}

/** Page 1: findings, proposal, price, payments, dates and flatness. */
function firstPage({ quote, estimate, shown, dates }: FirstPage): Block[] {
  const { frozen, priced } = quote;
  const { business } = frozen;
  const suggested = suggestedOption(priced);
  const wordy = suggested.rooms.length > 2 ? WORDY_SHARE.rooms : FIRST_PLAN.share;
  const share = priced.options.length > 1 ? WORDY_SHARE.options : wordy;
  const findings = foundWords(frozen, estimate.rooms);
  const proposed = proposedWords(frozen, estimate.rooms, priced.options, suggested, estimate.price);
  const lines = Math.ceil(findings.length / BESIDE.charsPerLine) + Math.ceil(proposed.length / BESIDE.charsPerLine);
  const { least, most } = FIRST_PLAN.heightPx;
  const isShort = priced.options.length > 1 || suggested.rooms.length > 2;
  const heightPx = isShort ? Math.max(least, Math.min(most, BESIDE.headingsPx + lines * BESIDE.linePx)) : most;
  const walks = walksByOption(frozen, dates);
  const plan = shown === null ? null : planBlock(frozen, shown, { widthPx: FIRST_PLAN.width, heightPx });
  const besidePlan: Block[] = [
    ...(findings === '' ? [] : [headingBlock(2, 'Our findings'), textBlock(findings)]),
    headingBlock(2, 'Our proposal'),
    textBlock(proposed),
  ];
  return [
    headingBlock(1, quoteTitle(priced, roomsInWords(suggested.rooms).replace(/^the /, 'your '))),
    textBlock(customerLine(frozen)),
    ...replacedBlocks(quote),
    plan === null ? { kind: 'together', blocks: besidePlan } : { kind: 'columns', shares: [share, 1], columns: [[plan], besidePlan] },
    optionsTable(business, priced, walks),
    ...termColumns(frozen, priced, dateLines(frozen, dates[0]?.dates ?? [], estimate.rooms), walks !== null),
    ...(priced.options.length > 1 || estimate.rooms.length > MAX_NAMED_ROOMS ? [] : [listBlock(flooringWords(frozen, estimate.rooms))]),
  ];
}

/** What the quote is for. It promises a level floor only where each option levels every room. @param rooms in words */
function quoteTitle({ options }: QuotedPrice, rooms: string): string {
  if (options.every((option) => option.rooms.every(({ mode }) => mode === 'level'))) return `Quote to level ${rooms}`;
  return `Quote for the ${options.every((option) => option.rooms.length === 1) ? 'floor' : 'floors'} of ${rooms}`;
}

/**
 * Payments, dates and flatness side by side. The payments of several options are in their table.
 * @param areTheirs the dates are those of the recommended option alone
 */
function termColumns(frozen: Frozen, priced: QuotedPrice, dates: string[], areTheirs: boolean): Block[] {
  const suggested = suggestedOption(priced);
  const discount = suggested.discountMinor > 0 ? [textBlock(discountWords(frozen, suggested))] : [];
  // The table has the foot traffic of the other options.
  const dated = [headingBlock(2, areTheirs ? 'Dates, as recommended' : 'Dates'), listBlock(dates)];
  const flat = [headingBlock(2, 'Flatness'), textBlock(promisedFlatness(priced, frozen.business))];
  if (priced.options.length > 1) return [...discount, { kind: 'columns', shares: [1.25, 1], columns: [dated, flat] }];
  const paid = [headingBlock(2, 'Payments'), listBlock(paymentLines(frozen.business, suggested))];
  return [{ kind: 'columns', shares: [1.15, 1.1, 1], columns: [paid, dated, flat] }, ...discount];
}

function discountWords({ business, job }: Frozen, option: QuotedOption): string {
  const reason = job.estimate.discountNote.trim();
  return `The prices include a discount of ${formatMoney(option.discountMinor, business.currency, business.locale)}${reason === '' ? '' : ` (${reason})`}.`;
}

/** The largest gap that is promised; of several options, each its own. */
function promisedFlatness({ options }: QuotedPrice, business: Frozen['business']): string {
  const gapM = options.find((option) => option.gapM !== null)?.gapM ?? null;
  if (gapM === null) return 'We state the flatness once the floor is measured.';
  const gap = options.length > 1 ? `the “${FLATNESS_ROW}” of the option you choose` : flatnessWords(gapM, business);
  return `We promise no gap larger than ${gap}, checked under a straightedge laid in every direction after the pour.`;
}

/** Scope room by room, each with its price and its open holds, then what was added to the whole job. */
function scopeBlocks(quote: QuotedRecord, estimate: OptionEstimate, shown: RoomEstimate | null): Block[] {
  const { frozen, priced, holds } = quote;
  const { currency, locale } = frozen.business;
  const suggested = suggestedOption(priced);
  const wholeJob = addedWords(estimate.price, null);
  const rooms = estimate.rooms.flatMap((room): Block[] => {
    const isShown = room.roomId === shown?.roomId;
    const plan = isShown ? null : planBlock(frozen, room, { widthPx: OTHER_PLAN_PX.width, heightPx: OTHER_PLAN_PX.height });
    const price = suggested.rooms.find((priced) => priced.roomId === room.roomId)?.priceMinor ?? 0;
    const own = holds.filter((hold) => hold.roomId === room.roomId).map((hold) => hold.text);
    const overridden = own.filter((text) => text.startsWith(OVERRIDDEN_HOLD));
    const open = own.filter((text) => !text.startsWith(OVERRIDDEN_HOLD));
    const blocks: Block[] = [
      headingBlock(3, `${room.name}: ${formatMoney(price, currency, locale)} before tax`),
      listBlock(scopeWords(frozen, room, estimate.price)),
      ...(open.length === 0 ? [] : [textBlock('Open before we can pour:', { bold: true }), listBlock(open)]),
      ...(overridden.length === 0 ? [] : [listBlock(overridden)]),
    ];
    const section = isShown ? sectionBlock(frozen, room) : null;
    if (plan === null) return section === null ? blocks : [...blocks, section];
    return [{ kind: 'columns', shares: [1, 1], columns: [blocks, [plan]] }];
  });
  return [...rooms, ...listPart(3, 'For the whole job, included in the prices above', wholeJob)];
}

/** What a moisture test holds back; empty where no floor needs one. */
function testedWords({ job }: Frozen, dates: readonly QuotedDates[]): string {
  if (!dates.some(({ cover }) => cover?.byTest === true)) return '';
  const isAllSealed = job.rooms.every(({ flooring }) => isSealed(flooring));
  const what = isAllSealed ? 'The sealer goes on' : 'Flooring that needs a moisture test goes down';
  return ` ${what} only after the floor passes ${isAllSealed ? 'its moisture test' : 'it'}.`;
}

function datesPart(frozen: Frozen, title: string, dates: readonly QuotedDates[]): Block[] {
  const dateBlocks = datesBlock(frozen, dates);
  if (dateBlocks === null) return [];
  return [
    {
      kind: 'together',
      blocks: [
        headingBlock(2, title),
        dateBlocks,
        textBlock(`These dates follow the planned pour date. If it moves, they move.${testedWords(frozen, dates)}`),
      ],
    },
  ];
}

function termsPart(frozen: Frozen, priced: QuotedPrice): Block[] {
  const own = frozen.business.quoteTerms.trim();
  const clauses = quoteClauses(frozen, priced);
  return [
    headingBlock(2, 'Terms'),
    ...clauses.map(({ title, text }) => namedBlock(`${title}. `, text)),
    ...(own === '' ? [] : [textBlock(own)]),
  ];
}

/** Where the contract is signed: the options to choose from, the right to cancel, and who signs. */
function acceptance({ frozen, priced, revision }: QuotedRecord): Block {
  const { business, job } = frozen;
  const credentials = printedCredentials(business.contract, 'acceptance')
    .map(({ label, text }) => `${label}: ${text}.`)
    .join(' ');
  return {
    kind: 'together',
    blocks: [
      headingBlock(2, 'Acceptance'),
      ...(priced.options.length < 2
        ? []
        : [
            textBlock('I choose:'),
            listBlock(
              priced.options.map((option) => `${option.name}: ${choiceWords(business, option)}`),
              'box',
            ),
          ]),
      textBlock(`I accept pages 1 to {pages} of quote ${job.number}, revision ${revision}.`, { counted: true }),
      ...(credentials === '' ? [] : [textBlock(credentials)]),
      ...(hasCancellationNotice(frozen) ? [textBlock(RIGHT_TO_CANCEL, { bold: true })] : []),
      ...customerSignatures(frozen),
      signatureBlock(issuerName(business), business.ownerName),
    ],
  };
}

function noticeBlocks(frozen: Frozen): Block[] {
  const { business, property } = frozen;
  const cancel = hasCancellationNotice(frozen)
    ? cancellationNotice({ seller: issuerName(business), sellerAddress: addressOrBlank(business.address), signedOn: '', cancelBy: '' })
    : [];
  return [...cancel, ...(needsLeadPamphlet(property) ? leadReceipt(addressOrBlank(property.address), property.yearBuilt) : [])];
}

/**
 * The quote's document tree.
 * @param quote the revision as issued, or a draft in the same shape; nothing else is read
 */
export function quoteSheet(quote: QuotedRecord): DocumentTree {
  const { frozen, priced, isDraft = false } = quote;
  const { business, property, job, customer } = frozen;
  const { options, suggested: estimate } = estimateJob(frozen, dayOfInstant(quote.issuedAt, business.timeZone));
  const suggested = suggestedOption(priced);
  const [shown = null] = [...estimate.rooms].sort((a, b) => b.takeoff.room.areaM2 - a.takeoff.room.areaM2);
  const dates = [estimate, ...options.filter((option) => option !== estimate)].map((option) => ({
    id: option.id,
    dates: quotedDates(frozen, option, quote.issuedAt),
  }));
  const stated = dates[0]?.dates ?? [];
  const terms = quoteTerms(frozen);
  // A part that holds for one option alone names it.
  const named = (title: string): string => (priced.options.length > 1 ? `${title}: ${suggested.name}` : title);
  const blocks: Block[] = [
    { kind: 'cover', blocks: firstPage({ quote, estimate, shown, dates }) },
    headingBlock(2, named('Scope of work')),
    // What to expect of one option stands with its scope.
    ...(priced.options.length > 1 ? [listBlock(flooringWords(frozen, estimate.rooms))] : []),
    ...scopeBlocks(quote, estimate, shown),
    ...heightBlocks(frozen, estimate.rooms, named('Heights that change')),
    ...otherScopes(frozen, priced, options, estimate),
    ...datesPart(frozen, named('Dates'), stated),
    {
      kind: 'columns',
      shares: [1, 1],
      columns: [
        [headingBlock(2, 'Assumptions'), listBlock(terms.assumptions)],
        [headingBlock(2, 'Exclusions'), listBlock(terms.excluded)],
      ],
    },
    headingBlock(2, 'Safety and care'),
    textBlock(
      'The wet mix burns skin. Keep people and pets off the floor until it is open to foot traffic. Stay out of the work area while we grind, sand or mix: the dust is hazardous.',
    ),
    ...termsPart(frozen, priced),
    ...(isDraft ? [] : [acceptance(quote), ...noticeBlocks(frozen)]),
  ];
  const tree = onLetterhead(business, {
    title: `Quote ${job.number} ${isDraft ? 'draft' : `revision ${quote.revision}`}, ${customer.name}`,
    subject: `${quoteTitle(priced, roomsInWords(suggested.rooms))} at ${property.address.line}`,
    madeAt: quote.issuedAt,
    right: headLines(quote),
    blocks,
  });
  return isDraft ? { ...tree, watermark: 'Draft' } : tree;
}
