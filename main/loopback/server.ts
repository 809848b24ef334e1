/** Serves the desk and the screens to a browser on this computer only. */
import { createServer, type IncomingMessage, type OutgoingHttpHeaders, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { BODY_LIMIT_BYTES } from '../../shared-core/desk/calls.ts';
import { BESIDE_HEADER, BYTES_TYPE, bytesApart, bytesJoined } from '../../shared-core/desk/bytes-apart.ts';
import { type Envelope, failure, success } from '../../shared-core/desk/envelope.ts';
import type { Dispatch } from '../desk/dispatch.ts';
import type { PageFiles } from '../desk/page-files.ts';
import { FILE_HEADERS, POLICY_HEADERS } from '../desk/policy.ts';
import { createCodeCheck, proofOf, sameText } from './launch-code.ts';

export const KEY_HEADER = 'x-straightedge-key';

export type LoopbackOptions = {
  readonly dispatch: Dispatch;
  readonly pages: PageFiles;
  /** Fixed, because the browser stores the database by origin; 0 takes any free port (tests). */
  readonly port: number;
  /** Made at each launch. The page exchanges a code for it and sends it with every call. */
  readonly key: string;
  /** The clock that codes expire by. */
  readonly nowMs: () => number;
  readonly bodyLimit?: number;
};
export type Loopback = { readonly port: number; readonly origin: string; readonly close: () => Promise<void> };

const STATUS: Partial<Record<string, number>> = { 'not-allowed': 403, 'too-large': 413, 'unknown-call': 404, 'bad-input': 400 };

class TooLarge extends Error {}

const readBody = (request: IncomingMessage, limit: number): Promise<Buffer> =>
  new Promise((resolve, reject) => {
    const parts: Buffer[] = [];
    let size = 0;
    request.on('data', (part: Buffer) => {
      size += part.length;
      if (size > limit) {
        reject(new TooLarge());
        request.removeAllListeners('data');
        request.resume();
        return;
      }
      parts.push(part);
    });
    request.on('end', () => resolve(Buffer.concat(parts)));
    request.on('error', reject);
  });

const send = (
  response: ServerResponse,
  status: number,
  type: string,
  body: string | Uint8Array,
  headers: OutgoingHttpHeaders = POLICY_HEADERS,
): void => {
  response.writeHead(status, {
    'Content-Type': type,
    'Content-Length': Buffer.byteLength(body),
    'Cache-Control': 'no-store',
    ...headers,
  });
  response.end(body);
};
const sendEnvelope = (response: ServerResponse, envelope: Envelope<unknown>): void => {
  const apart = envelope.ok ? bytesApart(envelope.value) : null;
  if (apart !== null) return send(response, 200, BYTES_TYPE, apart.bytes, { ...POLICY_HEADERS, [BESIDE_HEADER]: apart.beside });
  const status = envelope.ok ? 200 : (STATUS[envelope.error.code] ?? 200);
  send(response, status, 'application/json', JSON.stringify(envelope));
};

/** These files have a hash in their names, so browsers may cache them. The page is requested each time. */
const CACHED = /^\/assets\//;
/** Scripts, style sheets and fonts that the page loads are under the page's policy; a policy with each of 50 files takes 40 kB. */
const PART_OF_PAGE = /^\/assets\/(?!.*\.worker-)[^/]+\.(?:js|css|woff2)$/;

const parsed = (work: () => unknown): { ok: true; value: unknown } | { ok: false } => {
  try {
    return { ok: true, value: work() };
  } catch {
    return { ok: false };
  }
};

const REFUSED = failure('not-allowed', 'This page was not opened by Straightedge. Start the program again and use the window it opens.');

/** Parses a posted body, JSON or bytes with JSON beside; null after an error response was sent. */
const readPosted = async (
  request: IncomingMessage,
  response: ServerResponse,
  limit: number,
): Promise<{ readonly value: unknown } | null> => {
  const refuse = (code: 'bad-input' | 'too-large', message: string): null => {
    sendEnvelope(response, failure(code, message));
    return null;
  };
  const tooLarge = (): null => refuse('too-large', 'This is more data than one call can carry.');
  const type = request.headers['content-type'] ?? '';
  const hasBytes = type === BYTES_TYPE;
  if (!hasBytes && !type.startsWith('application/json')) return refuse('bad-input', 'A call carries JSON.');
  if (Number(request.headers['content-length'] ?? 0) > limit) return tooLarge();
  try {
    const body = await readBody(request, limit);
    const read = parsed(() => (hasBytes ? bytesJoined(body, String(request.headers[BESIDE_HEADER])) : JSON.parse(body.toString('utf8'))));
    return read.ok ? { value: read.value } : refuse('bad-input', 'The data sent is not JSON.');
  } catch (error) {
    if (error instanceof TooLarge) return tooLarge();
    throw error;
  }
};

/** The context of responses, made once the port is known. */
type Answering = LoopbackOptions & { readonly origin: string; readonly isGoodCode: (code: unknown) => boolean };

const answerCall = async (request: IncomingMessage, response: ServerResponse, name: string, options: Answering): Promise<void> => {
  if (request.method !== 'POST') return send(response, 405, 'text/plain', 'Calls are posted.');
  const given = request.headers[KEY_HEADER];
  if (request.headers.origin !== options.origin || typeof given !== 'string' || !sameText(given, options.key))
    return sendEnvelope(response, REFUSED);
  const posted = await readPosted(request, response, options.bodyLimit ?? BODY_LIMIT_BYTES);
  if (posted !== null) sendEnvelope(response, await options.dispatch(name, posted.value));
};

/** Maximum length of a body with a code. */
const CODE_LIMIT_BYTES = 1024;

const answerCode = async (request: IncomingMessage, response: ServerResponse, options: Answering): Promise<void> => {
  if (request.method !== 'POST') return send(response, 405, 'text/plain', 'Codes are posted.');
  if (request.headers.origin !== options.origin) return sendEnvelope(response, REFUSED);
  const posted = await readPosted(request, response, CODE_LIMIT_BYTES);
  if (posted === null) return;
  const code = typeof posted.value === 'object' && posted.value !== null && 'code' in posted.value ? posted.value.code : null;
  sendEnvelope(response, options.isGoodCode(code) ? success({ key: options.key }) : REFUSED);
};

/** Proves to another launch of this user that this host has the key. Pages of other origins cannot read the reply. */
const CHALLENGE = /^\/proof\/([\w-]{16,64})$/;

const answerPage = async (request: IncomingMessage, response: ServerResponse, path: string, pages: PageFiles): Promise<void> => {
  if (request.method !== 'GET' && request.method !== 'HEAD') return send(response, 405, 'text/plain', 'Pages are only read.');
  const page = pages.get(path);
  if (page === undefined) return send(response, 404, 'text/plain', 'Page not found.');
  const takesBrotli = /\bbr\b/.test(request.headers['accept-encoding'] ?? '');
  const read = (takesBrotli ? page.readBrotli : undefined) ?? page.read;
  const headers = {
    ...(PART_OF_PAGE.test(path) ? FILE_HEADERS : POLICY_HEADERS),
    ...(CACHED.test(path) ? { 'Cache-Control': 'private, max-age=31536000, immutable' } : {}),
    ...(read === page.readBrotli ? { 'Content-Encoding': 'br' } : {}),
    ...(page.readBrotli === undefined ? {} : { Vary: 'Accept-Encoding' }),
  };
  send(response, 200, page.type, request.method === 'HEAD' ? '' : await read(), headers);
};

const listen = (server: Server, port: number): Promise<number> =>
  new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, '127.0.0.1', () => resolve((server.address() as AddressInfo).port));
  });

