/** What differs between a quote as issued and the job as it stands, or between two revisions: in words and money. */
import type { LevelChoice } from '../book/job.ts';
import { formatDepth } from '../measure/length-format.ts';
import { formatNumber } from '../measure/number.ts';
import { formatVolume } from '../measure/volume.ts';
import type { EstimateRecords, JobEstimate, OptionEstimate } from './estimate-job.ts';
import type { RoomEstimate } from './estimate-room.ts';
import { formatPercent } from '../measure/percent.ts';
import { formatMoney } from './money.ts';

/** One difference. */
export type QuoteDifference = {
  /** The option it belongs to, and its name. */
  readonly optionId: string;
  readonly optionName: string;
  readonly roomId: string | null;
  readonly words: string;
  /** Change of the price before tax; null where the words carry no money of their own. */
  readonly changeMinor: number | null;
};

/** All differences, and the whole change of what is asked. */
export type QuoteDifferences = {
  readonly differences: readonly QuoteDifference[];
  /** Change of the suggested option's total, tax included. */
  readonly totalChangeMinor: number;
  readonly words: string;
};

/** An estimate with the records it came from. */
export type Estimated = { readonly records: EstimateRecords; readonly estimate: JobEstimate };

const LEVEL_WORDS: Record<LevelChoice['mode'], string> = { level: 'level', follow: 'follow the floor', ramp: 'a ramp' };

/**
 * Compares two estimates of one job.
 * @param before as issued
 * @param after as it stands
 */
export function quoteDifferences(before: Estimated, after: Estimated): QuoteDifferences {
  const { currency, locale } = after.records.business;
  const differences: QuoteDifference[] = [];
  for (const option of after.estimate.options) {
    const was = before.estimate.options.find((other) => other.id === option.id);
    if (was === undefined) differences.push(onOption(option, `${option.name} is new among the options.`, option.price.netMinor));
    else differences.push(...optionDifferences(was, option, before, after));
  }
  for (const option of before.estimate.options) {
    if (!after.estimate.options.some((other) => other.id === option.id)) {
      differences.push(onOption(option, `${option.name} is no longer among the options.`, -option.price.netMinor));
    }
  }
  const from = before.estimate.suggested.price.totalMinor;
  const to = after.estimate.suggested.price.totalMinor;
  const change = to - from;
  const money = (minor: number) => formatMoney(minor, currency, locale);
  const words =
    differences.length === 0 && change === 0
      ? 'Nothing differs.'
      : change === 0
        ? `The total stays ${money(to)}.`
        : `The total goes from ${money(from)} to ${money(to)}, ${money(Math.abs(change))} ${change > 0 ? 'more' : 'less'}.`;
  return { differences, totalChangeMinor: change, words };
}

function onOption(option: OptionEstimate, words: string, changeMinor: number | null, roomId: string | null = null): QuoteDifference {
  return { optionId: option.id, optionName: option.name, roomId, words, changeMinor };
}

function optionDifferences(was: OptionEstimate, now: OptionEstimate, before: Estimated, after: Estimated): QuoteDifference[] {
  const out: QuoteDifference[] = [];
  if (was.name !== now.name) out.push(onOption(now, `“${was.name}” is called “${now.name}” now.`, null));
  for (const room of now.rooms) {
    const earlier = was.rooms.find((other) => other.roomId === room.roomId);
    if (earlier === undefined) out.push(onOption(now, `${room.name} is new.`, null, room.roomId));
    else out.push(...roomDifferences(earlier, room, before, after).map((words) => onOption(now, words, null, room.roomId)));
  }
  for (const room of was.rooms) {
    if (!now.rooms.some((other) => other.roomId === room.roomId))
      out.push(onOption(now, `${room.name} is no longer part of it.`, null, room.roomId));
  }
  return [...out, ...moneyDifferences(was, now, after)];
}

