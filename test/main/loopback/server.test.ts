import { readFileSync } from 'node:fs';
import { request } from 'node:http';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { KEY_HEADER, type Loopback, startLoopback } from '../../../main/loopback/server.ts';
import { BESIDE_HEADER, BYTES_TYPE, bytesApart, bytesJoined } from '../../../shared-core/desk/bytes-apart.ts';
import type { Envelope } from '../../../shared-core/desk/envelope.ts';
import { makeCode } from '../../../main/loopback/launch-code.ts';
import { CONTRACT_CASES } from '../desk/contract-cases.ts';
import { workingDesk } from '../desk/working-desk.ts';

const KEY = 'a-key-for-this-launch';
const page = (type: string, text: string) => ({
  type,
  read: () => Promise.resolve(Buffer.from(text)),
  readBrotli: () => Promise.resolve(Buffer.from(`compressed ${text}`)),
});
const PAGES = new Map([
  ['/', page('text/html; charset=utf-8', '<!doctype html>')],
  ['/assets/index-Ab12.js', page('text/javascript; charset=utf-8', '')],
  ['/assets/survey.worker-Ab12.js', page('text/javascript; charset=utf-8', '')],
]);
const desk = workingDesk();
let host: Loopback;

type Answer = { status: number; headers: Record<string, unknown>; body: string; bytes: Buffer };
const send = (options: {
  method?: string;
  path: string;
  headers?: Record<string, string>;
  body?: string | Uint8Array | undefined;
}): Promise<Answer> =>
  new Promise((resolve, reject) => {
    const sent = request(
      { host: '127.0.0.1', port: host.port, method: options.method ?? 'POST', path: options.path, headers: options.headers ?? {} },
      (response) => {
        const parts: Buffer[] = [];
        response.on('data', (part: Buffer) => parts.push(part));
        response.on('end', () => {
          const bytes = Buffer.concat(parts);
          resolve({ status: response.statusCode ?? 0, headers: response.headers, body: bytes.toString(), bytes });
        });
      },
    );
    sent.on('error', reject);
    sent.end(options.body);
  });
const good = (): Record<string, string> => ({
  host: `127.0.0.1:${host.port}`,
  origin: host.origin,
  [KEY_HEADER]: KEY,
  'content-type': 'application/json',
});
const call = async (name: string, input: unknown): Promise<Envelope<unknown>> => {
  const apart = bytesApart(input);
  const headers = apart === null ? good() : { ...good(), 'content-type': BYTES_TYPE, [BESIDE_HEADER]: apart.beside };
  const body = apart?.bytes ?? JSON.stringify(input);
  const answer = await send({ path: `/call/${encodeURIComponent(name)}`, headers, body });
  const beside = answer.headers[BESIDE_HEADER];
  if (typeof beside === 'string') return { ok: true, value: bytesJoined(answer.bytes, beside) };
  return JSON.parse(answer.body) as Envelope<unknown>;
};

beforeAll(async () => {
  host = await startLoopback({ dispatch: desk.dispatch, pages: PAGES, port: 0, key: KEY, nowMs: Date.now, bodyLimit: 16_384 });
});
afterAll(() => host.close());

describe('the desk over the loopback host', () => {
  for (const { name, run } of CONTRACT_CASES) it(name, () => run(call));
});

