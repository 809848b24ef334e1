/** Records about a floor: layers, tests, site conditions, and overridden holds. */
import type { Flooring } from '../../shared-core/book/flooring.ts';
import type { FlooringLimits, HoldDocument } from '../../shared-core/book/job.ts';
import type { Circumstances, FloorTest, Layer } from '../../shared-core/book/layer.ts';
import { changeJobRoom, changeRoom } from './job-commands.ts';
import { nowInstant, type Outcome } from './command.ts';
import { change, updated, type Update } from './write.ts';

/** Changes the layers, listed from the top, as a function of the stored ones, so that two quick changes both apply. */
export function setLayers(roomId: string, label: string, update: (layers: readonly Layer[]) => readonly Layer[]): Promise<Outcome> {
  return changeRoom(roomId, label, (room) => ({ ...room, layers: [...updated(room.layers, update)] }));
}

/** Saves a test: adds a new one or replaces the edited one. */
export function storeTest(roomId: string, label: string, test: FloorTest): Promise<Outcome> {
  return changeRoom(roomId, label, (room) => ({
    ...room,
    tests: room.tests.some((t) => t.id === test.id) ? room.tests.map((t) => (t.id === test.id ? test : t)) : [...room.tests, test],
  }));
}

export function deleteTest(roomId: string, label: string, testId: string): Promise<Outcome> {
  return changeRoom(roomId, label, (room) => ({ ...room, tests: room.tests.filter((t) => t.id !== testId) }));
}

export function setCircumstances(roomId: string, update: Update<Circumstances>): Promise<Outcome> {
  return changeRoom(roomId, 'site conditions', (room) => ({ ...room, circumstances: updated(room.circumstances, update) }));
}

/** Changing the flooring clears the manufacturer's limits, because they were for the earlier flooring. */
export function setFlooring(jobId: string, roomId: string, label: string, flooring: Flooring | null): Promise<Outcome> {
  return changeJobRoom(jobId, roomId, label, (room) => (room.flooring === flooring ? room : { ...room, flooring, flooringLimits: null }));
}

const NO_LIMITS: FlooringLimits = {
  slabHumidity: null,
  emissionLb: null,
  woodMoisture: null,
  withoutHoles: null,
  flatnessGapM: null,
  flatnessSpanM: null,
  statedIn: '',
};

/** The flooring manufacturer's limits and their source. With none, the published limits apply. */
export function setFlooringLimits(jobId: string, roomId: string, limits: Partial<FlooringLimits>): Promise<Outcome> {
  return changeJobRoom(jobId, roomId, 'flooring manufacturer’s limits', (room) => {
    const next = { ...(room.flooringLimits ?? NO_LIMITS), ...limits };
    const { statedIn, ...figures } = next;
    const isEmpty = statedIn.trim() === '' && Object.values(figures).every((figure) => figure === null);
    return { ...room, flooringLimits: isEmpty ? null : next };
  });
}

/** The year the house was built decides whether coatings and paint may contain asbestos or lead. */
export function setYearBuilt(propertyId: string, yearBuilt: number | null): Promise<Outcome> {
  return change('properties', propertyId, 'year built', nowInstant(), { yearBuilt });
}

/** Overrides a hold with a reason, or records the document that clears it. Every document of the job prints it. */
export function overrideHold(
  jobId: string,
  roomId: string,
  hold: { readonly key: string; readonly title: string },
  { why, document, initials }: { readonly why: string; readonly document: HoldDocument | null; readonly initials: string },
): Promise<Outcome> {
  const by = initials.trim() === '' ? 'own' : initials.trim();
  const override = { key: hold.key, why, instant: nowInstant(), initials: by, ...(document === null ? {} : { document }) };
  return changeJobRoom(jobId, roomId, `override: ${hold.title}`, (room) => ({ ...room, overrides: [...room.overrides, override] }));
}

/** Initials of a name: `RT` for Ros Teague; empty for an empty name. */
export function initialsOf(name: string): string {
  return name
    .split(/\s+/)
    .map((part) => part.charAt(0))
    .join('')
    .slice(0, 4);
}
