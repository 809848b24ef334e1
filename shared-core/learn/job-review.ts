/** Estimate and actual of one job: the quote against the pour log, the signatures and the ledger. */
import type { QuotedOption } from '../book/quote.ts';
import type { WholeJob } from '../book/whole-job.ts';
import { counts } from '../ledger/account.ts';
import { contractOfJob } from '../ledger/job-contract.ts';
import { type JobResult, jobResult } from '../ledger/job-result.ts';
import { pourUses } from '../ledger/stock.ts';
import { dayOfInstant } from '../measure/moment.ts';
import { liveEntries } from '../pour/pour-regions.ts';
import { acceptedQuote, contractBasis } from '../price/change-order.ts';
import { loggedHours } from './logged-hours.ts';

/** One figure, estimated and actual; null where it is not known. */
export type Compared = { readonly estimated: number | null; readonly actual: number | null };

/** A job's estimate and actual figures. Money in whole minor units. */
export type JobReview = {
  /** Bags quoted and bags placed. */
  readonly bags: Compared;
  /** Days on site quoted, with those of signed change orders, and days with hours. */
  readonly days: Compared;
  /** Hours by task, crew together, the largest first. Hours in the logs that are not recorded yet count too. */
  readonly hours: readonly ({ readonly task: string } & Compared)[];
  readonly costMinor: Compared;
  /** Without sales tax: the contract, and what was received. */
  readonly priceMinor: Compared;
  readonly profitMinor: Compared;
  /** Profit for each hour the owner worked; the owner's own hours are no cost here. */
  readonly ownerHourMinor: Compared;
};

type Of = Pick<WholeJob, 'business' | 'property' | 'job' | 'quotes' | 'pours' | 'pourEvents' | 'ledger'>;

/** The contract's floors, hours and cost: the accepted option as quoted, or as the last signed change order left it; null before. */
export function acceptedOption(quotes: WholeJob['quotes']): QuotedOption | null {
  const accepted = acceptedQuote(quotes);
  return accepted === null ? null : contractBasis(accepted);
}

/** Reviews a job from its records. The estimate is the accepted quote's with its signed change orders. */
export function jobReview(whole: Of): JobReview {
  const option = acceptedOption(whole.quotes);
  const finished = whole.pours.filter((pour) => pour.deletedAt === null && pour.finishedAt !== null);
  const bags = finished
    .flatMap((pour) => liveEntries(pour, whole.pourEvents))
    .reduce((sum, { event }) => (event.kind === 'placed' ? sum + event.bags : sum), 0);
  const worked = workedHours(whole);
  const days = new Set(worked.map(({ onDay }) => onDay));
  const result = jobResult(whole.ledger);
  const isSpent = result.costMinor > 0;
  const contract = contractOfJob(whole.quotes);
  const priceMinor = contract?.netMinor ?? null;
  return {
    bags: { estimated: option?.bags ?? null, actual: finished.length === 0 ? null : bags },
    days: { estimated: agreedDays(whole.quotes), actual: days.size === 0 ? null : days.size },
    hours: hoursByTask(option, worked),
    costMinor: { estimated: option?.planned.costMinor ?? null, actual: isSpent ? result.costMinor : null },
    priceMinor: { estimated: priceMinor, actual: result.incomeMinor === 0 ? null : result.incomeMinor },
    profitMinor: {
      estimated: option === null || priceMinor === null ? null : priceMinor - option.planned.costMinor,
      actual: isSpent && result.incomeMinor !== 0 ? result.profitMinor : null,
    },
    ownerHourMinor: { estimated: estimatedOwnerHour(option, priceMinor, whole), actual: actualOwnerHour(result) },
  };
}

/** What a job took that its cost leaves out. */
export type LeftOut = {
  /** Hours in the logs that are not recorded yet. */
  readonly minutes: number;
  /** Bags its pours used beyond those that its own purchases name, such as bags from stock. */
  readonly bags: number;
};

/** What a job took, by its logs, that its cost leaves out. */
export function leftOutOfCost(whole: Of): LeftOut {
  return { minutes: loggedHours(whole).reduce((sum, { minutes }) => sum + minutes, 0), bags: bagsNotBought(whole) };
}

function bagsNotBought({ property, pours, pourEvents, ledger }: Of): number {
  const left = new Map<string, number>();
  const add = (materialId: string, bags: number): void => void left.set(materialId, (left.get(materialId) ?? 0) + bags);
  for (const { materialId, containers } of pourUses(pours, pourEvents, (at) => dayOfInstant(at, property.timeZone)))
    add(materialId, containers);
  for (const entry of ledger)
    if (entry.kind === 'purchase' && counts(entry))
      for (const { materialId, quantity } of entry.lines) if (materialId !== null) add(materialId, -quantity);
  return [...left.values()].reduce((sum, bags) => sum + Math.max(0, bags), 0);
}

/** The days on site of the accepted option, with those its signed change orders add; null before. */
function agreedDays(quotes: WholeJob['quotes']): number | null {
  const accepted = acceptedQuote(quotes);
  if (accepted === null) return null;
  const { days } = contractBasis({ ...accepted, orders: [] });
  return days + accepted.orders.reduce((sum, { state, addedDays }) => sum + (state === 'signed' ? addedDays : 0), 0);
}

/** Hours of the ledger, and those in the logs that are not recorded yet. */
export function workedHours(whole: Of): { readonly task: string; readonly minutes: number; readonly onDay: string }[] {
  const recorded = whole.ledger.flatMap((entry) => (entry.kind === 'hours' && counts(entry) ? [entry] : []));
  return [...recorded, ...loggedHours(whole)].map(({ task, minutes, onDay }) => ({ task, minutes, onDay }));
}

function hoursByTask(option: QuotedOption | null, worked: readonly { task: string; minutes: number }[]): JobReview['hours'] {
  const actual = new Map<string, number>();
  for (const { task, minutes } of worked) actual.set(task, (actual.get(task) ?? 0) + minutes / 60);
  const planned = new Map((option?.planned.hours ?? []).map(({ name, ownHours, helperHours }) => [name, ownHours + helperHours]));
  return [...new Set([...planned.keys(), ...actual.keys()])]
    .map((task) => ({ task, estimated: planned.get(task) ?? null, actual: actual.get(task) ?? null }))
    .sort((a, b) => (b.actual ?? 0) - (a.actual ?? 0) || (b.estimated ?? 0) - (a.estimated ?? 0));
}

function estimatedOwnerHour(option: QuotedOption | null, priceMinor: number | null, { business }: Of): number | null {
  const hours = (option?.planned.hours ?? []).reduce((sum, task) => sum + task.ownHours, 0);
  if (option === null || priceMinor === null || hours === 0) return null;
  return Math.round((priceMinor - option.planned.costMinor) / hours + business.costs.ownHourMinor);
}

function actualOwnerHour(result: JobResult): number | null {
  return result.incomeMinor === 0 ? null : result.ownerHourMinor;
}
