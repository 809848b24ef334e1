/** Labor cost of a room: prep and pour. */
import type { TaskHours } from '../material/crew-hours.ts';
import type { RoomTakeoff } from '../material/takeoff.ts';
import { formatDuration, HOUR_S } from '../measure/duration.ts';
import type { CostInput } from './cost-input.ts';
import { exact, plus, roundHalfUp, times } from './exact.ts';
import type { CostLine } from './line.ts';
import { formatMoney } from './money.ts';

const POUR_TASKS: readonly TaskHours['key'][] = ['pour', 'set-up'];

/** Two lines at most: prep and pour, each with its tasks named. */
export function laborLines(room: RoomTakeoff, input: CostInput): CostLine[] {
  const pour = room.hours.filter((task) => POUR_TASKS.includes(task.key));
  const prep = room.hours.filter((task) => !POUR_TASKS.includes(task.key));
  return [
    ...laborLine('labor-prep', 'Prepare the floor', prep, room, input),
    ...laborLine('labor-pour', 'Pour and finish', pour, room, input),
  ];
}

function laborLine(key: string, name: string, tasks: readonly TaskHours[], room: RoomTakeoff, input: CostInput): CostLine[] {
  const { costs, locale, currency, pricing } = input.business;
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
  const hours = (value: number) => formatDuration(value * HOUR_S, locale);
  const rates = [
    `${hours(own)} at ${formatMoney(costs.ownHourMinor, currency, locale)} per hour`,
    ...(helpers > 0 ? [`helpers ${hours(helpers)} at ${formatMoney(costs.helperHourMinor, currency, locale)}`] : []),
  ];
  const reason = `${rates.join(', ')}. ${tasks.map((task) => `${task.name}: ${task.why}`).join('. ')}.`;
  return [
    {
      key: `${input.roomKey(room.room.roomId)}/${key}`,
      roomId: room.room.roomId,
      kind: 'labor',
      name,
      quantity: own + helpers,
      unit: 'h',
      quantityWords: hours(own + helpers),
      unitCostMinor: null,
      costMinor,
      leastCostMinor: total(Math.min(1, share(bags?.leastBags))),
      mostCostMinor: total(Math.max(1, share(bags?.mostBags))),
      taxId: pricing.laborTaxId,
      reason,
      source: tasks.find((task) => task.source !== 'typical')?.source ?? 'typical',
    },
  ];
}
