/** The screens' connection to the desk: one typed call, the same in every host. */
import type { CallName } from '../../shared-core/desk/call-names.ts';
import { BESIDE_HEADER, BYTES_TYPE, type BytesApart, bytesApart, bytesJoined } from '../../shared-core/desk/bytes-apart.ts';
import { CALLS, type Gives, type Takes } from '../../shared-core/desk/calls.ts';
import { type Envelope, failure } from '../../shared-core/desk/envelope.ts';

type Transport = (name: CallName, input: unknown) => Promise<unknown>;
type Bridge = Readonly<Record<string, (input: unknown) => Promise<unknown>>>;

const KEY_HEADER = 'x-straightedge-key';
const KEPT_KEY = 'straightedge-key';

const isEnvelope = (value: unknown): value is Envelope<unknown> => typeof value === 'object' && value !== null && 'ok' in value;

/**
 * The key of this launch. The address has a code after the #, and maybe a backup to open; both are removed from it at once. The code is
 * exchanged for the key, which this window keeps.
 */
const launchKey = async (): Promise<string> => {
  const found = /^#code=([\w.-]+)(&backup)?$/.exec(location.hash);
  if (found?.[1] !== undefined) {
    history.replaceState(null, '', found[2] === undefined ? '#/' : '#/backup');
    const key = await exchange(found[1]);
    if (key !== null) sessionStorage.setItem(KEPT_KEY, key);
  }
  return sessionStorage.getItem(KEPT_KEY) ?? '';
};

/** Longer bodies are sent as a blob, which the browser reads by itself; a text it copies while the screens wait. */
const LONG_BODY = 100_000;

const postJson = (path: string, headers: Readonly<Record<string, string>>, body: unknown): Promise<Response> => {
  const text = JSON.stringify(body);
  return fetch(path, {
    method: 'POST',
    headers: { 'content-type': 'application/json', ...headers },
    body: text.length > LONG_BODY ? new Blob([text]) : text,
  });
};

const postBytes = (path: string, headers: Readonly<Record<string, string>>, { bytes, beside }: BytesApart): Promise<Response> =>
  fetch(path, {
    method: 'POST',
    headers: { 'content-type': BYTES_TYPE, [BESIDE_HEADER]: beside, ...headers },
    body: new Blob([bytes]),
  });

/** The key for a code; null for one already used, so that a reloaded page keeps its key. */
const exchange = async (code: string): Promise<string | null> => {
  const answer = (await (await postJson('/key', {}, { code })).json()) as unknown;
  if (!isEnvelope(answer) || !answer.ok) return null;
  const { value } = answer;
  return typeof value === 'object' && value !== null && 'key' in value && typeof value.key === 'string' ? value.key : null;
};

const overFetch = (key: Promise<string>): Transport => {
  key.catch(() => undefined);
  return async (name, input) => {
    const [path, headers, apart] = [`/call/${name}`, { [KEY_HEADER]: await key }, bytesApart(input)];
    const answer = await (apart === null ? postJson(path, headers, input) : postBytes(path, headers, apart));
    if (answer.headers.get('content-type') !== BYTES_TYPE) return (await answer.json()) as unknown;
    const value = bytesJoined(new Uint8Array(await answer.arrayBuffer()), answer.headers.get(BESIDE_HEADER) ?? '');
    return { ok: true, value };
  };
};
const overBridge =
  (bridge: Bridge): Transport =>
  (name, input) =>
    bridge[name]?.(input) ?? Promise.resolve(failure('unknown-call', 'This is not available in this window.'));

declare global {
  interface Window {
    straightedgeDesk?: Bridge;
  }
}

let transport: Transport | null = null;

/** Connects to the desk, once, before the first screen. */
export function findDesk(): void {
  transport = window.straightedgeDesk === undefined ? overFetch(launchKey()) : overBridge(window.straightedgeDesk);
}

/**
 * Makes one call of the contract.
 * @returns the envelope; a desk that does not answer is an error with a sentence, never a throw
 */
export async function askDesk<N extends CallName>(name: N, input: Takes<N>): Promise<Envelope<Gives<N>>> {
  if (transport === null) findDesk();
  let answer: unknown;
  try {
    answer = await transport?.(name, input);
  } catch {
    return failure('failed', 'Straightedge stopped responding. Restart it. Your data is safe.');
  }
  if (!isEnvelope(answer)) return failure('failed', 'Straightedge sent an unreadable response. Restart it. Your data is safe.');
  if (!answer.ok) return answer;
  const value = CALLS[name].gives.safeParse(answer.value);
  if (!value.success) return failure('failed', 'This window belongs to another version. Restart Straightedge.');
  // The schema of this call parsed it.
  return { ok: true, value: value.data as Gives<N> };
}
