/** Materials bought for the job and shared by its rooms: whole jugs of primer, whole bags of aggregate. */
import { plural } from '../measure/count-words.ts';
import type { Material } from '../book/material.ts';
import { containerOf, containersFor, perContainer, type NeedUnit } from '../material/containers.ts';
import { inUse } from '../material/shopping.ts';
import type { Problem } from './problem.ts';
import { eachLiftWords, noCoverageWords, SUBSTRATE_WORDS } from './takeoff-words.ts';
import type { RoomTakeoff } from '../material/takeoff.ts';
import { formatMass } from '../measure/mass.ts';
import { formatNumber } from '../measure/number.ts';
import { formatLiquid } from '../measure/volume.ts';
import { apportion } from './apportion.ts';
import type { CostInput } from './cost-input.ts';
import { exact } from './exact.ts';
import { certainCost, type CostLine, POOLED } from './line.ts';
import { formatMoney } from './money.ts';
import { priceOnDay } from './price-on-day.ts';

type Share = { readonly room: RoomTakeoff; readonly amount: number; readonly basis: string; readonly typical: boolean };

/** Primer and aggregate: whole containers for the job, their cost shared by need to the last minor unit. */
export function pooledLines(input: CostInput, problems: Problem[]): CostLine[] {
  const { units, locale } = input.business;
  const byPrimer = new Map<string, Share[]>();
  for (const room of input.rooms) {
    const need = room.primer;
    if (need === null || need.neatL <= 0) continue;
    const coats = `${need.coats} ${need.coats === 1 ? 'coat' : 'coats'} on ${SUBSTRATE_WORDS[need.substrate]}`;
    const thinned = need.waterParts > 0 ? `, 1 to ${formatNumber(need.waterParts, { most: 1 }, locale)} with water` : ', undiluted';
    const amount = need.neatL * room.primings;
    const basis = `${coats}${eachLiftWords(room.primings)}${thinned}: ${formatLiquid(amount, units, locale)}`;
    byPrimer.set(need.primerId, [...(byPrimer.get(need.primerId) ?? []), { room, amount, basis, typical: need.typical }]);
  }
  const primers = [...byPrimer].flatMap(([id, shares]) => {
    const primer = input.materials.find((material) => material.id === id);
    return primer === undefined ? [] : shared(primer, { key: POOLED.primer, unit: 'L', shares }, input, problems);
  });
  const aggregate = inUse(input.materials, 'aggregate') ?? undefined;
  const stones = input.rooms.flatMap((room): Share[] =>
    room.aggregate === null || room.aggregate.totalKg <= 0
      ? []
      : [
          {
            room,
            amount: room.aggregate.totalKg,
            typical: aggregate?.typical ?? true,
            basis: `${formatMass(room.aggregate.aggregateKg, units, locale)} per bag: ${formatMass(room.aggregate.totalKg, units, locale)}`,
          },
        ],
  );
  if (stones.length > 0 && aggregate === undefined) {
    problems.push({
      key: 'no-aggregate',
      roomId: null,
      message: 'Aggregate is needed, but has no data sheet. Add one with its price.',
      stops: true,
    });
  }
  return [
    ...primers,
    ...(aggregate === undefined || stones.length === 0
      ? []
      : shared(aggregate, { key: POOLED.aggregate, unit: 'kg', shares: stones }, input, problems)),
  ];
}

function shared(
  material: Material,
  { key, unit, shares }: { readonly key: keyof typeof POOLED; readonly unit: NeedUnit & ('L' | 'kg'); readonly shares: readonly Share[] },
  input: CostInput,
  problems: Problem[],
): CostLine[] {
  const { locale, currency, units, pricing } = input.business;
  const container = containerOf(material).name;
  const containerAmount = perContainer(material, unit);
  const price = priceOnDay(material, input.day);
  if (!containerAmount.ok)
    problems.push({ key: `container:${material.id}`, roomId: null, message: noCoverageWords(containerAmount.problem), stops: true });
  if (price === null) {
    const message = `${material.name} has no price. Enter the price of one ${container} in Materials.`;
    problems.push({ key: `price:${material.id}`, roomId: null, message, stops: true });
  }
  const need = shares.reduce((sum, share) => sum + share.amount, 0);
  const containers = containerAmount.ok ? containersFor(need, containerAmount.value) : 0;
  const totalMinor = containers * (price?.minor ?? 0);
  const costs = apportion(
    totalMinor,
    shares.map((share) => exact(share.amount)),
  );
  const bought = `${containers} whole ${containers === 1 ? container : plural(container)} at ${formatMoney(price?.minor ?? 0, currency, locale)}`;
  return shares.map(({ room, amount, basis, typical }, index): CostLine => {
    const costMinor = costs[index] ?? 0;
    return {
      key: `${input.roomKey(room.room.roomId)}/${key}`,
      roomId: room.room.roomId,
      kind: 'material',
      name: material.name,
      unit,
      quantityWords: unit === 'L' ? formatLiquid(amount, units, locale) : formatMass(amount, units, locale),
      ...certainCost(costMinor),
      taxId: pricing.materialTaxId,
      reason: `${basis}. ${bought}${shares.length > 1 ? ', shared with the other rooms by quantity' : ''}.`,
      source: typical ? 'typical' : 'bag',
    };
  });
}
