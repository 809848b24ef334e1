/** Cost lines from a job's takeoff: one per item, each with its reason. */
import type { EstimateChoices } from '../book/job.ts';
import type { Problem } from './problem.ts';
import type { RoomTakeoff } from '../material/takeoff.ts';
import { formatArea } from '../measure/area.ts';
import { DEFAULT_LOCALE, formatNumber } from '../measure/number.ts';
import { formatDistance, formatLength } from '../measure/length-format.ts';
import { formatMass } from '../measure/mass.ts';
import { formatChance, formatPercent } from '../measure/percent.ts';
import { formatVolume, formatYield } from '../measure/volume.ts';
import { containerOf } from '../material/containers.ts';
import { exact, plus, roundHalfUp, times } from './exact.ts';
import type { CostInput } from './cost-input.ts';
import { addedKey, certainCost, type CostLine, type LineKind } from './line.ts';
import { formatMoney } from './money.ts';
import { pooledLines } from './pooled-lines.ts';
import { priceOnDay } from './price-on-day.ts';
import { taskName, taskReasonWords } from './hours-words.ts';
import { rateWords } from './rate-words.ts';
import type { TaskHours } from '../material/crew-hours.ts';
import { formatWork } from '../measure/duration.ts';

/** The lines, and the missing figures. */
export type CostLines = { readonly lines: readonly CostLine[]; readonly problems: readonly Problem[] };

/** Every cost line of a job, room by room and then for the whole job. Lines of zero are left out. */
export function costLines(input: CostInput): CostLines {
  const problems: Problem[] = [];
  const pooled = pooledLines(input, problems);
  const lines = input.rooms.flatMap((room) => [
    ...bagLine(room, input, problems),
    ...pooled.filter((line) => line.roomId === room.room.roomId),
    ...sundryLines(room, input),
    ...laborLines(room, input),
    ...addedLines(input, room.room.roomId),
  ]);
  const loose = input.added.filter((line) => line.roomId === null);
  return { lines: [...lines, ...travelLine(input), ...loose.map((line) => addedLine(line, null))], problems };
}

function bagLine(room: RoomTakeoff, input: CostInput, problems: Problem[]): CostLine[] {
  const { business } = input;
  const { bags, sheet, materialId } = room;
  if (bags === null || sheet === null || materialId === null || bags.quotedBags === 0) return [];
  const material = input.materials.find((m) => m.id === materialId);
  const price = material === undefined ? null : priceOnDay(material, input.day);
  if (material !== undefined && price === null) {
    problems.push({
      key: `price:${materialId}`,
      roomId: room.room.roomId,
      message: `${material.name} has no price. Enter the price of one ${containerOf(material).name} in Materials.`,
      stops: true,
    });
  }
  const unitMinor = price?.minor ?? 0;
  const { locale, units, currency } = business;
  const volume = room.room.volume?.likelyM3 ?? 0;
  const eachM3 = room.aggregate?.yieldM3 ?? sheet.yieldM3.value;
  const reason =
    `${formatVolume(volume, units, locale)} and ${formatPercent(room.lossShare, 0, locale)} waste at ${formatYield(eachM3, units, locale)} per bag` +
    `${room.aggregate === null ? '' : ' with aggregate'} is ${formatNumber(bags.exactBags, { least: 1, most: 1 }, locale)} bags. ` +
    `${bags.quotedBags} ${bags.quotedBags === 1 ? 'bag is' : 'bags are'} ${formatChance(1 - bags.chanceShort, locale)} likely to be enough. ${formatMoney(unitMinor, currency, locale)} per bag.`;
  return [
    {
      key: `${input.roomKey(room.room.roomId)}/bags`,
      roomId: room.room.roomId,
      kind: 'material',
      name: sheet.name,
      unit: 'bag',
      quantityWords: `${formatNumber(bags.quotedBags, { most: 0 }, locale)} ${bags.quotedBags === 1 ? 'bag' : 'bags'}`,
      costMinor: unitMinor * bags.quotedBags,
      leastCostMinor: unitMinor * Math.min(bags.leastBags, bags.quotedBags),
      mostCostMinor: unitMinor * Math.max(bags.mostBags, bags.quotedBags),
      taxId: business.pricing.materialTaxId,
      reason,
      source: sheet.yieldM3.source,
    },
  ];
}

