/** Planned air of a room, the same for the pour and the cure. */
import type { JobRoom } from '../book/job.ts';
import type { Room } from '../book/room.ts';
import { testsOf } from '../book/tests-of.ts';

/** Air of a heated house while nothing is measured or entered: 68 °F, 50% RH. Typical, no source. */
const TYPICAL_AIR = { tempC: 20, relativeHumidity: 0.5 };

export type RoomAir = {
  readonly tempC: number;
  /** A share. */
  readonly relativeHumidity: number;
  /** `measured` by the room's last ambient test, `entered` as expected, or `typical` while there is neither. */
  readonly basis: 'measured' | 'entered' | 'typical';
  /** When it was measured or entered; null for the typical air. */
  readonly instant: string | null;
};

/** Air expected in a room: the newer of the last ambient test and what was entered as expected. */
export function roomAir(room: Pick<Room, 'tests'>, { expectedAir }: Pick<JobRoom, 'expectedAir'>): RoomAir {
  const test = testsOf(room.tests, 'air').at(-1);
  if (test !== undefined && (expectedAir === null || Date.parse(test.takenAt) >= Date.parse(expectedAir.enteredAt)))
    return { tempC: test.airTempC, relativeHumidity: test.relativeHumidity, basis: 'measured', instant: test.takenAt };
  if (expectedAir === null) return { ...TYPICAL_AIR, basis: 'typical', instant: null };
  return { tempC: expectedAir.tempC, relativeHumidity: expectedAir.relativeHumidity, basis: 'entered', instant: expectedAir.enteredAt };
}

/** A room of a job with part of its expected air changed at an instant. */
export function withExpectedAir(
  room: Pick<Room, 'tests'>,
  jobRoom: JobRoom,
  change: { readonly tempC?: number; readonly relativeHumidity?: number },
  instant: string,
): JobRoom {
  const { tempC, relativeHumidity } = roomAir(room, jobRoom);
  return { ...jobRoom, expectedAir: { tempC, relativeHumidity, ...change, enteredAt: instant } };
}
