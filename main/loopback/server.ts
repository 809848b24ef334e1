/** The same desk and the same screens, served to a browser on this machine only. */
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import { timingSafeEqual } from 'node:crypto';
import type { AddressInfo } from 'node:net';
import { BODY_LIMIT_BYTES } from '../../shared-core/desk/calls.ts';
import { type Envelope, failure } from '../../shared-core/desk/envelope.ts';
import type { Dispatch } from '../desk/dispatch.ts';
import type { PageFiles } from '../desk/page-files.ts';
import { POLICY_HEADERS } from '../desk/policy.ts';

export const KEY_HEADER = 'x-straightedge-key';

export type LoopbackOptions = {
  readonly dispatch: Dispatch;
  readonly pages: PageFiles;
  /** Fixed, so that the browser keeps the book under one origin; 0 takes any free one (tests). */
  readonly port: number;
  /** Made anew at each launch; every call has to carry it. */
  readonly key: string;
  readonly bodyLimit?: number;
};
export type Loopback = { readonly port: number; readonly origin: string; readonly close: () => Promise<void> };

const STATUS: Partial<Record<string, number>> = { 'not-allowed': 403, 'too-large': 413, 'unknown-call': 404, 'bad-input': 400 };

const sameKey = (given: unknown, key: string): boolean => {
  if (typeof given !== 'string') return false;
  const a = Buffer.from(given);
  const b = Buffer.from(key);
  return a.length === b.length && timingSafeEqual(a, b);
};

class TooLarge extends Error {}

const readBody = (request: IncomingMessage, limit: number): Promise<string> =>
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
    request.on('end', () => resolve(Buffer.concat(parts).toString('utf8')));
    request.on('error', reject);
  });

const send = (response: ServerResponse, status: number, type: string, body: string | Buffer): void => {
  response.writeHead(status, { ...POLICY_HEADERS, 'Content-Type': type, 'Cache-Control': 'no-store' });
  response.end(body);
};
const sendEnvelope = (response: ServerResponse, envelope: Envelope<unknown>): void => {
  const status = envelope.ok ? 200 : (STATUS[envelope.error.code] ?? 200);
  send(response, status, 'application/json', JSON.stringify(envelope));
};

const parseJson = (text: string): { ok: true; value: unknown } | { ok: false } => {
  try {
    return { ok: true, value: JSON.parse(text) as unknown };
  } catch {
    return { ok: false };
  }
};

const answerCall = async (
  request: IncomingMessage,
  response: ServerResponse,
  name: string,
  options: LoopbackOptions,
  origin: string,
): Promise<void> => {
  if (request.method !== 'POST') return send(response, 405, 'text/plain', 'Calls are posted.');
  if (request.headers.origin !== origin || !sameKey(request.headers[KEY_HEADER], options.key)) {
    return sendEnvelope(
      response,
      failure('not-allowed', 'This page was not opened by Straightedge. Start the program again and use the window it opens.'),
    );
  }
  if (!(request.headers['content-type'] ?? '').startsWith('application/json'))
    return sendEnvelope(response, failure('bad-input', 'Calls carry JSON.'));
  const limit = options.bodyLimit ?? BODY_LIMIT_BYTES;
  if (Number(request.headers['content-length'] ?? 0) > limit)
    return sendEnvelope(response, failure('too-large', 'That is more than one call may carry.'));
  let text: string;
  try {
    text = await readBody(request, limit);
  } catch (error) {
    if (error instanceof TooLarge) return sendEnvelope(response, failure('too-large', 'That is more than one call may carry.'));
    throw error;
  }
  const parsed = parseJson(text);
  if (!parsed.ok) return sendEnvelope(response, failure('bad-input', 'What was sent is not JSON.'));
  sendEnvelope(response, await options.dispatch(name, parsed.value));
};

const answerPage = async (request: IncomingMessage, response: ServerResponse, path: string, pages: PageFiles): Promise<void> => {
  if (request.method !== 'GET' && request.method !== 'HEAD') return send(response, 405, 'text/plain', 'Pages are only read.');
  const page = pages.get(path);
  if (page === undefined) return send(response, 404, 'text/plain', 'There is no such page.');
  send(response, 200, page.type, request.method === 'HEAD' ? '' : await page.read());
};

const listen = (server: Server, port: number): Promise<number> =>
  new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, '127.0.0.1', () => resolve((server.address() as AddressInfo).port));
  });

/**
 * Starts the loopback host on 127.0.0.1.
 * @throws with code EADDRINUSE when the port is taken.
 */
export async function startLoopback(options: LoopbackOptions): Promise<Loopback> {
  let origin = '';
  let host = '';
  const answer = async (request: IncomingMessage, response: ServerResponse): Promise<void> => {
    if (request.headers.host !== host) return send(response, 421, 'text/plain', 'This address is not served here.');
    const path = (request.url ?? '/').split(/[?#]/)[0] ?? '/';
    if (path.startsWith('/call/')) return answerCall(request, response, path.slice('/call/'.length), options, origin);
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
  origin = `http://${host}`;
  const close = (): Promise<void> =>
    new Promise((resolve) => {
      server.close(() => resolve());
      server.closeAllConnections();
    });
  return { port, origin, close };
}