function sundryLines(room: RoomTakeoff, input: CostInput): CostLine[] {
  const { business } = input;
  const { costs, units, locale, currency, pricing } = business;
  const roomId = room.room.roomId;
  const formats = { m: formatLength, m2: formatArea, kg: formatMass };
  const line = (key: string, kind: LineKind, name: string, [quantity, unit]: [number, keyof typeof formats], rate: number): CostLine[] => {
    const costMinor = roundHalfUp(times(exact(quantity), exact(rate)));
    if (costMinor === 0) return [];
    const words = formats[unit](quantity, units, locale);
    return [
      {
        key: `${input.roomKey(roomId)}/${key}`,
        roomId,
        kind,
        name,
        unit,
        quantityWords: words,
        ...certainCost(costMinor),
        taxId: kind === 'material' ? pricing.materialTaxId : pricing.laborTaxId,
        reason: `${words} at ${rateWords(rate, unit, units, currency, locale)}.`,
        source: 'business',
      },
    ];
  };
  const { room: amounts } = room;
  return [
    ...line('edges', 'material', 'Perimeter isolation strip', [amounts.perimeterM, 'm'], costs.perimeterStripMMinor),
    ...line('dams', 'material', 'Dams at doorways', [room.damM, 'm'], costs.damMMinor),
    ...line('cracks', 'material', 'Crack filler', [amounts.crackM, 'm'], costs.crackFillerMMinor),
    ...line('reinforcement', 'material', 'Reinforcement', [amounts.reinforceM2, 'm2'], costs.reinforcementM2Minor),
    ...line('sealer', 'material', 'Sealer', [amounts.sealM2, 'm2'], costs.sealerM2Minor),
    ...line('abrade', 'labor', 'Abrade the surface', [amounts.abradeM2 + room.betweenLiftsM2, 'm2'], costs.abradeM2Minor),
    ...grindLine(room, input),
    ...line('disposal', 'other', 'Disposal', [room.disposalKg, 'kg'], costs.disposalKgMinor),
  ];
}

function grindLine(room: RoomTakeoff, input: CostInput): CostLine[] {
  const { costs, units, locale, currency, pricing } = input.business;
  const { areaM2, volumeM3 } = room.room.grind;
  const costMinor = roundHalfUp(plus(times(exact(areaM2), exact(costs.grindM2Minor)), times(exact(volumeM3), exact(costs.grindM3Minor))));
  if (costMinor === 0) return [];
  const words = formatArea(areaM2, units, locale);
  return [
    {
      key: `${input.roomKey(room.room.roomId)}/grind`,
      roomId: room.room.roomId,
      kind: 'labor',
      name: `${room.room.cut.verbFirst} the high spots`,
      unit: 'm2',
      quantityWords: words,
      ...certainCost(costMinor),
      taxId: pricing.laborTaxId,
      reason: `${words} at ${rateWords(costs.grindM2Minor, 'm2', units, currency, locale)}, and ${formatVolume(volumeM3, units, locale)} taken off at ${rateWords(costs.grindM3Minor, 'm3', units, currency, locale)}.`,
      source: 'business',
    },
  ];
}

