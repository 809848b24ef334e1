/** The sample's photos: four views of one floor, drawn here, so that documents with photos can be seen without a camera. */
import type { Photo } from '../book/papers.ts';
import type { PaperPhoto } from '../documents/paper-photos.ts';
import { pngOfTones, TONES } from './sample-png.ts';
import { type SampleClock, stampsAt } from './sample-time.ts';

const WIDTH_PX = 256;
const HEIGHT_PX = 192;
const CENTER_X = WIDTH_PX / 2;
/** Where the lines of the room meet, the foot of the far wall, and its half width. */
const VANISHING_Y = 38;
const FAR_Y = 62;
const FAR_HALF_PX = 72;
/** How fast the side walls move apart toward the viewer. */
const SPREAD = FAR_HALF_PX / (FAR_Y - VANISHING_Y);

type View = 'slab' | 'primed' | 'pour' | 'floor';
/** SHA-256 of each view's bytes. Only plain arithmetic draws them, so that they are the same everywhere. */
const SHA256: Readonly<Record<View, string>> = {
  slab: 'ed2a88b81aa0df28fd51dcfe875f0d9fe4bee9f60e203e3d8e715bc8551041b6',
  primed: 'ebec49d80b195b8c2dc66b5ca426d51bced66f04ff46ed51b20edcfe4c06ee61',
  pour: '98498e98636ca8fa88d02db1dfbe4a33c0f5c436c0285445cc1db2e9c8e23b65',
  floor: '99afa26c2cb03359b13edd7c017d103a83f1e2321ddd147155017e60300e8fde',
};

/** Evenly spread value from 0 to 1 for a place on a grid. */
function spread(x: number, y: number): number {
  let n = (Math.imul(x, 374_761_393) + Math.imul(y, 668_265_263)) | 0;
  n = Math.imul(n ^ (n >>> 13), 1_274_126_177);
  return ((n ^ (n >>> 16)) >>> 0) / 4_294_967_296;
}

/** Smooth noise from 0 to 1. */
function noise(x: number, y: number): number {
  const [x0, y0] = [Math.floor(x), Math.floor(y)];
  const ease = (t: number): number => t * t * (3 - 2 * t);
  const [s, t] = [ease(x - x0), ease(y - y0)];
  const top = spread(x0, y0) * (1 - s) + spread(x0 + 1, y0) * s;
  return top * (1 - t) + (spread(x0, y0 + 1) * (1 - s) + spread(x0 + 1, y0 + 1) * s) * t;
}

/** A straightedge over a low place: a bright bar, and the dark gap below it, widest in the middle. Null beside it. */
function straightedge(x: number, y: number): number | null {
  const off = (x - CENTER_X) / 92;
  if (off < -1 || off > 1 || y < 126) return null;
  if (y < 133) return y < 128 ? 0.98 : 0.84;
  return y < 133 + 6 * (1 - off * off) ? 0.06 : null;
}

/** Lightness of the floor at a place: `u` across from the middle, `v` away from the viewer. */
const FLOORS: Readonly<Record<View, (u: number, v: number, x: number, y: number) => number>> = {
  slab: (u, v, x, y) => {
    const bar = straightedge(x, y);
    if (bar !== null) return bar;
    const crack = 0.5 + 0.5 * (noise(4, v * 5) - 0.5);
    if (Math.abs(u - crack) < 0.018) return 0.1;
    const residue = noise(u * 3 + 9, v * 3) > 0.6 ? -0.16 : 0;
    return 0.48 + 0.3 * (noise(u * 5, v * 5) - 0.5) + 0.14 * (noise(u * 30, v * 30) - 0.5) + residue;
  },
  primed: (u, v) => 0.6 + 0.14 * (noise(u * 14, v * 1.5) - 0.5) + 0.05 * (noise(u * 30, v * 30) - 0.5),
  pour: (u, v, x, y) => (u < 0.15 + 0.12 * (noise(v * 9, 3) - 0.5) ? FLOORS.floor(u, v, x, y) - 0.2 : FLOORS.primed(u, v, x, y)),
  // The window is mirrored in the new floor.
  floor: (_u, _v, x, y) =>
    0.74 + 0.06 * noise(x / 60, y / 60) + (Math.abs(x - CENTER_X) < 26 + (y - FAR_Y) / 9 ? 0.16 - (y - FAR_Y) / 1100 : 0),
};

