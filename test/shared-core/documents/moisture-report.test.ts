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
const papersWith = (test: ClearanceTest, now = NOW): Record<'report' | 'sheet', readonly string[]> => {
  const reading = readJob({ ...whole, clearanceTests: [...whole.clearanceTests, test] }, now);
  const made = { now, revision: 1, changes: [] };
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
  expect(report).toContain('Living room: no result counts for its flooring yet, 3 needed.');
  expect(sheet).toContainEqual(
    expect.stringMatching(/\| Not tested yet, 3 needed\. First check: Moisture meter \(ASTM F2659\), 4% on Nov 13$/),
  );
  // A meter over its limit fails the floor.
  const failed = papersWith(living({ method: 'meter', value: 0.06 }));
  expect(failed.report.join()).not.toMatch(/Living room: no/);
  expect(failed.sheet).toContainEqual(expect.stringMatching(/\| 6% on Nov 13: not passed$/));
});

it('says that no result counts after an RH test taken a day after the pour', () => {
  const { report, sheet } = papersWith(living({ method: 'slab-humidity', value: 0.7 }));
  expect(report).toContain('Living room: no result counts for its flooring yet, 3 needed.');
  expect(sheet).toContainEqual(expect.stringMatching(/\| No result counts yet, 3 needed$/));
});

// ASTM F2170: three tests in the first 1,000 sq ft (second-hand).
it('says how many tests are there and how many are needed', () => {
  const takenAt = new Date(Date.parse(NOW) + 5 * 86_400_000).toISOString();
  const { report, sheet } = papersWith({ ...living({ method: 'slab-humidity', value: 0.7 }), takenAt }, takenAt);
  expect(report).toContainEqual(expect.stringMatching(/^Living room: 1 of 3 in-slab relative humidity \(RH\) tests is within the limit\./));
  expect(sheet).toContainEqual(expect.stringMatching(/\| 1 of 3 tests, 70% on Nov 18: more needed$/));
});
