/** The price of a job: lines, prices, tax, payments, range and margin. */
import type { Business } from '../book/business.ts';
import type { EstimateChoices } from '../book/job.ts';
import type { Problem } from './problem.ts';
import { formatMoney } from './money.ts';
import { formatListAnd } from '../measure/list.ts';
import { formatPercent } from '../measure/percent.ts';
import { apportion } from './apportion.ts';
import { pricePerArea, type PerArea } from './common-band.ts';
import type { CostInput } from './cost-input.ts';
import { costLines } from './cost-lines.ts';
import { exact, ONE, roundHalfUp, times, type Exact } from './exact.ts';
import { certainCost, type CostLine, type PricedLine } from './line.ts';
import { explainShare, marginShare, priceFactor, priceOf } from './markup.ts';
import { priceLines, withOverrides } from './price-lines.ts';
import { payments, type PaymentStage } from './stages.ts';
import { taxOn, type TaxTotal } from './tax.ts';

/** The price of one room, with its share of the job's lines. */
export type RoomPrice = {
  readonly roomId: string;
  readonly name: string;
  readonly costMinor: number;
  /** Its own lines, before and after the discount. */
  readonly priceMinor: number;
  readonly netMinor: number;
  /** With its share of travel, contingency and the like; these add up to the job's net. */
  readonly allInMinor: number;
};

/** Every figure of a priced job, whole minor units. */
export type PricedJob = {
  readonly currency: string;
  readonly lines: readonly PricedLine[];
  readonly rooms: readonly RoomPrice[];
  readonly costMinor: number;
  readonly discountMinor: number;
  /** Before tax. */
  readonly netMinor: number;
  readonly taxes: readonly TaxTotal[];
  readonly taxMinor: number;
  readonly totalMinor: number;
  /** Net at the least and the most of the estimate's own range, at the same terms: the minimum charge holds at both ends. */
  readonly range: { readonly leastMinor: number; readonly mostMinor: number };
  readonly stages: readonly PaymentStage[];
  readonly depositMinor: number;
  readonly perArea: PerArea | null;
  /** Markup or margin in a sentence. */
  readonly methodWords: string;
  /** The margin that the price leaves, in a sentence, where it is not the one that the method says; else empty. */
  readonly marginWords: string;
  readonly problems: readonly Problem[];
};

/** Prices a job from its takeoffs, its business and its choices. */
export type PriceInput = CostInput & {
  readonly choices: Pick<EstimateChoices, 'overrides' | 'discountMinor' | 'discountNote' | 'stages'>;
  readonly areaM2: number;
  readonly meanDepthM: number | null;
  /** Keys of lines of other options, whose overrides are kept. */
  readonly knownKeys?: (key: string) => boolean;
};

