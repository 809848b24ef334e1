import Big from 'big.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { apportion, splitInStages } from '../../../shared-core/price/apportion.ts';
import { exact, over, roundHalfUp, times } from '../../../shared-core/price/exact.ts';
import { explainShare, priceFactor, priceOf } from '../../../shared-core/price/markup.ts';
import { currencyDigits, decimalMoney, formatMoney, parseMoney } from '../../../shared-core/price/money.ts';
import { checkStages, payments } from '../../../shared-core/price/stages.ts';
import { taxOn } from '../../../shared-core/price/tax.ts';
import { ISO_4217_DIGITS } from '../../reference/money-currencies.ts';

const minor = fc.integer({ min: 0, max: 50_000_000 });
const rate = fc.integer({ min: 0, max: 60_000 }).map((n) => n / 100_000);
const HALF_UP = Big.roundHalfUp;

describe('money', () => {
  it('has the digits ISO 4217 gives each currency', () => {
    for (const [currency, digits] of Object.entries(ISO_4217_DIGITS)) expect(currencyDigits(currency)).toBe(digits);
  });
  it('parses what it formatted, in currencies of no, two and three digits', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -1e11, max: 1e11 }),
        fc.constantFrom('USD', 'JPY', 'KWD'),
        fc.constantFrom('en-US', 'de-DE'),
        (amount, currency, locale) => {
          const read = parseMoney(formatMoney(amount, currency, locale), currency, locale);
          expect(read).toEqual({ ok: true, value: amount === 0 ? 0 : amount });
        },
      ),
    );
  });
  it('as a decimal agrees with big.js', () => {
    fc.assert(
      fc.property(fc.integer(), (amount) => {
        expect(decimalMoney(amount, 'KWD')).toBe(new Big(amount).div(1000).toFixed(3));
      }),
    );
  });
  it('refuses a third decimal in a currency of two, and suggests the likely amount', () => {
    const read = parseMoney('12.345', 'USD');
    expect(read.ok ? '' : read.message).toMatch(/USD has 2 decimals.*\$12\.35/);
    expect(parseMoney('12.345', 'KWD')).toEqual({ ok: true, value: 12345 });
    expect(parseMoney('12.5', 'JPY').ok).toBe(false);
    expect(parseMoney('12.340', 'USD')).toEqual({ ok: true, value: 1234 });
    for (const bad of ['', 'twelve', '1e5', '1,2,3', 'NaN', '999999999999999']) expect(parseMoney(bad, 'USD').ok).toBe(false);
  });
  it('rounds a half away from zero exactly as big.js does', () => {
    fc.assert(
      fc.property(minor, rate, (amount, r) => {
        expect(roundHalfUp(times(exact(amount), exact(r)))).toBe(new Big(amount).times(new Big(r)).round(0, HALF_UP).toNumber());
      }),
    );
    // 1.005 is slightly less in binary; as typed it is a half.
    expect(roundHalfUp(times(exact(1.005), exact(100)))).toBe(101);
    expect(roundHalfUp(exact(-0.5))).toBe(-1);
  });
  it('divided adds up, each part within one minor unit of its share', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -1e9, max: 1e9 }),
        fc.array(fc.integer({ min: 0, max: 10_000 }), { minLength: 1, maxLength: 12 }),
        (total, weights) => {
          const parts = apportion(total, weights.map(exact));
          expect(parts.reduce((a, b) => a + b, 0)).toBe(total);
          const sum = weights.reduce((a, b) => a + b, 0);
          for (const [i, part] of parts.entries()) {
            expect(Number.isInteger(part)).toBe(true);
            if (sum > 0)
              expect(
                new Big(part)
                  .minus(new Big(total).times(weights[i] ?? 0).div(sum))
                  .abs()
                  .lt(1.000001),
              ).toBe(true);
          }
        },
      ),
    );
  });
  it('in stages adds to the total, and the first stage is its exact share', () => {
    fc.assert(
      fc.property(minor, fc.array(fc.integer({ min: 1, max: 100 }), { minLength: 1, maxLength: 6 }), (total, shares) => {
        const sum = shares.reduce((a, b) => a + b, 0);
        const stages = splitInStages(total, shares);
        expect(stages.reduce((a, b) => a + b, 0)).toBe(total);
        expect(stages[0]).toBe(roundHalfUp(over(times(exact(total), exact(shares[0] ?? 0)), exact(sum))));
      }),
    );
    expect(payments(446820, [], { depositShare: 0.3 }).stages.map((stage) => stage.amountMinor)).toEqual([134046, 312774]);
    const half = payments(1000, [{ name: 'Half', share: 0.5, due: 'before-pour' }], { depositShare: 0.3 });
    expect(half.warning).toMatch(/add up to 50%/);
  });
});

