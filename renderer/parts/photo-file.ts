/** Accepted photo files, and the EXIF date of a photo. */
import { parse } from 'exifr';
import { instantAt } from '../../shared-core/measure/moment.ts';

/** Types for the file dialog. HEIC is left out because Chromium cannot decode it; a phone asked for JPEG converts its photos. */
export const PHOTO_TYPES = ['image/jpeg', 'image/png', 'image/webp', '.jpg', '.jpeg', '.png', '.webp'];

/**
 * Whether a file is a HEIC photo, whatever its name says, by its brand: ISO/IEC 14496-12 and 23008-12, from memory. False where it
 * cannot be read, such as from a card that was removed.
 */
export async function isHeic(file: Blob): Promise<boolean> {
  const bytes = await file
    .slice(4, 12)
    .arrayBuffer()
    .catch(() => new ArrayBuffer(0));
  return /^ftyp(?:hei|hev|mif1|msf1)/.test(new TextDecoder('latin1').decode(bytes));
}

/** Why a file is refused, with what to do. @param heic by its content; by its name where that was not read */
export function refusePhoto(name: string, heic = /\.(?:heic|heif|hif|avci)$/i.test(name)): string {
  return heic
    ? `${name} is a HEIC photo, which cannot be read here. Export it as JPEG, or set the camera to save JPEG (“Most Compatible”).`
    : `${name} is not a photo. Choose a JPEG, PNG, or WebP file.`;
}

const DATE = /^(\d{4}):(\d{2}):(\d{2}) (\d{2}:\d{2}):(\d{2})/;

function textOf(tags: unknown, name: string): string {
  const value: unknown = typeof tags === 'object' && tags !== null ? Reflect.get(tags, name) : undefined;
  return typeof value === 'string' ? value : '';
}

/**
 * The instant a photo was taken, from EXIF DateTimeOriginal; null when missing, not a date, or unreadable. Tag names and formats: CIPA DC-008 (Exif
 * 2.32), sections 4.6.5 and 4.6.6.
 * @param zone IANA time zone of the property, used when the file has no OffsetTimeOriginal
 */
export async function photoTakenAt(file: Blob, zone: string): Promise<string | null> {
  try {
    const tags: unknown = await parse(await file.arrayBuffer(), { pick: ['DateTimeOriginal', 'OffsetTimeOriginal'], reviveValues: false });
    const read = DATE.exec(textOf(tags, 'DateTimeOriginal'));
    if (read === null) return null;
    const [, year, month, day, clock, seconds] = read;
    const offset = textOf(tags, 'OffsetTimeOriginal');
    if (/^[+-]\d{2}:\d{2}$/.test(offset)) {
      const date = new Date(`${year}-${month}-${day}T${clock}:${seconds}${offset}`);
      return Number.isNaN(date.getTime()) ? null : date.toISOString();
    }
    const local = instantAt(`${year}-${month}-${day}`, clock ?? '', zone);
    return local.ok ? local.value.instant : null;
  } catch {
    // No EXIF data, or nothing that can be read.
    return null;
  }
}
