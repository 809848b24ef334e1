import { afterEach, describe, expect, it, vi } from 'vitest';
import { isHeic, photoTakenAt, PHOTO_TYPES, refusePhoto } from '../../../renderer/parts/photo-file.ts';
import { scalePhoto } from '../../../renderer/parts/scale-photo.ts';

/**
 * A JPEG with nothing but an Exif segment, laid out as CIPA DC-008 and TIFF 6.0 say: big-endian header, IFD0 with the Exif pointer
 * (0x8769), and an Exif IFD with DateTimeOriginal (0x9003) and OffsetTimeOriginal (0x9011) as ASCII.
 */
function jpegTaken(dateTime: string, offset: string | null): ArrayBuffer {
  const texts = [{ tag: 0x9003, text: `${dateTime}\0` }, ...(offset === null ? [] : [{ tag: 0x9011, text: `${offset}\0` }])];
  const exifIfd = 8 + 2 + 12 + 4;
  const data = exifIfd + 2 + 12 * texts.length + 4;
  const tiff = new DataView(new ArrayBuffer(data + texts.reduce((sum, { text }) => sum + text.length, 0)));
  [0x4d4d, 42].forEach((word, i) => tiff.setUint16(2 * i, word));
  tiff.setUint32(4, 8);
  tiff.setUint16(8, 1);
  const entry = (where: number, [tag, type, count, value]: readonly [number, number, number, number]): void => {
    tiff.setUint16(where, tag);
    tiff.setUint16(where + 2, type);
    tiff.setUint32(where + 4, count);
    tiff.setUint32(where + 8, value);
  };
  entry(10, [0x8769, 4, 1, exifIfd]);
  tiff.setUint16(exifIfd, texts.length);
  let end = data;
  texts.forEach(({ tag, text }, i) => {
    entry(exifIfd + 2 + 12 * i, [tag, 2, text.length, end]);
    for (const letter of text) tiff.setUint8(end++, letter.charCodeAt(0));
  });
  const body = new Uint8Array(tiff.buffer);
  const size = 2 + 6 + body.length;
  const head = [0xff, 0xd8, 0xff, 0xe1, size >> 8, size & 0xff, 0x45, 0x78, 0x69, 0x66, 0, 0];
  return new Uint8Array([...head, ...body, 0xff, 0xd9]).buffer;
}

describe('the date of a photo', () => {
  it('is read from EXIF with its own offset', async () => {
    expect(await photoTakenAt(new Blob([jpegTaken('2026:05:12 09:40:30', '-04:00')]), 'Europe/London')).toBe('2026-05-12T13:40:30.000Z');
  });
  it('is in the property’s zone when the file has no offset', async () => {
    expect(await photoTakenAt(new Blob([jpegTaken('2026:05:12 09:40:30', null)]), 'America/New_York')).toBe('2026-05-12T13:40:00.000Z');
  });
  it('is unknown for a file without EXIF, or with an invalid date', async () => {
    expect(await photoTakenAt(new Blob([new Uint8Array([0xff, 0xd8, 0xff, 0xd9])]), 'UTC')).toBeNull();
    expect(await photoTakenAt(new Blob(['not a photo']), 'UTC')).toBeNull();
    expect(await photoTakenAt(new Blob([jpegTaken('0000:00:00 00:00:00', null)]), 'UTC')).toBeNull();
  });
});

afterEach(() => void vi.unstubAllGlobals());

describe('a photo file', () => {
  it('of a kind that cannot be decoded is not offered by the file dialog, and is refused by name', () => {
    expect(PHOTO_TYPES.some((type) => type === 'image/*' || type.includes('hei'))).toBe(false);
    expect(refusePhoto('IMG_0042.HEIC')).toMatch(/^IMG_0042\.HEIC is a HEIC photo.*JPEG/);
    expect(refusePhoto('notes.txt')).toMatch(/^notes\.txt is not a photo/);
  });
  // The first box of an ISO media file: its length, ftyp, its brand (ISO/IEC 14496-12, from memory).
  it.each([
    ['heic', true],
    ['hevc', true],
    ['mif1', true],
    ['mp42', false],
    ['avif', false],
  ])('of the brand %s is HEIC whatever its name: %s', async (brand, heic) => {
    expect(await isHeic(new File([new Uint8Array([0, 0, 0, 24]), `ftyp${brand}`], 'IMG_0042.jpg'))).toBe(heic);
  });
  it('that is HEIC under another name is refused as HEIC, and a broken JPEG is not', async () => {
    vi.stubGlobal('createImageBitmap', () => Promise.reject(new DOMException('', 'InvalidStateError')));
    const refusal = (...parts: BlobPart[]) => scalePhoto(new File(parts, 'IMG_0042.jpg'));
    expect(await refusal(new Uint8Array([0, 0, 0, 24]), 'ftyp', 'heic')).toMatchObject({
      ok: false,
      message: refusePhoto('IMG_0042.jpg', true),
    });
    expect(await refusal(new Uint8Array([0xff, 0xd8, 0xff, 0xe0]))).toMatchObject({
      ok: false,
      message: expect.stringContaining('Choose a JPEG'),
    });
  });
  it('on a card that was removed is refused, and has no date', async () => {
    // A blob that cannot be read rejects with NotReadableError: W3C File API, section 7, from memory.
    class Removed extends File {
      override slice = () => this;
      override arrayBuffer = () => Promise.reject(new DOMException('', 'NotReadableError'));
    }
    vi.stubGlobal('createImageBitmap', () => Promise.reject(new DOMException('', 'InvalidStateError')));
    const file = new Removed(['gone'], 'IMG_0042.jpg');
    expect(await isHeic(file)).toBe(false);
    expect(await scalePhoto(file)).toMatchObject({ ok: false, message: expect.stringContaining('IMG_0042.jpg could not be read') });
    expect(await photoTakenAt(file, 'UTC')).toBeNull();
  });
});
