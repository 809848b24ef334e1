/** Runs each test as it is and keeps it, with how long it took and which changes its code met, for `try-changes.ts` to run again. */
import { getFn } from 'vitest/suite';
import { VitestTestRunner } from 'vitest/runners';

export default class MutateRunner extends VitestTestRunner {
  async runTask(test) {
    const stryker = (globalThis.__stryker__ ??= {});
    const kept = (globalThis.testsOfChanges ??= []);
    stryker.currentTestId = test.id;
    const before = process.cpuUsage();
    try {
      await getFn(test)();
    } finally {
      stryker.currentTestId = undefined;
    }
    const { user, system } = process.cpuUsage(before);
    const met = stryker.mutantCoverage?.perTest[test.id] ?? {};
    kept.push({ name: test.name, file: test.file.filepath, run: getFn(test), ms: (user + system) / 1000, met });
  }
}
