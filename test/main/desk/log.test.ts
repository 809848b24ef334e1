import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { createLog, logEntry } from '../../../main/desk/log.ts';
import { scratchFolder } from '../../scratch-folder.ts';

const NOW = new Date('2026-05-12T11:05:00.000Z');
const folder = scratchFolder('log');

it('spells out control characters, so that a terminal executes none', () => {
  expect(logEntry('a\u001b[2Jb\u0007\u202ec\u0000', NOW)).toBe('2026-05-12T11:05:00.000Z a\\u001b[2Jb\\u0007\\u202ec\\u0000\n');
});

it('indents later lines, so that no text can pose as an entry', () => {
  const forged = '2026-05-12T11:06:00.000Z everything is fine';
  for (const end of ['\n', '\r\n', '\r', '\u2028']) {
    const lines = logEntry(`name${end}${forged}`, NOW).split('\n');
    expect(lines).toEqual(['2026-05-12T11:05:00.000Z name', `    ${forged}`, '']);
  }
});

it('is private to the user and renamed above 1 MB', () => {
  const path = join(folder, 'deep', 'straightedge.log');
  const log = createLog(path, () => NOW);
  log('x'.repeat(1024 * 1024));
  log('second');
  expect(statSync(`${path}.old`).size).toBe(1024 * 1024 + 26);
  expect(readFileSync(path, 'utf8')).toBe('2026-05-12T11:05:00.000Z second\n');
  if (process.platform !== 'win32') expect(statSync(path).mode & 0o777).toBe(0o600);
});
