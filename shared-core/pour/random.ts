/**
 * Seeded random numbers: xoshiro128** 1.1 (D. Blackman and S. Vigna, "Scrambled Linear Pseudorandom Number Generators",
 * ACM Transactions on Mathematical Software 47(4), 2021), its state filled by the 32-bit finalizer of MurmurHash3
 * (A. Appleby, public domain) over a Weyl sequence. Each run has its own stream, so that runs may be split in any way.
 */

export type RandomState = Uint32Array;

/** An empty state, to be seeded before use. */
export function newRandom(): RandomState {
  return new Uint32Array(4);
}

function mixed(value: number): number {
  let h = value;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return (h ^ (h >>> 16)) >>> 0;
}

/** Sets the state to the start of stream `run` of a seed; any two numbers work, and fractions are dropped. */
export function seedRandom(state: RandomState, seed: number, run: number): void {
  let weyl = mixed((seed | 0) ^ 0x9e3779b9) ^ mixed(Math.imul((run | 0) + 1, 0x6c078965));
  for (let i = 0; i < 4; i++) {
    weyl = (weyl + 0x9e3779b9) | 0;
    state[i] = mixed(weyl ^ Math.imul(run | 0, i + 1));
  }
  if (state[0] === 0 && state[1] === 0 && state[2] === 0 && state[3] === 0) state[0] = 1;
}

/** The next whole number from 0 to 2^32 - 1. */
export function nextUint32(state: RandomState): number {
  const s0 = state[0] ?? 0;
  const s1 = state[1] ?? 0;
  let s2 = state[2] ?? 0;
  let s3 = state[3] ?? 0;
  const five = Math.imul(s1, 5);
  const result = Math.imul((five << 7) | (five >>> 25), 9) >>> 0;
  const t = s1 << 9;
  s2 ^= s0;
  s3 ^= s1;
  state[1] = s1 ^ s2;
  state[0] = s0 ^ s3;
  state[2] = s2 ^ t;
  state[3] = (s3 << 11) | (s3 >>> 21);
  return result;
}

/** The next number from 0 to below 1, in steps of 2^-32. */
export function nextUnit(state: RandomState): number {
  return nextUint32(state) * 2.3283064365386963e-10;
}
