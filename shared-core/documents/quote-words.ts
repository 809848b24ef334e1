/** What a quote says in sentences: what was found, what is proposed, what is paid and when. */
import { capital, countWord, listed } from '../standing/names.ts';
import type { Frozen } from '../book/quote.ts';
import { formatArea } from '../measure/area.ts';
import { dayOfInstant, formatInstant, formatInstantDay, formatInstantTime } from '../measure/moment.ts';
import { formatDepth, formatLength } from '../measure/length-format.ts';
import { formatNumber } from '../measure/number.ts';
import type { JobEstimate, OptionEstimate } from '../price/estimate-job.ts';
import type { RoomEstimate } from '../price/estimate-room.ts';
import { formatMoney } from '../price/money.ts';
import type { QuotedDates } from './quote-dates.ts';
import type { Run } from './tree.ts';

/** With more rooms than this the first page speaks of them together, and each is told where its scope is. */
export const MOST_TOLD_APART = 4;

/** The rooms by name, or how many where they are many: `the hall and laundry`, `ten rooms`. */
export function roomsInWords(rooms: readonly RoomEstimate[]): string {
  return rooms.length > MOST_TOLD_APART ? `${countWord(rooms.length)} rooms` : `the ${listed(rooms.map((r) => r.name.toLowerCase()))}`;
}

type Read = {
  readonly estimate: RoomEstimate;
  readonly places: number;
  readonly outM: number;
  readonly words: string;
  readonly gap: string;
};

/** What the readings of a room showed; null for one that was not read. */
function readRoom(frozen: Frozen, estimate: RoomEstimate): Read | null {
  const { units, locale } = frozen.business;
  const room = frozen.rooms.find((r) => r.id === estimate.roomId);
  if (room === undefined || estimate.survey.state !== 'surveyed') return null;
  const { floor, flatness } = estimate.survey;
  const { takenAt, readings } = room.survey;
  const day = takenAt === null ? '' : ` on ${formatInstantDay(takenAt, frozen.property.timeZone, 'short', locale)}`;
  const { gapM, spanM, at } = flatness.worst;
  const outM = floor.highestM - floor.lowestM;
  const gap =
    at === null || gapM < 0.001
      ? ''
      : `, with gaps up to ${formatDepth(gapM, units)} under a straightedge of ${formatLength(spanM, units, locale)}`;
  const words = `The ${room.name.toLowerCase()}, read in ${readings.length} places${day}, is ${formatDepth(outM, units)} out of level`;
  return { estimate, places: readings.length, outM, words, gap };
}

/** What the readings showed of each room, or of many together by the worst; a room that was not read is passed over. */
export function foundWords(frozen: Frozen, rooms: readonly RoomEstimate[]): string {
  const { units, locale } = frozen.business;
  const read = rooms.flatMap((room) => readRoom(frozen, room) ?? []);
  if (read.length <= MOST_TOLD_APART) return read.map(({ words, gap }, i) => `${words}${i > 0 ? '' : gap}.`).join(' ');
  const [worst] = [...read].sort((a, b) => b.outM - a.outM);
  if (worst === undefined) return '';
  const places = formatNumber(
    read.reduce((sum, r) => sum + r.places, 0),
    { most: 0 },
    locale,
  );
  return `${capital(countWord(read.length))} rooms were read in ${places} places. The ${worst.estimate.name.toLowerCase()} is the farthest out of level, by ${formatDepth(worst.outM, units)}${worst.gap}.`;
}

function groundM({ survey }: RoomEstimate): number {
  return survey.state === 'surveyed' && survey.level.highSpotsAreGround ? Math.max(0, ...survey.level.highSpots.map((s) => s.depthM)) : 0;
}

/** What is done in the rooms, those of one way together, and what grinding first saves where filling alone is offered beside it. */
export function proposedWords(frozen: Frozen, estimate: JobEstimate): string {
  const { suggested } = estimate;
  const ways = new Map<string, RoomEstimate[]>();
  for (const room of suggested.rooms) {
    const { mode, followThicknessM } = room.level;
    const way = mode === 'follow' ? `follow ${followThicknessM}` : `${mode} ${groundM(room) > 0 ? 'ground' : ''}`;
    ways.set(way, [...(ways.get(way) ?? []), room]);
  }
  const told = [...ways.values()].map((rooms) => wayWords(frozen, rooms));
  return [...told, savingWords(frozen, estimate)].filter((words) => words !== '').join(' ');
}

/** Rooms that are done alike. */
function wayWords({ business: { units } }: Frozen, rooms: readonly RoomEstimate[]): string {
  const [first] = rooms;
  if (first === undefined) return '';
  const where = `In ${roomsInWords(rooms)}`;
  const { mode, followThicknessM } = first.level;
  if (mode === 'follow')
    return `${where} we lay ${formatDepth(followThicknessM, units)} over the floor as it lies: smooth, no more level than now.`;
  const offM = Math.max(...rooms.map(groundM));
  const ground = offM > 0 ? `we grind up to ${formatDepth(offM, units)} off the high places, then pour` : 'we pour';
  const depth = formatDepth(Math.max(...rooms.map((room) => room.takeoff.room.depths?.mostM ?? 0)), units);
  const deep = rooms.length === 1 ? `${depth} at the deepest` : `up to ${depth} deep`;
  return `${where} ${ground} a cement that ${mode === 'ramp' ? 'is drawn to an even slope' : 'finds its own level'}, ${deep}.`;
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
  const days = [...byDay.values()].flatMap(([first]) => (first === undefined ? [] : [first.pourAt])).sort();
  const [from] = days;
  const to = days.at(-1);
  if (days.length > MOST_TOLD_APART && from !== undefined && to !== undefined)
    return [
      { text: 'We mean to pour from ' },
      { text: formatInstantDay(from, zone, 'long', locale), bold: true },
      { text: ' to ' },
      { text: formatInstantDay(to, zone, 'long', locale), bold: true },
      { text: '; the days of each room stand under “When”.' },
    ];
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
        text:
          dayOfInstant(walk, zone) === dayOfInstant(first.pourAt, zone)
            ? formatInstantTime(walk, zone, locale)
            : formatInstant(walk, zone, 'long', locale),
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
