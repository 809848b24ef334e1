/**
 * What follows when one field of a job's records is another: its state, checklist, next steps, agenda, money and hours, as last approved: a
 * guard against a change that nobody meant. A line names the field, and what reads differently. After a change that was meant, run
 * `npx vitest run --config build/vitest.config.ts test/shared-core/standing/approved -u` and read the difference.
 */
import { describe, expect, it } from 'vitest';
import { agenda } from '../../../shared-core/agenda/agenda.ts';
import { DEPOSIT_HOLD, ORDER_HOLD } from '../../../shared-core/prep/pour-held.ts';
import type { JobBundle, RoomSummary } from '../../../shared-core/standing/job-bundle.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { letterSum } from '../fact-lines.ts';
import { NOW, wholeOf } from '../job-variants.ts';
import { changesOf } from '../record-changes.ts';
import { bundleFacts } from './facts-of-bundle.ts';

/** What other code reads, or what would take long. */
const SKIP =
  /survey|\.plan\b|\.frozen|asPoured|readings|pourPlan|\.layout|calendarEntries|signed#|estimate\.|rampThrough|\.dates#|options#\.(lines|rooms|planned)/;
const LISTS = ['quotes', 'pours', 'promises', 'tests', 'visits', 'ledger'] as const;
const TABLE_OF = {
  quotes: 'quotes',
  pours: 'pours',
  promises: 'promises',
  tests: 'clearanceTests',
  visits: 'visits',
  ledger: 'ledger',
} as const;

/** A job with each change of one of its records, and of what is known of its rooms. */
function* changed(bundle: JobBundle, lists: readonly (typeof LISTS)[number][]): Generator<readonly [string, JobBundle]> {
  for (const [name, job] of changesOf('jobs', bundle.job, { skip: SKIP })) yield [name, { ...bundle, job }];
  for (const [name, property] of changesOf('properties', bundle.property, { skip: SKIP })) yield [name, { ...bundle, property }];
  const seen = new Set<string>();
  for (const list of lists) {
    const field = TABLE_OF[list];
    for (const [i, row] of bundle[field].entries()) {
      const kind = 'kind' in row ? row.kind : '';
      const others = { skip: SKIP, others: bundle[field] };
      const changes = [...changesOf(field, row, others), [`without ${list}`, null] as const];
      for (const [name, other] of changes) {
        const called = `${name} ${kind}`.trim();
        if (seen.has(called)) continue;
        seen.add(called);
        const rows: readonly object[] = bundle[field];
        yield [called, { ...bundle, [field]: other === null ? rows.filter((one) => one !== row) : rows.with(i, other) }];
      }
    }
  }
  const [first, ...rest] = bundle.summaries;
  if (first === undefined) return;
  for (const [name, over] of SUMMARIES) yield [`room ${name}`, { ...bundle, summaries: [{ ...first, ...over }, ...rest] }];
}

const SUMMARIES: readonly (readonly [string, Partial<RoomSummary>])[] = [
  ['not drawn', { planDrawn: false }],
  ['with two readings', { readingsTaken: 2 }],
  ['with three readings', { readingsTaken: 3 }],
  ['with a test missing', { testsWanting: 1 }],
  ['on hold', { holds: [{ key: 'asbestos', why: 'asbestos is suspected', liftsOn: '2026-11-20' }] }],
  ['on hold without a day', { holds: [{ key: 'asbestos', why: 'asbestos is suspected', liftsOn: null }] }],
  ['waiting for its deposit', { holds: [{ key: DEPOSIT_HOLD, why: 'the deposit is not received', liftsOn: null }] }],
  ['waiting for a signature', { holds: [{ key: `${ORDER_HOLD}2`, why: 'change order 2 is not signed', liftsOn: null }] }],
  ['with one prep line open', { prepOpen: 1, prepTotal: 1, prepNext: 'Vacuum' }],
  ['with prep lines open', { prepOpen: 2, prepTotal: 8, prepNext: null }],
  ['without prep lines', { prepOpen: 0, prepTotal: 0, prepNext: null }],
  ['with prep signed', { prepOpen: 0, prepTotal: 8, prepNext: null }],
  ['without bags', { bags: null }],
  ['of one bag', { bags: 1 }],
  ['in doubt', { unsettled: 'doubt' }],
  ['of two lifts', { lifts: 2 }],
  ['without minutes', { pourMinutes: null }],
  ['without depth', { depth: null }],
];

const short = (line: string): string => (line.length > 150 ? `${line.slice(0, 150)}…` : line);

describe('a change of one field', () => {
  it.each([
    ['26-031', LISTS],
    ['26-024', ['pours', 'promises', 'tests', 'visits']],
    ['26-019', LISTS],
  ] as const)('of job %s', async (jobNumber, lists) => {
    const sample = wholeOf(jobNumber);
    // Two rooms and two readings are enough, and quick.
    const whole = {
      ...sample,
      job: { ...sample.job, rooms: sample.job.rooms.slice(0, 2) },
      cureLogs: sample.cureLogs.map((log) => ({ ...log, readings: log.readings.slice(0, 2) })),
    };
    const { bundle } = readJob(whole, NOW);
    const { business } = whole;
    const asked = agenda([bundle], business, null).entries.map(({ key, instant }) => ({ key, startAt: instant }));
    const before = new Set(bundleFacts(bundle, business, asked));
    const lines = [...changed(bundle, lists)].flatMap(([name, other]) => {
      const differing = bundleFacts(other, business, asked).filter((line) => !before.has(line));
      if (differing.length === 0) return [];
      return [
        `${name}: ${differing.length} #${letterSum(differing.join('\n'))}`,
        ...differing.slice(0, 2).map((line) => `  ${short(line)}`),
      ];
    });
    await expect(`${lines.join('\n')}\n`).toMatchFileSnapshot(`./approved/changes-${jobNumber}.txt`);
  });
});
