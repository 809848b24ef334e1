/**
 * The code in the address that opens the window. It is exchanged once for the key of this launch, so that the key is never in a process
 * list, an address bar or a history. Any process that may read this user's notes can make one.
 */
import { createHmac, randomBytes, timingSafeEqual } from 'node:crypto';

/** Long enough for a browser to start on a busy computer, ms. */
const LIFE_MS = 10 * 60_000;

const sign = (key: string, text: string): string => createHmac('sha256', key).update(text).digest('base64url');

/** Whether two texts are equal, in a time that does not tell where they differ. */
export const sameText = (a: string, b: string): boolean => {
  const [x, y] = [Buffer.from(a), Buffer.from(b)];
  return x.length === y.length && timingSafeEqual(x, y);
};

/** Makes a code that works once, within ten minutes of `nowMs`. */
export function makeCode(key: string, nowMs: number): string {
  const body = `${(nowMs + LIFE_MS).toString(36)}.${randomBytes(12).toString('base64url')}`;
  return `${body}.${sign(key, `code ${body}`)}`;
}

/** Returns a function that checks a code and accepts each one once. */
export function createCodeCheck(key: string, nowMs: () => number): (code: unknown) => boolean {
  const used = new Map<string, number>();
  return (code) => {
    if (typeof code !== 'string') return false;
    const [end, nonce, mark] = code.split('.');
    if (end === undefined || nonce === undefined || mark === undefined) return false;
    if (!sameText(mark, sign(key, `code ${end}.${nonce}`))) return false;
    const now = nowMs();
    for (const [one, until] of used) if (until < now) used.delete(one);
    const until = Number.parseInt(end, 36);
    if (!(until >= now) || used.has(nonce)) return false;
    used.set(nonce, until);
    return true;
  };
}

/** The answer to a challenge, which only the holder of the key can give. */
export function proofOf(key: string, challenge: string): string {
  return sign(key, `proof ${challenge}`);
}

export function isProof(key: string, challenge: string, answer: string): boolean {
  return sameText(answer, proofOf(key, challenge));
}
