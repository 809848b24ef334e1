/** Data sheets: adding, changing, duplicating and archiving; prices by date. */
import type { Business } from '../../shared-core/book/business.ts';
import type { Job } from '../../shared-core/book/job.ts';
import type { Container, Material, MaterialKind, Milestone, PowderSheet, PrimerUse } from '../../shared-core/book/material.ts';
import { BOUGHT_BY_HAND } from '../../shared-core/material/shopping.ts';
import { typicalMaterials } from '../../shared-core/material/typical-materials.ts';
import { book } from './database.ts';
import { newId, nowInstant, stamps, attempt, done, type Outcome, refused } from './command.ts';
import { add, change, archive, updated, type Update } from './write.ts';

export function changeMaterial(id: string, label: string, update: Update<Material>): Promise<Outcome> {
  return change('materials', id, label, nowInstant(), update);
}

/** Changes an underlayment's figures, after which the data sheet no longer counts as typical. */
export function changePowder(id: string, label: string, update: Update<PowderSheet>): Promise<Outcome> {
  return changeMaterial(id, label, (m) => (m.powder === null ? m : { ...m, typical: false, powder: updated(m.powder, update) }));
}

/** Kind, flooring and thickness together identify a milestone of a data sheet. */
export type MilestoneName = Pick<Milestone, 'kind' | 'flooring' | 'thicknessM'>;
const isNamed = (name: MilestoneName) => (m: Milestone) =>
  m.kind === name.kind && m.flooring === name.flooring && m.thicknessM === name.thicknessM;

/** Replaces the milestone with the same identity, or adds it. */
export function putMilestone(id: string, milestone: Milestone): Promise<Outcome> {
  return changePowder(id, 'hours on a data sheet', (p) => {
    const index = p.milestones.findIndex(isNamed(milestone));
    return { ...p, milestones: index < 0 ? [...p.milestones, milestone] : p.milestones.with(index, milestone) };
  });
}

export function removeMilestone(id: string, name: MilestoneName): Promise<Outcome> {
  return changePowder(id, 'delete hours on a data sheet', (p) => ({ ...p, milestones: p.milestones.filter((m) => !isNamed(name)(m)) }));
}

/** Sets how a primer is used on a kind of substrate; `change` gets the stored use. */
export function putPrimerUse(id: string, use: PrimerUse, change?: Partial<PrimerUse>): Promise<Outcome> {
  return changeMaterial(id, 'primer use', (m) => {
    const index = m.primer.findIndex((u) => u.substrate === use.substrate);
    const next = change === undefined ? use : { ...(m.primer[index] ?? use), ...change, source: 'bag' as const };
    return { ...m, typical: false, primer: index < 0 ? [...m.primer, next] : m.primer.with(index, next) };
  });
}

/** Sets a price from a date on; one for the same date is replaced. */
export function addPrice(id: string, price: Material['prices'][number]): Promise<Outcome> {
  return changeMaterial(id, 'price', (m) => ({ ...m, prices: withPrice(m.prices, price) }));
}

/** The prices with one more, sorted by date. */
export function withPrice(prices: Material['prices'], price: Material['prices'][number]): Material['prices'] {
  return [...prices.filter((p) => p.from !== price.from), price].toSorted((a, b) => a.from.localeCompare(b.from));
}

/** The typical data sheets of a kind. */
export function startingSheets(
  kind: MaterialKind,
  now: string,
  { timeZone, currency }: Pick<Business, 'timeZone' | 'currency'>,
): Material[] {
  return typicalMaterials((slug) => slug, now, timeZone, currency).filter((m) => m.kind === kind);
}

/** How a kind is sold, for an empty data sheet: typical values to be replaced. */
const BOUGHT_AS: Partial<Record<MaterialKind, Container>> = {
  'moisture-barrier': { name: 'kit', unit: 'L', holds: 10 },
  tool: { name: 'piece', unit: 'piece', holds: 1 },
};

