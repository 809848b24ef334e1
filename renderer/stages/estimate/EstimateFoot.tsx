import type { JobReading, RoomReading } from '../../../shared-core/standing/read-job.ts';
import { roomsOf } from '../../../shared-core/standing/job-bundle.ts';
import { workCalendar } from '../../../shared-core/cure/stated-date.ts';
import { statedDateWords } from '../../../shared-core/standing/time-words.ts';
import { roomCure } from '../../../shared-core/standing/room-cure.ts';
import { formatDuration } from '../../../shared-core/measure/duration.ts';
import { formatInstantDay } from '../../../shared-core/measure/moment.ts';
import { batchCountWords } from '../../../shared-core/price/batch-words.ts';
import { isRoughlyKnown } from '../../../shared-core/price/estimate-room.ts';
import { missingForPrice } from '../../../shared-core/price/missing-for-price.ts';
import { formatChance, formatPercent } from '../../../shared-core/measure/percent.ts';
import { taskReasonWords } from '../../../shared-core/price/hours-words.ts';
import { formatMoney } from '../../../shared-core/price/money.ts';
import { Answer } from '../../parts/Answer.tsx';
import { RangeMark } from '../../parts/RangeMark.tsx';
import { Reason, type ReasonWhy } from '../../parts/Reason.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import type { OptionEstimate } from '../../../shared-core/price/estimate-job.ts';
import type { RoomTakeoff } from '../../../shared-core/material/takeoff.ts';
import { countWords } from '../../../shared-core/measure/count-words.ts';
import { formatArea } from '../../../shared-core/measure/area.ts';
import { formatDepth } from '../../../shared-core/measure/length-format.ts';
import { formatNumber } from '../../../shared-core/measure/number.ts';
import type { UnitSystem } from '../../../shared-core/measure/unit-system.ts';
import { formatVolume } from '../../../shared-core/measure/volume.ts';
import { theRoom } from '../../../shared-core/standing/names.ts';
import { joined } from '../../../shared-core/measure/list.ts';
import { lowerFirst } from '../../../shared-core/measure/first-letter.ts';

interface EstimateFootProps {
  readonly reading: JobReading;
  readonly roomReading: RoomReading;
  /** The job's current figures while a what-if is shown. */
  readonly planned: { readonly reading: JobReading; readonly roomReading: RoomReading } | null;
}

