/** Redraws a photo smaller, which also removes location and camera data. */

import { isHeic, refusePhoto } from './photo-file.ts';

/** A picture without location, owner or serial number. */
export type ScaledPhoto = {
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly mediaType: 'image/jpeg';
  readonly widthPx: number;
  readonly heightPx: number;
};
export type PhotoAnswer = { readonly ok: true; readonly value: ScaledPhoto } | { readonly ok: false; readonly message: string };

/** Larger files are refused, because decoding one can exhaust memory. */
const MOST_BYTES = 50_000_000;
/** Longer edge of a stored photo, px: cracks stay visible and 100 photos stay small. */
const LONG_EDGE_PX = 2000;
const QUALITY = 0.82;

export function photoScale(widthPx: number, heightPx: number): number {
  return Math.min(1, LONG_EDGE_PX / Math.max(widthPx, heightPx, 1));
}

const megabytes = (bytes: number): string => `${Math.ceil(bytes / 1_000_000)} MB`;

/** Reads, turns upright by EXIF orientation, and resizes a picture file. Fails with a message when it is too large or not a picture. */
export async function scalePhoto(file: File): Promise<PhotoAnswer> {
  const name = file.name === '' ? 'This file' : file.name;
  const no = (message: string): PhotoAnswer => ({ ok: false, message });
  if (file.size > MOST_BYTES)
    return no(`${name} is ${megabytes(file.size)}. The limit is ${megabytes(MOST_BYTES)}. Save a smaller copy and try again.`);
  if (file.size === 0) return no(`${name} is empty. Copy it from the camera again.`);
  let bitmap: ImageBitmap;
  try {
    bitmap = await createImageBitmap(file, { imageOrientation: 'from-image' });
  } catch {
    if (await isHeic(file)) return no(refusePhoto(name, true));
    return no(`${name} could not be read as a photo. Choose a JPEG, PNG, or WebP file.`);
  }
  const scale = photoScale(bitmap.width, bitmap.height);
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(bitmap.width * scale));
  canvas.height = Math.max(1, Math.round(bitmap.height * scale));
  const pen = canvas.getContext('2d');
  if (pen === null) return no(`${name} could not be resized. Close other programs and try again.`);
  // JPEG has no transparency; without a background, clear areas turn black.
  pen.fillStyle = 'white';
  pen.fillRect(0, 0, canvas.width, canvas.height);
  pen.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
  bitmap.close();
  const drawn = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/jpeg', QUALITY));
  if (drawn === null) return no(`${name} could not be resized. Close other programs and try again.`);
  const bytes = new Uint8Array(await drawn.arrayBuffer());
  return { ok: true, value: { bytes, mediaType: 'image/jpeg', widthPx: canvas.width, heightPx: canvas.height } };
}
