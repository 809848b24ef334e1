import { describe, expect, it } from 'vitest';
import { isOnGenerator } from '../../../shared-core/prep/site-power.ts';
import type { FloorInput } from '../../../shared-core/substrate/floor-facts.ts';
import { air, BOARDS, layer, SLAB } from '../substrate/a-floor.ts';
import { heldBy, inputOf, line, listOf } from './prep-lines.ts';

describe('hazards beside the floor', () => {
  const around = (change: Partial<FloorInput['circumstances']>, from: FloorInput = BOARDS): FloorInput => ({
    ...{ ...from, yearBuilt: 1962 },
    circumstances: { ...from.circumstances, ...change },
  });

  // 29 CFR 1926.1101(b) presumes surfacing on walls and ceilings. Common practice, no source: work on the floor does not touch it.
  it('leave a textured coating alone and hold no work on the floor for it', () => {
    for (const floor of [around({ texturedCoating: true }), around({ texturedCoating: null })])
      for (const key of ['refasten', 'reinforce']) expect(heldBy(floor, key), key).toEqual([]);
    expect(line(listOf(around({ texturedCoating: true })), 'coating')?.what).toContain('Fasten, tape and lean nothing');
    expect(line(listOf(around({ texturedCoating: false })), 'coating')).toBeUndefined();
    const planks = around({ texturedCoating: true }, { ...BOARDS, layers: [layer('boards'), layer('joists')] });
    expect(inputOf(planks).findings.find(({ ruleId }) => ruleId === 'wood-build-up')?.text).toContain('Glue and screw plywood');
  });

  // 40 CFR 745.85(a)(2)(i): ducts, windows and doors in the work area are closed, the floor is covered 6 ft around. From memory.
  it('contain lead dust within the work area', () => {
    const floor = around({ paintedTrim: 'to-be-disturbed', baseboardHeightM: 0.3 });
    const what = (units: 'us' | 'metric') => line(listOf(floor, { units }), 'lead-contain')?.what;
    expect(what('us')).toMatch(/In the work area, .* tape plastic over ducts, doors and the floor 6 ft around .* close windows/);
    expect(what('metric')).toContain('1.8 m around');
    // 40 CFR 745.84(a)(2): an adult occupant who is not the owner. From memory.
    expect(line(listOf(floor), 'lead-pamphlet')?.what).toContain('any adult tenant');
  });

  // CPSC on portable generators, second-hand: carbon monoxide.
  it('warn of carbon monoxide on a generator and in a cold room, and nowhere else', () => {
    const warned = (floor: FloorInput, onGenerator = false) =>
      listOf(floor, { onGenerator }).flatMap(({ key, cautions }) => (cautions.includes('carbon-monoxide') ? [key] : []));
    expect(warned(SLAB)).toEqual([]);
    expect(warned(SLAB, true)).toEqual(['dust']);
    expect(warned({ ...SLAB, air: air({}, { airTempC: 7, surfaceTempC: 7 }) })).toEqual(['windows']);
  });

  it('know a generator, or that there is no power, by the notes on the property', () => {
    const on = (text: string, notes = '') => isOnGenerator({ access: [{ letter: 'P', text, point: null }], notes });
    for (const text of ['Old fuse box: bring the generator.', 'No power on site', 'Power is off until June'])
      expect(on(text), text).toBe(true);
    expect(on('', 'We need a generator.')).toBe(true);
    const without = ['', 'Breaker panel behind the clock. Two 15 A circuits.', 'No power tools before 8 am.', 'HOA: no generators.'];
    for (const text of without) expect(on(text), text).toBe(false);
  });
});