/** Bags, price and pour date; in What if each beside the current figure. */
export function EstimateFoot({ reading, roomReading, planned }: EstimateFootProps) {
  const { units, locale } = useMeasure();
  const zone = reading.whole.property.timeZone;
  const takeoff = roomReading.estimate?.takeoff ?? null;
  const { price } = reading.estimate.base;
  const why = bagsWhy(roomReading, units, locale);
  if (takeoff === null || takeoff.bags === null || why === null) {
    const survey = roomReading.estimate?.survey ?? null;
    const first = (roomReading.estimate?.problems ?? []).find((p) => p.key !== 'survey');
    return <Answer under={first?.message ?? (survey?.state === 'waiting' ? survey.message : '')}>No bag count yet</Answer>;
  }
  const isRough = roomReading.estimate !== null && isRoughlyKnown(roomReading.estimate);
  const missing = missingForPrice(reading.estimate);
  const money = (minor: number): string => formatMoney(minor, price.currency, locale, 'whole');
  const about = (minor: number): string => formatMoney(minor, price.currency, locale, 'about');
  const wasBags = planned?.roomReading.estimate?.takeoff.bags?.quotedBags ?? null;
  const wasMinutes = planned?.roomReading.estimate?.takeoff.pourMinutes ?? null;
  const lasts = (min: number): string => formatDuration(Math.round(min) * 60, locale);
  return (
    <>
      <Answer
        figure={<Reason why={why}>{takeoff.bags.quotedBags}</Reason>}
        note={
          wasBags !== null
            ? `Current: ${wasBags}`
            : roomReading.estimate?.ballpark != null
              ? 'Ballpark, not measured'
              : isRough
                ? 'Ballpark: too few readings for a quote'
                : `${formatChance(1 - takeoff.bags.chanceShort, locale)} likely to be enough`
        }
        under={
          <RangeMark
            leastText={String(takeoff.bags.leastBags)}
            mostText={String(takeoff.bags.mostBags)}
            value={within(takeoff.bags.quotedBags, takeoff.bags.leastBags, takeoff.bags.mostBags)}
            atText={String(takeoff.bags.quotedBags)}
          />
        }
      >
        {takeoff.bags.quotedBags === 1 ? 'bag' : 'bags'}
      </Answer>
      {missing.length > 0 ? (
        <Answer wideOnly under={missing.join(' ')}>
          No total yet
        </Answer>
      ) : (
        <Answer
          wideOnly
          under={
            planned === null ? (
              <RangeMark
                leastText={about(price.range.leastMinor)}
                mostText={about(price.range.mostMinor)}
                value={within(price.netMinor, price.range.leastMinor, price.range.mostMinor)}
              />
            ) : (
              currentWords(
                money(planned.reading.estimate.base.price.netMinor),
                money(price.costMinor),
                money(planned.reading.estimate.base.price.costMinor),
              )
            )
          }
        >
          <Reason why={priceWhy(reading.estimate.base, locale)}>{money(price.netMinor)}</Reason>{' '}
          {planned === null && reading.rooms.length > 1 ? 'subtotal, all rooms' : 'subtotal'}
        </Answer>
      )}
      <Answer
        wideOnly
        under={
          <>
            {takeoff.lifts === null || takeoff.lifts.count === 1 ? '1 lift' : `${takeoff.lifts.count} lifts`},{' '}
            <Reason why={finishWhy(takeoff, units, locale)}>{lasts(takeoff.pourMinutes)}</Reason>
            {wasMinutes === null ? '' : ` (current ${lasts(wasMinutes)})`}
          </>
        }
      >
        {pourWords(reading, roomReading, zone, locale)}
      </Answer>
    </>
  );
}

function currentWords(price: string, cost: string, currentCost: string): string {
  return `Current: ${price}. Cost ${cost}, current ${currentCost}.`;
}

function pourWords(reading: JobReading, roomReading: RoomReading, zone: string, locale: string): string {
  const standing = reading.standing.rooms.find((r) => r.roomId === roomReading.room.id);
  const pouredAt = standing?.poured === 'whole' ? standing.pouredAt : null;
  const pourAt = pouredAt ?? roomReading.nextPourAt;
  if (pourAt === null) return 'No pour date set';
  const facts = roomsOf(reading.bundle).find((r) => r.room.id === roomReading.room.id);
  const walk =
    facts === undefined
      ? null
      : (roomCure(reading.bundle, facts, reading.whole.business)?.schedule.milestones.find((m) => m.kind === 'walk-on') ?? null);
  const calendar = workCalendar(reading.whole.business, zone);
  const when =
    walk?.statedAt == null ? '' : `, open to foot traffic ${statedDateWords('walk-on', walk.statedAt, calendar, 'short', locale)}`;
  return `${pouredAt === null ? 'Pour' : 'Poured'} ${formatInstantDay(pourAt, zone, 'weekday', locale)}${when}`;
}

const SOURCES = { bag: 'from the bag', typical: 'typical (not from the data sheet)', measured: 'weighed by you' } as const;

/** Position of the quoted number of bags between minimum and maximum, 0 to 1. */
function within(value: number, least: number, most: number): number {
  return most <= least ? 1 : Math.min(1, Math.max(0, (value - least) / (most - least)));
}