describe('the loopback host', () => {
  it('gives the key for a good code, once, and for nothing else', async () => {
    const { [KEY_HEADER]: _key, ...headers } = good();
    const exchange = (body: unknown, more = {}) => send({ path: '/key', headers: { ...headers, ...more }, body: JSON.stringify(body) });
    const code = makeCode(KEY, Date.now());
    expect((await exchange({ code }, { origin: 'http://straightedge.example' })).status).toBe(403);
    expect(JSON.parse((await exchange({ code })).body)).toEqual({ ok: true, value: { key: KEY } });
    for (const bad of [{ code }, { code: makeCode('another', Date.now()) }, { code: KEY }, {}, null, 'x']) {
      const answer = await exchange(bad);
      expect(answer.status).toBe(403);
      expect(answer.body).not.toContain(KEY);
    }
    expect((await exchange({ code: 'x'.repeat(2000) })).status).toBe(413);
    expect((await send({ method: 'GET', path: `/key?code=${code}`, headers })).status).toBe(405);
  });

  it('lets a browser cache files whose names change with each build', async () => {
    const asset = await send({ method: 'GET', path: '/assets/index-Ab12.js', headers: { host: `127.0.0.1:${host.port}` } });
    expect(asset.headers['cache-control']).toBe('private, max-age=31536000, immutable');
    expect(asset.headers['content-encoding']).toBeUndefined();
    const small = await send({
      method: 'GET',
      path: '/',
      headers: { host: `127.0.0.1:${host.port}`, 'accept-encoding': 'gzip, br' },
    });
    expect(small.headers).toMatchObject({ 'content-encoding': 'br', vary: 'Accept-Encoding' });
    expect(small.body).toBe('compressed <!doctype html>');
  });

  it('serves the page with the one policy and without caching', async () => {
    const page = await send({ method: 'GET', path: '/', headers: { host: `127.0.0.1:${host.port}` } });
    expect(page.status).toBe(200);
    expect(page.headers['content-security-policy']).toContain("default-src 'none'");
    expect(page.headers['content-security-policy']).not.toContain('unsafe');
    expect(page.headers['x-content-type-options']).toBe('nosniff');
    expect(page.headers['cache-control']).toBe('no-store');
  });

  it('sends the policy with a worker, which has no other, and not with a part of the page', async () => {
    const headersOf = async (path: string) => (await send({ method: 'GET', path, headers: { host: `127.0.0.1:${host.port}` } })).headers;
    expect((await headersOf('/assets/survey.worker-Ab12.js'))['content-security-policy']).toContain("default-src 'none'");
    const part = await headersOf('/assets/index-Ab12.js');
    expect(part['content-security-policy']).toBeUndefined();
    expect(part['x-content-type-options']).toBe('nosniff');
    expect(part['cross-origin-resource-policy']).toBe('same-origin');
  });

  it('serves nothing outside its list, whatever the path looks like', async () => {
    for (const path of ['/../package.json', '/%2e%2e/package.json', '/..%2fpackage.json', '//etc/passwd', '/index.html.map', '/call']) {
      expect((await send({ method: 'GET', path, headers: { host: `127.0.0.1:${host.port}` } })).status, path).toBe(404);
    }
  });

  it.each([
    ['another Host', { host: 'straightedge.example' }, 421],
    ['localhost by name', { host: 'localhost:1' }, 421],
    ['another Origin', { origin: 'http://straightedge.example' }, 403],
    ['no key', { [KEY_HEADER]: '' }, 403],
    ['a wrong key of the same length', { [KEY_HEADER]: 'b-key-for-this-launch' }, 403],
    ['a form instead of JSON', { 'content-type': 'text/plain' }, 400],
  ])('refuses %s', async (_what, headers, status) => {
    expect((await send({ path: '/call/desk.about', headers: { ...good(), ...headers }, body: '{}' })).status).toBe(status);
  });

  it('refuses a call without an Origin', async () => {
    const { origin: _origin, ...headers } = good();
    expect((await send({ path: '/call/desk.about', headers, body: '{}' })).status).toBe(403);
  });

  it('refuses other methods', async () => {
    for (const method of ['GET', 'PUT', 'DELETE', 'OPTIONS'])
      expect((await send({ method, path: '/call/desk.about', headers: good() })).status).toBe(405);
    expect((await send({ method: 'POST', path: '/', headers: good() })).status).toBe(405);
  });

  it('refuses what is not JSON and what is too long, declared or streamed', async () => {
    expect((await send({ path: '/call/desk.about', headers: good(), body: '{' })).status).toBe(400);
    expect((await send({ path: '/call/desk.about', headers: good(), body: 'x'.repeat(20_000) })).status).toBe(413);
    expect(
      (await send({ path: '/call/desk.about', headers: { ...good(), 'transfer-encoding': 'chunked' }, body: 'x'.repeat(20_000) })).status,
    ).toBe(413);
  });

  it('takes the bytes of a file as the body, and the rest of the call from a header', async () => {
    const save = (input: string) =>
      send({ path: '/call/file.save', headers: { ...good(), 'content-type': BYTES_TYPE, [BESIDE_HEADER]: input }, body: 'ü;1\r\n' });
    const saved = await save(encodeURIComponent(JSON.stringify({ name: 'ä.csv' })));
    expect(JSON.parse(saved.body)).toMatchObject({ ok: true, value: { name: 'ä.csv', bytes: 6 } });
    expect(readFileSync(join(desk.papers, 'ä.csv'), 'utf8')).toBe('ü;1\r\n');
    for (const bad of ['%', 'x', '{"name":"a.csv","base64":""}', 'null', '{}'])
      expect(JSON.parse((await save(bad)).body), bad).toMatchObject({ ok: false, error: { code: 'bad-input' } });
  });

  it('listens on this computer only', () => {
    expect(host.origin).toMatch(/^http:\/\/127\.0\.0\.1:\d+$/);
  });
});
