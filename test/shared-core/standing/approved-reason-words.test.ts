/**
 * What dates of strength and drying follow from, each kind in words, as last approved: a guard against a change that nobody meant. After a
 * change that was meant, run
 * `npx vitest run --config build/vitest.config.ts test/shared-core/standing/approved -u` and read the difference.
 */
import { expect, it } from 'vitest';
import type { DryingHours, Reason } from '../../../shared-core/cure/reason.ts';
import { reasonWords } from '../../../shared-core/standing/reason-words.ts';
import { eachKind, wordsText } from '../each-kind.ts';

it('what a date follows from, in words', async () => {
  const none = { leastC: null, mostC: null, readings: 0, hoursStoodStill: 0 };
  const air = { ...none, assumedTempC: 20, assumedSpreadC: 2, leastCureTempC: 10 };
  const strength = (hoursLeast: number, hoursMost: number, source: 'bag' | 'typical') => ({
    ...{ referenceC: 20, qK: { least: 4000, most: 6000 }, hoursLeast, hoursMost, source, air },
  });
  const drying = (from: DryingHours['from'], wetBelowM = 0) => ({
    ...{ referenceC: 20, referenceHumidity: 0.5, hours: { least: 240, most: 360, from }, depth: { meanM: 0.01, deepestM: 0.015 } },
    ...{ wetBelowM, assumedHumidity: 0.45, air },
  });
  const said = (reason: Reason) =>
    (['us', 'metric'] as const)
      .flatMap((units) => {
        const { inputs, formula, source, range } = reasonWords(reason, units, 'en-US');
        return [units, ...[...inputs.map(({ name, value }) => `${name}: ${value}`), formula, source, range].map((line) => `  ${line}`)];
      })
      .join('\n');
  const reasons = eachKind(said, {
    strength: [
      strength(4, 6, 'bag'),
      { ...strength(4, 6, 'bag'), air: { ...air, leastC: 8, mostC: 21, readings: 1200, hoursStoodStill: 27.5 } },
    ],
    drying: [drying('sheet', 0.02), drying('beyond-sheet'), drying('published')],
  });
  const durations = [
    [1, 1],
    [2.5, 2.5],
    [48, 71],
    [72, 72],
    [72, 504],
  ].map(
    ([least = 0, most = 0]) => reasonWords({ kind: 'strength', ...strength(least, most, 'typical') }, 'metric', 'en-US').inputs[0]?.value,
  );
  await expect(wordsText({ reasons, durations: durations.map(String) })).toMatchFileSnapshot('./approved/reason-words.txt');
});
