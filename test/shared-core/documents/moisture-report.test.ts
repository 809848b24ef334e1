/** The moisture test report beside the handover sheet. */
import { expect, it } from 'vitest';
import type { ClearanceTest } from '../../../shared-core/book/cure-record.ts';
import { handoverSheet } from '../../../shared-core/documents/handover-sheet.ts';
import { moistureReport } from '../../../shared-core/documents/moisture-report.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { NOW, wholeOf } from '../job-variants.ts';
import { textOf } from './tree-text.ts';

const whole = wholeOf('26-024');
const ROOM = 'sample-living';
const living = (changed: Pick<ClearanceTest, 'method' | 'value'>): ClearanceTest => ({
  ...{ id: 'test-1', createdAt: NOW, changedAt: NOW, deletedAt: null, jobId: whole.job.id, roomId: ROOM, flooring: 'wood-glued' },
  ...{ unit: 'share', takenAt: NOW, by: 'Ada', note: '', ...changed },
});
const papersWith = (test: ClearanceTest): Record<'report' | 'sheet', readonly string[]> => {
  const reading = readJob({ ...whole, clearanceTests: [...whole.clearanceTests, test] }, NOW);
  const made = { now: NOW, revision: 1, changes: [] };
  const linesOf = (tree: Parameters<typeof textOf>[0]): readonly string[] =>
    textOf(tree)
      .split('\n')
      .filter((line) => line.startsWith('Living room'));
  return { report: linesOf(moistureReport({ ...made, reading, photos: [] })), sheet: linesOf(handoverSheet(reading, made)) };
};

/** ASTM F2659 is a guide for a preliminary, comparative evaluation (from its title and scope, from memory). */
it('lists a moisture meter as a first check, and its room as not tested, as the handover sheet does', () => {
  const { report, sheet } = papersWith(living({ method: 'meter', value: 0.04 }));
  expect(report).toContainEqual(expect.stringMatching(/\| 4% \| 5% MC, typical, first check only \| Ada$/));
  expect(report).toContain('Living room: no result counts for its flooring yet.');
  expect(sheet).toContainEqual(expect.stringMatching(/\| Not tested yet\. First check: Moisture meter \(ASTM F2659\), 4% on Nov 13$/));
  // A meter over its limit fails the floor.
  const failed = papersWith(living({ method: 'meter', value: 0.06 }));
  expect(failed.report.join()).not.toMatch(/Living room: no/);
  expect(failed.sheet).toContainEqual(expect.stringMatching(/\| 6% on Nov 13: not passed$/));
});

it('says that no result counts after an RH test taken a day after the pour', () => {
  const { report, sheet } = papersWith(living({ method: 'slab-humidity', value: 0.7 }));
  expect(report).toContain('Living room: no result counts for its flooring yet.');
  expect(sheet).toContainEqual(expect.stringMatching(/\| Not tested yet$/));
});
