/** Accepted photo files, and the EXIF date of a photo. */
import { parse } from 'exifr';
import { instantAt } from '../../shared-core/measure/moment.ts';

/** Types for the file dialog. HEIC is left out because Chromium cannot decode it; a phone asked for JPEG converts its photos. */
export const PHOTO_TYPES = ['image/jpeg', 'image/png', 'image/webp', '.jpg', '.jpeg', '.png', '.webp'];

/** Why a file is refused, with what to do. */
export function refusePhoto(name: string): string {
  return /\.(?:heic|heif|hif|avci)$/i.test(name)
    ? `${name} is a HEIC photo, which cannot be read here. Export it as JPEG, or set the camera to save JPEG (“Most Compatible”).`
    : `${name} is not a photo. Choose a JPEG, PNG, or WebP file.`;
}

const DATE = /^(\d{4}):(\d{2}):(\d{2}) (\d{2}:\d{2}):(\d{2})/;

function textOf(tags: unknown, name: string): string {
  const value: unknown = typeof tags === 'object' && tags !== null ? Reflect.get(tags, name) : undefined;
  return typeof value === 'string' ? value : '';
}

/**
 * The instant a photo was taken, from EXIF DateTimeOriginal; null when missing or not a date. Tag names and formats: CIPA DC-008 (Exif
 * 2.32), sections 4.6.5 and 4.6.6.
 * @param zone IANA time zone of the property, used when the file has no OffsetTimeOriginal
 */
export async function photoTakenAt(bytes: ArrayBuffer, zone: string): Promise<string | null> {
  try {
    const tags: unknown = await parse(bytes, { pick: ['DateTimeOriginal', 'OffsetTimeOriginal'], reviveValues: false });
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
    // No EXIF data, or unreadable data.
    return null;
  }
}