/** Lightness from 0 to 1 of a place in the picture. */
function lightness(view: View, x: number, y: number): number {
  const halfPx = y < FAR_Y ? FAR_HALF_PX : (y - VANISHING_Y) * SPREAD;
  const off = Math.abs(x - CENTER_X);
  const isFloor = y >= FAR_Y && off <= halfPx;
  if (isFloor) {
    // The isolation strip stands along the walls once the floor is primed.
    const isStrip = view !== 'slab' && (y < FAR_Y + 3 || off > halfPx - 3);
    if (isStrip) return 0.97;
    const away = y - VANISHING_Y;
    return FLOORS[view]((x - CENTER_X) / away, 90 / away, x, y);
  }
  if (off > FAR_HALF_PX) return 0.66 - (off - FAR_HALF_PX) / 400 + (y > FAR_Y - 8 ? 0.1 : 0);
  if (y >= FAR_Y - 8) return y >= FAR_Y - 1 ? 0.35 : 0.93;
  const isWindow = off < 28 && y > 6 && y < 42;
  if (!isWindow) return 0.8;
  return off < 1.5 || off > 25 || y < 9 || y > 39 ? 0.5 : 1;
}

/** The thresholds of an ordered dither, so that few tones shade smoothly. */
const DITHER = [0, 8, 2, 10, 12, 4, 14, 6, 3, 11, 1, 9, 15, 7, 13, 5] as const;

function pictureOf(view: View): Uint8Array<ArrayBuffer> {
  return pngOfTones(WIDTH_PX, HEIGHT_PX, (x, y) => {
    const threshold = ((DITHER[(y % 4) * 4 + (x % 4)] ?? 0) + 0.5) / 16;
    return Math.max(0, Math.min(TONES - 1, Math.floor(lightness(view, x, y) * (TONES - 1) + threshold)));
  });
}

/** The bytes of every sample photo, each under the SHA-256 that its record has. */
export function samplePictures(): { readonly sha256: string; readonly bytes: Uint8Array<ArrayBuffer> }[] {
  return (Object.keys(SHA256) as View[]).map((view) => ({ sha256: SHA256[view], bytes: pictureOf(view) }));
}

/**
 * Photos of a job as documents take them.
 * @param base64Of bytes as base64
 */
export function samplePaperPhotos(
  photos: readonly Photo[],
  jobId: string,
  base64Of: (bytes: Uint8Array<ArrayBuffer>) => string,
): PaperPhoto[] {
  const pictures = new Map(samplePictures().map(({ sha256, bytes }) => [sha256, bytes]));
  return photos.flatMap((photo) => {
    const bytes = photo.jobId === jobId ? pictures.get(photo.sha256) : undefined;
    return bytes === undefined ? [] : [{ photo, picture: `data:${photo.mediaType};base64,${base64Of(bytes)}` }];
  });
}

/** The photo signed with the primer. */
export const PRIMED_PHOTO = 'sample-photo-primed';

/** The records of the sample's photos: the living room before its prep, primed, poured and finished. */
export function samplePhotos(clock: SampleClock): Photo[] {
  const photo = (id: string, view: View, takenAt: string, caption: string): Photo => ({
    ...stampsAt(id, takenAt),
    jobId: 'sample-job-abara',
    roomId: 'sample-living',
    caption,
    takenAt,
    mediaType: 'image/png',
    widthPx: WIDTH_PX,
    heightPx: HEIGHT_PX,
    sha256: SHA256[view],
  });
  return [
    photo('sample-photo-slab', 'slab', clock.instantAt(-1, '06:45'), 'Slab with the old flooring removed, straightedge over the low spot'),
    photo(PRIMED_PHOTO, 'primed', clock.instantAt(-1, '08:05'), 'Primed, isolation strip set'),
    photo('sample-photo-pour', 'pour', clock.instantAt(-1, '14:20'), 'Lanes 1 to 3 placed'),
    photo('sample-photo-floor', 'floor', clock.past(0, '07:30'), 'New floor from the doorway'),
  ];
}
