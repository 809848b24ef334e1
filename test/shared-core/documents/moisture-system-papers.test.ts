/** What the papers of a finished floor say of a moisture mitigation system under it. Common practice, no source. */
import { expect, it } from 'vitest';
import type { JobRoom } from '../../../shared-core/book/job.ts';
import type { Pour } from '../../../shared-core/book/pour-record.ts';
import { handoverSheet } from '../../../shared-core/documents/handover-sheet.ts';
import { installerPage } from '../../../shared-core/documents/installer-page.ts';
import { moistureReport } from '../../../shared-core/documents/moisture-report.ts';
import { roomFloor, systemUnder } from '../../../shared-core/pour/placed-floor.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { SLAB, test } from '../substrate/a-floor.ts';
import { at, family, nextPour, pouredFamily, ROOM } from './poured-family.ts';
import { textOf } from './tree-text.ts';

const now = at('20', 0);
const SYSTEM = family.materials.find(({ kind }) => kind === 'moisture-barrier');
const READ = [0.92, 0.94, 0.91];

/**
 * The handover sheet, the installer page and the test report, after an RH test of the slab before the pour and one after it.
 * @param poured the system that was chosen when the floor was poured
 */
function papersWith(moistureSystemId: string | null, flooring: JobRoom['flooring'] = 'resilient', poured = moistureSystemId): string[] {
  const bare = pouredFamily();
  const system = bare.materials.find(({ id }) => id === poured);
  const whole = {
    ...bare,
    pours: bare.pours.map(({ asPoured, ...pour }) => {
      const under = asPoured.rooms.map((room) => ({ ...room, ...(system === undefined ? {} : { moistureSystem: system.name }) }));
      return { ...pour, asPoured: { ...asPoured, rooms: under } };
    }),
  };
  const tests = READ.map((relativeHumidity, i) =>
    test.humidity({ id: `probe-${i}`, relativeHumidity, takenAt: `2026-05-11T1${i}:00:00.000Z`, by: 'R. T.' }),
  );
  const rooms = whole.rooms.map((room) =>
    room.id === ROOM
      ? { ...room, layers: [...SLAB.layers], tests, circumstances: { ...room.circumstances, radiantHeat: 'none' as const } }
      : room,
  );
  const job = { ...whole.job, rooms: whole.job.rooms.map((room) => ({ ...room, flooring, flooringLimits: null, moistureSystemId })) };
  const probe = {
    ...{ id: 'clear-1', createdAt: now, changedAt: now, deletedAt: null, jobId: job.id, roomId: ROOM, flooring: 'resilient' as const },
    ...{ method: 'slab-humidity' as const, unit: 'share' as const, value: 0.94, takenAt: at('18', 0), by: 'Ada', note: '' },
  };
  const reading = readJob({ ...whole, rooms, job, clearanceTests: [probe] }, now);
  const input = { reading, photos: [], now, revision: 1, changes: [] };
  return [handoverSheet(reading, input), installerPage(input), moistureReport(input)].map(textOf);
}

it('name the system, and ask for no hole through it', () => {
  if (SYSTEM === undefined) throw new Error('The sample has a moisture mitigation system.');
  for (const paper of papersWith(SYSTEM.id)) {
    expect(paper).toContain(SYSTEM.name);
    expect(paper).toContain(
      'Do not drill through the moisture mitigation system: its data sheet and the flooring’s say what clears the floor.',
    );
    expect(paper).not.toMatch(/94% on .*not passed/);
  }
  // Without a system the floor fails by the same result, and no system chosen after the pour is under it.
  for (const papers of [papersWith(null), papersWith(SYSTEM.id, 'resilient', null)])
    for (const paper of papers.slice(0, 2)) {
      expect(paper).toMatch(/94% on .*not passed/);
      expect(paper).not.toContain(SYSTEM.name);
    }
  // One that was chosen stays under the floor, whatever is chosen since.
  expect(papersWith(null, 'resilient', SYSTEM.id)).toEqual(papersWith(SYSTEM.id));
});

it('know the system from the pour, and a part of the floor that was poured without it', () => {
  const rooms = family.job.rooms.map((room) => ({ ...room, moistureSystemId: SYSTEM?.id ?? null }));
  const over = nextPour(readJob({ ...family, job: { ...family.job, rooms } }, at('12', 0)), 'pour-b', '14');
  const without = nextPour(readJob(family, at('12', 0)), 'pour-a', '13');
  const under = (...pours: Pour[]) => systemUnder({ ...roomFloor([], [], ROOM), pours });
  expect(under(over)).toEqual({ name: SYSTEM?.name, isWhole: true });
  expect(under(without, over)).toEqual({ name: SYSTEM?.name, isWhole: false });
  expect(under(without)).toBeNull();
});

it('give the slab as it was read before the pour to those who install over it', () => {
  const [, page = '', report = ''] = papersWith(SYSTEM?.id ?? null);
  expect(page).toContain('Highest slab RH: 94% on May 11, before the pour.');
  const before = report.split('Substrate before the pour')[1] ?? '';
  for (const value of ['92% RH at', '94% RH at', '91% RH at']) expect(before).toContain(value);
});

it('ask for no test before the flooring of a floor that must not be drilled', () => {
  const again = 'Test the floor in the days before installation.';
  expect(papersWith(SYSTEM?.id ?? null)[1]).not.toContain(again);
  expect(papersWith(null)[1]).toContain(again);
});

it('name no slab under the system where there may be none', () => {
  expect(papersWith(SYSTEM?.id ?? null)[2]).toContain(`moisture mitigation system under the pour: ${SYSTEM?.name}.`);
});
