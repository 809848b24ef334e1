/** The materials of a job in whole containers. Stock on hand is deducted over all jobs, in `ledger/shopping-day`. */
import type { AddedLine } from '../book/job.ts';
import type { Material, MaterialKind } from '../book/material.ts';
import { containerOf, containersFor, perContainer, type NeedUnit, type NoCoverage } from './containers.ts';
import { primerNeatL, type RoomTakeoff } from './takeoff.ts';

/** One item to buy. */
export type ShoppingItem = {
  readonly key: string;
  /** Null without a data sheet of this kind: then only the need is known. */
  readonly materialId: string | null;
  readonly kind: MaterialKind;
  /** Name of the data sheet. */
  readonly name: string | null;
  readonly need: number;
  readonly unit: NeedUnit;
  readonly container: string;
  /** What one container covers, in `unit`, and how many whole ones it takes; null without a data sheet. */
  readonly each: number | null;
  readonly containers: number | null;
  /** Empty for items of the whole job. */
  readonly rooms: readonly string[];
};

/** The list, with what could not be put in containers. */
export type ShoppingList = { readonly items: readonly ShoppingItem[]; readonly problems: readonly NoCoverage[] };

/** Kinds that are bought only when the user adds them. */
export const BOUGHT_BY_HAND: ReadonlySet<MaterialKind> = new Set<MaterialKind>(['tool', 'moisture-barrier']);

/** Cut ends and overlaps of strip, fleece and dam. Common practice, no source. */
const CUTTING_WASTE = 0.1;

type Need = { kind: MaterialKind; material: Material | null; amount: number; unit: NeedUnit; rooms: string[] };

/**
 * The shopping list of a job.
 * @param rooms their takeoffs; needs of the same thing are added before they are rounded up
 * @param added lines entered by hand; those bought by a sheet of the book are on the list in its containers
 * @param materials data sheets; sundries take the first in use of their kind, one read off a bag before a typical one
 */
export function shoppingList(rooms: readonly RoomTakeoff[], added: readonly AddedLine[], materials: readonly Material[]): ShoppingList {
  const problems: NoCoverage[] = [];
  const byId = new Map(materials.map((material) => [material.id, material]));
  const items = gather(rooms, added, materials, byId).map((need): ShoppingItem => {
    const { material, kind } = need;
    const base = {
      key: `${kind}:${material?.id ?? 'any'}`,
      kind,
      name: material?.name ?? null,
      need: need.amount,
      unit: need.unit,
      rooms: need.rooms,
    };
    if (material === null) return { ...base, materialId: null, container: '', each: null, containers: null };
    const containerAmount = perContainer(material, need.unit);
    if (!containerAmount.ok) problems.push(containerAmount.problem);
    return {
      ...base,
      materialId: material.id,
      container: containerOf(material).name,
      each: containerAmount.ok ? containerAmount.value : null,
      containers: containerAmount.ok ? containersFor(need.amount, containerAmount.value) : null,
    };
  });
  return { items, problems };
}

function gather(
  rooms: readonly RoomTakeoff[],
  added: readonly AddedLine[],
  materials: readonly Material[],
  byId: ReadonlyMap<string, Material>,
): Need[] {
  const needs = new Map<string, Need>();
  const add = (kind: MaterialKind, material: Material | null, amount: number, unit: NeedUnit, room: string | null) => {
    if (!(amount > 0)) return;
    const key = `${kind}:${material?.id ?? 'any'}`;
    const need = needs.get(key) ?? { kind, material, amount: 0, unit, rooms: [] };
    need.amount += amount;
    if (room !== null && !need.rooms.includes(room)) need.rooms.push(room);
    needs.set(key, need);
  };
  const sundry = (kind: MaterialKind, amount: number, unit: NeedUnit, room: string) =>
    add(kind, inUse(materials, kind), amount, unit, room);
  for (const room of rooms) {
    const name = room.room.roomName;
    const powder = room.materialId === null ? undefined : byId.get(room.materialId);
    if (powder !== undefined) add(powder.kind, powder, room.powderKg, 'kg', name);
    const primer = room.primer === null ? undefined : byId.get(room.primer.primerId);
    if (primer !== undefined && room.primer !== null) add(primer.kind, primer, primerNeatL(room), 'L', name);
    const system = room.room.mitigation ?? null;
    const systemSheet = system === null ? undefined : byId.get(system.materialId);
    if (system !== null && systemSheet !== undefined) add(systemSheet.kind, systemSheet, system.areaM2, 'm2', name);
    sundry('perimeter-strip', room.room.perimeterM * (1 + CUTTING_WASTE), 'm', name);
    sundry('dam', room.damM * (1 + CUTTING_WASTE), 'm', name);
    sundry('crack-filler', room.room.crackM, 'm', name);
    sundry('reinforcement', room.room.reinforceM2 * (1 + CUTTING_WASTE), 'm2', name);
    sundry('sealer', room.room.sealM2, 'm2', name);
    sundry('aggregate', room.aggregate?.totalKg ?? 0, 'kg', name);
  }
  for (const line of added) {
    const material = line.bought === undefined ? undefined : byId.get(line.bought.materialId);
    if (line.bought === undefined || material === undefined || !BOUGHT_BY_HAND.has(material.kind)) continue;
    const { unit, holds } = containerOf(material);
    const each = material.goes?.unit === unit ? material.goes.perContainer : holds;
    const room = rooms.find((r) => r.room.roomId === line.roomId)?.room.roomName ?? null;
    add(material.kind, material, line.bought.containers * each, unit, room);
  }
  return [...needs.values()];
}

/** The sheet of a kind that its need is taken from: one of the business's own before a typical one. */
export function inUse(materials: readonly Material[], kind: MaterialKind): Material | null {
  const candidates = materials.filter((material) => material.kind === kind && material.deletedAt === null);
  return candidates.find((material) => !material.typical) ?? candidates[0] ?? null;
}
