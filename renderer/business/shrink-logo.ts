/** Redraws a picture smaller, which also removes location and camera data. */
import type { Parsed } from '../../shared-core/measure/parsed.ts';

/** The company record allows a data address of 400,000 characters, and base64 takes 4 characters for 3 bytes. */
const MOST_CHARACTERS = 395_000;
/** 2 in., the widest print, at 300 dots per inch. */
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

/** Returns a PNG data address of at most 300 kB, or why there is none. */
export async function shrinkLogo(file: File): Promise<Parsed<string>> {
  let picture: ImageBitmap;
  try {
    picture = await createImageBitmap(file);
  } catch {
    return { ok: false, message: `${file.name} could not be read as a picture. Open it in another program and save it as PNG.` };
  }
  try {
    for (let widestPx = WIDEST_PX; widestPx >= SMALLEST_PX; widestPx = Math.floor(widestPx * 0.8)) {
      const text = canvasOf(picture, widestPx).toDataURL('image/png');
      if (text.startsWith('data:image/png') && text.length <= MOST_CHARACTERS) return { ok: true, value: text };
    }
  } finally {
    picture.close();
  }
  return { ok: false, message: `${file.name} is still too large after resizing. Choose a simpler picture.` };
}
