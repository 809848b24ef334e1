/** A photo drawn anew, smaller: nothing but what is seen is kept, no place and no camera. */
import type { Parsed } from '../../../shared-core/measure/parsed.ts';
import type { DrawnPhoto } from '../../../shared-core/book/papers.ts';

/** Large enough to read a lot number off a bag, small enough that a job of a hundred stays light. */
const LONGEST_PX = 1600;
const QUALITY = 0.82;
const MOST_BYTES = 40_000_000;

/** The photo as a JPEG of at most 1600 pixels on its longer side, or why there is none. */
export async function drawPhoto(file: File): Promise<Parsed<DrawnPhoto>> {
  if (file.size > MOST_BYTES)
    return {
      ok: false,
      message: `${file.name} is larger than 40 MB: take it again with the camera’s usual setting, or make it smaller first.`,
    };
  let picture: ImageBitmap;
  try {
    // Turned as it was taken; the note that says so is not kept.
    picture = await createImageBitmap(file, { imageOrientation: 'from-image' });
  } catch {
    return { ok: false, message: `${file.name} cannot be read as a photo: open it in another program and save it as a JPEG.` };
  }
  try {
    const scale = Math.min(1, LONGEST_PX / Math.max(picture.width, picture.height));
    const canvas = document.createElement('canvas');
    canvas.width = Math.max(1, Math.round(picture.width * scale));
    canvas.height = Math.max(1, Math.round(picture.height * scale));
    canvas.getContext('2d')?.drawImage(picture, 0, 0, canvas.width, canvas.height);
    const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/jpeg', QUALITY));
    if (blob === null) return { ok: false, message: `${file.name} could not be drawn on this machine: try a smaller photo.` };
    const data = new Uint8Array(await blob.arrayBuffer());
    return { ok: true, value: { data, mediaType: 'image/jpeg', widthPx: canvas.width, heightPx: canvas.height } };
  } finally {
    picture.close();
  }
}