/** Prices a job. Only whole minor units are stored; unpriced items are listed in `problems`. */
export function priceJob(input: PriceInput): PricedJob {
  const { business, choices } = input;
  const { pricing, currency, locale, units } = business;
  const { lines: work, problems: costProblems } = costLines(input);
  const problems: Problem[] = [...costProblems];
  const factorRead = priceFactor(pricing.method, pricing.share);
  if (!factorRead.ok) problems.push(whole('pricing', factorRead.message, true));
  const factor = factorRead.ok ? factorRead.value : ONE;
  const calculated = [...work, ...contingencyLine(withOverrides(work, choices.overrides), choices.overrides, business)];
  const beforeLeast = priceLines(calculated, choices.overrides, factor, pricing.rounding);
  const priced = [...beforeLeast, ...leastChargeLine(beforeLeast, choices.overrides, business)];
  const priceMinor = sum(priced, (line) => line.priceMinor);
  const discountMinor = Math.min(choices.discountMinor, priceMinor);
  if (choices.discountMinor > priceMinor) {
    problems.push(
      whole(
        'discount',
        `The discount of ${formatMoney(choices.discountMinor, currency, locale)} is more than the price. The maximum is ${formatMoney(priceMinor, currency, locale)}.`,
        true,
      ),
    );
  }
  const discounts = apportion(
    discountMinor,
    priced.map((line) => exact(line.priceMinor)),
  );
  const lines = priced.map((line, index) => ({ ...line, netMinor: line.priceMinor - (discounts[index] ?? 0) }));
  const tax = taxOn(lines, business.taxRates, pricing.rounding);
  for (const id of tax.unknown) problems.push(whole(`tax:${id}`, 'The tax rate of a line no longer exists. Choose its tax again.', true));
  const known = new Set(lines.map((line) => line.key));
  for (const override of choices.overrides.filter((o) => !known.has(o.lineKey) && input.knownKeys?.(o.lineKey) !== true)) {
    problems.push(
      whole(
        `override:${override.lineKey}`,
        `A changed figure (“${override.note}”) belongs to a line that no longer exists. It has no effect.`,
        false,
      ),
    );
  }
  const netMinor = priceMinor - discountMinor;
  const costMinor = sum(lines, (line) => line.costMinor);
  const totalMinor = netMinor + tax.totalMinor;
  const paid = payments(totalMinor, choices.stages, pricing);
  if (paid.warning !== null) problems.push(whole('stages', paid.warning, true));
  const bagCost = sum(
    lines.filter((line) => line.unit === 'bag'),
    (line) => line.costMinor,
  );
  const perArea = pricePerArea(
    { priceMinor: netMinor, materialCostMinor: bagCost, areaM2: input.areaM2, meanDepthM: input.meanDepthM },
    currency,
    units,
    locale,
  );
  if (perArea?.verdict === 'slip') problems.push(whole('per-area', perArea.message, false));
  return {
    currency,
    lines,
    rooms: roomPrices(lines, input),
    costMinor,
    discountMinor,
    netMinor,
    taxes: tax.byRate,
    taxMinor: tax.totalMinor,
    totalMinor,
    range: netRange(lines, { beforeLeastMinor: sum(beforeLeast, (line) => line.priceMinor), discountMinor }, factor, input),
    stages: paid.stages,
    depositMinor: paid.depositMinor,
    perArea,
    methodWords: explainShare(pricing.method, pricing.share),
    marginWords: marginWords({ lines, costMinor, netMinor, discountMinor }, marginShare(pricing.method, pricing.share), locale),
    problems,
  };
}

/** The margin of a price whose discount, minimum charge or changed lines move it off the one of the method. @param asked null for none */
function marginWords(
  { lines, costMinor, netMinor, discountMinor }: Pick<PricedJob, 'lines' | 'costMinor' | 'netMinor' | 'discountMinor'>,
  asked: number | null,
  locale: string,
): string {
  const isLeast = ({ key }: PricedLine): boolean => key === 'least-charge';
  const causes = [
    ...(lines.some((line) => !isLeast(line) && !line.leftOut && (line.override?.priceMinor ?? null) !== null) ? ['the changed lines'] : []),
    ...(lines.some((line) => isLeast(line) && line.priceMinor > 0) ? ['the minimum charge'] : []),
    ...(discountMinor > 0 ? ['the discount'] : []),
  ];
  if (causes.length === 0 || netMinor <= 0) return '';
  const margin = formatPercent((netMinor - costMinor) / netMinor, 1, locale);
  return asked !== null && margin === formatPercent(asked, 1, locale) ? '' : `With ${formatListAnd(causes)}, your margin is ${margin}.`;
}

function whole(key: string, message: string, stops: boolean): Problem {
  return { key, roomId: null, message, stops };
}

/** The larger of the contingency share of the cost and the upper range of the estimate; none at 0 %. */
function contingencyLine(work: readonly CostLine[], overrides: EstimateChoices['overrides'], business: Business): CostLine[] {
  const { pricing, currency, locale } = business;
  // What the customer is not charged for carries no contingency.
  const charged = work.filter((line) => !overrides.some((o) => o.lineKey === line.key && o.priceMinor === 0));
  if (pricing.contingencyShare === 0) return [];
  const costMinor = sum(charged, (line) => line.costMinor);
  const byShare = roundHalfUp(times(exact(costMinor), exact(pricing.contingencyShare)));
  const byRange = sum(charged, (line) => line.mostCostMinor - line.costMinor);
  const amount = Math.max(byShare, byRange);
  if (amount === 0) return [];
  const share = `${formatPercent(pricing.contingencyShare, 1, locale)} of the cost is ${formatMoney(byShare, currency, locale)}`;
  const range = `the range of the estimate reaches ${formatMoney(byRange, currency, locale)} above it`;
  return [
    {
      key: 'contingency',
      roomId: null,
      kind: 'other',
      name: 'Contingency',
      unit: 'job',
      quantityWords: formatPercent(costMinor === 0 ? 0 : amount / costMinor, 1, locale),
      ...certainCost(amount),
      taxId: pricing.laborTaxId,
      reason: `${share}, and ${range}. The larger amount is used.`,
      source: 'business',
    },
  ];
}

