import { describe, expect, it } from 'vitest';
import type { Layer } from '../../../shared-core/book/layer.ts';
import type { TestOf } from '../../../shared-core/book/tests-of.ts';
import type { FloorInput } from '../../../shared-core/substrate/floor-facts.ts';
import { layer, SLAB, test } from '../substrate/a-floor.ts';
import { heldBy, inputOf, line, listOf } from './prep-lines.ts';

/** A slab with a layer to remove, and what its lab says. */
const over = (material: Layer['material'], yearInstalled: number, lab?: Partial<TestOf<'lab'>>): FloorInput => ({
  ...SLAB,
  yearBuilt: yearInstalled,
  layers: [layer(material, { id: 'old', yearInstalled, fate: 'remove' }), ...SLAB.layers],
  tests: [...SLAB.tests, ...(lab === undefined ? [] : [test.lab({ layerId: 'old', ...lab })])],
});
const removal = (floor: FloorInput) => line(listOf(floor), 'remove:old');
/** Trade articles: vinyl tile and cutback with asbestos were sold into the 1980s. University lists: tile mortar of an old building. */
const SUSPECT = [
  ['resilient-tile', 1984],
  ['adhesive-cutback', 1984],
  ['ceramic-tile', 1955],
] as const;

describe('a layer that no rule presumes, but a lab should test', () => {
  it.each(SUSPECT)('is removed after a lab sample, with the caution (%s of %i)', (material, year) => {
    const asked = removal(over(material, year));
    expect(asked?.what).toMatch(/, after a lab sample shows no asbestos$/);
    expect(asked?.cautions).toContain('asbestos');
    const clear = removal(over(material, year, {}));
    expect(clear?.what).not.toContain('lab');
    expect(clear?.cautions).not.toContain('asbestos');
  });

  // Common practice, no source: a sample was sent because the layer is in doubt.
  it.each([...SUSPECT, ['resilient-tile', 2005] as const])('waits while its sample is at the lab (%s of %i)', (material, year) => {
    for (const change of [{ state: 'sent' }, { sample: '' }] as const) {
      const floor = over(material, year, change);
      expect(heldBy(floor, 'remove:old')).toEqual(['asbestos-pending']);
      expect(removal(floor)?.cautions).toContain('asbestos');
      expect(inputOf(floor).findings.filter(({ ruleId }) => /^asbestos-(?:later|doubtful|besides)$/.test(ruleId))).toEqual([]);
    }
    expect(heldBy(over(material, year, {}), 'remove:old')).toEqual([]);
  });

  it('is not abraded while it stays and its sample is at the lab', () => {
    const kept = (lab: Partial<TestOf<'lab'>>): FloorInput => ({
      ...over('old-leveling', 1984, lab),
      layers: [layer('old-leveling', { id: 'old', yearInstalled: 1984 }), ...SLAB.layers],
    });
    const keys = (floor: FloorInput) => listOf(floor).map(({ key }) => key);
    expect(keys(kept({ state: 'sent' }))).not.toContain('abrade');
    expect(keys(kept({}))).toContain('abrade');
  });

  // University lists name cove base and its adhesive; 1980 as for what is presumed.
  it('warns of asbestos where the baseboard of an old house comes off', () => {
    const trim = (yearBuilt: number): FloorInput => ({
      ...SLAB,
      yearBuilt,
      circumstances: { ...SLAB.circumstances, paintedTrim: 'to-be-disturbed' },
    });
    expect(line(listOf(trim(1980)), 'baseboard')?.cautions).toContain('asbestos');
    expect(line(listOf(trim(1981)), 'baseboard')?.cautions).not.toContain('asbestos');
  });
});
