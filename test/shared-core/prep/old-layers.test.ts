import { describe, expect, it } from 'vitest';
import type { Layer } from '../../../shared-core/book/layer.ts';
import type { TestOf } from '../../../shared-core/book/tests-of.ts';
import { hoursFor } from '../../../shared-core/prep/task-hours.ts';
import { CAUTIONS } from '../../../shared-core/substrate/cautions.ts';
import type { FloorInput } from '../../../shared-core/substrate/floor-facts.ts';
import { BOARDS, layer, LEFT_HALF, mark, SLAB, test, withTests } from '../substrate/a-floor.ts';
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

  // University lists name old patch and the mortar of tile; the marks, high spots and dirt are cut into whatever is poured on.
  it.each([
    ['old-leveling', 'Old patch and underlayment'],
    ['thinset', 'Tile mortar'],
    ['ceramic-tile', 'Tile mortar'],
  ] as const)('is cut only after a lab sample while it stays (%s)', (material, name) => {
    const stays = (lab?: Partial<TestOf<'lab'>>): FloorInput => {
      const floor = over(material, 1965, lab);
      const marks = (['hollow', 'contaminated', 'crack'] as const).map((kind) => mark(kind, { id: kind }));
      return {
        ...withTests(floor, test.look(['waxed', 'oily'])),
        layers: floor.layers.map((one) => ({ ...one, fate: 'keep' as const })),
        marks,
      };
    };
    const grind = { areaM2: 1, spots: 1, deepestM: 0.003 };
    const cut = (floor: FloorInput) =>
      ['hollow', 'contaminated', 'fill-cracks', 'grind', 'abrade', 'clean:waxed', 'clean:oily'].map((key) =>
        line(listOf(floor, { grind }), key),
      );
    const advice = (floor: FloorInput) => inputOf(floor).findings.find(({ ruleId }) => ruleId === 'asbestos-besides')?.text ?? '';
    for (const asked of cut(stays())) {
      expect(asked?.what).toMatch(/, after a lab sample shows no asbestos$/);
      expect(asked?.cautions).toEqual(expect.arrayContaining(['asbestos', 'silica']));
    }
    expect(advice(stays())).toContain(`${name} of this age may contain asbestos`);
    for (const clear of cut(stays({}))) {
      expect(clear?.what).not.toContain('lab');
      expect(clear?.cautions).toContain('silica');
      expect(clear?.cautions).not.toContain('asbestos');
    }
    expect(advice(stays({}))).toBe('');
    // Under another layer that stays it is not cut.
    const covered = { ...stays(), layers: [layer('screed'), ...stays().layers] };
    expect(line(listOf(covered), 'abrade')?.cautions).toEqual(['silica']);
    expect(advice(covered)).toBe('');
  });

  // ASTM F2873 1.1, second-hand: residue that is not water-soluble may stay. The hours are of the one table of typical hours.
  it('scrapes adhesive that stays, in the area that is poured on, and after a lab sample where its year is doubtful', () => {
    const glued = (yearInstalled: number, change: Partial<Layer> = {}): FloorInput => ({
      ...SLAB,
      layers: [layer('adhesive-other', { id: 'glue', yearInstalled, ...change }), ...SLAB.layers],
    });
    expect(line(listOf(glued(2005, { area: LEFT_HALF })), 'scrape:glue')).toMatchObject({
      what: 'Scrape the old adhesive down to a thin film, and off completely where it is water-soluble',
      who: 'own-crew',
      amount: { value: 6, unit: 'm2' },
      tasks: ['scrape'],
      cautions: [],
      hours: hoursFor('scrapeAdhesive', 6),
    });
    expect(inputOf(glued(2005)).findings.find(({ ruleId }) => ruleId === 'adhesive-stays')?.does).toEqual(['scrape']);
    expect(heldBy(glued(2005), 'scrape:glue')).toEqual([]);
    // Common practice, no source: what scraping leaves was never tested. Wood has neither test.
    expect(line(listOf(glued(2005)), 'retest')).toMatchObject({ what: expect.stringMatching(/^Repeat the water drop test/) });
    const onWood = { ...BOARDS, layers: [layer('adhesive-other', { yearInstalled: 2005 }), ...BOARDS.layers] };
    expect(line(listOf(onWood), 'retest')).toBeUndefined();
    expect(line(listOf(glued(1984)), 'scrape:glue')).toMatchObject({
      what: expect.stringMatching(/, after a lab sample shows no asbestos$/),
      cautions: ['asbestos'],
    });
    // 29 CFR 1926.1101(k)(1): up to 1980 it is presumed to contain asbestos, and stays. What is loose or comes out has a line of its own.
    for (const floor of [glued(1980), glued(2005, { sound: 'loose' }), glued(2005, { fate: 'remove' })])
      expect(line(listOf(floor), 'scrape:glue')).toBeUndefined();
  });

  // Common practice, no source: beside asbestos that stays the own crew scrapes nothing.
  it('leaves adhesive beside asbestos that stays to a licensed abatement contractor', () => {
    const tile = layer('resilient-tile', { id: 'old', yearInstalled: 1965, area: LEFT_HALF });
    const floor = {
      ...over('resilient-tile', 1965, { state: 'found' }),
      layers: [tile, layer('adhesive-other', { id: 'glue', yearInstalled: 2005 }), ...SLAB.layers],
    };
    expect(line(listOf(floor), 'scrape:glue')).toMatchObject({
      what: 'A licensed abatement contractor takes the old adhesive off',
      who: 'licensed-only',
      amount: { value: 6, unit: 'm2' },
      cautions: ['asbestos-found'],
      hours: null,
    });
    expect(heldBy(floor, 'scrape:glue')).toEqual([]);
    expect(inputOf(floor).findings.find(({ ruleId }) => ruleId === 'adhesive-stays')).toMatchObject({
      does: [],
      text: expect.stringContaining('only a licensed abatement contractor removes this adhesive'),
    });
    const loose = { ...floor, layers: floor.layers.map((one) => (one.id === 'glue' ? { ...one, sound: 'loose' as const } : one)) };
    expect(line(listOf(loose), 'remove:glue')).toMatchObject({
      what: 'A licensed abatement contractor removes the loose old adhesive',
      who: 'licensed-only',
      tasks: [],
      hours: null,
    });
  });

  // ASTM F710: clean. 40 CFR 745.85: paint of a house built before 1978 is not ground before a test.
  it('grinds paint that is poured on down to the bare substrate, unless lead or asbestos forbids it', () => {
    const painted = (yearBuilt: number, lab?: Partial<TestOf<'lab'>>): FloorInput => ({
      ...over('paint-or-sealer', yearBuilt, lab),
      layers: [layer('paint-or-sealer', { id: 'old', yearInstalled: null }), ...SLAB.layers],
    });
    expect(removal(painted(1995))).toMatchObject({
      what: 'Grind off the paint or sealer down to the bare substrate',
      tasks: ['grind', 'disturb-paint'],
      cautions: ['silica'],
    });
    expect(heldBy(painted(1995), 'remove:old')).toEqual([]);
    expect(heldBy(painted(1950), 'remove:old')).toEqual(['lead-floor']);
    expect(removal(painted(1950))?.cautions).toContain('lead');
    expect(heldBy(painted(1995, { state: 'sent' }), 'remove:old')).toEqual(['asbestos-pending']);
    expect(removal(painted(1995, { state: 'found' }))).toBeUndefined();
    // Loose paint is no reason to leave the rest. The drops are repeated on what is under it.
    const peeling = {
      ...painted(1995),
      layers: painted(1995).layers.map((one) => (one.id === 'old' ? { ...one, sound: 'loose' as const } : one)),
    };
    expect(removal(peeling)?.what).toBe('Grind off the paint or sealer down to the bare substrate');
    for (const floor of [painted(1995), peeling]) expect(listOf(floor).map(({ key }) => key)).toContain('retest');
    for (const floor of [painted(1995), painted(1950)])
      expect(inputOf(floor).findings.map(({ ruleId }) => ruleId)).not.toContain('smooth-top');
    // What paint leaves on the slab is cut with it.
    const grind = { areaM2: 1, spots: 1, deepestM: 0.003 };
    expect(line(listOf(painted(1950), { grind }), 'grind')?.cautions).toEqual(['silica', 'lead']);
    const sent = painted(1995, { state: 'sent' });
    expect(line(listOf(sent, { grind }), 'grind')).toMatchObject({
      cautions: ['asbestos', 'silica'],
      what: expect.stringMatching(/after a lab/),
    });
    expect(listOf(sent).map(({ key }) => key)).not.toContain('abrade');
  });

  // Common practice, no source: wood is sanded, never ground.
  it('sands paint off wood', () => {
    const floor = { ...BOARDS, yearBuilt: 1995, layers: [layer('paint-or-sealer', { id: 'old' }), ...BOARDS.layers] };
    expect(removal(floor)).toMatchObject({
      what: 'Sand off the paint or sealer down to the bare substrate',
      tasks: ['sand', 'disturb-paint'],
      cautions: ['wood-dust'],
      dust: null,
    });
  });

  // Common practice, no source: sanding does not reach the paper under the boards.
  it('does not ask for a lab before wood flooring over black paper is sanded', () => {
    const floor = { ...BOARDS, yearBuilt: 1925, layers: [layer('wood-flooring', { yearInstalled: 1925 }), ...BOARDS.layers] };
    expect(line(listOf(floor, { grind: { areaM2: 1, spots: 1, deepestM: 0.002 } }), 'grind')).toMatchObject({
      what: 'Sand down the high spots',
      cautions: ['wood-dust', 'lead'],
    });
    expect(inputOf(floor).findings.map(({ ruleId }) => ruleId)).not.toContain('asbestos-besides');
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

describe('a surface that may contain asbestos and stays', () => {
  const kept = (material: Layer['material'], looks: TestOf<'surface-look'>['is'], lab?: Partial<TestOf<'lab'>>): FloorInput => {
    const floor = over(material, 1970, lab);
    return { ...withTests(floor, test.look(looks)), layers: floor.layers.map((one) => ({ ...one, fate: 'keep' as const })) };
  };
  const wet = (...asked: Parameters<typeof kept>) => line(listOf(kept(...asked)), 'clean:wet');

  // 29 CFR 1926.1101(l)(3): finish comes off asbestos flooring wet, with low-abrasion pads under 300 rpm.
  it.each(['waxed', 'glossy', 'oily'] as const)('is stripped by trained people before the pour where it is %s', (look) => {
    for (const lab of [undefined, { state: 'sent' }, { state: 'found' }] as const) {
      const item = wet('resilient-tile', [look], lab);
      expect(item).toMatchObject({ who: 'licensed-only', holdsPour: true, dust: null });
      expect(item?.what).toMatch(/^Strip the resilient tile wet with a low-abrasion pad under 300 rpm, /);
    }
    expect(wet('resilient-tile', [look], {})).toMatchObject({ who: 'own-crew', what: expect.not.stringContaining('300 rpm') });
  });

  it('is left to an abatement contractor where it is no flooring, and has no such line where it is clean', () => {
    expect(wet('adhesive-cutback', ['oily'])).toMatchObject({ who: 'licensed-only', what: expect.stringMatching(/^A licensed abatement/) });
    expect(wet('resilient-tile', ['sound-clean'])).toBeUndefined();
  });

  // What a lab detected is certain: nothing about it waits for a result.
  it('has the caution of what is known of it', () => {
    const cautions = (lab?: Partial<TestOf<'lab'>>) => line(listOf(kept('resilient-tile', ['waxed'], lab)), 'vacuum')?.cautions;
    expect(cautions()).toEqual(['asbestos']);
    expect(cautions({ state: 'sent' })).toEqual(['asbestos']);
    expect(cautions({ state: 'found' })).toEqual(['asbestos-found']);
    expect(CAUTIONS['asbestos-found'].text).not.toMatch(/result|may contain/);
  });
});