/** The bags of a room; null when they cannot be calculated. */
function bagsWhy({ room, estimate }: RoomReading, units: UnitSystem, locale: string): ReasonWhy | null {
  const takeoff = estimate?.takeoff ?? null;
  if (takeoff?.bags == null || takeoff.sheet === null || takeoff.room.volume === null || takeoff.room.depths === null) return null;
  const { bags, sheet } = takeoff;
  const isGuess = estimate?.ballpark != null;
  const unsure = `the ${isGuess ? 'guess' : 'readings'} and the yield`;
  const { volume, depths } = takeoff.room;
  return {
    figureName: `Bags for ${theRoom(room.name)}`,
    inputs: [
      {
        name: 'Volume below the finish elevation',
        value: formatVolume(volume.likelyM3, units, locale),
        source: isGuess ? 'ballpark' : countWords(room.survey.readings.length, 'reading', locale),
      },
      { name: 'Average depth', value: formatDepth(depths.meanM, units) },
      { name: 'Floor area', value: formatArea(takeoff.room.areaM2, units, locale) },
      {
        name: takeoff.aggregate === null ? 'Yield per bag' : 'Yield per bag, average of the lifts with aggregate and the cap',
        value: formatVolume(takeoff.aggregate?.yieldM3 ?? sheet.yieldM3.value, units, locale),
        source: SOURCES[sheet.yieldM3.source],
      },
      { name: 'Waste factor', value: formatPercent(takeoff.lossShare, 0) },
    ],
    formula: `Volume plus waste, divided by the yield per bag: ${formatNumber(bags.exactBags, { most: 1 }, locale)} bags. Rounded up to whole bags from the count that is ${formatPercent(bags.percentile, 0, locale)} likely to be enough, given the uncertainty of ${unsure}.`,
    source: isGuess
      ? 'the guessed average depth times the floor area: nothing was measured'
      : `exact volume over the triangulated readings, with the uncertainty of ${unsure}`,
    range: {
      leastText: String(bags.leastBags),
      mostText: String(bags.mostBags),
      value: within(bags.quotedBags, bags.leastBags, bags.mostBags),
      words: `${countWords(bags.quotedBags, 'bag', locale)}: ${formatChance(bags.chanceShort, locale)} chance of running short.`,
    },
  };
}

function priceWhy(option: OptionEstimate, locale: string): ReasonWhy {
  const { price } = option;
  const money = (minor: number): string => formatMoney(minor, price.currency, locale);
  const sums = new Map<string, number>();
  for (const line of price.lines) if (!line.leftOut) sums.set(line.kind, (sums.get(line.kind) ?? 0) + line.costMinor);
  const NAMES: Readonly<Record<string, string>> = {
    material: 'Materials, at cost',
    labor: 'Hours, at cost',
    other: 'Other costs',
  };
  return {
    figureName: `Price, ${lowerFirst(option.name)}`,
    inputs: [...sums].map(([kind, minor]) => ({ name: NAMES[kind] ?? kind, value: money(minor) })),
    formula: joined(
      [
        price.methodWords,
        price.discountMinor > 0 ? `Less a discount of ${money(price.discountMinor)}.` : '',
        price.marginWords,
        'Tax is added.',
      ],
      ' ',
    ),
    source: 'line items, costs and terms from Quote and Settings',
    range: {
      leastText: formatMoney(price.range.leastMinor, price.currency, locale, 'about'),
      mostText: formatMoney(price.range.mostMinor, price.currency, locale, 'about'),
      value: within(price.netMinor, price.range.leastMinor, price.range.mostMinor),
      words: price.perArea?.message ?? '',
    },
  };
}

function finishWhy(takeoff: RoomTakeoff, units: UnitSystem, locale: string): ReasonWhy {
  const pour = takeoff.hours.find((task) => task.key === 'pour');
  const lasts = (min: number): string => formatDuration(Math.round(min) * 60, locale);
  return {
    figureName: 'Pour duration',
    inputs: [
      { name: 'Batches', value: batchCountWords(takeoff.water?.batches ?? { likely: 0, all: 0 }, locale) },
      { name: 'Bags', value: String(takeoff.bags?.quotedBags ?? 0) },
    ],
    formula:
      pour === undefined
        ? `${lasts(takeoff.pourMinutes)} from the first batch to the last.`
        : `${taskReasonWords(pour.why, units, locale)}.`,
    source:
      pour?.source === 'simulated'
        ? 'median of the simulated pours'
        : pour?.source === 'planned'
          ? 'the crew’s usual times in the pour plan'
          : 'typical, common practice, no pour plan yet',
    range: null,
  };
}