describe('payments entered by hand', () => {
  const stage = (name: string, share: number) => ({ name, share, due: 'on-handover' as const });
  it('are accepted when they make the whole', () => expect(checkStages([stage('First', 0.3), stage('Rest', 0.7)]).ok).toBe(true));
  it('are refused with what is missing, what is too much, and which has no name', () => {
    const wordsOf = (...stages: ReturnType<typeof stage>[]) => {
      const read = checkStages(stages);
      return read.ok ? '' : read.message;
    };
    expect(wordsOf(stage('First', 0.3), stage('Rest', 0.6))).toMatch(/add up to 90%\. That is 10% too little/);
    expect(wordsOf(stage('First', 0.5), stage('Rest', 0.6))).toMatch(/add up to 110%\. That is 10% too much/);
    expect(wordsOf(stage(' ', 1))).toMatch(/Enter a name for payment 1/);
    expect(wordsOf(stage('First', 1), stage('Rest', 0))).toMatch(/Rest is 0%/);
    expect(wordsOf()).toMatch(/100% too little/);
  });
});

describe('markup and margin', () => {
  it('of 40% on 100.00 give 140.00 and 166.67', () => {
    const priceBy = (method: 'markup' | 'margin') => {
      const factor = priceFactor(method, 0.4);
      if (!factor.ok) throw new Error(factor.message);
      return roundHalfUp(priceOf(10000, factor.value));
    };
    expect(priceBy('markup')).toBe(14000);
    expect(priceBy('margin')).toBe(16667);
    expect(explainShare('markup', 0.4)).toMatch(/28\.6%/);
  });
  it('of 100% margin is refused, and so is a share below zero or none', () => {
    expect(priceFactor('margin', 1)).toEqual({ ok: false, message: 'A margin of 100% is not possible. Enter less than 100%.' });
    for (const share of [-0.01, Number.NaN, Infinity])
      expect(priceFactor('markup', share)).toEqual({ ok: false, message: 'A markup is at least 0%.' });
    expect(priceFactor('markup', 0).ok).toBe(true);
    // 25% of the price is a third of the cost.
    expect(explainShare('margin', 0.25)).toMatch(/^25% .*33\.3%\.$/);
    expect(explainShare('margin', 1)).toMatch(/below 100%/);
  });
});

describe('tax', () => {
  const rates = [
    { id: 'state', name: 'State', rate: 0.0825 },
    { id: 'low', name: 'Reduced', rate: 0.05 },
  ];
  it('by line and by rate differ by at most half a minor unit per line', () => {
    fc.assert(
      fc.property(fc.array(fc.record({ netMinor: minor, taxId: fc.constantFrom('state', 'low', null) }), { maxLength: 30 }), (lines) => {
        const byLine = taxOn(lines, rates, 'line');
        const byTotal = taxOn(lines, rates, 'rate');
        for (const total of byTotal.byRate) {
          const on = lines.filter((line) => line.taxId === total.taxId);
          const other = byLine.byRate.find((r) => r.taxId === total.taxId);
          expect(Math.abs((other?.taxMinor ?? 0) - total.taxMinor)).toBeLessThanOrEqual(Math.ceil(on.length / 2));
          const big = on.reduce((sum, line) => sum.plus(line.netMinor), new Big(0)).times(total.rate);
          expect(total.taxMinor).toBe(big.round(0, HALF_UP).toNumber());
          expect(
            new Big(other?.taxMinor ?? 0)
              .minus(big)
              .abs()
              .lte(on.length / 2),
          ).toBe(true);
        }
      }),
    );
  });
  it('by a deleted rate is named', () => expect(taxOn([{ netMinor: 100, taxId: 'gone' }], rates, 'line').unknown).toEqual(['gone']));
});
