/**
 * Exact fractions for money. A quantity or a rate comes in as a decimal number and is taken as written (0.0825 is 825/10000, not
 * the nearest binary fraction), so that a half cent is a half cent.
 */

/** A fraction of whole numbers; `den` is always above zero. */
export type Exact = { readonly num: bigint; readonly den: bigint };

/** Exactly 0. */
export const ZERO: Exact = { num: 0n, den: 1n };
/** Exactly 1. */
export const ONE: Exact = { num: 1n, den: 1n };

/**
 * The exact fraction of a decimal number as it is written.
 * @param value a finite number, such as 0.0825 or 1.2e-7
 * @returns its shortest decimal form as a fraction
 * @throws when the number is not finite: amounts are checked before they come here.
 */
export function exact(value: number): Exact {
  if (!Number.isFinite(value)) throw new RangeError(`An amount cannot be calculated from ${value}.`);
  // Most amounts are whole minor units; writing and splitting a text took a fifth of pricing a job.
  if (Number.isSafeInteger(value)) return { num: BigInt(value), den: 1n };
  const [mantissa = '0', exponent = '0'] = String(value).split('e');
  const [whole = '0', decimals = ''] = mantissa.split('.');
  const scale = Number(exponent) - decimals.length;
  const digits = BigInt(whole + decimals);
  return scale >= 0 ? { num: digits * 10n ** BigInt(scale), den: 1n } : { num: digits, den: 10n ** BigInt(-scale) };
}

/** Adds two fractions. */
export function plus(a: Exact, b: Exact): Exact {
  return a.den === b.den ? { num: a.num + b.num, den: a.den } : { num: a.num * b.den + b.num * a.den, den: a.den * b.den };
}

/** Subtracts the second fraction from the first. */
export function minus(a: Exact, b: Exact): Exact {
  return plus(a, { num: -b.num, den: b.den });
}

/** Multiplies two fractions. */
export function times(a: Exact, b: Exact): Exact {
  return { num: a.num * b.num, den: a.den * b.den };
}

/**
 * Divides the first fraction by the second.
 * @throws when the second is zero.
 */
export function over(a: Exact, b: Exact): Exact {
  if (b.num === 0n) throw new RangeError('An amount cannot be divided by 0.');
  const sign = b.num < 0n ? -1n : 1n;
  return { num: a.num * b.den * sign, den: a.den * b.num * sign };
}

/** Adds up fractions. */
export function sumExact(values: readonly Exact[]): Exact {
  return values.reduce(plus, ZERO);
}

/**
 * The whole number nearest to a fraction; a half goes away from zero, as cash is rounded on paper.
 * @returns a safe integer
 * @throws when the amount is past what a number holds exactly (about nine quadrillion minor units).
 */
export function roundHalfUp(value: Exact): number {
  const negative = value.num < 0n;
  const size = negative ? -value.num : value.num;
  const rounded = (2n * size + value.den) / (2n * value.den);
  const whole = Number(negative ? -rounded : rounded);
  if (!Number.isSafeInteger(whole)) throw new RangeError('This amount is too large.');
  return whole === 0 ? 0 : whole;
}

/** The whole number at or below a fraction, as a bigint. */
export function floorExact(value: Exact): bigint {
  const truncated = value.num / value.den;
  return value.num < 0n && truncated * value.den !== value.num ? truncated - 1n : truncated;
}
