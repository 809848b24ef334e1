import { describe, expect, it } from 'vitest';
import { clipToRing } from '../../../shared-core/plan/clip-to-ring.ts';
import { type Region, regionAreaM2 } from '../../../shared-core/plan/region.ts';
import { exposedLayers, topLayers } from '../../../shared-core/substrate/exposed-layers.ts';
import { findingsOf, verdictOf } from '../../../shared-core/substrate/rules.ts';
import { wordingFor } from '../../../shared-core/substrate/wording.ts';
import { listOf } from '../prep/prep-lines.ts';
import { BOARDS, factsOf, layer, LEFT_HALF, powder, RIGHT_HALF, ROOM_4_BY_3, SLAB, STRIP, test, without } from './a-floor.ts';

const slab = layer('concrete-on-ground');
const found = (floor: typeof SLAB) => findingsOf(factsOf(floor), wordingFor('us', 'en-US'));
const rules = (floor: typeof SLAB) => found(floor).map(({ ruleId }) => ruleId);
const exposed = (layers: typeof SLAB.layers, plan = ROOM_4_BY_3, tests: typeof SLAB.tests = []) =>
  exposedLayers({ layers, tests, plan }).map(({ layer: { material }, areaM2 }) => [
    material,
    areaM2 === null ? null : Math.round(areaM2 * 1e6) / 1e6,
  ]);

// Areas by hand: the room is 4 m by 3 m, its halves 6 m², the strip 1 m by 3 m.
describe('the layers that are poured on', () => {
  it('end with the first over the whole room', () => {
    expect(exposed([slab])).toEqual([['concrete-on-ground', 12]]);
    expect(exposed([layer('resilient-tile', { area: STRIP }), layer('plywood'), layer('joists')])).toEqual([
      ['resilient-tile', 3],
      ['plywood', 9],
    ]);
  });

  it('end where parts together cover the room, so that what lies below is not judged', () => {
    const parts = [layer('plywood', { area: RIGHT_HALF }), layer('concrete-on-ground', { area: LEFT_HALF })];
    expect(exposed([...parts, layer('joists', { area: RIGHT_HALF })])).toEqual([
      ['plywood', 6],
      ['concrete-on-ground', 6],
    ]);
    expect(exposed([...parts, layer('joists')])).toHaveLength(2);
    expect(exposed([layer('plywood', { area: STRIP }), layer('gypsum', { area: LEFT_HALF }), slab])).toEqual([
      ['plywood', 3],
      ['gypsum', 3],
      ['concrete-on-ground', 6],
    ]);
  });

  it('leave out what is removed, and heat laid on the floor', () => {
    expect(exposed([layer('carpet', { fate: 'remove' }), layer('radiant-heating'), layer('plywood'), layer('joists')])).toEqual([
      ['plywood', 12],
    ]);
    expect(exposed([layer('carpet', { fate: 'remove' })])).toEqual([]);
  });

  // ASTM F710: clean. 29 CFR 1926.1101: what contains asbestos is left in place or abated.
  it('leave out paint, which comes off, unless asbestos was detected in it or nothing is known under it', () => {
    const paint = layer('paint-or-sealer', { id: 'paint' });
    const strip = { ...paint, area: STRIP };
    expect(exposed([paint, layer('boards'), layer('joists')])).toEqual([['boards', 12]]);
    expect(exposed([strip, layer('screed', { area: LEFT_HALF }), slab])).toEqual([
      ['screed', 6],
      ['concrete-on-ground', 6],
    ]);
    const tested = (state: 'found' | 'none-found') => exposed([strip, slab], ROOM_4_BY_3, [test.lab({ layerId: 'paint', state })]);
    expect(tested('none-found')).toEqual([['concrete-on-ground', 12]]);
    expect(tested('found')).toEqual([
      ['paint-or-sealer', 3],
      ['concrete-on-ground', 9],
    ]);
    expect(exposed([paint])).toEqual([['paint-or-sealer', 12]]);
  });

  it('leave out an edge of under half a square foot between parts drawn by hand, but no small part on top', () => {
    const wider = RIGHT_HALF.map(({ xM, yM }) => ({ xM: xM === 2 ? 1.99 : xM, yM }));
    expect(exposed([layer('plywood', { area: RIGHT_HALF }), layer('joists', { area: wider }), slab])).toEqual([
      ['plywood', 6],
      ['concrete-on-ground', 5.97],
    ]);
    const small = [STRIP[0], { xM: 0.2, yM: 0 }, { xM: 0.2, yM: 0.2 }, { xM: 0, yM: 0.2 }].flatMap((point) => point ?? []);
    expect(exposed([layer('metal', { area: small }), slab])[0]).toEqual(['metal', 0.04]);
  });

  // Area by hand: a star of n corners at radii r and r/2 by turns is n triangles of r·(r/2)·sin(360°/n)/2.
  it('are found with few pieces where areas have many corners', () => {
    const star = (middleXM: number, corners = 20, radiusM = 0.6) =>
      Array.from({ length: corners }, (_, i) => {
        const angle = (2 * Math.PI * i) / corners;
        const r = i % 2 === 0 ? radiusM : radiusM / 2;
        return { xM: middleXM + r * Math.cos(angle), yM: 1.5 + r * Math.sin(angle) };
      });
    const pieces = clipToRing({ outline: ROOM_4_BY_3.outline, holes: [] }, star(0.7));
    const again = [2, 3.3].reduce<readonly Region[]>(
      (open, xM) => open.flatMap((one) => clipToRing(one, star(xM)).outside),
      pieces.outside,
    );
    expect(again.length).toBeLessThan(100);
    const areaM2 = (20 * 0.6 * 0.3 * Math.sin((2 * Math.PI) / 20)) / 2;
    expect(again.reduce((sum, one) => sum + regionAreaM2(one), 0)).toBeCloseTo(12 - 3 * areaM2, 6);
    const layers = [0.7, 2, 3.3].map((xM, i) => layer('metal', { id: `star-${i}`, area: star(xM) }));
    expect(topLayers([...layers, slab], ROOM_4_BY_3).map(({ areaM2: one }) => one)).toEqual(
      [areaM2, areaM2, areaM2, 12 - 3 * areaM2].map((one) => expect.closeTo(one, 6)),
    );
  });

  it('are found once for the same records, and again for a plan that changed', () => {
    const layers = [layer('plywood', { area: STRIP }), slab];
    expect(topLayers(layers, { ...ROOM_4_BY_3 })).toBe(topLayers(layers, ROOM_4_BY_3));
    const wider = { ...ROOM_4_BY_3, outline: ROOM_4_BY_3.outline.map(({ xM, yM }) => ({ xM: xM * 2, yM })) };
    expect(topLayers(layers, wider)[1]?.areaM2).toBe(21);
    expect(topLayers(layers, ROOM_4_BY_3)[1]?.areaM2).toBe(9);
  });

  it('are known by their order alone while the room is not drawn', () => {
    expect(exposed([layer('gypsum', { area: STRIP }), slab, layer('gravel')], { outline: [], holes: [] })).toEqual([
      ['gypsum', 3],
      ['concrete-on-ground', null],
    ]);
  });
});

