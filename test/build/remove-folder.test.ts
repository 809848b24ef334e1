import { existsSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { afterAll, expect, test } from 'vitest';
import { removeFolder } from '../../build/remove-folder.mjs';
import { removeScratchFolders, scratchFolder } from '../scratch-folder.ts';

afterAll(removeScratchFolders);

/** Writes a file each millisecond until the folder is gone. */
const WRITER = `
const { writeFileSync } = require('node:fs');
const { parentPort, workerData } = require('node:worker_threads');
const clock = new Int32Array(new SharedArrayBuffer(4));
try {
  for (let i = 0; i < 500; i += 1) {
    writeFileSync(workerData + '/' + i, '');
    if (i === 20) parentPort.postMessage('writing');
    Atomics.wait(clock, 0, 0, 1);
  }
} catch {}
`;

test('a folder is removed while a program writes into it', async () => {
  const folder = join(scratchFolder('removed'), 'chosen');
  for (let i = 0; i < 10; i += 1) {
    mkdirSync(folder);
    const writer = new Worker(WRITER, { eval: true, workerData: folder });
    await new Promise((settle) => writer.once('message', settle));
    removeFolder(folder);
    expect(existsSync(folder)).toBe(false);
    await writer.terminate();
  }
});
