/** Heights: 2010 ADA Standards 303.2 (1/4 in. may be vertical), 303.3 (to 1/2 in. beveled); 1-1/2 in. for homes: common practice, no source. */
import { expect, it } from 'vitest';
import { INCH_M } from '../../../shared-core/measure/length-units.ts';
import { stepNeed } from '../../../shared-core/substrate/door-step.ts';

it('takes each height up to its limit, up or down', () => {
  const cases = [
    ['none', 0, 1 / 8, 1 / 4],
    ['transition', 5 / 16, 1 / 2],
    ['reducer', 9 / 16, 1, 1.5],
    ['ramp', 1.5625, 4],
  ] as const;
  for (const [need, ...inches] of cases)
    for (const inch of inches) for (const stepM of [inch * INCH_M, -inch * INCH_M]) expect(stepNeed(stepM), `${inch} in.`).toBe(need);
});