function roomDifferences(was: RoomEstimate, now: RoomEstimate, before: Estimated, after: Estimated): string[] {
  const { units, locale } = after.records.business;
  const out: string[] = [];
  const said = (words: string) => out.push(`${now.name}: ${words}`);
  if (was.name !== now.name) out.push(`${was.name} is called ${now.name} now.`);
  if (was.level.mode !== now.level.mode) said(`${LEVEL_WORDS[now.level.mode]} in place of ${LEVEL_WORDS[was.level.mode]}.`);
  if (was.level.grindMostM !== now.level.grindMostM) {
    said(
      `up to ${formatDepth(now.level.grindMostM, units, locale)} is ground off, before ${formatDepth(was.level.grindMostM, units, locale)}.`,
    );
  }
  if (was.takeoff.materialId !== now.takeoff.materialId) {
    const name = (estimated: Estimated, id: string | null) =>
      estimated.records.materials.find((material) => material.id === id)?.name ?? 'no material';
    said(`${name(after, now.takeoff.materialId)} in place of ${name(before, was.takeoff.materialId)}.`);
  }
  const [oldVolume, newVolume] = [was, now].map((room) => room.takeoff.room.volume?.likelyM3 ?? 0);
  const volumes = [oldVolume, newVolume].map((volume) => formatVolume(volume ?? 0, units, locale));
  if (volumes[0] !== volumes[1]) said(`${volumes[1]} of fill, before ${volumes[0]}.`);
  const [oldBags, newBags] = [was, now].map((room) => room.takeoff.bags?.quotedBags ?? 0);
  if (oldBags !== newBags)
    said(`${formatNumber(newBags ?? 0, { most: 0 }, locale)} bags, before ${formatNumber(oldBags ?? 0, { most: 0 }, locale)}.`);
  if (was.takeoff.lifts?.count !== now.takeoff.lifts?.count)
    said(`${now.takeoff.lifts?.count ?? 0} lifts, before ${was.takeoff.lifts?.count ?? 0}.`);
  return out;
}

function moneyDifferences(was: OptionEstimate, now: OptionEstimate, after: Estimated): QuoteDifference[] {
  const { currency, locale } = after.records.business;
  const money = (minor: number) => formatMoney(minor, currency, locale);
  const roomName = (option: OptionEstimate, id: string | null) => option.rooms.find((room) => room.roomId === id)?.name;
  const label = (option: OptionEstimate, name: string, roomId: string | null) => {
    const room = roomName(option, roomId);
    return room === undefined ? name : `${room}, ${name.charAt(0).toLowerCase()}${name.slice(1)}`;
  };
  const out: QuoteDifference[] = [];
  const earlier = new Map(was.price.lines.map((line) => [line.key, line]));
  for (const line of now.price.lines) {
    const old = earlier.get(line.key);
    earlier.delete(line.key);
    const from = old?.priceMinor ?? 0;
    if (from === line.priceMinor) continue;
    const words =
      old === undefined
        ? `${label(now, line.name, line.roomId)}: new, ${money(line.priceMinor)}.`
        : `${label(now, line.name, line.roomId)}: ${money(line.priceMinor)}, before ${money(from)}.`;
    out.push(onOption(now, words, line.priceMinor - from, line.roomId));
  }
  for (const line of earlier.values()) {
    if (line.priceMinor !== 0)
      out.push(
        onOption(now, `${label(was, line.name, line.roomId)}: gone, before ${money(line.priceMinor)}.`, -line.priceMinor, line.roomId),
      );
  }
  if (was.price.discountMinor !== now.price.discountMinor) {
    out.push(
      onOption(
        now,
        `Discount: ${money(now.price.discountMinor)}, before ${money(was.price.discountMinor)}.`,
        was.price.discountMinor - now.price.discountMinor,
      ),
    );
  }
  if (was.price.taxMinor !== now.price.taxMinor)
    out.push(onOption(now, `Tax: ${money(now.price.taxMinor)}, before ${money(was.price.taxMinor)}.`, null));
  const paid = (option: OptionEstimate): string =>
    option.price.stages.map((stage) => `${stage.name} ${formatPercent(stage.share, 2, locale)} ${stage.due}`).join('; ');
  if (paid(was) !== paid(now)) {
    const told = now.price.stages.map((stage) => `${stage.name} ${money(stage.amountMinor)}`).join(', ');
    out.push(onOption(now, `Payments: ${told}.`, null));
  }
  return out;
}