describe('a floor under paint', () => {
  const UNDER = ['boards', 'osb', 'particleboard', 'gypsum', 'plywood', 'ceramic-tile', 'concrete-on-ground', 'resilient-tile'] as const;
  // Common practice, no source: bare is bare, whoever planned it.
  it.each(UNDER)('is judged and prepared the same whether the paint is to stay or to be removed (%s)', (material) => {
    const painted = (fate: 'keep' | 'remove'): typeof SLAB => ({
      ...SLAB,
      layers: [layer('paint-or-sealer', { fate }), layer(material, { yearInstalled: 2005 }), layer('joists')],
      product: { kind: 'cement-underlayment', powder: powder({ bondsTo: ['concrete'], overWoodLeastM: { value: 0.02, source: 'bag' } }) },
    });
    expect(rules(painted('keep')).filter((id) => id !== 'paint-stays')).toEqual(rules(painted('remove')));
    expect(verdictOf(found(painted('keep')))).toBe(verdictOf(found(painted('remove'))));
    const keys = (fate: 'keep' | 'remove') => listOf(painted(fate)).map(({ key }) => key);
    expect(keys('keep')).toEqual(keys('remove'));
    // ASTM F3191: the drops are repeated after grinding. They and the scratch belong to mineral floors.
    expect(keys('keep').includes('retest')).toBe(material === 'gypsum' || material === 'concrete-on-ground');
  });

  it('is held for planks', () => {
    const planks = { ...BOARDS, layers: [layer('paint-or-sealer'), layer('boards'), layer('joists')] };
    expect(rules({ ...planks, product: { kind: 'cement-underlayment', powder: powder({ bondsTo: ['concrete'] }) } })).toEqual(
      expect.arrayContaining(['paint-stays', 'wood-build-up', 'wood-wet-pour']),
    );
  });
});

