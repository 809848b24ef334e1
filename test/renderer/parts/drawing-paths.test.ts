import { describe, expect, it } from 'vitest';
import { dotsPath, linePath, middleOf, placeThatWay } from '../../../renderer/parts/drawing-paths.ts';
import { keyName } from '../../../renderer/parts/use-keys.ts';
import { keyWords } from '../../../renderer/parts/Buttons.tsx';
import { setQuantities } from '../../../renderer/parts/UnitText.tsx';

describe('a drawing as SVG', () => {
  it('closes a ring and leaves a line open', () => {
    expect(linePath([0, 0, 10, 0, 10, 5.004], true)).toBe('M0 0L10 0L10 5Z');
    expect(linePath([0, 0, 10, 0], false)).toBe('M0 0L10 0');
    expect(linePath([], true)).toBe('');
  });

  it('writes every dot of a stipple into one path', () => {
    expect(dotsPath([1, 2, 3, 4])).toBe('M1 2h0M3 4h0');
  });

  it('finds the center of a group through the groups inside it', () => {
    const ring = { kind: 'path', rings: [{ xy: [0, 0, 10, 20], closed: false }], pen: 'thin', ink: 'ink', fill: null, dash: null } as const;
    expect(
      middleOf([{ kind: 'group', name: 'a', label: '', marks: [{ ...ring, rings: [{ xy: [0, 0, 10, 20], closed: false }] }] }]),
    ).toEqual({ x: 5, y: 10 });
    expect(middleOf([])).toBeNull();
  });

  it('moves by an arrow key to the reading in that direction', () => {
    const places = [
      { name: 'a', x: 0, y: 0 },
      { name: 'b', x: 100, y: 5 },
      { name: 'c', x: 60, y: 90 },
    ];
    const from = { name: 'a', x: 0, y: 0 };
    expect(placeThatWay(places, from, 'ArrowRight')?.name).toBe('b');
    expect(placeThatWay(places, from, 'ArrowDown')?.name).toBe('c');
    expect(placeThatWay(places, from, 'ArrowLeft')).toBeNull();
    expect(placeThatWay(places, from, 'Tab')).toBeNull();
  });
});

describe('keys', () => {
  const press = (key: string, held: Partial<Record<'ctrlKey' | 'metaKey' | 'altKey' | 'shiftKey', boolean>> = {}) =>
    keyName({ key, ctrlKey: false, metaKey: false, altKey: false, shiftKey: false, ...held });

  it('have the same names on every system', () => {
    expect(press('z', { ctrlKey: true })).toBe('mod+z');
    expect(press('z', { metaKey: true })).toBe('mod+z');
    expect(press('Z', { ctrlKey: true, shiftKey: true })).toBe('shift+mod+z');
    expect(press(' ')).toBe('space');
    expect(press('/', { shiftKey: true })).toBe('/');
  });

  it('are shown as the system writes them', () => {
    expect(keyWords('mod+z', false)).toBe('Ctrl Z');
    expect(keyWords('mod+z', true)).toBe('⌘ Z');
  });
});

describe('quantities in words', () => {
  it('get built fractions and stay with their unit', () => {
    expect(setQuantities('1 3/4 in at 68 °F')).toBe('1\u200a3\u20444\u00a0in at 68\u00a0°F');
  });
  it('leave a date unchanged', () => {
    expect(setQuantities('7 h 20 min')).toBe('7\u00a0h\u00a020\u00a0min');
    expect(setQuantities('on 5/12/26')).toBe('on 5/12/26');
  });
});