/** Starts the loopback host on 127.0.0.1. @throws with code EADDRINUSE when the port is taken */
export async function startLoopback(options: LoopbackOptions): Promise<Loopback> {
  let host = '';
  let answering: Answering = { ...options, origin: '', isGoodCode: createCodeCheck(options.key, options.nowMs) };
  const answer = async (request: IncomingMessage, response: ServerResponse): Promise<void> => {
    if (request.headers.host !== host) return send(response, 421, 'text/plain', 'This address is not served here.');
    const path = (request.url ?? '/').split(/[?#]/)[0] ?? '/';
    if (path.startsWith('/call/')) return answerCall(request, response, path.slice('/call/'.length), answering);
    if (path === '/key') return answerCode(request, response, answering);
    const challenge = CHALLENGE.exec(path)?.[1];
    if (challenge !== undefined && request.method === 'GET') return send(response, 200, 'text/plain', proofOf(options.key, challenge));
    return answerPage(request, response, path, options.pages);
  };
  const server = createServer((request, response) => {
    answer(request, response).catch(() => {
      if (!response.headersSent) send(response, 500, 'text/plain', 'This request failed.');
      else response.destroy();
    });
  });
  server.requestTimeout = 120_000;
  server.headersTimeout = 10_000;
  const port = await listen(server, options.port);
  host = `127.0.0.1:${port}`;
  const origin = `http://${host}`;
  answering = { ...answering, origin };
  const close = (): Promise<void> =>
    new Promise((resolve) => {
      server.close(() => resolve());
      server.closeAllConnections();
    });
  return { port, origin, close };
}
