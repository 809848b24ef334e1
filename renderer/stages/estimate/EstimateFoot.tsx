import type { JobReading, RoomReading } from '../../../shared-core/standing/read-job.ts';
import { roomsOf } from '../../../shared-core/standing/job-bundle.ts';
import { workCalendar, statedDateWords } from '../../../shared-core/cure/stated-date.ts';
import { roomCure } from '../../../shared-core/standing/room-cure.ts';
import { formatDuration } from '../../../shared-core/measure/duration.ts';
import { formatInstantDay } from '../../../shared-core/measure/moment.ts';
import { missingForPrice } from '../../../shared-core/price/missing-for-price.ts';
import { formatPercent } from '../../../shared-core/measure/percent.ts';
import { formatMoney } from '../../../shared-core/price/money.ts';
import { Answer } from '../../parts/Answer.tsx';
import { RangeMark } from '../../parts/RangeMark.tsx';
import { Reason } from '../../parts/Reason.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { bagsWhy, finishWhy, priceWhy, within } from './reasons.ts';

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
            : roomReading.estimate?.ballpark == null
              ? `${formatPercent(takeoff.bags.percentile, 0, locale)} likely to be enough`
              : 'Ballpark, not measured'
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
            <Reason why={finishWhy(takeoff, locale)}>{lasts(takeoff.pourMinutes)}</Reason>
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
  const { pourAt } = roomReading.jobRoom;
  if (pourAt === null) return 'No pour date set';
  const facts = roomsOf(reading.bundle).find((r) => r.room.id === roomReading.room.id);
  const walk =
    facts === undefined
      ? null
      : (roomCure(reading.bundle, facts, reading.whole.business)?.schedule.milestones.find((m) => m.kind === 'walk-on') ?? null);
  const calendar = workCalendar(reading.whole.business, zone);
  const when =
    walk?.statedAt == null ? '' : `, open to foot traffic ${statedDateWords('walk-on', walk.statedAt, calendar, 'short', locale)}`;
  return `Pour ${formatInstantDay(pourAt, zone, 'weekday', locale)}${when}`;
}
