/**
 * The last file of a mutation run: switches on one change after another and runs the tests that met it, those of its own folder and the
 * quick ones first, until one fails. What happens is written line by line to the file named in STRAIGHTEDGE_MUTATE, so that the change
 * in which a run stands still is known.
 */
import { appendFileSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, it } from 'vitest';

type KeptTest = {
  readonly name: string;
  readonly file: string;
  readonly run: () => unknown;
  readonly ms: number;
  readonly met: Readonly<Record<string, number>>;
};
type Stryker = {
  activeMutant?: string | undefined;
  hitCount?: number;
  hitLimit?: number;
  mutantCoverage?: { readonly static: Readonly<Record<string, number>> };
};
declare global {
  var testsOfChanges: KeptTest[] | undefined;
  var __stryker__: Stryker | undefined;
}

/** The processor time given to one change, ms. */
const BUDGET_MS = 15_000;
/** A change that makes its own place run this many times more often than before loops without end. */
const ENDLESS = 200;

const folder = process.env['STRAIGHTEDGE_MUTATE'] ?? '';
const log = (...words: readonly unknown[]) => {
  appendFileSync(`${folder}/log`, `${words.join('\t')}\n`);
};
const wanted = JSON.parse(readFileSync(`${folder}/wanted.json`, 'utf8')) as readonly { readonly id: string; readonly tests: string }[];
const stryker = (globalThis.__stryker__ ??= {});

/** The file of the test being run again. */
let testFile = '';
// Vitest looks for an approved text beside the file it is running, which is this one, and writes a missing one.
expect.extend({
  toMatchFileSnapshot: (text: string, name: string) => ({
    pass: text === readFileSync(join(dirname(testFile), name), 'utf8'),
    message: () => `${name} differs from the approved text.`,
  }),
});

async function holds(test: KeptTest, id: string | undefined): Promise<boolean> {
  stryker.activeMutant = id;
  stryker.hitCount = 0;
  testFile = test.file;
  stryker.hitLimit = ENDLESS * (test.met[id ?? ''] ?? 0) + 10_000;
  try {
    await test.run();
    return true;
  } catch {
    return false;
  } finally {
    stryker.activeMutant = undefined;
  }
}

async function tryOne(id: string, tests: readonly KeptTest[]): Promise<void> {
  const before = process.cpuUsage();
  for (const test of tests) {
    const { user, system } = process.cpuUsage(before);
    if ((user + system) / 1000 + test.ms > BUDGET_MS) return log('stopped', id, test.name);
    log('try', id, test.name, Math.round(test.ms));
    if (await holds(test, id)) continue;
    // A test that cannot be run twice, or a cache that keeps what the change made, proves nothing.
    if (!(await holds(test, undefined))) return log('unsure', id, test.name);
    return log('noticed', id, test.name);
  }
  log('missed', id, '');
}

it('tries each change', async () => {
  const kept = globalThis.testsOfChanges ?? [];
  for (const { id, tests: own } of wanted) {
    const isOwn = ({ file }: KeptTest) => (file.includes(own) ? 0 : 1);
    const meeting = kept.filter(({ met }) => id in met).sort((a, b) => isOwn(a) - isOwn(b) || a.ms - b.ms);
    const files = [...new Set(meeting.map(({ file }) => file))];
    log('met', id, stryker.mutantCoverage?.static[id] === undefined ? 'later' : 'while loading', ...files);
    await tryOne(id, meeting);
  }
});
