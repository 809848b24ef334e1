/** Seeds of tests: fixed, so that every run is the same, unless STRAIGHTEDGE_SEED sets another. The names of random tests print theirs. */
export const SEED = Number(process.env['STRAIGHTEDGE_SEED'] ?? 20_260_512);

/** Numbers from 0 to 1 that are the same for the same seed: Park and Miller's generator. */
export function moments(seed: number): () => number {
  let state = seed % 2147483647 || 1;
  return () => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
}
