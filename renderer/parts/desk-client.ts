/** The screens' way to the machine: one typed call, whichever host is on the other side. */
import type { CallName } from '../../shared-core/desk/call-names.ts';
import { CALLS, type Gives, type Takes } from '../../shared-core/desk/calls.ts';
import { type Envelope, failure } from '../../shared-core/desk/envelope.ts';

type Transport = (name: CallName, input: unknown) => Promise<unknown>;
type Bridge = Readonly<Record<string, (input: unknown) => Promise<unknown>>>;

const KEY_HEADER = 'x-straightedge-key';
const KEPT_KEY = 'straightedge-key';

/** The key of this launch comes in the address, after the #, with word of a copy to look at; both are taken out of it at once. */
const launchKey = (): string => {
  const found = /^#key=([\w-]+)(&copy)?$/.exec(location.hash);
  if (found?.[1] !== undefined) {
    sessionStorage.setItem(KEPT_KEY, found[1]);
    history.replaceState(null, '', found[2] === undefined ? '#/' : '#/backup');
  }
  return sessionStorage.getItem(KEPT_KEY) ?? '';
};

const overFetch =
  (key: string): Transport =>
  async (name, input) => {
    const response = await fetch(`/call/${name}`, {
      method: 'POST',
      headers: { 'content-type': 'application/json', [KEY_HEADER]: key },
      body: JSON.stringify(input),
    });
    return (await response.json()) as unknown;
  };
const overBridge =
  (bridge: Bridge): Transport =>
  (name, input) =>
    bridge[name]?.(input) ?? Promise.resolve(failure('unknown-call', 'This window does not offer that.'));

declare global {
  interface Window {
    straightedgeDesk?: Bridge;
  }
}

let transport: Transport | null = null;

/** Finds the machine; once, before the first screen. */
export function findDesk(): void {
  transport = window.straightedgeDesk === undefined ? overFetch(launchKey()) : overBridge(window.straightedgeDesk);
}

const isEnvelope = (value: unknown): value is Envelope<unknown> => typeof value === 'object' && value !== null && 'ok' in value;

/**
 * Asks the machine for one call of the contract.
 * @returns the envelope; a machine that does not answer is an error with a sentence, never a throw
 */
export async function askDesk<N extends CallName>(name: N, input: Takes<N>): Promise<Envelope<Gives<N>>> {
  if (transport === null) findDesk();
  let answer: unknown;
  try {
    answer = await transport?.(name, input);
  } catch {
    return failure('failed', 'The program behind this window does not answer. Start Straightedge again; the book itself is safe.');
  }
  if (!isEnvelope(answer)) return failure('failed', 'The program behind this window gave no answer that can be read.');
  if (!answer.ok) return answer;
  const value = CALLS[name].gives.safeParse(answer.value);
  if (!value.success) return failure('failed', 'The program behind this window is of another version. Start Straightedge again.');
  // The schema of this very call parsed it.
  return { ok: true, value: value.data as Gives<N> };
}
