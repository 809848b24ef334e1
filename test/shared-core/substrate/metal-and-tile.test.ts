import { describe, expect, it } from 'vitest';
import type { Layer } from '../../../shared-core/book/layer.ts';
import type { FloorInput } from '../../../shared-core/substrate/floor-facts.ts';
import { findingsOf, holdsOn } from '../../../shared-core/substrate/rules.ts';
import { wordingFor } from '../../../shared-core/substrate/wording.ts';
import { line, listOf } from '../prep/prep-lines.ts';
import { CALM, factsOf, layer, mark, powder, recorded, SLAB, test, withTests } from './a-floor.ts';

const US = wordingFor('us', 'en-US');
const find = (floor: FloorInput) => findingsOf(factsOf(floor), US);
const textOf = (floor: FloorInput, id: string): string => find(floor).find(({ ruleId }) => ruleId === id)?.text ?? '';
const on = (materials: readonly Layer['material'][], change: Partial<FloorInput> = {}): FloorInput => ({
  ...SLAB,
  layers: materials.map((material) => layer(material)),
  product: { kind: 'cement-underlayment', powder: powder({ bondsTo: ['concrete', 'tile', 'metal'] }) },
  ...change,
});
const oily = (floor: FloorInput): FloorInput => withTests(floor, test.look(['oily']));
const DENSE = [
  ['metal', ['metal', 'joists']],
  ['ceramic tile', ['ceramic-tile', 'concrete-on-ground']],
] as const;

// ASTM F22, from memory: a clean dense surface holds water in an unbroken film. Water does not soak into steel or glazed tile.
describe('oil on a surface that water does not soak into', () => {
  it.each(DENSE)('is off where water spreads, and no drop is waited for: %s', (_, materials) => {
    const floor = oily(on(materials));
    for (const words of [textOf(floor, 'surface-oily'), line(listOf(floor), 'clean:oily')?.what]) {
      expect(words).toContain('until water spreads without beading');
      expect(words).not.toMatch(/drop|soaks/);
    }
    const dirty = on(materials, { marks: [mark('contaminated')] });
    expect(textOf(dirty, 'contaminated')).not.toMatch(/drop|soaks/);
    expect(line(listOf(dirty), 'contaminated')?.what).not.toMatch(/drop|soaks/);
  });

  it('is off concrete where a drop soaks in', () => {
    expect(textOf(oily(SLAB), 'surface-oily')).toContain('until a water drop soaks in');
  });

  it('sends nobody to repeat a drop test on glossy tile', () => {
    const glossy = (floor: FloorInput): string => textOf(withTests(floor, test.look(['glossy'])), 'surface-glossy');
    expect(glossy(on(['ceramic-tile', 'concrete-on-ground']))).not.toContain('drop');
    expect(glossy(SLAB)).toContain('Repeat the water drop test.');
  });
});

// 29 CFR 1926.1153 is about silica, which steel does not hold; sparks are common practice, no source.
it('abrading steel throws sparks and raises no silica', () => {
  const abrade = listOf(oily(on(['metal', 'joists']))).filter(({ key }) => /^(abrade|clean:oily|vacuum)/.test(key));
  expect(abrade.length).toBeGreaterThan(2);
  for (const { key, cautions, dust } of abrade) {
    expect(cautions, key).not.toContain('silica');
    expect(dust ?? null, key).toBeNull();
    if (key !== 'vacuum') expect(cautions, key).toContain('sparks');
  }
  const tile = line(listOf(oily(on(['ceramic-tile', 'concrete-on-ground']))), 'clean:oily');
  expect(tile).toMatchObject({ dust: 'hand-grinder', cautions: ['silica'] });
});

// Common practice, no source: the stiffness of a steel deck is on the structural drawings, and no wood formula gives it.
describe('a steel deck', () => {
  const needs = (floor: FloorInput): readonly string[] => factsOf(floor).needs.map(({ id }) => id);

  it.each([[['metal']], [['metal', 'joists']], [['ceramic-tile', 'metal', 'joists']]] as const)(
    'is held for an engineer’s letter alone and asks nothing of wood: %s',
    (materials) => {
      const floor = on(materials, { depth: { leastM: 0.01, mostM: 0.01 } });
      expect(needs(floor)).not.toContain('wood-structure');
      expect(needs(floor)).not.toContain('deflection');
      expect(holdsOn(find(floor), 'pour').map(({ ruleId, clearedBy }) => [ruleId, clearedBy])).toContainEqual([
        'steel-deck',
        'engineer-letter',
      ]);
      expect(find(floor).map(({ ruleId }) => ruleId)).not.toContain('no-structure');
      expect(factsOf(floor)).toMatchObject({ isSuspended: true, isWoodFramed: false });
      expect(line(listOf(floor, { byCart: true }), 'cart-path')).toBeUndefined();
    },
  );

  it('is cleared by the letter, and needs its load allowance like any suspended floor', () => {
    const noLoad = on(['metal', 'joists'], { circumstances: { ...CALM, allowedExtraLoadPa: null }, addedLoadPa: 600 });
    expect(textOf(noLoad, 'load-heavy')).toContain('What this deck may carry is unknown.');
    const letter = recorded('steel-deck', 'engineer-letter');
    expect(find(on(['metal'], { overrides: [letter] })).find(({ ruleId }) => ruleId === 'steel-deck')?.clearedBy).toBe('engineer-letter');
  });

  it('is a suspended slab where concrete is on it, and metal over plywood is a wood floor', () => {
    expect(find(on(['concrete-suspended', 'metal', 'joists'])).map(({ ruleId }) => ruleId)).not.toContain('steel-deck');
    expect(factsOf(on(['concrete-suspended', 'metal', 'joists'])).isWoodFramed).toBe(false);
    expect(factsOf(on(['metal', 'plywood', 'joists'])).isWoodFramed).toBe(true);
  });
});

// Common practice, no source: most data sheets allow well-bonded vinyl tile only where they name it.
it('holds a pour on resilient tile that the data sheet does not name', () => {
  const tiled = (bondsTo: ReturnType<typeof powder>['bondsTo']): FloorInput =>
    on(['resilient-tile', 'concrete-on-ground'], { product: { kind: 'cement-underlayment', powder: powder({ bondsTo }) } });
  expect(textOf(tiled(['concrete', 'tile']), 'bond-not-named')).toContain('does not name resilient tile');
  expect(textOf(tiled(['concrete', 'resilient-tile']), 'bond-not-named')).toBe('');
});