/** Adds a data sheet from a typical one, or empty where there is none; returns its id. */
export async function addSheet(
  kind: MaterialKind,
  name: string,
  startFrom: string | null,
  business: Pick<Business, 'timeZone' | 'currency'>,
): Promise<Outcome<string>> {
  const now = nowInstant();
  if (name.trim() === '') return refused('Enter a name, such as “Self-leveling underlayment, fine”.');
  const start = startingSheets(kind, now, business).find((m) => m.id === startFrom) ?? null;
  const row: Material =
    start === null
      ? {
          ...stamps(now),
          ...{ kind, name: name.trim(), typical: false, sheetFrom: '', supplier: '', prices: [] },
          container: BOUGHT_AS[kind] ?? { name: 'container', unit: 'piece', holds: 1 },
          ...{ powder: null, primer: [], goes: null, silica: false, cautions: '', notes: '' },
        }
      : { ...start, id: newId(), name: name.trim() };
  const outcome = await add('materials', row, `new data sheet ${row.name}`, now);
  return outcome.ok ? done(row.id) : outcome;
}

/** Duplicates a data sheet under a new name; returns its id. */
export async function copySheet(of: Material): Promise<Outcome<string>> {
  const now = nowInstant();
  const row: Material = { ...of, ...stamps(now), name: `${of.name} (copy)` };
  const outcome = await add('materials', row, `duplicate ${of.name}`, now);
  return outcome.ok ? done(row.id) : outcome;
}

/** An open job that uses a data sheet, and its first room that does. */
export type SheetUse = { readonly jobId: string; readonly number: string; readonly title: string; readonly roomId: string };

const isOpen = (job: Job): boolean => job.state === 'open' && job.deletedAt === null;
/** Whether jobs name the data sheet itself; the others are taken by their kind. */
export const isChosenById = (material: Material): boolean =>
  material.powder !== null || material.kind === 'primer' || BOUGHT_BY_HAND.has(material.kind);

/**
 * The open jobs that use a data sheet: those whose rooms, options or added lines name it, and every open job if it is the last of a
 * kind that is chosen by kind (isolation strip, dams, filler).
 * @param materials all data sheets that are not archived
 */
export function sheetUses(material: Material, materials: readonly Material[], jobs: readonly Job[]): SheetUse[] {
  const isLast = !materials.some((m) => m.kind === material.kind && m.id !== material.id && m.deletedAt === null);
  return jobs.filter(isOpen).flatMap((job) => {
    const names =
      job.rooms.find((r) => [r.materialId, r.primerId, r.moistureSystemId].includes(material.id)) ??
      job.estimate.options.flatMap((o) => o.rooms).find((r) => r.materialId === material.id);
    const line = job.estimate.added.find(({ bought }) => bought?.materialId === material.id);
    const isByKind = !isChosenById(material) && isLast;
    const roomId = names?.roomId ?? line?.roomId ?? (line !== undefined || isByKind ? job.rooms[0]?.roomId : undefined);
    return roomId === undefined ? [] : [{ jobId: job.id, number: job.number, title: job.title, roomId }];
  });
}

/**
 * Archives a data sheet.
 * @param inUseToo also archives one that open jobs use; they continue to use it
 */
export async function archiveSheet(material: Material, inUseToo: boolean): Promise<Outcome> {
  const read = await attempt(async () =>
    done({
      materials: await book().rowsOf('materials').toArray(),
      jobs: await book().rowsOf('jobs').where('state').equals('open').toArray(),
    }),
  );
  if (!read.ok) return read;
  const uses = sheetUses(material, read.value.materials, read.value.jobs);
  if (uses.length > 0 && !inUseToo)
    return refused(`${material.name} is used in ${uses.map((u) => u.number).join(', ')}. Choose another product there first.`);
  return archive([{ table: 'materials', id: material.id }], `archive ${material.name}`, nowInstant());
}
