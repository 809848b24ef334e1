/** Expected lengths: LevelDB's log format (`doc/log_format.md`): blocks of 32,768 bytes, pieces with headers of 7. */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { mendLogs, wholeLength } from '../../../main/desk/mend-logs.ts';
import { piece, tornEntry } from '../../torn-log.ts';
import { scratchFolder } from '../../scratch-folder.ts';

const BLOCK = 32_768;
const entry = piece('full', 93);

describe('the whole length of a log', () => {
  const whole = 2 * entry.length;
  it.each([
    ['nothing', [], 0],
    ['whole entries', [entry, entry], whole],
    ['an entry cut in its bytes', [entry, entry, tornEntry()], whole],
    ['an entry cut in its header', [entry, entry, entry.subarray(0, 5)], whole],
    ['an entry of several pieces without its last', [entry, entry, piece('first', 50), piece('middle', 50)], whole],
    ['an entry of several pieces', [piece('first', 50), piece('middle', 50), piece('last', 36)], 57 + 57 + 43],
    ['zeros behind the last entry', [entry, entry, Buffer.alloc(300)], whole],
    ['the only entry cut', [tornEntry()], 0],
  ] as const)('%s', (_, parts, expected) => {
    expect(wholeLength(Buffer.concat(parts))).toBe(expected);
  });

  it('goes over the end of a block: fewer than 7 bytes there are filled with zeros', () => {
    const filled = [piece('full', BLOCK - 7 - 4), Buffer.alloc(4), entry];
    expect(wholeLength(Buffer.concat(filled))).toBe(BLOCK + entry.length);
    expect(wholeLength(Buffer.concat([...filled, tornEntry()]))).toBe(BLOCK + entry.length);
    const split = [piece('first', BLOCK - 7), piece('last', 93)];
    expect(wholeLength(Buffer.concat([...split, tornEntry()]))).toBe(BLOCK + 100);
  });

  it.each([
    ['a kind that the format does not know', Buffer.concat([entry, Buffer.alloc(100, 9)])],
    ['a piece longer than its block', Buffer.concat([entry, piece('full', 100, BLOCK)])],
  ])('leaves damage of another kind alone: %s', (_, log) => {
    expect(wholeLength(log)).toBe(log.length);
  });
});

it.each(['', 'Default'])('mends the databases of a profile (folder "%s") and no other file', async (profile) => {
  const folder = scratchFolder('mend & ');
  const torn = Buffer.concat([entry, tornEntry()]);
  const files = ['IndexedDB/a.leveldb/000003.log', 'IndexedDB/a.leveldb/MANIFEST-000001', 'Local Storage/leveldb/000012.log'];
  const others = ['IndexedDB/a.leveldb/000005.ldb', 'IndexedDB/a.leveldb/LOG', 'Cache/000003.log'];
  for (const file of [...files, ...others]) {
    mkdirSync(join(folder, profile, file, '..'), { recursive: true });
    writeFileSync(join(folder, profile, file), torn);
  }
  const notes: string[] = [];
  await mendLogs(folder, (line) => void notes.push(line));
  for (const file of files) expect(readFileSync(join(folder, profile, file))).toEqual(entry);
  for (const file of others) expect(readFileSync(join(folder, profile, file))).toEqual(torn);
  expect(notes).toHaveLength(files.length);
  expect(notes[0]).toContain('cut off 107 bytes');
});
