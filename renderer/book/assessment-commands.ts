/** What is found on a floor: its layers, the tests on it, what no instrument reads, and going on past what holds it. */
import type { Flooring } from '../../shared-core/book/flooring.ts';
import type { FlooringLimits } from '../../shared-core/book/job.ts';
import type { Circumstances, FloorTest, Layer } from '../../shared-core/book/layer.ts';
import { changeJobRoom, changeRoom } from './job-commands.ts';
import { nowInstant } from './moment.ts';
import type { Outcome } from './outcome.ts';
import { change } from './write.ts';

/** Changes the layers, top first, by a function of them as they stand in the book: two changes in a blink both hold. */
export function setLayers(roomId: string, label: string, how: (layers: readonly Layer[]) => readonly Layer[]): Promise<Outcome> {
  return changeRoom(roomId, label, (room) => ({ ...room, layers: [...how(room.layers)] }));
}

/** Keeps a test: a new one is added, one that was there before is replaced where it stands. */
export function keepTest(roomId: string, label: string, test: FloorTest): Promise<Outcome> {
  return changeRoom(roomId, label, (room) => ({
    ...room,
    tests: room.tests.some((t) => t.id === test.id) ? room.tests.map((t) => (t.id === test.id ? test : t)) : [...room.tests, test],
  }));
}

/** Takes a test out of the record; undo brings it back. */
export function deleteTest(roomId: string, label: string, testId: string): Promise<Outcome> {
  return changeRoom(roomId, label, (room) => ({ ...room, tests: room.tests.filter((t) => t.id !== testId) }));
}

/** Changes what no instrument reads. */
export function setCircumstances(roomId: string, how: (circumstances: Circumstances) => Circumstances): Promise<Outcome> {
  return changeRoom(roomId, 'circumstances', (room) => ({ ...room, circumstances: how(room.circumstances) }));
}

/** What the floor will carry. The maker's own limits were those of the covering before, and go with it. */
export function setFlooring(jobId: string, roomId: string, label: string, flooring: Flooring | null): Promise<Outcome> {
  return changeJobRoom(jobId, roomId, label, (room) => (room.flooring === flooring ? room : { ...room, flooring, flooringLimits: null }));
}

const NO_LIMITS: FlooringLimits = {
  slabHumidity: null,
  emissionLb: null,
  woodMoisture: null,
  flatnessGapM: null,
  flatnessSpanM: null,
  statedIn: '',
};

/** The limits of the covering's own maker, and where they are stated; with none of them left, the published ones stand again. */
export function setFlooringLimits(jobId: string, roomId: string, limits: Partial<FlooringLimits>): Promise<Outcome> {
  return changeJobRoom(jobId, roomId, 'flooring manufacturer’s limits', (room) => {
    const next = { ...(room.flooringLimits ?? NO_LIMITS), ...limits };
    const { statedIn, ...figures } = next;
    const isEmpty = statedIn.trim() === '' && Object.values(figures).every((figure) => figure === null);
    return { ...room, flooringLimits: isEmpty ? null : next };
  });
}

/** The year of the house: whether coatings and paint count as old hangs on it. */
export function setYearBuilt(propertyId: string, yearBuilt: number | null): Promise<Outcome> {
  return change('properties', propertyId, 'year built', nowInstant(), (property) => ({ ...property, yearBuilt }));
}

/** Goes on past a hold, with the reason. It stays on the record and shows on every paper. */
export function goPast(
  jobId: string,
  roomId: string,
  hold: { readonly key: string; readonly title: string },
  why: string,
  initials: string,
): Promise<Outcome> {
  return changeJobRoom(jobId, roomId, `override ${hold.title}`, (room) => ({
    ...room,
    overrides: [...room.overrides, { key: hold.key, why, at: nowInstant(), initials: initials.trim() === '' ? 'own' : initials.trim() }],
  }));
}

/** `RT` of Ros Teague; empty for a person without a name. */
export function initialsOf(name: string): string {
  return name
    .split(/\s+/)
    .map((part) => part.charAt(0))
    .join('')
    .slice(0, 4);
}
