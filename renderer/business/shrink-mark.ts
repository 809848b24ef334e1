/** A picture made small: drawn anew, so that nothing but what is seen is kept (no place, no camera). */
import type { Parsed } from '../../shared-core/measure/parsed.ts';

/** The book takes a data address of 400,000 characters; three bytes of picture make four of them. */
const MOST_CHARACTERS = 395_000;
/** Wider than any paper shows it: 2 inches at 300 dots. */
const WIDEST_PX = 600;
const SMALLEST_PX = 80;

const canvasOf = (picture: ImageBitmap, widestPx: number): HTMLCanvasElement => {
  const scale = Math.min(1, widestPx / Math.max(picture.width, picture.height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(picture.width * scale));
  canvas.height = Math.max(1, Math.round(picture.height * scale));
  canvas.getContext('2d')?.drawImage(picture, 0, 0, canvas.width, canvas.height);
  return canvas;
};

/** The picture as a PNG data address of at most 300 kB, or why there is none. */
export async function shrinkMark(file: File): Promise<Parsed<string>> {
  let picture: ImageBitmap;
  try {
    picture = await createImageBitmap(file);
  } catch {
    return { ok: false, message: `${file.name} cannot be read as a picture: open it in another program and save it as a PNG.` };
  }
  try {
    for (let widestPx = WIDEST_PX; widestPx >= SMALLEST_PX; widestPx = Math.floor(widestPx * 0.8)) {
      const text = canvasOf(picture, widestPx).toDataURL('image/png');
      if (text.startsWith('data:image/png') && text.length <= MOST_CHARACTERS) return { ok: true, value: text };
    }
  } finally {
    picture.close();
  }
  return { ok: false, message: `${file.name} cannot be made small enough: use a simpler picture.` };
}