function travelLine(input: CostInput): CostLine[] {
  const { business, travelKm, days } = input;
  const { units, locale, currency, costs, pricing } = business;
  if (travelKm === null) return [];
  const km = travelKm * 2 * days;
  const costMinor = roundHalfUp(times(exact(km), exact(costs.travelKmMinor)));
  if (costMinor === 0) return [];
  const dayWords = `${formatNumber(days, { most: 1 }, locale)} ${days === 1 ? 'day' : 'days'}`;
  return [
    {
      key: 'travel',
      roomId: null,
      kind: 'other',
      name: 'Travel',
      unit: 'km',
      quantityWords: formatDistance(km, units, locale),
      ...certainCost(costMinor),
      taxId: pricing.laborTaxId,
      reason: `${formatDistance(travelKm, units, locale)} each way on ${dayWords}, at ${rateWords(costs.travelKmMinor, 'km', units, currency, locale)}.`,
      source: 'business',
    },
  ];
}

function addedLines(input: CostInput, roomId: string): CostLine[] {
  return input.added.filter((line) => line.roomId === roomId).map((line) => addedLine(line, roomId));
}

function addedLine(line: EstimateChoices['added'][number], roomId: string | null): CostLine {
  return {
    key: addedKey(line.id),
    roomId,
    kind: line.kind,
    name: line.name,
    unit: 'job',
    quantityWords: formatNumber(1, { most: 0 }, DEFAULT_LOCALE),
    ...certainCost(line.costMinor),
    taxId: line.taxId,
    reason: 'Entered by you.',
    source: 'entered',
  };
}

const POUR_TASKS: readonly TaskHours['key'][] = ['pour', 'set-up'];

/** Two lines at most: prep and pour, each with its tasks named. */
function laborLines(room: RoomTakeoff, input: CostInput): CostLine[] {
  const pour = room.hours.filter((task) => POUR_TASKS.includes(task.key));
  const prep = room.hours.filter((task) => !POUR_TASKS.includes(task.key));
  return [
    ...laborLine('labor-prep', 'Prepare the floor', prep, room, input),
    ...laborLine('labor-pour', 'Pour and finish', pour, room, input),
  ];
}

function laborLine(key: string, name: string, tasks: readonly TaskHours[], room: RoomTakeoff, input: CostInput): CostLine[] {
  const { costs, units, locale, currency, pricing } = input.business;
  const costOf = (task: TaskHours, pourFactor: number) => {
    const factor = task.key === 'pour' ? pourFactor : 1;
    const own = times(exact(task.ownHours * factor), exact(costs.ownHourMinor));
    return plus(own, times(exact(task.helperHours * factor), exact(costs.helperHourMinor)));
  };
  const total = (pourFactor: number) => roundHalfUp(tasks.map((task) => costOf(task, pourFactor)).reduce(plus, exact(0)));
  const costMinor = total(1);
  if (costMinor === 0) return [];
  const bags = room.bags;
  const share = (count: number | undefined) =>
    bags === null || bags.quotedBags === 0 || count === undefined ? 1 : count / bags.quotedBags;
  const own = tasks.reduce((sum, task) => sum + task.ownHours, 0);
  const helpers = tasks.reduce((sum, task) => sum + task.helperHours, 0);
  const hours = (value: number) => formatWork(value, locale);
  const rates = [
    `${hours(own)} at ${formatMoney(costs.ownHourMinor, currency, locale)} per hour`,
    ...(helpers > 0 ? [`helpers ${hours(helpers)} at ${formatMoney(costs.helperHourMinor, currency, locale)}`] : []),
  ];
  const reason = `${rates.join(', ')}. ${tasks.map((task) => `${taskName(task)}: ${taskReasonWords(task.why, units, locale)}`).join('. ')}.`;
  return [
    {
      key: `${input.roomKey(room.room.roomId)}/${key}`,
      roomId: room.room.roomId,
      kind: 'labor',
      name,
      unit: 'h',
      quantityWords: hours(own + helpers),
      costMinor,
      leastCostMinor: total(Math.min(1, share(bags?.leastBags))),
      mostCostMinor: total(Math.max(1, share(bags?.mostBags))),
      taxId: pricing.laborTaxId,
      reason,
      source: tasks.find((task) => task.source !== 'typical')?.source ?? 'typical',
    },
  ];
}
