import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { placeOn, windowPlace } from '../../../main/electron/window-place.ts';
import { scratchFolder } from '../../scratch-folder.ts';

const SCREEN = { x: 0, y: 0, width: 1920, height: 1080 };
const USUAL = { width: 1440, height: 900, maximized: false };

describe('the window’s position', () => {
  it('is the last one', () => {
    const path = join(scratchFolder('place'), 'deep', 'window.json');
    const saved = { x: 30, y: 40, width: 1000, height: 700, maximized: true };
    windowPlace(path).save(saved);
    expect(windowPlace(path).read([SCREEN])).toEqual(saved);
  });

  it('is the default when its display is gone, or the file has anything else', () => {
    expect(placeOn({ x: 4000, y: 40, width: 1000, height: 700 }, [SCREEN])).toEqual(USUAL);
    expect(placeOn({ x: 30, y: -900, width: 1000, height: 700 }, [SCREEN])).toEqual(USUAL);
    for (const saved of [null, 7, [], {}, { x: 'a', y: 1, width: 2, height: 3 }, { x: Number.NaN, y: 1, width: 2, height: 3 }])
      expect(placeOn(saved, [SCREEN])).toEqual(USUAL);
    const path = join(scratchFolder('place'), 'window.json');
    writeFileSync(path, '{"x":');
    expect(windowPlace(path).read([SCREEN])).toEqual(USUAL);
  });

  it('is never smaller than the screens can be', () => {
    expect(placeOn({ x: 0, y: 0, width: 10, height: 10 }, [SCREEN])).toMatchObject({ width: 390, height: 600 });
  });
});
