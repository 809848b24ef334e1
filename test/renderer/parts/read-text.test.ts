import { describe, expect, it } from 'vitest';
import { readText } from '../../../renderer/parts/read-text.ts';

const utf16 = (text: string): number[] => [0xff, 0xfe, ...[...text].flatMap((c) => [c.charCodeAt(0) & 0xff, c.charCodeAt(0) >> 8])];
const read = (bytes: readonly number[]): Promise<string> => readText(new Blob([new Uint8Array(bytes)]));

describe('a text file', () => {
  it('reads the same in UTF-8, UTF-16 and Windows-1252', async () => {
    const text = 'Time,Temp °C\n2026-05-12 14:00,19.5';
    expect(await readText(new Blob([text]))).toBe(text);
    expect(await readText(new Blob([`\uFEFF${text}`]))).toBe(text);
    expect(await read(utf16(text))).toBe(text);
    expect(await read([...text].map((c) => c.charCodeAt(0)))).toBe(text);
  });
});
