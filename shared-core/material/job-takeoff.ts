/** The takeoff of a job: all rooms, carrying, and the shopping list. */
import type { AddedLine } from '../book/job.ts';
import type { Material } from '../book/material.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { carryingCaution, type CarryingCaution } from './carrying.ts';
import { shoppingList, type ShoppingList } from './shopping.ts';
import type { RoomTakeoff } from './takeoff.ts';

/** The rooms together. */
export type JobTakeoff = {
  readonly rooms: readonly RoomTakeoff[];
  readonly areaM2: number;
  /** Bags by data sheet, over all rooms. */
  readonly bagsByMaterial: readonly {
    readonly materialId: string;
    readonly name: string;
    readonly bags: number;
    readonly leastBags: number;
    readonly mostBags: number;
  }[];
  readonly bags: number;
  readonly batches: number;
  readonly powderKg: number;
  readonly waterL: { readonly least: number; readonly most: number };
  readonly ownHours: number;
  readonly helperHours: number;
  readonly pourMinutes: number;
  /** Null while no bags are known. */
  readonly carrying: CarryingCaution | null;
  readonly shopping: ShoppingList;
};

/**
 * Adds up the rooms of a job.
 * @param rooms their takeoffs
 * @param added lines entered by hand: tools and other things bought for the job among them
 * @param materials every data sheet, for what sundries are bought as
 */
export function jobTakeoff(
  rooms: readonly RoomTakeoff[],
  added: readonly AddedLine[],
  materials: readonly Material[],
  units: UnitSystem,
  locale?: string,
): JobTakeoff {
  const sum = (amountOf: (room: RoomTakeoff) => number) => rooms.reduce((total, room) => total + amountOf(room), 0);
  const bags = sum((room) => room.bags?.quotedBags ?? 0);
  const batches = sum((room) => room.water?.batches ?? 0);
  const first = rooms.find((room) => room.sheet !== null && room.water !== null);
  const pourMinutes = sum((room) => room.pourMinutes);
  const waterL = { least: sum((room) => room.water?.totalL.least ?? 0), most: sum((room) => room.water?.totalL.most ?? 0) };
  const heaviestBag = Math.max(0, ...rooms.map((room) => room.sheet?.bagKg.value ?? 0));
  const carrying =
    first === undefined || bags === 0
      ? null
      : carryingCaution({
          bags,
          bagKg: heaviestBag,
          batches,
          batchKg: Math.max(0, ...rooms.map((room) => room.water?.batchKg ?? 0)),
          aggregateKg: sum((room) => room.aggregate?.totalKg ?? 0),
          waterKg: waterL.least,
          liftMinutes: pourMinutes,
        });
  const shopping = shoppingList(rooms, added, materials, units, locale);
  return {
    rooms,
    areaM2: sum((room) => room.room.areaM2),
    bagsByMaterial: byMaterial(rooms),
    bags,
    batches,
    powderKg: sum((room) => room.powderKg),
    waterL,
    ownHours: sum((room) => room.hours.reduce((h, task) => h + task.ownHours, 0)),
    helperHours: sum((room) => room.hours.reduce((h, task) => h + task.helperHours, 0)),
    pourMinutes,
    carrying,
    shopping,
  };
}

function byMaterial(rooms: readonly RoomTakeoff[]): JobTakeoff['bagsByMaterial'] {
  const totals = new Map<string, { materialId: string; name: string; bags: number; leastBags: number; mostBags: number }>();
  for (const { bags, sheet } of rooms) {
    if (bags === null || sheet === null) continue;
    const total = totals.get(sheet.materialId) ?? { materialId: sheet.materialId, name: sheet.name, bags: 0, leastBags: 0, mostBags: 0 };
    totals.set(sheet.materialId, {
      ...total,
      bags: total.bags + bags.quotedBags,
      leastBags: total.leastBags + bags.leastBags,
      mostBags: total.mostBags + bags.mostBags,
    });
  }
  return [...totals.values()];
}
