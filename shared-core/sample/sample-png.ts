/** Writes a picture of a few tones as PNG (ISO/IEC 15948), uncompressed, so that its bytes are the same on every machine. */

/** Tones from dark to light, slightly warm. */
export const TONES = 16;
const BITS = 4;
/** Largest block that deflate stores as it is (RFC 1951, 3.2.4). */
const BLOCK_BYTES = 65_535;

const CRC_TABLE = Uint32Array.from({ length: 256 }, (_, n) => {
  let c = n;
  for (let k = 0; k < 8; k += 1) c = (c & 1) === 1 ? 0xedb88320 ^ (c >>> 1) : c >>> 1;
  return c;
});

function crc32(bytes: readonly number[]): number {
  let c = 0xffffffff;
  for (const byte of bytes) c = (CRC_TABLE[(c ^ byte) & 0xff] ?? 0) ^ (c >>> 8);
  return (c ^ 0xffffffff) >>> 0;
}

function adler32(bytes: readonly number[]): number {
  let [a, b] = [1, 0];
  for (const byte of bytes) {
    a = (a + byte) % 65_521;
    b = (b + a) % 65_521;
  }
  return b * 65_536 + a;
}

const word = (n: number): number[] => [(n >>> 24) & 255, (n >>> 16) & 255, (n >>> 8) & 255, n & 255];

function chunk(type: string, data: readonly number[]): number[] {
  const named = [...[...type].map((letter) => letter.charCodeAt(0)), ...data];
  return [...word(data.length), ...named, ...word(crc32(named))];
}

/** `bytes` as a zlib stream of stored blocks (RFC 1950). */
function stored(bytes: readonly number[]): number[] {
  const out = [0x78, 0x01];
  for (let from = 0; from < bytes.length; from += BLOCK_BYTES) {
    const block = bytes.slice(from, from + BLOCK_BYTES);
    const { length } = block;
    out.push(from + length >= bytes.length ? 1 : 0, length & 255, length >>> 8, ~length & 255, (~length >>> 8) & 255, ...block);
  }
  return [...out, ...word(adler32(bytes))];
}

/**
 * The picture's bytes.
 * @param widthPx an even number
 * @param toneAt tone from 0 (dark) to 15 (light) of a pixel
 */
export function pngOfTones(widthPx: number, heightPx: number, toneAt: (x: number, y: number) => number): Uint8Array<ArrayBuffer> {
  const palette = Array.from({ length: TONES }, (_, i) => [30 + i * 14, 27 + i * 14, 24 + i * 13.8].map(Math.round)).flat();
  const rows: number[] = [];
  for (let y = 0; y < heightPx; y += 1) {
    // Each row begins with the filter: none.
    rows.push(0);
    for (let x = 0; x < widthPx; x += 2) rows.push(toneAt(x, y) * 16 + toneAt(x + 1, y));
  }
  return Uint8Array.from([
    ...[0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a],
    // Indexed color.
    ...chunk('IHDR', [...word(widthPx), ...word(heightPx), BITS, 3, 0, 0, 0]),
    ...chunk('PLTE', palette),
    ...chunk('IDAT', stored(rows)),
    ...chunk('IEND', []),
  ]);
}
