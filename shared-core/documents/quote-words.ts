/** What a quote says in sentences: what was found, what is proposed, what is paid and when. */
import type { Frozen } from '../book/quote.ts';
import { formatArea } from '../measure/area.ts';
import { dayOfInstant, formatInstantDay, formatInstantTime } from '../measure/moment.ts';
import { formatDepth, formatLength } from '../measure/length-format.ts';
import { formatNumber } from '../measure/number.ts';
import type { JobEstimate, OptionEstimate } from '../price/estimate-job.ts';
import type { RoomEstimate } from '../price/estimate-room.ts';
import { formatMoney } from '../price/money.ts';
import type { QuotedDates } from './quote-dates.ts';
import type { Run } from './tree.ts';

/** `hall`, `hall and laundry`, `hall, laundry and back entry`. */
export function listed(names: readonly string[]): string {
  return names.length <= 1 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} and ${names.at(-1) ?? ''}`;
}

/** What the readings showed of each room; a room that was not read is passed over. */
export function foundWords(frozen: Frozen, rooms: readonly RoomEstimate[]): string {
  const { units, locale } = frozen.business;
  return rooms
    .flatMap((estimate, i) => {
      const room = frozen.rooms.find((r) => r.id === estimate.roomId);
      if (room === undefined || estimate.survey.state !== 'surveyed') return [];
      const { floor, flatness } = estimate.survey;
      const { takenAt, readings } = room.survey;
      const day = takenAt === null ? '' : ` on ${formatInstantDay(takenAt, frozen.property.timeZone, 'short', locale)}`;
      const { gapM, spanM, at } = flatness.worst;
      const gap =
        i > 0 || at === null || gapM < 0.001
          ? ''
          : `, with gaps up to ${formatDepth(gapM, units)} under a straightedge of ${formatLength(spanM, units, locale)}`;
      return [
        `The ${room.name.toLowerCase()}, read in ${readings.length} places${day}, is ${formatDepth(floor.highestM - floor.lowestM, units)} out of level${gap}.`,
      ];
    })
    .join(' ');
}

function groundM({ survey }: RoomEstimate): number {
  return survey.state === 'surveyed' && survey.level.highSpotsAreGround ? Math.max(0, ...survey.level.highSpots.map((s) => s.depthM)) : 0;
}

/** What is done in each room, and what grinding first saves where filling alone is offered beside it. */
export function proposedWords(frozen: Frozen, estimate: JobEstimate): string {
  const { suggested } = estimate;
  const { units } = frozen.business;
  const modes = new Set<string>();
  const rooms = suggested.rooms.map((room) => {
    const name = room.name.toLowerCase();
    const offM = groundM(room);
    const ground = offM > 0 ? `we grind up to ${formatDepth(offM, units)} off the high places, then pour` : 'we pour';
    const way =
      room.level.mode === 'follow'
        ? `we lay ${formatDepth(room.level.followThicknessM, units)} over the floor as it lies: smooth, no more level than now`
        : `${ground} a cement that ${room.level.mode === 'ramp' ? 'is drawn to an even slope' : 'finds its own level'}`;
    const deep = room.level.mode === 'follow' ? '' : `, ${formatDepth(room.takeoff.room.depths?.mostM ?? 0, units)} at the deepest`;
    const like = offM === 0 && modes.has(room.level.mode);
    modes.add(room.level.mode);
    return `In the ${name} ${like ? `we ${room.level.mode === 'follow' ? 'lay' : 'pour'} the same` : way}${deep}.`;
  });
  return [...rooms, savingWords(frozen, estimate)].filter((words) => words !== '').join(' ');
}

/** Only where the other way differs by nothing but the grinding. */
function savingWords({ business }: Frozen, { suggested, options }: JobEstimate): string {
  if (!suggested.rooms.some((room) => groundM(room) > 0)) return '';
  const alone = options.find(
    (option) =>
      option !== suggested &&
      option.rooms.every((room) => {
        const own = suggested.rooms.find((r) => r.roomId === room.roomId);
        return own !== undefined && room.level.mode === own.level.mode && groundM(room) === 0;
      }),
  );
  if (alone === undefined) return '';
  const bags = alone.takeoff.bags - suggested.takeoff.bags;
  const minor = alone.price.totalMinor - suggested.price.totalMinor;
  if (bags <= 0 || minor <= 0) return '';
  const count = `${formatNumber(bags, { most: 0 }, business.locale)} ${bags === 1 ? 'bag' : 'bags'}`;
  return `Grinding first saves ${count} and ${formatMoney(minor, business.currency, business.locale)}.`;
}

/** When a payment falls due, as it is read. */
export const DUE_WORDS = {
  'on-acceptance': 'on acceptance',
  'before-pour': 'before the pour',
  'after-pour': 'after the pour',
  'on-handover': 'at the handover',
  'thirty-days': 'within thirty days',
} as const;

/** Payments with when they fall due, then the days. */
export function paymentRuns(frozen: Frozen, option: OptionEstimate, dates: readonly QuotedDates[]): Run[] {
  const { locale, currency } = frozen.business;
  const paid = option.price.stages.flatMap((stage, i): Run[] => [
    { text: `${i === 0 ? '' : '; '}${i === 0 ? stage.name : stage.name.charAt(0).toLowerCase() + stage.name.slice(1)} ` },
    { text: formatMoney(stage.amountMinor, currency, locale), bold: true },
    { text: ` ${DUE_WORDS[stage.due]}` },
  ]);
  return [
    ...paid,
    { text: paid.length === 0 ? '' : '. ' },
    ...dayRuns(frozen, dates),
    { text: ' Every covering waits for a moisture test, whatever the date.' },
  ];
}

function dayRuns(frozen: Frozen, dates: readonly QuotedDates[]): Run[] {
  if (dates.length === 0) return [{ text: 'The day of the pour is agreed when you accept.' }];
  const zone = frozen.property.timeZone;
  const { locale } = frozen.business;
  const byDay = new Map<string, QuotedDates[]>();
  for (const date of dates) {
    const day = dayOfInstant(date.pourAt, zone);
    byDay.set(day, [...(byDay.get(day) ?? []), date]);
  }
  return [...byDay.values()].flatMap((rooms, i): Run[] => {
    const [first] = rooms;
    if (first === undefined) return [];
    const names = listed(rooms.map((r) => r.roomName.toLowerCase()));
    const runs: Run[] = [
      { text: `${i === 0 ? '' : ' '}We mean to pour the ${names} on ` },
      { text: formatInstantDay(first.pourAt, zone, 'long', locale), bold: true },
    ];
    const walk = rooms
      .flatMap((r) => r.walkOnAt ?? [])
      .sort()
      .at(-1);
    if (walk === undefined) return [...runs, { text: '.' }];
    return [
      ...runs,
      { text: '; it may be walked on from ' },
      {
        text: `${dayOfInstant(walk, zone) === dayOfInstant(first.pourAt, zone) ? '' : `${formatInstantDay(walk, zone, 'long', locale)}, `}${formatInstantTime(walk, zone, locale)}`,
        bold: true,
      },
      { text: '.' },
    ];
  });
}

/** A room's scope, a line each. */
export function scopeWords(frozen: Frozen, room: RoomEstimate): string[] {
  const { units, locale } = frozen.business;
  const { takeoff } = room;
  const { depths, grind } = takeoff.room;
  const deep =
    depths === null ? '' : `, ${formatDepth(depths.meanM, units)} deep on average and ${formatDepth(depths.mostM, units)} at the deepest`;
  const material = frozen.materials.find((m) => m.id === takeoff.materialId);
  return [
    `${formatArea(takeoff.room.areaM2, units, locale)} of floor${deep}`,
    ...(takeoff.disposal.areaM2 > 0 ? ['the old covering taken up and disposed of'] : []),
    ...(grind.areaM2 > 0 ? [`${formatArea(grind.areaM2, units, locale)} ground first, under a vacuum`] : []),
    ...(takeoff.primer === null ? [] : [`primer in ${takeoff.primer.coats === 1 ? 'one coat' : `${takeoff.primer.coats} coats`}`]),
    ...(takeoff.dams === 0
      ? []
      : [`${takeoff.dams === 1 ? 'one opening' : `${takeoff.dams} openings`} dammed, a soft strip set round the walls`]),
    ...(material === undefined || takeoff.bags === null
      ? []
      : [
          `${material.name}, ${takeoff.bags.quotedBags === 1 ? 'one bag' : `${takeoff.bags.quotedBags} bags`}${takeoff.lifts !== null && takeoff.lifts.count > 1 ? `, poured in ${takeoff.lifts.count} lifts with a wait between` : ', poured in one go'}`,
        ]),
    ...(takeoff.weight === null ? [] : [takeoff.weight.message]),
  ];
}
