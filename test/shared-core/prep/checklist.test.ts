import { describe, expect, it } from 'vitest';
import { PHASES, type PrepItem } from '../../../shared-core/prep/prep-item.ts';
import type { FloorInput } from '../../../shared-core/substrate/floor-facts.ts';
import { BOARDS, layer, mark, opening, powder, RIGHT_HALF, SLAB, STRIP, test, withTests } from '../substrate/a-floor.ts';
import { heldBy, inputOf, line, listOf } from './prep-lines.ts';

describe('the prep checklist', () => {
  it('pours the rest of a floor with a suspect part still to be checked, which only flooring waits for', () => {
    const rest = { openM2: 0, jointM: 0, sinceHours: null, patches: [], toCheckM2: 1.5, toCheckBatches: [4, 5] };
    expect(line(listOf(SLAB, { rest }), 'rest-check')).toMatchObject({ holdsPour: false, what: expect.stringContaining('(batches 4, 5)') });
    expect(line(listOf(SLAB, { rest: { ...rest, toCheckM2: 0 } }), 'rest-check')).toBeUndefined();
  });

  it('has the lines of wood over wood, and not over a slab', () => {
    const keys = (floor: FloorInput) => listOf(floor).map((item) => item.key);
    for (const key of ['refasten', 'gaps', 'reinforce']) {
      expect(keys(BOARDS)).toContain(key);
      expect(keys(SLAB)).not.toContain(key);
    }
  });

  it('abrades the slab beside a kept strip of resilient tile, and no more than that', () => {
    const floor = { ...SLAB, layers: [layer('resilient-tile', { area: STRIP }), ...SLAB.layers] };
    const items = listOf(floor, { areasM2: { 'the-resilient-tile': 3 } });
    expect(line(items, 'abrade')).toMatchObject({
      what: 'Abrade the slab on grade mechanically to CSP 2 to 3',
      amount: { value: 9, unit: 'm2' },
      dust: 'hand-grinder',
    });
    expect(heldBy(floor, 'abrade')).toEqual([]);
    expect(listOf({ ...SLAB, layers: [layer('resilient-tile'), ...SLAB.layers] }).map(({ key }) => key)).not.toContain('abrade');
  });

  // 29 CFR 1926.1101(l)(3): no sanding of flooring with asbestos; common practice, no source, for the rest.
  it('cleans by machine only beside kept resilient flooring, and says so in the findings', () => {
    for (const material of ['resilient-tile', 'sheet-flooring'] as const) {
      const marks = [mark('contaminated', { id: 'spot', shape: 'area' })];
      const base = withTests({ ...SLAB, marks }, test.look(['waxed', 'oily', 'glossy', 'efflorescence']));
      const floor = { ...base, layers: [layer(material, { area: STRIP, yearInstalled: 2005 }), ...SLAB.layers] };
      const items = listOf(floor, { areasM2: { spot: 1 } });
      expect(line(items, 'clean:waxed')).toMatchObject({
        what: 'Remove the wax mechanically, only on the slab on grade',
        amount: { value: 9, unit: 'm2' },
      });
      expect(line(items, 'clean:oily')?.what).toMatch(/, only on the slab on grade$/);
      expect(line(items, 'clean:efflorescence')?.amount?.value).toBe(12);
      expect(line(items, 'contaminated')).toMatchObject({ what: expect.stringMatching(/, only on the slab/), amount: { value: 1 } });
      const { findings } = inputOf(floor);
      const name = material === 'resilient-tile' ? 'resilient tile' : 'sheet flooring';
      for (const ruleId of ['surface-glossy', 'surface-waxed', 'surface-oily', 'contaminated'])
        expect(findings.find((finding) => finding.ruleId === ruleId)?.text, ruleId).toContain(`Use no machine on the ${name}.`);
      expect(findings.find(({ ruleId }) => ruleId === 'resilient-part')?.text).toContain(`Never sand or grind the ${name}`);
      const whole = { ...base, layers: [layer(material, { yearInstalled: 2005 }), ...SLAB.layers] };
      expect(inputOf(whole).findings.find(({ ruleId }) => ruleId === 'resilient-top')?.holds).toEqual(['sand', 'grind']);
      expect(line(listOf(base), 'clean:waxed')).toMatchObject({ what: 'Remove the wax mechanically', amount: { value: 12 } });
    }
  });

  // Common practice, no source: floor finish on vinyl is stripped wet, and a bond test replaces the drop.
  it('strips wax and gloss wet from resilient flooring that is all of the surface, with nothing held', () => {
    const looks = ['waxed', 'glossy', 'oily'] as const;
    const marks = [mark('contaminated', { id: 'spot', shape: 'area' })];
    const floor = {
      ...withTests(BOARDS, test.look([...looks])),
      marks,
      layers: [layer('resilient-tile', { yearInstalled: 2005 }), ...BOARDS.layers],
    };
    const items = listOf(floor);
    expect(items.filter(({ key }) => key.startsWith('clean'))).toMatchObject([
      {
        key: 'clean:wet',
        what: expect.stringMatching(/^Strip the resilient tile wet with a low-abrasion pad/),
        tasks: [],
        dust: null,
        cautions: [],
      },
    ]);
    expect(line(items, 'contaminated')).toMatchObject({ what: expect.stringContaining(' wet '), tasks: [], dust: null, cautions: [] });
    const { findings } = inputOf(floor);
    for (const ruleId of [...looks.map((look) => `surface-${look}`), 'contaminated'])
      expect(findings.find((finding) => finding.ruleId === ruleId)?.text, ruleId).toContain('wet with a low-abrasion pad');
    // 29 CFR 1926.1101(l)(3): trained people strip what may contain asbestos, not the own crew.
    const old = { ...floor, layers: [layer('resilient-tile', { yearInstalled: 1970 }), ...BOARDS.layers] };
    expect(listOf(old).filter(({ what, who }) => who === 'own-crew' && / wet /.test(what))).toEqual([]);
    expect(inputOf(old).findings.filter(({ ruleId, text }) => ruleId !== 'asbestos-surface' && text.includes('Strip it wet'))).toEqual([]);
  });

  // 40 CFR 745.103: paint of a house built before 1978 is presumed to be lead-based.
  it('warns of lead where only one part of the surface may hold it', () => {
    const floor = { ...SLAB, yearBuilt: 1950, layers: [layer('ceramic-tile', { area: STRIP }), ...SLAB.layers] };
    const grind = { areaM2: 2, spots: 1, deepestM: 0.003 };
    const cautions = (is: 'painted' | 'waxed') => line(listOf(withTests(floor, test.look([is])), { grind }), 'grind')?.cautions;
    expect(cautions('painted')).toContain('lead');
    expect(cautions('waxed')).not.toContain('lead');
  });

  // Areas by hand: the room is 12 m², the strip 3 m².
  it('fastens, covers and reinforces wood over its own part of the room', () => {
    const part = (material: 'plywood' | 'osb') => listOf({ ...SLAB, layers: [layer(material, { area: STRIP }), ...SLAB.layers] });
    const amounts = (items: readonly PrepItem[]) => ['refasten', 'plywood', 'reinforce'].map((key) => line(items, key)?.amount?.value);
    expect(amounts(part('plywood'))).toEqual([3, undefined, 3]);
    expect(amounts(part('osb'))).toEqual([3, 3, 3]);
    expect(amounts(listOf(BOARDS))).toEqual([12, undefined, 12]);
    const loose = layer('plywood', { id: 'loose', sound: 'loose', area: STRIP });
    const framed = { ...BOARDS, layers: [loose, layer('boards'), layer('joists')] };
    const fastened = listOf(framed, { areasM2: { loose: 3 } });
    expect(line(fastened, 'refasten:loose')?.amount?.value).toBe(3);
    // Marked sound, as its hold asks once it is fastened: what was signed for the whole floor still stands, and no hour is counted twice.
    const sound = listOf(
      { ...framed, layers: framed.layers.map((one) => ({ ...one, sound: 'sound' as const })) },
      { areasM2: { loose: 3 } },
    );
    expect(line(sound, 'refasten:loose')).toBeUndefined();
    expect(line(sound, 'refasten')?.amount?.value).toBe(12);
    expect(line(fastened, 'refasten')).toEqual({ ...line(sound, 'refasten'), hours: expect.any(Number) });
    const hours = (items: readonly PrepItem[]) =>
      ['refasten:loose', 'refasten'].reduce((sum, key) => sum + (line(items, key)?.hours ?? 0), 0);
    expect(hours(fastened)).toBeCloseTo(hours(sound), 2);
    const under = { ...BOARDS, layers: [layer('ceramic-tile'), layer('plywood', { sound: 'loose' }), layer('joists')] };
    expect(line(listOf(under), 'refasten:loose')?.amount?.value).toBe(12);
  });

  // Common practice, no source.
  it('screws the planks and the plywood over them, whether or not the plywood is entered yet', () => {
    const planks = [layer('boards'), layer('joists')];
    const fastening = (layers: FloorInput['layers']) =>
      listOf({ ...BOARDS, layers })
        .filter(({ key }) => key === 'refasten' || key === 'plywood')
        .map(({ key, what, amount, hours }) => ({ key, what, amount, hours }));
    const before = fastening(planks);
    expect(before.map(({ key, amount }) => [key, amount?.value])).toEqual([
      ['refasten', 12],
      ['plywood', 12],
    ]);
    // What was signed still reads the same.
    expect(fastening([layer('plywood', { laid: 'after-readings' }), ...planks])).toEqual(before);
  });

  // Common practice, no source: plywood over paint, old adhesive or felt is screwed through it into the wood.
  it.each(['paint-or-sealer', 'adhesive-other', 'underlay-felt'] as const)(
    'screws plywood and planks through %s that stays between them',
    (coat) => {
      const items = listOf({
        ...BOARDS,
        layers: [layer('plywood', { laid: 'after-readings' }), layer(coat), layer('boards'), layer('joists')],
      });
      const amountOf = (key: string) => line(items, key)?.amount?.value;
      expect([amountOf('refasten'), amountOf('plywood')]).toEqual([12, 12]);
      expect(line(items, 'plywood')?.what).toContain('Glue and screw plywood over the plank subfloor');
    },
  );

  // Common practice, no source: the primer for a non-porous substrate is for the bond, not against suction.
  it('says what the primer is for on a floor that takes up no water', () => {
    const whyTested = (tests: FloorInput['tests'], ...layers: FloorInput['layers']) =>
      line(listOf({ ...SLAB, tests, layers }), 'prime')?.why;
    const why = (...layers: FloorInput['layers']) => whyTested([], ...layers);
    // A drop on the slab says nothing of what lies on it: ASTM F3191 asks for it on the surface that is primed.
    for (const closed of ['adhesive-cutback', 'resilient-tile', 'ceramic-tile', 'terrazzo', 'metal'] as const)
      expect(whyTested([test.drop('a')], layer(closed, { yearInstalled: 2005 }), ...SLAB.layers), closed).toContain(
        'does not bond to a non-porous substrate',
      );
    expect(whyTested([test.drop('a')], ...SLAB.layers)).toContain('a water drop soaks in');
    expect(whyTested([test.drop('a')], layer('boards'), layer('joists'))).toContain('draws water out of the mix');
    expect(why(layer('adhesive-other'), ...SLAB.layers)).toContain('does not bond to a non-porous substrate');
    expect(why(layer('adhesive-other', { area: STRIP }), ...SLAB.layers)).toContain('draws water out of the mix');
    expect(why(...SLAB.layers)).toContain('draws water out of the mix');
  });

  // Common practice, no source: nobody drills, chips or saws a slab before its tendons are located.
  it('warns of tendons wherever a slab is drilled, chipped or sawn, and nowhere else', () => {
    const marks = [mark('hollow'), mark('crack'), mark('joint', { moves: 'moving' })];
    const patches = [{ defect: 'hollow' as const, areaM2: 1 }];
    const rest = { openM2: 0, jointM: 0, sinceHours: null, patches, toCheckM2: 0, toCheckBatches: [] };
    const warned = (floor: FloorInput) =>
      listOf({ ...floor, marks }, { rest }).flatMap(({ key, cautions }) => (cautions.includes('tendons') ? [key] : []));
    expect(warned(SLAB)).toEqual(['hollow', 'fill-cracks', 'carry-joints', 'patch-hollow']);
    expect(warned({ ...SLAB, layers: [layer('osb'), layer('concrete-suspended')] })).toEqual(
      expect.arrayContaining(['refasten', 'plywood']),
    );
    const [slab] = SLAB.layers;
    if (slab === undefined) throw new Error('no slab');
    expect(warned({ ...SLAB, layers: [{ ...slab, sound: 'loose' }] })).toContain(`remove:${slab.id}`);
    expect(warned(BOARDS)).toEqual([]);
  });

  it('abrades each part of a floor in its own way', () => {
    const floor = { ...SLAB, layers: [layer('gypsum', { area: RIGHT_HALF }), ...SLAB.layers] };
    const gypsum = { kind: 'calcium-sulfate' as const, powder: powder({ bondsTo: ['concrete', 'gypsum'] }) };
    const items = listOf({ ...floor, product: gypsum }).filter(({ key }) => key.startsWith('abrade'));
    expect(items.map(({ key, what, tasks, amount }) => [key, what, tasks, amount?.value])).toEqual([
      ['abrade', 'Abrade the slab on grade mechanically to CSP 2 to 3', ['grind'], 6],
      ['abrade:sand', 'Sand the gypsum underlayment to a dull, sound face', ['sand'], 6],
    ]);
  });

  it('fastens what is loose on joists, and removes what is loose on a slab with the tool and cautions of its removal', () => {
    const loose = (layers: FloorInput['layers'], floor = SLAB) => listOf({ ...floor, layers });
    const removed = loose([layer('ceramic-tile', { sound: 'loose' }), ...SLAB.layers]);
    expect(line(removed, 'refasten')).toBeUndefined();
    expect(line(removed, 'remove:the-ceramic-tile')).toMatchObject({
      what: 'Remove the loose ceramic tile down to a sound layer',
      tasks: ['lift-out', 'scrape'],
      dust: 'chipping-hammer',
      cautions: ['silica'],
    });
    const framed = loose([layer('plywood', { sound: 'loose' }), layer('joists')], BOARDS);
    expect(line(framed, 'refasten:loose')?.what).toBe('Glue and screw the loose plywood to the joists');
    expect(framed.filter(({ phase }) => phase === 'remove')).toEqual([]);
    const both = loose([layer('ceramic-tile', { sound: 'loose' }), layer('plywood', { sound: 'loose' }), layer('joists')], BOARDS);
    expect(line(both, 'refasten:loose')?.what).toBe('Glue and screw the loose plywood to the joists');
    expect(line(both, 'remove:the-ceramic-tile')).toBeDefined();
    const onSlab = loose([layer('plywood', { sound: 'loose' }), ...SLAB.layers]);
    expect(line(onSlab, 'refasten')).toBeUndefined();
    expect(line(onSlab, 'remove:the-plywood')?.what).toBe('Remove the loose plywood down to a sound layer');
  });

  it('removes layers from the top down, each with its own area', () => {
    const floor: FloorInput = {
      ...SLAB,
      layers: [
        layer('floating-plank', { id: 'plank', fate: 'remove' }),
        layer('adhesive-other', { id: 'glue', fate: 'remove' }),
        ...SLAB.layers,
      ],
    };
    const out = listOf(floor, { areasM2: { glue: 5 } }).filter((item) => item.phase === 'remove');
    expect(out.map((item) => [item.key, item.amount?.value])).toEqual([
      ['remove:plank', 12],
      ['remove:glue', 5],
    ]);
    expect(line(out, 'remove:glue')?.tasks).toContain('scrape');
    expect(line(out, 'remove:plank')?.tasks).toEqual(['pull-up']);
  });

  it('leaves asbestos to a licensed abatement contractor, and the pour waits', () => {
    const tile = layer('resilient-tile', { id: 'tile', yearInstalled: 1971, fate: 'remove' });
    const floor: FloorInput = {
      ...SLAB,
      layers: [tile, ...SLAB.layers],
      tests: [...SLAB.tests, test.lab({ layerId: 'tile', state: 'found' })],
    };
    expect(line(listOf(floor), 'remove:tile')).toMatchObject({
      who: 'licensed-only',
      holdsPour: true,
      tasks: [],
      hours: null,
      cautions: ['asbestos-found'],
    });
    const clear: FloorInput = { ...floor, tests: [...SLAB.tests, test.lab({ layerId: 'tile' })] };
    expect(line(listOf(clear), 'remove:tile')).toMatchObject({ who: 'own-crew', tasks: ['lift-out'] });
  });

  it('lets the own crew remove baseboards only where the paint allows it', () => {
    // 43 ft of baseboard: its whole length times its height counts, 40 CFR 745.83.
    const house = (yearBuilt: number, ft2: number): FloorInput => ({
      ...SLAB,
      yearBuilt,
      baseboardM: 13.1,
      circumstances: { ...SLAB.circumstances, paintedTrim: 'to-be-disturbed', baseboardHeightM: (ft2 * 0.09290304) / 13.1 },
    });
    expect(line(listOf(house(1977, 7)), 'baseboard')?.who).toBe('licensed-only');
    expect(line(listOf(house(1978, 7)), 'baseboard')?.who).toBe('own-crew');
    expect(line(listOf(house(1977, 6)), 'baseboard')?.who).toBe('own-crew');
    expect(line(listOf(house(1978, 7)), 'baseboard')?.amount?.value).toBeCloseTo(13.1, 9);
  });

  it('measures dams by width, cracks by length, isolation strip by the walls, primer by the liter', () => {
    const floor: FloorInput = {
      ...SLAB,
      openings: [
        opening({ id: 'door-a', widthM: 0.9 }),
        opening({ id: 'door-b', widthM: 1.5, edge: 'stop' }),
        opening({ id: 'door-c', widthM: 2, edge: 'feather' }),
      ],
      marks: [mark('crack', { id: 'cr-1' }), mark('crack', { id: 'cr-2' }), mark('joint', { id: 'jt-1', moves: 'moving' })],
    };
    const items = listOf(floor, { lengthsM: { 'cr-1': 1.5, 'cr-2': 2.25, 'jt-1': 4 } });
    expect(line(items, 'dams')).toMatchObject({ what: 'Dam 2 openings', amount: { value: 2.4, unit: 'm' }, on: ['door-a', 'door-b'] });
    expect(line(items, 'feathers')?.amount).toEqual({ value: 2, unit: 'm' });
    expect(line(items, 'fill-cracks')?.amount).toEqual({ value: 3.75, unit: 'm' });
    expect(line(items, 'carry-joints')?.amount).toEqual({ value: 4, unit: 'm' });
    // Why a joint is carried through: what is known of the worst one, wherever it stands among the marks.
    const whyOf = (...marks: FloorInput['marks']) =>
      [marks, marks.toReversed()].map((some) => line(listOf({ ...floor, marks: some }, { lengthsM: {} }), 'carry-joints')?.why);
    const [moving, unknown] = [mark('crack', { id: 'c1', moves: 'moving' }), mark('crack', { id: 'c2', moves: 'unknown' })];
    const joint = mark('expansion-joint', { id: 'j1', moves: 'moving' });
    expect(whyOf(moving)).toEqual(Array(2).fill('active: a pour across it cracks'));
    expect(whyOf(moving, unknown)).toEqual(Array(2).fill('active, or not known to be dormant'));
    expect(whyOf(moving, unknown, joint)).toEqual(Array(2).fill('expansion joints go through the underlayment and the flooring'));
    // The sum of lengths is not known while one of them is not.
    expect(line(listOf(floor, { lengthsM: { 'cr-1': 1.5, 'jt-1': 4 } }), 'fill-cracks')?.amount).toBeNull();
    expect(line(items, 'isolation-strip')?.amount).toEqual({ value: 14, unit: 'm' });
    expect(line(items, 'prime')).toMatchObject({
      what: 'Prime, 2 coats, 1 part primer to 3 of water, no puddles',
      amount: { value: 1.4, unit: 'L' },
    });
  });

  it('dams and seals what stands in the floor, and counts it', () => {
    const bath: FloorInput = {
      ...SLAB,
      circumstances: { ...SLAB.circumstances, fixtures: ['tub-or-shower', 'toilet', 'base-cabinets', 'floor-drain'] },
    };
    const items = listOf(bath);
    // 0.1 hours per place: common practice, no source.
    expect(line(items, 'fixtures')).toMatchObject({
      what: 'Dam and seal the toilet flange and the tub or shower',
      amount: { value: 2, unit: 'place' },
      hours: 0.2,
    });
    expect(line(items, 'fixtures')?.cautions).toEqual([]);
    // 29 CFR 1926.417, lockout of circuits, from memory.
    const outlets = { ...bath.circumstances, fixtures: ['floor-outlet' as const, 'toilet' as const] };
    expect(line(listOf({ ...SLAB, circumstances: outlets }), 'fixtures')).toMatchObject({
      what: 'With the breaker of the outlets off and locked out, dam and seal floor outlets and the toilet flange',
      cautions: ['electricity'],
    });
    expect(line(items, 'drains')).toMatchObject({ what: 'Dam and cap the drain', on: [] });
    expect(line(listOf(SLAB), 'fixtures')).toBeUndefined();
    expect(line(listOf(SLAB), 'drains')).toBeUndefined();
    const drawn = listOf({ ...SLAB, marks: [mark('drain', { id: 'drain-b' }), mark('drain', { id: 'drain-a' })] });
    expect(line(drawn, 'drains')?.on).toEqual(['drain-a', 'drain-b']);
  });

  it('counts doorways by their edge, one or several, with hours for each', () => {
    const one = listOf({ ...SLAB, openings: [opening({ id: 'door-a', widthM: 1.1, edge: 'stop' })] });
    // A quarter of an hour per dam, 0.15 per feather edge: common practice, no source.
    expect(line(one, 'dams')).toMatchObject({ what: 'Dam 1 opening', amount: { value: 1.1, unit: 'm' }, hours: 0.25, on: ['door-a'] });
    expect(line(one, 'feathers')).toBeUndefined();
    const edge = (id: string, widthM: number) => opening({ id, widthM, edge: 'feather' as const });
    const two = listOf({ ...SLAB, openings: [edge('door-b', 0.9), edge('door-a', 0.8)] });
    expect(line(two, 'dams')).toBeUndefined();
    expect(line(two, 'feathers')).toMatchObject({ what: 'Mark 2 feather edges', hours: 0.3, on: ['door-a', 'door-b'] });
    expect(line(two, 'feathers')?.amount?.value).toBeCloseTo(1.7, 12);
    expect(line(listOf({ ...SLAB, openings: [edge('door-a', 0.8)] }), 'feathers')?.what).toBe('Mark the feather edge');
  });

  it('seals gaps and pipes of a slab where they are drawn, and of wood always', () => {
    expect(line(listOf(SLAB), 'gaps')).toBeUndefined();
    const piped = listOf({ ...SLAB, marks: [mark('pipe', { id: 'pipe-b' }), mark('gap', { id: 'gap-a' })] });
    expect(line(piped, 'gaps')).toMatchObject({
      what: 'Sleeve pipes and seal gaps',
      amount: { value: 2, unit: 'place' },
      hours: 0.2,
      on: ['gap-a', 'pipe-b'],
    });
    expect(line(listOf(BOARDS), 'gaps')).toMatchObject({ amount: null, hours: null, why: 'the mix runs through to the space below' });
    // Wood on a slab has no space below.
    expect(line(listOf({ ...SLAB, layers: [layer('plywood'), ...SLAB.layers] }), 'gaps')?.why).toBe('the mix runs through every one');
  });

  it('keeps termite gaps and radon pipes open on a slab on grade only, and waits for none of them', () => {
    expect(line(listOf(SLAB), 'keep-open')?.holdsPour).toBe(false);
    expect(line(listOf(BOARDS), 'keep-open')).toBeUndefined();
    expect(line(listOf({ ...SLAB, layers: [layer('concrete-suspended')] }), 'keep-open')).toBeUndefined();
  });

  it('grinds and abrades where the survey and the findings require it', () => {
    expect(line(listOf(SLAB), 'grind')).toBeUndefined();
    // Common practice: CSP 2 to 3 under an underlayment whose data sheet gives no profile.
    expect(line(listOf(SLAB), 'abrade')?.what).toContain('CSP 2 to 3');
    expect(line(listOf({ ...SLAB, hasMoistureSystem: true }), 'abrade')?.what).toMatch(/CSP 3$/);
    const ground = listOf(withTests(SLAB, test.look(['glossy'])), { grind: { areaM2: 0.6, spots: 2, deepestM: 0.003 } });
    expect(line(ground, 'grind')).toMatchObject({ amount: { value: 0.6, unit: 'm2' }, tasks: ['grind'], cautions: ['silica'] });
    expect(line(ground, 'abrade')?.amount).toEqual({ value: 12, unit: 'm2' });
    const sheet = listOf({
      ...SLAB,
      product: { kind: 'cement-underlayment', powder: powder({ profileCsp: { value: { least: 3, most: 5 }, source: 'bag' } }) },
    });
    expect(line(sheet, 'abrade')?.what).toBe('Abrade mechanically to CSP 3 to 5');
  });

  it('applies the moisture mitigation system and its sand before priming', () => {
    const keys = listOf({ ...SLAB, hasMoistureSystem: true }).map((item) => item.key);
    expect(keys.indexOf('moisture-system')).toBeGreaterThan(-1);
    expect(keys.indexOf('moisture-system')).toBeLessThan(keys.indexOf('moisture-sand'));
    expect(keys.indexOf('moisture-sand')).toBeLessThan(keys.indexOf('prime'));
  });

  it('is in the order of the work, every key once, with a reason for each line', () => {
    for (const floor of [SLAB, BOARDS]) {
      const items = listOf(floor);
      const phases = items.map((item) => PHASES.indexOf(item.phase));
      expect(phases).toEqual(phases.toSorted((a, b) => a - b));
      expect(new Set(items.map((item) => item.key)).size).toBe(items.length);
      for (const item of items) expect(item.why, item.key).not.toMatch(/^$|null|undefined|NaN/);
    }
  });

  it('leaves quantities empty while the room is not drawn', () => {
    for (const item of listOf({ ...SLAB, areaM2: null }, { perimeterM: null, primer: null, bags: null, waterL: null })) {
      expect(item.amount === null || Number.isFinite(item.amount.value), item.key).toBe(true);
      if (item.amount?.unit === 'm2' || item.amount?.unit === 'm') throw new Error(`${item.key} has an amount without a plan`);
    }
  });
});
