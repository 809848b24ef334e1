/** A photo made ready for the book: scaled down and drawn anew, so that nothing but the picture is left of the file. */

/** A picture without anything else a camera writes: no place, no owner, no serial number. */
export type ScaledPhoto = {
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly mediaType: 'image/jpeg';
  readonly widthPx: number;
  readonly heightPx: number;
};
export type PhotoAnswer = { readonly ok: true; readonly value: ScaledPhoto } | { readonly ok: false; readonly message: string };

/** Larger files are refused: opening one can take all the memory there is. */
const MOST_BYTES = 50_000_000;
/** The longer edge of a kept photo: a crack is seen, and a hundred photos still fit on a stick. */
const LONG_EDGE_PX = 2000;
const QUALITY = 0.82;

/** What both edges are multiplied by; never more than one. */
export function photoScale(widthPx: number, heightPx: number): number {
  return Math.min(1, LONG_EDGE_PX / Math.max(widthPx, heightPx, 1));
}

const megabytes = (bytes: number): string => `${Math.ceil(bytes / 1_000_000)} MB`;

/** Reads, scales and redraws a picture file; a sentence where it is too large or no picture. */
export async function scalePhoto(file: File): Promise<PhotoAnswer> {
  const name = file.name === '' ? 'This' : file.name;
  const no = (message: string): PhotoAnswer => ({ ok: false, message });
  if (file.size > MOST_BYTES)
    return no(
      `${name} has ${megabytes(file.size)}, and ${megabytes(MOST_BYTES)} is the most. Take it smaller, or save a smaller copy of it first.`,
    );
  if (file.size === 0) return no(`${name} is empty. Copy it from the camera again.`);
  let bitmap: ImageBitmap;
  try {
    bitmap = await createImageBitmap(file, { imageOrientation: 'from-image' });
  } catch {
    return no(`${name} is no photo this program can read. Use a JPEG, PNG or WebP picture.`);
  }
  const scale = photoScale(bitmap.width, bitmap.height);
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(bitmap.width * scale));
  canvas.height = Math.max(1, Math.round(bitmap.height * scale));
  const pen = canvas.getContext('2d');
  if (pen === null) return no(`${name} could not be drawn on this machine. Close other programs and try again.`);
  // What is clear in a screenshot would turn black without a ground.
  pen.fillStyle = 'white';
  pen.fillRect(0, 0, canvas.width, canvas.height);
  pen.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
  bitmap.close();
  const drawn = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/jpeg', QUALITY));
  if (drawn === null) return no(`${name} could not be drawn on this machine. Close other programs and try again.`);
  const bytes = new Uint8Array(await drawn.arrayBuffer());
  return { ok: true, value: { bytes, mediaType: 'image/jpeg', widthPx: canvas.width, heightPx: canvas.height } };
}