/** What the minimum charge adds to the price of the work. `calculated` is without the override; 0 where the work reaches it, or costs nothing. */
function leastCharge(asked: number, overrides: EstimateChoices['overrides'], { pricing }: Business) {
  const calculated = asked === 0 ? 0 : Math.max(0, pricing.minimumChargeMinor - asked);
  const override = overrides.find((o) => o.lineKey === 'least-charge') ?? null;
  const changed = override?.leftOut === true ? 0 : (override?.priceMinor ?? calculated);
  return { calculated, override, priceMinor: calculated === 0 ? 0 : changed };
}

function leastChargeLine(lines: readonly PricedLine[], overrides: EstimateChoices['overrides'], business: Business): PricedLine[] {
  const { pricing, currency, locale } = business;
  const asked = sum(lines, (line) => line.priceMinor);
  const { calculated, override, priceMinor } = leastCharge(asked, overrides, business);
  if (calculated === 0) return [];
  return [
    {
      key: 'least-charge',
      roomId: null,
      kind: 'other',
      name: 'Minimum charge',
      unit: 'job',
      quantityWords: '',
      ...certainCost(0),
      taxId: pricing.laborTaxId,
      reason: `The work comes to ${formatMoney(asked, currency, locale)}. The minimum charge is ${formatMoney(pricing.minimumChargeMinor, currency, locale)}.`,
      source: 'business',
      calculatedCostMinor: 0,
      calculatedPriceMinor: calculated,
      priceMinor,
      netMinor: priceMinor,
      override,
      leftOut: override?.leftOut ?? false,
    },
  ];
}

function roomPrices(lines: readonly PricedLine[], input: PriceInput): RoomPrice[] {
  const own = input.rooms.map(({ room }) => {
    const mine = lines.filter((line) => line.roomId === room.roomId);
    return {
      roomId: room.roomId,
      name: room.roomName,
      costMinor: sum(mine, (line) => line.costMinor),
      priceMinor: sum(mine, (line) => line.priceMinor),
      netMinor: sum(mine, (line) => line.netMinor),
    };
  });
  const loose = sum(lines, (line) => line.netMinor) - sum(own, (room) => room.netMinor);
  const shares = apportion(
    loose,
    own.map((room) => exact(room.netMinor)),
  );
  return own.map((room, index) => ({ ...room, allInMinor: room.netMinor + (shares[index] ?? 0) }));
}

function netRange(
  lines: readonly PricedLine[],
  { beforeLeastMinor, discountMinor }: { readonly beforeLeastMinor: number; readonly discountMinor: number },
  factor: Exact,
  { business, choices }: PriceInput,
): PricedJob['range'] {
  // An overridden price or an excluded line does not change with the bags.
  const moving = lines.filter((line) => !line.leftOut && (line.override === null || line.override.priceMinor === null));
  const below = sum(moving, (line) => line.costMinor - line.leastCostMinor);
  const above = sum(moving, (line) => line.mostCostMinor - line.costMinor);
  const net = (workMinor: number): number => {
    const asked = Math.max(0, workMinor);
    return Math.max(0, asked + leastCharge(asked, choices.overrides, business).priceMinor - discountMinor);
  };
  return {
    leastMinor: net(beforeLeastMinor - roundHalfUp(priceOf(below, factor))),
    mostMinor: net(beforeLeastMinor + roundHalfUp(priceOf(above, factor))),
  };
}

function sum<T>(items: readonly T[], amount: (item: T) => number): number {
  return items.reduce((total, item) => total + amount(item), 0);
}
