/** One host per data folder, by a note that counts only while its process proves the key. */
import { readdirSync, statSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { askProof } from '../../../main/loopback/ask-proof.ts';
import { claimFolder, readRunning, releaseFolder, type Pulse, type Running } from '../../../main/loopback/running.ts';
import { startLoopback } from '../../../main/loopback/server.ts';
import { scratchFolder } from '../../scratch-folder.ts';

const aFolder = (): string => scratchFolder('running');

const a: Running = { port: 4001, key: 'key-a', pid: 1 };
const b: Running = { port: 4002, key: 'key-b', pid: 2 };
const answering = (pulse: Pulse) => () => Promise.resolve(pulse);

describe('the note of a running host', () => {
  it('is private and locks the folder while its host proves the key', async () => {
    const folder = aFolder();
    expect(await claimFolder(folder, a, answering('alive'))).toEqual({ owner: 'us' });
    if (process.platform !== 'win32') expect(statSync(join(folder, 'running-1.json')).mode & 0o777).toBe(0o600);
    expect(await claimFolder(folder, b, answering('alive'))).toEqual({ owner: 'other', running: a, pulse: 'alive' });
    expect(await claimFolder(folder, b, answering('silent'))).toEqual({ owner: 'other', running: a, pulse: 'silent' });
    expect(await readRunning(folder)).toEqual(a);
    expect(readdirSync(folder)).toEqual(['running-1.json']);
  });

  it('locks nothing once its host is gone', async () => {
    const folder = aFolder();
    await claimFolder(folder, a, answering('alive'));
    expect(await claimFolder(folder, b, answering('gone'))).toEqual({ owner: 'us' });
    expect(await readRunning(folder)).toEqual(b);
    expect(readdirSync(folder)).toEqual(['running-2.json']);
  });

  it('that cannot be read locks nothing', async () => {
    for (const text of ['', '{', 'null', '{"port":"x"}']) {
      const folder = aFolder();
      writeFileSync(join(folder, 'running-1.json'), text);
      expect(await claimFolder(folder, a, answering('alive')), text).toEqual({ owner: 'us' });
    }
  });

  it('is won by one of many simultaneous launches, also over a stale one', async () => {
    for (let round = 0; round < 20; round += 1) {
      const folder = aFolder();
      await claimFolder(folder, a, answering('alive'));
      const many = Array.from({ length: 12 }, (_, i) => ({ port: 5000 + i, key: `key-${round}-${i}`, pid: i }));
      const askPulse = (running: Running): Promise<Pulse> => Promise.resolve(running.key === a.key ? 'gone' : 'alive');
      const claims = await Promise.all(many.map((one) => claimFolder(folder, one, askPulse)));
      expect(claims.filter((claim) => claim.owner === 'us')).toHaveLength(1);
      const winner = many[claims.findIndex((claim) => claim.owner === 'us')];
      expect(await readRunning(folder)).toEqual(winner);
      expect(readdirSync(folder)).toHaveLength(1);
    }
  });

  it('is not lost to a slow launch: a higher number that is alive wins', async () => {
    const folder = aFolder();
    await claimFolder(folder, a, answering('alive'));
    let c: Running | null = null;
    // While b asks about the stale note, another launch takes the folder and is killed, and a third takes it.
    const askPulse = async (running: Running): Promise<Pulse> => {
      if (c !== null) return running.key === c.key ? 'alive' : 'gone';
      const third = { port: 4003, key: 'key-c', pid: 3 };
      c = third;
      await claimFolder(folder, { port: 4004, key: 'key-d', pid: 4 }, answering('gone'));
      expect(await claimFolder(folder, third, answering('gone'))).toEqual({ owner: 'us' });
      return 'gone';
    };
    expect(await claimFolder(folder, b, askPulse)).toEqual({ owner: 'other', running: c, pulse: 'alive' });
    expect(await readRunning(folder)).toEqual(c);
    expect(readdirSync(folder)).toHaveLength(1);
  });

  it('is removed only by its own host', async () => {
    const folder = aFolder();
    await claimFolder(folder, a, answering('alive'));
    await releaseFolder(folder, b);
    expect(await readRunning(folder)).toEqual(a);
    await releaseFolder(folder, a);
    expect(await readRunning(folder)).toBeNull();
  });
});

describe('the proof', () => {
  it('is given by the host of the note and by no other', async () => {
    const host = await startLoopback({
      dispatch: () => Promise.reject(new Error('no calls here')),
      pages: new Map(),
      port: 0,
      key: 'key-a',
      nowMs: () => 0,
    });
    const requests: string[] = [];
    const stranger = createServer((request, response) => {
      requests.push(JSON.stringify([request.url, request.headers]));
      response.end('anything at all');
    });
    await new Promise<void>((resolve) => stranger.listen(0, '127.0.0.1', resolve));
    const { port } = stranger.address() as AddressInfo;
    try {
      expect(await askProof({ ...a, port: host.port })).toBe('alive');
      expect(await askProof({ ...b, port: host.port })).toBe('gone');
      expect(await askProof({ ...a, port })).toBe('gone');
      // The other program on the port learned neither key nor code.
      expect(requests).toHaveLength(1);
      expect(requests[0]).not.toContain('key-a');
    } finally {
      await host.close();
      stranger.close();
    }
    expect(await askProof({ ...a, port })).toBe('gone');
  });
});
