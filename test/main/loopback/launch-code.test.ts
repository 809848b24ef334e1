import { describe, expect, it } from 'vitest';
import { createCodeCheck, isProof, makeCode, proofOf } from '../../../main/loopback/launch-code.ts';

const NOW = Date.UTC(2026, 4, 12, 11, 5);
const MINUTE_MS = 60_000;

describe('a launch code', () => {
  it('works once', () => {
    const isGood = createCodeCheck('key', () => NOW);
    const [one, other] = [makeCode('key', NOW), makeCode('key', NOW)];
    expect(one).not.toBe(other);
    expect([isGood(one), isGood(one), isGood(other), isGood(other)]).toEqual([true, false, true, false]);
  });

  it('works for ten minutes', () => {
    let now = NOW;
    const isGood = createCodeCheck('key', () => now);
    const [early, late] = [makeCode('key', NOW), makeCode('key', NOW)];
    now = NOW + 10 * MINUTE_MS;
    expect(isGood(early)).toBe(true);
    now += 1;
    expect(isGood(late)).toBe(false);
  });

  it('of another key, changed, or of another kind is refused', () => {
    const isGood = createCodeCheck('key', () => NOW);
    const code = makeCode('key', NOW);
    const [end = '', nonce = '', mark = ''] = code.split('.');
    const later = (NOW + 600 * MINUTE_MS).toString(36);
    for (const bad of [
      makeCode('other', NOW),
      `${later}.${nonce}.${mark}`,
      `${end}.${nonce}x.${mark}`,
      `${end}.${nonce}`,
      '',
      '..',
      null,
      7,
      {},
    ])
      expect(isGood(bad)).toBe(false);
    expect(isGood(code)).toBe(true);
  });

  it('does not contain the key', () => {
    expect(makeCode('a-key-for-this-launch', NOW)).not.toContain('a-key-for-this-launch');
  });
});

describe('a proof', () => {
  it('can only come from the holder of the key, for this challenge', () => {
    expect(isProof('key', 'challenge-1', proofOf('key', 'challenge-1'))).toBe(true);
    expect(isProof('key', 'challenge-2', proofOf('key', 'challenge-1'))).toBe(false);
    expect(isProof('key', 'challenge-1', proofOf('other', 'challenge-1'))).toBe(false);
    expect(isProof('key', 'challenge-1', '')).toBe(false);
  });

  it('is no code, and a code is no proof', () => {
    const code = makeCode('key', NOW);
    const body = code.slice(0, code.lastIndexOf('.'));
    expect(createCodeCheck('key', () => NOW)(`${body}.${proofOf('key', body)}`)).toBe(false);
  });
});
