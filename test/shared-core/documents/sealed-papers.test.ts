/** A topping that is sealed is the finished floor: its papers say nothing of flooring to come. */
import { expect, it } from 'vitest';
import type { ClearanceTest } from '../../../shared-core/book/cure-record.ts';
import type { Flooring } from '../../../shared-core/book/flooring.ts';
import { DOCUMENTS } from '../../../shared-core/documents/document-list.ts';
import { handoverSheet } from '../../../shared-core/documents/handover-sheet.ts';
import { moistureReport } from '../../../shared-core/documents/moisture-report.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { at, pouredFamily, ROOM } from './poured-family.ts';
import { textOf } from './tree-text.ts';

const now = at('15', 0);
function papersOf(flooring: Flooring, results: readonly ClearanceTest[] = []) {
  const whole = { ...pouredFamily(), clearanceTests: [...results] };
  const rooms = whole.job.rooms.map((room) => (room.roomId === ROOM ? { ...room, flooring } : room));
  const reading = readJob({ ...whole, job: { ...whole.job, rooms } }, now);
  const sheet = handoverSheet(reading, { now, revision: 1, changes: [] });
  const installer = DOCUMENTS.find(({ kind }) => kind === 'installer-page');
  const report = textOf(moistureReport({ reading, photos: [], now, revision: 1, changes: [] }));
  return { report, text: textOf(sheet), all: JSON.stringify(sheet), missing: installer?.missing(reading) };
}

it('speaks of the sealer on the sheet, and offers no installer page', () => {
  const { text, all, missing } = papersOf('bare-sealed');
  expect(text).toContain('Until it is sealed');
  expect(text).toContain('the moisture limit on the sealer’s data sheet');
  expect(all).toContain('Ready for its sealer');
  expect(all).not.toMatch(/ready for flooring|until flooring|flooring date|flooring manufacturer|pour to flooring|flooring between/i);
  expect(missing).toBe('The placed floors are sealed. No flooring goes over them.');
});

// The sealer's data sheet names the test and its limit: common practice, no source.
it('calls a result without a limit neither passed nor failed', () => {
  const whole = pouredFamily();
  const result: ClearanceTest = {
    ...{ id: 'test-1', createdAt: now, changedAt: now, deletedAt: null, jobId: whole.job.id, roomId: ROOM, flooring: 'bare-sealed' },
    ...{ method: 'manufacturer-method', unit: 'share', value: 0.71, takenAt: now, by: 'Ada', note: '' },
  };
  const { text, report } = papersOf('bare-sealed', [result]);
  expect(text).toMatch(/^Family room \| Sealer data sheet method \| the limit on the sealer data sheet \| 71% on .*: limit not entered$/m);
  expect(text).not.toContain('not passed');
  expect(report).toMatch(/\| 71% \| the limit on the sealer data sheet \| Ada$/m);
  expect(report).toContain('the sealer manufacturer’s limit');
  expect(report).not.toContain('flooring manufacturer');
});

it('speaks of the flooring where there is one', () => {
  const { text, all, missing } = papersOf('wood-glued');
  expect(text).toContain('Until flooring goes down');
  expect(text).toContain('The floor must meet the flooring manufacturer’s limit.');
  expect(all).toContain('Ready for flooring');
  expect(all).not.toMatch(/sealer|sealed/);
  expect(missing).toBeNull();
});

// Common practice, no source: the day of normal use is that of vehicles, and the data sheet says whether they may come at all.
it('dates vehicles on a floor with a door they come in by, and on no other', () => {
  const VEHICLES = /: Vehicles, only if the product’s data sheet allows them\. Ask us first\. Until then: no vehicles\./;
  const handoverOf = (widthM: number): string => {
    const whole = pouredFamily();
    const rooms = whole.rooms.map((room) => {
      const openings = room.plan.openings.map((opening) => ({ ...opening, kind: 'exterior-door' as const, widthM }));
      return room.id === ROOM ? { ...room, plan: { ...room.plan, openings } } : room;
    });
    return textOf(handoverSheet(readJob({ ...whole, rooms }, at('13', 300)), { now: at('13', 300), revision: 1, changes: [] }));
  };
  // 8 ft: one car.
  expect(handoverOf(2.4384)).toMatch(VEHICLES);
  expect(handoverOf(0.9144)).not.toMatch(VEHICLES);
});
