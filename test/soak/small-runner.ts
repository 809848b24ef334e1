/**
 * Replaces the test runner where its native parts cannot be loaded: `describe`, `it` and `expect`, one test after another, with a line for
 * each. The matchers are the runner's own.
 */
import {
  ASYMMETRIC_MATCHERS_OBJECT,
  customMatchers,
  GLOBAL_EXPECT,
  JestAsymmetricMatchers,
  JestChaiExpect,
  JestExtend,
  setState,
} from '@vitest/expect';
import * as chai from 'chai';

type Work = () => unknown;
type Suite = {
  readonly name: string;
  readonly before: Work[];
  readonly after: Work[];
  readonly tests: { readonly name: string; readonly run: Work }[];
};

chai.use(JestExtend);
chai.use(JestChaiExpect);
chai.use(JestAsymmetricMatchers);

const matching = (value: unknown, message?: string): unknown => chai.expect(value, message);
export const expect = Object.assign(matching, chai.expect) as unknown as Record<string, unknown>;
Object.assign(expect, (globalThis as unknown as Record<symbol, object>)[ASYMMETRIC_MATCHERS_OBJECT]);
Object.assign(globalThis, { [GLOBAL_EXPECT]: expect });
setState({ assertionCalls: 0 }, expect as never);
(chai.expect as unknown as { extend: (to: unknown, matchers: unknown) => void }).extend(expect, customMatchers);

const newSuite = (name: string): Suite => ({ name, before: [], after: [], tests: [] });
const suites: Suite[] = [newSuite('')];
const current = (): Suite => suites.at(-1) ?? newSuite('');

/** Replaces `%s` and the like by the case's values. */
const named = (name: string, values: readonly unknown[]): string => {
  let next = 0;
  return name.replace(/%[sdj]/g, () => String(values[next++]));
};
const withEach =
  (add: (name: string, run: (...values: never[]) => unknown) => void) =>
  (cases: readonly unknown[]) =>
  (name: string, run: (...values: unknown[]) => unknown): void => {
    for (const one of cases) {
      const values = Array.isArray(one) ? (one as unknown[]) : [one];
      add(named(name, values), () => run(...values));
    }
  };

const addTest = (name: string, run: (...values: never[]) => unknown): void => {
  const suite = current();
  suite.tests.push({ name: `${suite.name}${name}`, run });
};
const ignore = (): void => undefined;
export const it = Object.assign(addTest, {
  each: withEach(addTest),
  runIf: (is: boolean) => (is ? addTest : ignore),
  skipIf: (is: boolean) => (is ? ignore : addTest),
});

const addSuite = (name: string, body: (...values: never[]) => unknown): void => {
  suites.push(newSuite(`${current().name}${name} > `));
  body();
  suites.push(newSuite(''));
};
export const describe = Object.assign(addSuite, {
  each: withEach(addSuite),
  runIf: (is: boolean) => (is ? addSuite : ignore),
  skipIf: (is: boolean) => (is ? ignore : addSuite),
});
export const beforeAll = (work: Work): void => void current().before.push(work);
export const afterAll = (work: Work): void => void current().after.push(work);

/**
 * Runs all tests.
 * @returns how many passed and failed
 */
export async function runAll(print: (line: string) => void): Promise<{ readonly passed: number; readonly failed: number }> {
  let passed = 0;
  let failed = 0;
  for (const suite of suites) {
    for (const work of suite.before) await work();
    for (const { name, run } of suite.tests) {
      try {
        await run();
        passed += 1;
      } catch (error) {
        failed += 1;
        print(`FAIL ${name}\n${error instanceof Error ? (error.stack ?? error.message) : String(error)}`);
      }
    }
  }
  // A file's own hooks belong to no suite, so they run at the end.
  for (const suite of suites) for (const work of suite.after) await work();
  return { passed, failed };
}
