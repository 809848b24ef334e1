import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const css = readFileSync(new URL('../../../renderer/look/tokens.css', import.meta.url), 'utf8');
const pairs = [...css.matchAll(/--([a-z0-9-]+): light-dark\((#[0-9a-f]{6}), (#[0-9a-f]{6})\)/g)];
const looks = [1, 2].map((look) => new Map(pairs.map((pair) => [pair[1] ?? '', pair[look + 1] ?? ''])));

/** Relative luminance and contrast ratio: WCAG 2.2, definitions "relative luminance" and "contrast ratio". */
function luminance(hex: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5]
    .map((i) => parseInt(hex.slice(i, i + 2), 16) / 255)
    .map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}
function contrast(a: string, b: string): number {
  const [light = 0, dark = 0] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (light + 0.05) / (dark + 0.05);
}

describe.each([
  ['light', looks[0]],
  ['dark', looks[1]],
])('the %s look', (_name, colors) => {
  const of = (name: string) => colors?.get(name) ?? '';

  // WCAG 2.2, 1.4.3: text has a contrast of at least 4.5.
  it.each([
    ['ink', 'paper'],
    ['ink', 'tracing'],
    ['ink-2', 'paper'],
    ['ink-2', 'tracing'],
    ['chalk', 'paper'],
    ['chalk', 'tracing'],
    ['on-chalk', 'chalk'],
  ])('sets %s on %s legibly', (text, ground) => {
    expect(contrast(of(text), of(ground))).toBeGreaterThanOrEqual(4.5);
  });

  // WCAG 2.2, 1.4.6: 7 for text, required of pour mode.
  it('has the stricter ratio in pour mode', () => {
    expect(contrast(of('ink'), of('paper'))).toBeGreaterThanOrEqual(7);
    expect(contrast(of('on-chalk'), of('chalk'))).toBeGreaterThanOrEqual(7);
  });

  // WCAG 2.2, 1.4.11: 3 for what is needed to recognize a control.
  it('draws edges of controls that can be recognized', () => {
    expect(contrast(of('line'), of('paper'))).toBeGreaterThanOrEqual(3);
    expect(contrast(of('line'), of('tracing'))).toBeGreaterThanOrEqual(3);
  });

  it('shows readings legibly on every depth of the tint', () => {
    for (let depth = 0; depth <= 7; depth += 1) expect(contrast(of('ink'), of(`d${depth}`))).toBeGreaterThanOrEqual(4.5);
  });

  it('lets the tint fall evenly', () => {
    const steps = Array.from({ length: 8 }, (_, depth) => luminance(of(`d${depth}`)));
    const rising = (steps[7] ?? 0) > (steps[0] ?? 0);
    for (let i = 1; i < 8; i += 1) expect((steps[i] ?? 0) > (steps[i - 1] ?? 0)).toBe(rising);
  });
});