describe('a floor that changes across the room', () => {
  const halves = (right: Parameters<typeof layer>[0]) => ({
    ...SLAB,
    layers: [layer('concrete-on-ground', { area: LEFT_HALF }), layer(right, { area: RIGHT_HALF })],
    product: { kind: 'cement-underlayment' as const, powder: powder({ bondsTo: ['concrete', 'plywood'] }) },
  });

  it('is held for gypsum or planks in one half as for a whole floor of them', () => {
    expect(rules(halves('gypsum'))).toContain('gypsum-under-cement');
    expect(verdictOf(found(halves('gypsum')))).toBe('hold');
    expect(rules(halves('boards'))).toContain('wood-build-up');
    expect(rules(halves('old-leveling'))).toContain('bond-not-named');
    expect(rules(halves('concrete-suspended'))).not.toContain('bond-not-named');
  });

  it('has a finding, and so an override, for each substrate', () => {
    const keys = (floor: typeof SLAB, rule: string) =>
      found(floor).flatMap(({ ruleId, key, text }) => (ruleId === rule ? [[key, text]] : []));
    const named = keys(
      { ...halves('old-leveling'), layers: [layer('metal', { area: STRIP }), ...halves('old-leveling').layers] },
      'bond-not-named',
    );
    expect(named).toEqual([
      ['bond-not-named:metal', expect.stringContaining('does not name metal.')],
      ['bond-not-named:old-leveling', expect.stringContaining('does not name old underlayment.')],
    ]);
    const tiled = [layer('ceramic-tile', { area: LEFT_HALF }), layer('terrazzo', { area: RIGHT_HALF }), slab];
    expect(keys({ ...halves('plywood'), layers: tiled }, 'bond-not-named')).toEqual([
      ['bond-not-named:tile', expect.stringContaining('does not name ceramic tile or terrazzo.')],
    ]);
    const system = {
      ...SLAB,
      hasMoistureSystem: true,
      layers: [layer('gypsum', { area: STRIP }), layer('plywood', { area: LEFT_HALF }), slab],
    };
    expect(keys(system, 'system-substrate')).toEqual([
      ['system-substrate:gypsum', expect.stringContaining('Remove the gypsum underlayment down')],
      ['system-substrate:plywood', expect.stringContaining('Remove the plywood down')],
    ]);
  });

  // Common practice, no source: more than 1/8 in. weakens a panel or a board. 3/8 in. is over it.
  it('is sanded too deep only where all of it is wood, in the words of its pieces', () => {
    const deep = (...layers: typeof SLAB.layers) =>
      found({ ...BOARDS, layers: [...layers, layer('joists')], cutMostM: 0.009525 }).find(({ ruleId }) => ruleId === 'sanding-deep')?.text;
    expect(deep(layer('plywood', { area: STRIP }), slab)).toBeUndefined();
    expect(deep(layer('boards', { thicknessM: 0.01905 }))).toMatch(
      /off the ¾″ plank subfloor\. .* weakens a board\. .* replace the board\.$/,
    );
    expect(deep(layer('wood-flooring', { thicknessM: null }))).toMatch(/off the wood flooring\. .* weakens a board\./);
    expect(deep(layer('plywood', { area: STRIP, thicknessM: null }), layer('boards', { thicknessM: null }))).toMatch(
      /off the plywood or plank subfloor\. .* weakens a board or panel\./,
    );
  });

  it('asks for the tests of a slab beside kept tile, and for the soundness of each part', () => {
    const strip = layer('resilient-tile', { area: STRIP, yearInstalled: 2005, sound: 'unknown' });
    const floor = { ...SLAB, layers: [strip, layer('concrete-on-ground', { sound: 'unknown' })] };
    const asked = factsOf(without(without(floor, 'drop-absorption'), 'scratch')).needs.filter(({ state }) => state === 'missing');
    expect(asked.map(({ id }) => id)).toEqual(['absorption', 'surface-strength']);
    expect(found(floor).filter(({ ruleId }) => ruleId === 'layer-not-sounded')).toHaveLength(2);
  });

  it('asks for the soundness of the plywood under mats, not of the mats', () => {
    const layers = [layer('radiant-heating', { sound: 'unknown' }), layer('plywood', { sound: 'unknown' }), layer('joists')];
    const keys = found({ ...BOARDS, layers }).map(({ key }) => key);
    expect(keys.filter((key) => key.startsWith('layer-not-sounded'))).toEqual(['layer-not-sounded:the-plywood']);
  });

  // Sounding finds hollow spots under a hard layer: common practice, no source.
  it.each(['carpet', 'foam-pad', 'underlay-felt'] as const)('does not ask to sound %s, which comes out', (material) => {
    const findings = found({ ...SLAB, layers: [layer(material, { sound: 'unknown' }), ...SLAB.layers] });
    expect(findings.map(({ ruleId }) => ruleId)).toContain('soft-layer');
    expect(findings.map(({ ruleId }) => ruleId)).not.toContain('layer-not-sounded');
  });
});
