/** The result of one test with its arithmetic, shown before it is saved. */
import type { FloorTest, Layer } from '../book/layer.ts';
import { DEFLECTION_SPAN_OVER } from '../substrate/floor-deflection.ts';
import { type OddContext, questionsAboutTest } from '../substrate/odd-readings.ts';
import { pullOffLeastPa } from '../substrate/measured-tests.ts';
import type { TestLimits } from '../substrate/test-kind.ts';
import { kindOf } from '../substrate/test-kinds.ts';
import { wordingFor } from '../substrate/wording.ts';
import type { Assessment } from './assess-room.ts';

/** Input of the arithmetic. */
export type ArithmeticContext = OddContext & TestLimits & { readonly locale: string; readonly layers: readonly Layer[] };

/** The context of a room's tests, with the limits of its assessment. */
export function testContext(
  { facts }: Pick<Assessment, 'facts'>,
  context: Omit<ArithmeticContext, 'addedLoadPa' | 'pullOffLeastPa' | 'spanOver'>,
): ArithmeticContext {
  return {
    ...context,
    addedLoadPa: facts.addedLoadPa,
    pullOffLeastPa: pullOffLeastPa(facts.product, facts.hasMoistureSystem),
    spanOver: facts.demand?.spanOver ?? DEFLECTION_SPAN_OVER,
  };
}

/** A computed test. */
export type TestArithmetic = {
  /** The result with its arithmetic; empty where the reading is the result. */
  readonly sentences: readonly string[];
  /** Why it does not count; null when it does. */
  readonly doesNotCount: string | null;
  /** Questions about it, as entered. */
  readonly questions: readonly string[];
};

/** Computes one test as it was entered. */
export function testArithmetic(test: FloorTest, context: ArithmeticContext): TestArithmetic {
  const wording = wordingFor(context.units, context.locale);
  return {
    sentences: kindOf(test).arithmetic(test, context, wording),
    doesNotCount: kindOf(test).doesNotCount(test, context.layers, { depth: wording.depth, pullOffLeastPa: context.pullOffLeastPa }),
    questions: questionsAboutTest(test, context, wording),
  };
}
