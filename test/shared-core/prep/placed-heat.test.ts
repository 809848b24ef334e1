import { describe, expect, it } from 'vitest';
import type { RestWork } from '../../../shared-core/prep/prep-input.ts';
import type { Layer } from '../../../shared-core/book/layer.ts';
import { dustWords } from '../../../shared-core/substrate/silica.ts';
import type { FloorInput } from '../../../shared-core/substrate/floor-facts.ts';
import { BOARDS, layer, mark, SLAB, test } from '../substrate/a-floor.ts';
import { heldBy, inputOf, line, listOf } from './prep-lines.ts';

const heated = (radiantHeat: FloorInput['circumstances']['radiantHeat'], change: Partial<FloorInput> = {}): FloorInput => ({
  ...SLAB,
  ...change,
  circumstances: { ...SLAB.circumstances, radiantHeat },
});
/** A pour that stopped partway, with a ridge and a hollow spot in what is placed. */
const rest: RestWork = {
  openM2: 5,
  jointM: 3,
  sinceHours: 20,
  patches: [
    { defect: 'ridge', areaM2: 0.2 },
    { defect: 'hollow', areaM2: 0.3 },
  ],
  toCheckM2: 0,
  toCheckBatches: [],
};

// Common practice, no source: nothing is drilled, sawed or ground where cables or tubes are under it.
describe('work on a floor that is placed over heat', () => {
  it.each(['electric-in-pour', 'hydronic-in-pour', 'in-floor'] as const)('is held, or done by hand (%s)', (radiantHeat) => {
    const floor = heated(radiantHeat, { isPouredOver: true });
    const rule = radiantHeat === 'in-floor' ? 'radiant-heat' : 'heat-laid';
    for (const key of ['patch-ridge', 'patch-hollow']) expect(heldBy(floor, key, { rest }), key).toEqual([rule]);
    expect(line(listOf(floor, { rest }), 'rest-edge')).toMatchObject({ what: expect.stringContaining('by hand'), tasks: [], dust: null });
  });

  it('does not ask to measure heat that is in the placed floor', () => {
    const text = (isPouredOver: boolean, layers: Layer[]) =>
      inputOf(heated('hydronic-in-pour', { isPouredOver, layers })).findings.find(({ ruleId }) => ruleId === 'heat-thickness')?.text;
    for (const layers of [[...SLAB.layers], [layer('radiant-heating', { thicknessM: null }), ...SLAB.layers]]) {
      expect(text(false, layers)).toMatch(/measure/i);
      expect(text(true, layers)).toMatch(/^The heat is in the placed floor\. Take its thickness from the installer’s record/);
      expect(text(true, layers)).not.toMatch(/measure/i);
    }
  });

  it('takes a coat or a hollow place off a heated floor by hand, and waits for nothing that never comes', () => {
    const looks = (['oily', 'waxed', 'painted'] as const).map((is) => test.look([is]));
    const paint = layer('paint-or-sealer', { yearInstalled: 2005 });
    for (const look of looks) {
      const tests = [...SLAB.tests.filter(({ kind }) => kind !== 'surface-look'), look, test.scratch('soft', 'dusts')];
      const floor = heated('in-floor', { tests, layers: [paint, ...SLAB.layers], marks: [mark('hollow'), mark('contaminated')] });
      for (const { what, tasks, dust, key } of listOf(floor)) {
        expect(heldBy(floor, key), what).toEqual([]);
        expect([tasks.includes('grind'), tasks.includes('drill'), dust], what).toEqual([false, false, null]);
        expect(what).not.toMatch(/by machine|mechanically|^Grind/);
      }
      for (const { text } of inputOf(floor).findings)
        expect(text).not.toMatch(/until “radiant floor heat” is settled|by machine|[Gg]rind it/);
    }
  });

  it('has wood over heat fastened clear of it, and not by hand', () => {
    const circumstances = { ...BOARDS.circumstances, radiantHeat: 'in-floor' as const };
    const text = inputOf({ ...BOARDS, circumstances }).findings.find(({ ruleId }) => ruleId === 'wood-fastening')?.text;
    expect(text).toBe('No drilling over the radiant heat. Fasten only clear of it, once it is located.');
  });

  it('names the placed floor in the finding, and where to change the answer', () => {
    const finding = (floor: FloorInput) => inputOf(floor).findings.find(({ ruleId }) => ruleId === 'heat-laid');
    const buried = finding(heated('electric-in-pour', { isPouredOver: true }));
    expect(buried?.text).toContain('in the placed floor: no drilling, sawing, grinding or fastening');
    expect(buried?.lifts).toBe('room.circumstances.radiantHeat');
    expect(finding(heated('electric-in-pour'))).toBeUndefined();
    expect(finding(heated('none', { isPouredOver: true }))).toBeUndefined();
    const laid = finding({ ...SLAB, layers: [layer('radiant-heating'), ...SLAB.layers] });
    expect([laid?.lifts, laid?.text]).toEqual(['room.layers', expect.stringContaining('lie on this floor')]);
  });

  // Common practice, no source: heat that is laid for this pour is cold.
  it('is asked to be off only where it is in or on the floor, and mats for the pour are laid and tested by their installer', () => {
    const has = (floor: FloorInput): boolean => line(listOf(floor), 'heating-off') !== undefined;
    expect(has(heated('electric-in-pour'))).toBe(false);
    expect(has(heated('hydronic-in-pour'))).toBe(false);
    expect(has(heated('in-floor'))).toBe(true);
    expect(has(heated('electric-in-pour', { isPouredOver: true }))).toBe(true);
    expect(has({ ...SLAB, layers: [layer('radiant-heating'), ...SLAB.layers] })).toBe(true);
    expect(has(heated('electric-in-pour', { layers: [...SLAB.layers, layer('radiant-heating')] }))).toBe(true);
    const test = (heat: Parameters<typeof heated>[0]) => line(listOf(heated(heat)), 'heat-test')?.what;
    expect(test('electric-in-pour')).toMatch(
      /^Mats laid by their installer, a licensed electrician where local code asks\. Test their resistance/,
    );
    expect(test('hydronic-in-pour')).toMatch(/^Tubing laid by its installer, .* Pressurize it/);
  });

  // Common practice, no source: mats planned for the pour do not take the old tubes out of the slab.
  it('keeps machines off old heat in the slab when new mats are planned', () => {
    const marks = [mark('crack')];
    const old = (floor: FloorInput): FloorInput => ({ ...floor, marks, layers: [...floor.layers, layer('radiant-heating')] });
    const both = old(heated('electric-in-pour'));
    expect(inputOf(both).findings.map(({ ruleId }) => ruleId)).toEqual(expect.arrayContaining(['radiant-heat', 'heat-in-pour']));
    expect(line(listOf(both), 'abrade')?.what).toMatch(/lightly by hand\. Do not grind over the heat/);
    expect(heldBy(both, 'fill-cracks')).toEqual([]);
    expect(line(listOf(both), 'fill-cracks')).toMatchObject({ what: expect.stringContaining('fill them by hand'), dust: null });
    expect(inputOf(both).findings.find(({ ruleId }) => ruleId === 'joint-still')?.text).toContain('Do not open or cut it here');
    const dry = { ...both, tests: [], flooring: 'resilient' as const };
    expect(inputOf(dry).findings.map(({ ruleId }) => ruleId)).toContain('holes-over-heat');
    const mats = { ...heated('electric-in-pour'), marks };
    expect(heldBy(mats, 'fill-cracks')).toEqual([]);
    expect(line(listOf(mats), 'abrade')?.what).toMatch(/mechanically/);
  });

  it('asks for no screws and lath over wood where heat in the floor holds them', () => {
    const wood = (radiantHeat: 'in-floor' | 'none') =>
      inputOf({ ...BOARDS, circumstances: { ...BOARDS.circumstances, radiantHeat } }).findings.filter(({ text }) =>
        /[Ss]crew|lath/.test(text),
      );
    expect(wood('in-floor')).toEqual([]);
    expect(wood('none').map(({ ruleId }) => ruleId)).toEqual(['wood-fastening']);
  });

  // The heat stays, so what waits for it never comes: the other way out is the one that is left.
  it('gives first the way out that needs no drilling, for planks, OSB and a loose subfloor', () => {
    const text = (top: Layer, radiantHeat: 'in-floor' | 'none' | null, ruleId: string) => {
      const floor = { ...BOARDS, layers: [top, layer('joists')], circumstances: { ...BOARDS.circumstances, radiantHeat } };
      return inputOf(floor).findings.find((one) => one.ruleId === ruleId)?.text;
    };
    const ruledOut = ' Otherwise fasten only clear of the radiant heat, once it is located.';
    const planks = layer('boards');
    expect(text(planks, 'in-floor', 'wood-build-up')).toBe(
      `Most data sheets do not allow planks. Choose a product that names planks.${ruledOut}`,
    );
    expect(text(planks, 'none', 'wood-build-up')).toContain('screw plywood over them');
    expect(text(layer('osb'), 'in-floor', 'wood-build-up')).toBe(
      `Most data sheets allow plywood but not OSB. Choose a product whose data sheet names OSB.${ruledOut}`,
    );
    const panels = 'Particleboard, hardboard, lauan, and fire-treated or pressure-treated panels swell or debond. Remove them';
    expect(text(layer('particleboard'), 'in-floor', 'particleboard')).toBe(`${panels}.${ruledOut}`);
    expect(text(layer('particleboard'), 'none', 'particleboard')).toBe(`${panels}, or cover them with plywood screwed to the joists.`);
    const loose = layer('plywood', { sound: 'loose' });
    expect(text(loose, 'in-floor', 'layer-loose')).toBe(`A moving substrate cracks the underlayment. Plan to remove the layer.${ruledOut}`);
    expect(text(loose, 'none', 'layer-loose')).toContain('Fasten the layer or remove it');
  });

  // Common practice, no source: only wood on joists is fastened again. Prep takes any other loose layer off.
  it('speaks of fastening only for a loose layer that is fastened again', () => {
    const text = (radiantHeat: 'in-floor' | 'none', ...layers: Layer[]) => {
      const floor = { ...SLAB, layers, circumstances: { ...SLAB.circumstances, radiantHeat } };
      return inputOf(floor).findings.find(({ ruleId }) => ruleId === 'layer-loose')?.text;
    };
    const off = 'A moving substrate cracks the underlayment. Remove what is loose down to a sound layer, then mark it sound.';
    for (const heat of ['in-floor', 'none'] as const)
      for (const material of ['ceramic-tile', 'adhesive-other', 'old-leveling', 'plywood'] as const)
        expect(text(heat, layer(material, { sound: 'loose' }), ...SLAB.layers), material).toBe(off);
    expect(text('none', layer('radiant-heating', { sound: 'loose' }), ...SLAB.layers)).toMatch(
      /^Loose mats or tubing rise into the pour\./,
    );
  });

  // 29 CFR 1926.1101: with asbestos that stays nothing is lifted out either.
  it('gives no way out that a hazard rules out too', () => {
    const felt = layer('underlay-felt', { id: 'felt' });
    const floor = { ...BOARDS, layers: [layer('plywood', { sound: 'loose' }), felt, layer('joists')] };
    const found = { ...floor, tests: [...floor.tests, test.lab({ layerId: 'felt', state: 'found' })] };
    const text = (of: FloorInput) => inputOf(of).findings.find(({ ruleId }) => ruleId === 'layer-loose')?.text;
    expect(text(found)).toBe('No drilling or removal here until “felt or black paper” is settled.');
  });

  it('says to wait where a question or a lab result may still allow the drilling', () => {
    const waits = (title: string) => `No drilling here until “${title}” is settled.`;
    const found = (radiantHeat: 'unknown' | 'none' | null, sound: Layer['sound'], ...over: Layer[]) => {
      const circumstances = { ...BOARDS.circumstances, radiantHeat };
      const layers = [...over, layer('boards', { sound }), layer('joists')];
      return inputOf({ ...BOARDS, circumstances, layers }).findings.filter(({ ruleId }) =>
        ['wood-build-up', 'layer-loose'].includes(ruleId),
      );
    };
    const texts = (...floor: Parameters<typeof found>) => found(...floor).map(({ text }) => text);
    for (const heat of ['unknown', null] as const)
      expect(texts(heat, 'loose')).toEqual([waits('radiant floor heat not checked'), waits('radiant floor heat not checked')]);
    const tile = layer('resilient-tile', { yearInstalled: 1960, fate: 'remove' });
    expect(texts('none', 'sound', tile)).toEqual([waits('resilient tile')]);
    expect(found(null, 'loose', tile).flatMap(({ does }) => does)).toEqual([]);
  });

  it('rules out the drilling where mats that lie on the floor do, whatever else is open', () => {
    const mats = [layer('radiant-heating'), layer('boards'), layer('joists')];
    const tile = layer('resilient-tile', { yearInstalled: 1960, fate: 'remove' });
    for (const layers of [mats, [tile, ...mats]])
      expect(inputOf({ ...BOARDS, layers }).findings.find(({ ruleId }) => ruleId === 'wood-build-up')?.text).toContain(
        'names planks. No drilling here: “radiant heat on this floor” rules it out.',
      );
    const panels = [layer('radiant-heating'), layer('particleboard'), layer('joists')];
    expect(inputOf({ ...BOARDS, layers: panels }).findings.find(({ ruleId }) => ruleId === 'particleboard')?.text).toMatch(
      /Remove them\. No drilling here: “radiant heat on this floor” rules it out\.$/,
    );
  });

  // ASTM F2873 and common practice: wood is fastened before mats or tubing are laid, and nothing goes through them afterwards.
  it('asks whether wood was fastened under heat that was there, and has no screws, plywood or lath over it', () => {
    const under = (laid: Layer['laid'], top: Layer['material']): FloorInput => ({
      ...BOARDS,
      layers: [layer('radiant-heating', laid === undefined ? {} : { laid }), layer(top), layer('joists')],
    });
    const keys = (floor: FloorInput) => listOf(floor).map(({ key }) => key);
    const asked = (floor: FloorInput) => inputOf(floor).findings.find(({ ruleId }) => ruleId === 'wood-under-heat');
    for (const top of ['plywood', 'boards'] as const) {
      for (const key of ['refasten', 'plywood', 'reinforce']) expect(keys(under(undefined, top)), key).not.toContain(key);
      expect(asked(under(undefined, top))).toMatchObject({ verdict: 'hold', holds: ['pour'], clearedBy: 'reason' });
      expect(keys(under('after-readings', top))).toEqual(expect.arrayContaining(['refasten', 'reinforce']));
      expect(asked(under('after-readings', top))).toBeUndefined();
    }
    // Heat under a placed lift cannot be taken up before the next one.
    expect(asked(under(undefined, 'plywood'))?.text).toContain('have the heat taken up first');
    expect(asked({ ...under(undefined, 'plywood'), isPouredOver: true })?.text).toMatch(/approval in writing\.$/);
    const tested = (laid: Layer['laid']) => line(listOf(under(laid, 'plywood')), 'heat-test')?.what;
    expect(tested(undefined)).toMatch(/^Have the installer of the heat test/);
    expect(tested('after-readings')).toMatch(/^Mats or tubing laid by/);
  });

  it('cuts and grinds where there is no heat', () => {
    const floor = heated('none', { isPouredOver: true });
    for (const key of ['patch-ridge', 'patch-hollow', 'rest-edge']) expect(heldBy(floor, key, { rest }), key).toEqual([]);
    expect(line(listOf(floor, { rest }), 'rest-edge')).toMatchObject({ tasks: ['grind'], dust: 'hand-grinder' });
  });

  it('abrades between lifts by hand over heat, and does not ask for lath again over buried mats', () => {
    const between = (floor: FloorInput) => line(listOf({ ...floor, lifts: 2 }, { liftsUnder: 1 }), 'between-lifts');
    expect(between(SLAB)).toMatchObject({ tasks: ['grind'], dust: 'hand-grinder' });
    for (const heat of ['in-floor', 'electric-in-pour'] as const)
      expect(between(heated(heat))).toMatchObject({ what: expect.stringContaining('lightly by hand'), tasks: [], dust: null });
    const boards = (isPouredOver: boolean) =>
      line(listOf({ ...BOARDS, isPouredOver, circumstances: { ...BOARDS.circumstances, radiantHeat: 'electric-in-pour' } }), 'reinforce');
    expect([boards(false) === undefined, boards(true) === undefined]).toEqual([false, true]);
  });

  // 29 CFR 1926.1153 Table 1 (ii), handheld power saws: water, APF 10 indoors (the California copy, 8 CCR 1532.3).
  it('saws joints with water and a respirator, and forms them where nothing may be cut', () => {
    const marks = [mark('crack', { moves: 'moving' })];
    const joints = (floor: FloorInput) => line(listOf({ ...floor, marks }), 'carry-joints');
    const sawn = joints(SLAB);
    expect(sawn).toMatchObject({ tasks: ['grind'], cautions: ['silica', 'tendons'], dust: 'hand-saw' });
    expect(dustWords(sawn?.dust ?? 'drill', sawn?.hours ?? 0)).toMatch(/APF 10.*Water.*Table 1 \(ii\)/);
    const tile = layer('resilient-tile', { id: 'tile', yearInstalled: 1970 });
    const found = { ...SLAB, layers: [tile, ...SLAB.layers], tests: [...SLAB.tests, test.lab({ layerId: 'tile', state: 'found' })] };
    for (const floor of [heated('in-floor'), heated('electric-in-pour'), heated(null), found])
      expect(joints(floor)).toMatchObject({
        what: expect.stringContaining('form them before the pour. Do not saw'),
        tasks: [],
        dust: null,
      });
  });
});
