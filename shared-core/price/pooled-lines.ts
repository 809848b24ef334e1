/** Materials bought for the job and shared by its rooms: whole jugs of primer, bags of aggregate, kits of moisture mitigation. */
import { plural } from '../measure/count-words.ts';
import type { Material } from '../book/material.ts';
import { containerOf, containersFor, perContainer, type NeedUnit } from '../material/containers.ts';
import { inUse } from '../material/shopping.ts';
import type { Problem } from './problem.ts';
import { noCoverageWords, primingWords, SUBSTRATE_WORDS } from './takeoff-words.ts';
import type { PrimerNeed } from '../material/primer.ts';
import { primerNeatL, type RoomTakeoff } from '../material/takeoff.ts';
import { formatArea } from '../measure/area.ts';
import { formatMass } from '../measure/mass.ts';
import { formatNumber } from '../measure/number.ts';
import { formatLiquid } from '../measure/volume.ts';
import { apportion } from './apportion.ts';
import type { CostInput } from './cost-input.ts';
import { exact } from './exact.ts';
import { certainCost, type CostLine, POOLED } from './line.ts';
import { formatMoney } from './money.ts';
import { priceOnDay } from './price-on-day.ts';

/** What one room takes of a material. */
type Share = {
  readonly room: RoomTakeoff;
  readonly materialId: string;
  readonly amount: number;
  readonly basis: string;
  readonly typical: boolean;
};

const FORMATS = { L: formatLiquid, kg: formatMass, m2: formatArea };

type Pool = { readonly key: keyof typeof POOLED; readonly unit: NeedUnit & keyof typeof FORMATS };

/** Whole containers for the job, their cost shared by need to the last minor unit. */
export function pooledLines(input: CostInput, problems: Problem[]): CostLine[] {
  const stones = input.rooms.some(({ aggregate }) => aggregate !== null && aggregate.totalKg > 0);
  if (stones && inUse(input.materials, 'aggregate') === null) {
    const message = 'Aggregate is needed, but has no data sheet. Add one with its price.';
    problems.push({ key: 'no-aggregate', roomId: null, message, stops: true });
  }
  const pool = (of: Pool, shareOf: typeof primerShare): CostLine[] => {
    const byMaterial = new Map<string, Share[]>();
    for (const share of input.rooms.flatMap((room) => shareOf(room, input)))
      byMaterial.set(share.materialId, [...(byMaterial.get(share.materialId) ?? []), share]);
    return [...byMaterial].flatMap(([id, shares]) => {
      const material = input.materials.find((one) => one.id === id);
      return material === undefined ? [] : shared(material, { ...of, shares }, input, problems);
    });
  };
  return [
    ...pool({ key: POOLED.primer, unit: 'L' }, primerShare),
    ...pool({ key: POOLED.aggregate, unit: 'kg' }, aggregateShare),
    ...pool({ key: POOLED.mitigation, unit: 'm2' }, mitigationShare),
  ];
}

function primerShare(room: RoomTakeoff, { business }: CostInput): Share[] {
  const { units, locale } = business;
  const { primer: first, liftPrimer: later, primings } = room;
  const amount = primerNeatL(room);
  if (first === null || amount <= 0) return [];
  const coatsOn = (need: PrimerNeed, before: string): string => {
    const thinned = need.waterParts > 0 ? `1 to ${formatNumber(need.waterParts, { most: 1 }, locale)} with water` : 'undiluted';
    return `${primingWords([need.coats])} on ${SUBSTRATE_WORDS[need.substrate]}${before}, ${thinned}`;
  };
  const isSame = later !== null && later.substrate === first.substrate;
  const each = `before each of ${primings} lifts`;
  const then = primings === 2 ? 'before the second lift' : 'before each later lift';
  const on =
    later === null ? coatsOn(first, '') : isSame ? coatsOn(first, ` ${each}`) : `${coatsOn(first, '')}; ${coatsOn(later, ` ${then}`)}`;
  const basis = `${on}: ${formatLiquid(amount, units, locale)}`;
  return [{ room, materialId: first.primerId, amount, basis, typical: first.typical || later?.typical === true }];
}

function aggregateShare(room: RoomTakeoff, { materials, business }: CostInput): Share[] {
  const { units, locale } = business;
  const sheet = inUse(materials, 'aggregate');
  if (sheet === null || room.aggregate === null || room.aggregate.totalKg <= 0) return [];
  const { aggregateKg, totalKg } = room.aggregate;
  const basis = `${formatMass(aggregateKg, units, locale)} per bag: ${formatMass(totalKg, units, locale)}`;
  return [{ room, materialId: sheet.id, amount: totalKg, basis, typical: sheet.typical }];
}

function mitigationShare(room: RoomTakeoff, { materials, business }: CostInput): Share[] {
  const { units, locale } = business;
  const { materialId, areaM2 } = room.room.mitigation ?? { materialId: '', areaM2: 0 };
  const system = materials.find((one) => one.id === materialId);
  if (system === undefined || areaM2 <= 0) return [];
  const covers = perContainer(system, 'm2');
  const each = covers.ok ? `${formatArea(covers.value, units, locale)} per ${containerOf(system).name}: ` : '';
  return [{ room, materialId, amount: areaM2, basis: `${each}${formatArea(areaM2, units, locale)}`, typical: system.typical }];
}

function shared(
  material: Material,
  { key, unit, shares }: Pool & { readonly shares: readonly Share[] },
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
      quantityWords: FORMATS[unit](amount, units, locale),
      ...certainCost(costMinor),
      taxId: pricing.materialTaxId,
      reason: `${basis}. ${bought}${shares.length > 1 ? ', shared with the other rooms by quantity' : ''}.`,
      source: typical ? 'typical' : 'bag',
    };
  });
}
