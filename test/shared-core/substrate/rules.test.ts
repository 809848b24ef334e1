import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { FloorInput } from '../../../shared-core/substrate/floor-facts.ts';
import { findingsOf, holdsOn, RULES, verdictOf } from '../../../shared-core/substrate/rules.ts';
import { DISTURBING, type Finding } from '../../../shared-core/substrate/rule.ts';
import { wordingFor } from '../../../shared-core/substrate/wording.ts';
import { rampPlane } from '../../../shared-core/survey/plane.ts';
import { BOARDS, doorsOf, factsOf, layer, mark, opening, SLAB, test, without, withTests } from './a-floor.ts';
import { RULE_SIDES } from './rule-sides.ts';

const US = wordingFor('us', 'en-US');
const METRIC = wordingFor('metric', 'en-US');
const find = (floor: FloorInput) => findingsOf(factsOf(floor), US);
const ids = (floor: FloorInput): readonly string[] => find(floor).map((finding) => finding.ruleId);
/** Sentences of a finding; `in.` before a word does not end one. */
const sentences = (text: string): readonly string[] => text.split(/(?<! in)[.?!](?=\s|$)/).filter((part) => part.trim() !== '');

describe('the table of rules', () => {
  it('says of each rule when it applies and where it comes from, and blocks nothing on a go', () => {
    expect(new Set(RULES.map(({ id }) => id)).size).toBe(RULES.length);
    for (const { id, reads, source, holds, verdict } of RULES) {
      expect(reads.length, id).toBeGreaterThan(10);
      expect(source.length, id).toBeGreaterThan(5);
      expect(holds.length === 0 || verdict !== 'go', id).toBe(true);
    }
  });

  it('has both sides of every rule tested', () => {
    expect(Object.keys(RULE_SIDES).toSorted()).toEqual(RULES.map((rule) => rule.id).toSorted());
  });

  it.each(RULES.map((rule) => rule.id))('%s applies on one side of its limit and not on the other', (id) => {
    const sides = RULE_SIDES[id];
    if (sides === undefined) throw new Error(`no sides for ${id}`);
    expect(ids(sides.speaks)).toContain(id);
    expect(ids(sides.silent)).not.toContain(id);
  });

  it.each(RULES.map((rule) => rule.id))('%s has short plain sentences, and says what clears it', (id) => {
    const sides = RULE_SIDES[id];
    if (sides === undefined) throw new Error(`no sides for ${id}`);
    for (const wording of [US, METRIC]) {
      const finding = findingsOf(factsOf(sides.speaks), wording).find((one) => one.ruleId === id);
      if (finding === undefined) throw new Error(`${id} is silent`);
      expect(finding.text).not.toMatch(/NaN|undefined|null|—|Infinity/);
      for (const sentence of sentences(finding.text)) expect(sentence.split(/\s+/).length, sentence).toBeLessThanOrEqual(26);
      expect(finding.text.length, finding.text).toBeLessThan(260);
      expect(finding.text).toMatch(/[.]$/);
      expect(finding.title).not.toBe('');
      expect(finding.source).not.toBe('');
      expect(finding.lifts).toMatch(/^(room|jobRoom)\.[A-Za-z]/);
    }
  });
});

describe('a floor as a whole', () => {
  it('is Go when it is dry, sound, tested and fully known', () => {
    expect(find(SLAB).filter((finding) => finding.verdict !== 'go')).toEqual([]);
    expect(verdictOf(find(SLAB))).toBe('go');
  });

  it('is never passed on a missing reading: without any required test it is not Go', () => {
    for (const floor of [SLAB, BOARDS]) {
      for (const need of factsOf(floor).needs) {
        const untested = need.accepts.reduce((rest, kind) => without(rest, kind), floor);
        const findings = find(untested);
        expect(holdsOn(findings, 'pour').length, need.id).toBeGreaterThan(0);
        expect(verdictOf(findings), need.id).not.toBe('go');
      }
    }
  });

  it('has only holds with nothing recorded', () => {
    const empty: FloorInput = { ...SLAB, layers: [], tests: [], areaM2: null, air: null, flooring: null, product: null };
    expect(verdictOf(find(empty))).toBe('hold');
    expect(verdictOf([])).toBe('hold');
  });

  it('holds a humid slab for glued wood and not when left bare', () => {
    const damp = withTests(SLAB, ...[1, 2, 3].map((i) => test.humidity({ id: `rh-${i}`, relativeHumidity: 0.84 })));
    expect(verdictOf(find(damp))).toBe('hold');
    expect(ids({ ...damp, flooring: 'bare-sealed' })).not.toContain('slab-humid');
    expect(verdictOf(find({ ...damp, hasMoistureSystem: true }))).toBe('go-with-work');
  });

  it('uses the flooring manufacturer’s own limit over the published one, stricter or looser, and says so', () => {
    const own = (slabHumidity: number): FloorInput => ({
      ...withTests(SLAB, ...[1, 2, 3].map((i) => test.humidity({ id: `rh-${i}`, relativeHumidity: 0.84 }))),
      flooringLimits: {
        slabHumidity,
        emissionLb: null,
        woodMoisture: null,
        withoutHoles: null,
        flatnessGapM: null,
        flatnessSpanM: null,
        statedIn: 'leaflet of March 2026',
      },
    });
    expect(ids(own(0.84))).toContain('slab-dry');
    const strict = find(own(0.65)).find((finding) => finding.ruleId === 'slab-humid');
    expect(strict?.text).toContain('the flooring manufacturer’s limit');
    expect(strict?.source).toContain('leaflet of March 2026');
    expect(find({ ...own(0.65), flooringLimits: null }).find((finding) => finding.ruleId === 'slab-humid')?.source).toContain('NWFA');
  });

  it('holds everything that raises dust over flooring of unknown age, until there is a lab result', () => {
    const kitchen: FloorInput = {
      ...SLAB,
      yearBuilt: 1962,
      layers: [
        layer('sheet-flooring', { id: 'sheet', yearInstalled: null, fate: 'remove' }),
        layer('adhesive-unknown', { id: 'glue', yearInstalled: null, fate: 'remove' }),
        ...SLAB.layers,
      ],
    };
    for (const task of [...DISTURBING, 'pour'] as const) expect(holdsOn(find(kitchen), task)).toHaveLength(2);
    const half: FloorInput = { ...kitchen, tests: [...kitchen.tests, test.lab({ id: 'lab-s', layerId: 'sheet' })] };
    expect(holdsOn(find(half), 'scrape')).toHaveLength(1);
    const whole: FloorInput = { ...half, tests: [...half.tests, test.lab({ id: 'lab-g', layerId: 'glue' })] };
    expect(holdsOn(find(whole), 'scrape')).toEqual([]);
    expect(verdictOf(find(whole))).toBe('go');
  });

  // Common practice, no source: 28 days. Days by the calendar: 28 before January 28, 2026 is December 31, before January 29 January 1.
  it('asks for the day concrete was placed until 28 days of its year have passed, and not over a pour', () => {
    const asks = (today: string, change: Partial<FloorInput> = {}) =>
      ids({ ...SLAB, layers: [layer('concrete-suspended', { yearInstalled: 2025 })], today, ...change }).includes('concrete-new');
    expect(['2025-11-30', '2026-01-28', '2026-01-29'].map((day) => asks(day))).toEqual([true, true, false]);
    const undated = [layer('concrete-on-ground', { yearInstalled: null })];
    expect([2025, 2024, null].map((yearBuilt) => asks('2025-11-30', { layers: undated, yearBuilt }))).toEqual([true, false, false]);
    expect(asks('2025-11-30', { isPouredOver: true })).toBe(false);
    const [found] = find({ ...SLAB, layers: [layer('concrete-on-ground', { yearInstalled: 2026 })] }).filter(({ holds }) =>
      holds.includes('pour'),
    );
    expect(found).toMatchObject({ ruleId: 'concrete-new', verdict: 'hold', clearedBy: 'reason' });
  });

  // Common practice, no source: data sheets are for dry floors indoors.
  it('holds a pour outdoors or where it is often wet until a reason is recorded, and asks where there is a drain', () => {
    const of = (outdoorsOrWet: boolean | null) => ({
      ...SLAB,
      circumstances: { ...SLAB.circumstances, outdoorsOrWet, fixtures: ['floor-drain' as const] },
    });
    expect([true, false, null].map((is) => holdsOn(find(of(is)), 'pour').map(({ ruleId }) => ruleId))).toEqual([
      ['outdoors-or-wet'],
      [],
      ['wet-unasked'],
    ]);
    expect(verdictOf(find(of(true)))).toBe('hold');
    expect(find(of(true)).find(({ ruleId }) => ruleId === 'outdoors-or-wet')).toMatchObject({ clearedBy: 'reason' });
  });

  // Common practice, no source: a drain counts wherever it is recorded. A cutout is in assess-room.test.ts. A garage floor falls to a drain
  // or to its vehicle door: IRC R309.1, from memory.
  it('asks for the slope to a drain that is a mark or a fixture, or to a vehicle door, before a level pour', () => {
    const circumstances = { ...SLAB.circumstances, slopeToDrain: null };
    for (const floor of [
      { ...SLAB, circumstances, marks: [mark('drain')] },
      { ...SLAB, circumstances: { ...circumstances, fixtures: ['floor-drain' as const] } },
      { ...SLAB, circumstances, ...doorsOf(opening({ kind: 'exterior-door', widthM: 2.5, adjoiningM: 0.01 })) },
    ]) {
      expect(holdsOn(find(floor), 'pour').map(({ ruleId }) => ruleId)).toEqual(['drain-unasked']);
      expect(ids({ ...floor, circumstances: { ...floor.circumstances, slopeToDrain: false } })).not.toContain('drain-unasked');
    }
  });

  // Common practice, no source: water runs down to the low end of a plane, and stands there without a drain.
  it('lets a ramp keep the slope to a drain only with its low end there', () => {
    const drainAt = (xM: number) => [mark('drain', { shape: 'spot', points: [{ xM, yM: 1.5 }] })];
    const ramp = (heights: readonly number[], marks: FloorInput['marks']): Finding | undefined => {
      const plane = rampPlane(heights.map((heightM, i) => ({ point: { xM: 4 * i, yM: 1.5 }, heightM })));
      const floor: FloorInput = { ...SLAB, marks, level: { mode: 'ramp', ramp: plane.ok ? plane.plane : null } };
      const found = find({ ...floor, circumstances: { ...SLAB.circumstances, slopeToDrain: true } });
      return found.find(({ title }) => title === 'slope to drain');
    };
    const [held, kept] = [{ ruleId: 'fall-leveled', verdict: 'hold' }, { ruleId: 'fall-kept' }];
    // 13/16 in. at both ends, and none entered.
    const flat = { ...held, text: expect.stringMatching(/has no slope/) };
    for (const heights of [[0.0206, 0.0206], [0.0206], []]) expect(ramp(heights, drainAt(3.9))).toMatchObject(flat);
    // Past a drain in the middle of the room, and away from one.
    const past = { ...held, text: expect.stringMatching(/low end of the ramp is not at the drain/) };
    expect([ramp([0.06, 0.01], drainAt(2)), ramp([0.01, 0.06], drainAt(3.9))]).toMatchObject([past, past]);
    expect(ramp([0.06, 0.01], drainAt(3.9))).toMatchObject({
      ...kept,
      text: expect.stringMatching(/^The ramp makes a new slope to the drain/),
    });
    expect(ramp([0.01, 0.06], drainAt(0.1))).toMatchObject(kept);
    expect(ramp([0.01, 0.06], [])).toMatchObject({ ...kept, text: expect.stringMatching(/not drawn on the plan/) });
  });

  // Common practice, no source: trim that is covered and left alone says nothing of the paint on the floor.
  it('lets floor paint that a lab found free of lead come off beside untested trim that stays, and no other floor paint', () => {
    const paintedFloor = (...tests: FloorInput['tests'][number][]): FloorInput => ({
      ...SLAB,
      yearBuilt: 1955,
      circumstances: { ...SLAB.circumstances, paintedTrim: 'stays-untouched' },
      layers: [layer('paint-or-sealer', { id: 'paint', yearInstalled: null }), ...SLAB.layers],
      tests: [...SLAB.tests, ...tests],
    });
    const lab = test.lab({ question: 'lead-paint', layerId: 'paint' });
    const holders = (floor: FloorInput) => holdsOn(find(floor), 'disturb-paint').map(({ ruleId }) => ruleId);
    expect(ids(paintedFloor(lab))).toContain('lead-untouched');
    expect(holders(paintedFloor(lab))).not.toContain('lead-untouched');
    expect(
      find(paintedFloor(lab))
        .map(({ text }) => text)
        .join(' '),
    ).not.toContain('No disturbing paint here yet');
    expect(holders(paintedFloor())).toContain('lead-floor');
  });

  it('holds sanding of old paint without holding the pour', () => {
    const findings = find({
      ...SLAB,
      yearBuilt: 1938,
      circumstances: { ...SLAB.circumstances, paintedTrim: 'to-be-disturbed', baseboardHeightM: null },
    });
    expect(holdsOn(findings, 'disturb-paint')).toHaveLength(1);
    expect(holdsOn(findings, 'pour')).toEqual([]);
    expect(verdictOf(findings)).toBe('go-with-work');
  });

  it('neither passes nor holds an unknown weight', () => {
    const unknown: readonly FloorInput[] = [
      { ...BOARDS, addedLoadPa: null },
      { ...BOARDS, circumstances: { ...BOARDS.circumstances, allowedExtraLoadPa: null } },
    ];
    for (const floor of unknown) expect(ids(floor).filter((id) => id === 'load-over' || id === 'load-within')).toEqual([]);
  });

  it('refers joists that deflect too far to a structural engineer', () => {
    const found = find(withTests(BOARDS, test.deflection({ spanM: 6 }))).find((finding) => finding.ruleId === 'deflection-over');
    expect(found?.text).toContain('structural engineer');
  });

  // Common practice, no source: stone and tile take up no water, so a drop that stays on them says nothing of what closes concrete.
  it('finds concrete that beads water only where concrete, a mortar bed or old underlayment is poured on', () => {
    const beading = withTests(without(SLAB, 'drop-absorption'), test.drop('a', null));
    const on = (material: Parameters<typeof layer>[0]) => ids({ ...beading, layers: [layer(material), ...SLAB.layers] });
    for (const open of ['concrete-suspended', 'screed', 'old-leveling'] as const) expect(on(open), open).toContain('beads-water');
    for (const dense of ['terrazzo', 'ceramic-tile', 'stone-tile'] as const) expect(on(dense), dense).not.toContain('beads-water');
  });

  // Common practice, no source: each of these holds advises to cover the layer, or says that it must not be poured on.
  it.each([
    ['particleboard', 'plywood', 'particleboard'],
    ['sheet-flooring', 'plywood', 'sheet-stays'],
    ['underlay-felt', 'wood-flooring', 'soft-layer'],
    ['membrane', 'plywood', 'unproven-top'],
    ['unknown', 'plywood', 'unproven-top'],
  ] as const)('holds a pour on %s, and not once %s covers it', (material, cover, rule) => {
    const floor = { ...BOARDS, layers: [layer(material), ...BOARDS.layers] };
    expect(holdsOn(find(floor), 'pour').map(({ ruleId }) => ruleId)).toContain(rule);
    expect(ids({ ...floor, layers: [layer(cover), ...floor.layers] })).not.toContain(rule);
  });

  // Common practice, no source: a manufacturer approves in writing what its data sheet does not name.
  it('holds a pour on a membrane or an unknown layer until a reason is recorded, or it is removed', () => {
    for (const material of ['membrane', 'unknown'] as const) {
      const floor = { ...BOARDS, layers: [layer(material), ...BOARDS.layers] };
      const hold = find(floor).find(({ ruleId }) => ruleId === 'unproven-top');
      expect(hold).toMatchObject({ verdict: 'hold', clearedBy: 'reason', text: expect.stringContaining('approval in writing') });
      expect(verdictOf(find(floor))).toBe('hold');
      expect(verdictOf(find({ ...floor, layers: [layer(material, { fate: 'remove' }), ...BOARDS.layers] }))).toBe('go-with-work');
      const old = {
        ...floor,
        layers: [layer(material, { yearInstalled: null }), ...BOARDS.layers],
        tests: [...BOARDS.tests, test.lab({ layerId: `the-${material}`, state: 'sent' })],
      };
      expect(find(old).find(({ ruleId }) => ruleId === 'unproven-top')?.text).not.toContain('remove it');
    }
  });

  it('holds carpet, pad and floating plank however they are covered', () => {
    for (const material of ['carpet', 'foam-pad', 'floating-plank'] as const)
      expect(ids({ ...BOARDS, layers: [layer('plywood'), layer(material), layer('joists')] })).toContain('soft-layer');
  });

  // Common practice, no source: load, stiffness and slab moisture are asked for by what carries the floor.
  it('is held while what carries it is not recorded, whatever else was tested', () => {
    for (const material of ['gypsum', 'ceramic-tile', 'screed', 'unknown'] as const) {
      const floor = { ...SLAB, layers: [layer(material)], addedLoadPa: 1484 };
      expect(holdsOn(find(floor), 'pour').map(({ ruleId }) => ruleId)).toContain('no-structure');
      for (const under of ['concrete-on-ground', 'concrete-suspended', 'boards', 'joists', 'earth'] as const)
        expect(ids({ ...floor, layers: [layer(material), layer(under)] })).not.toContain('no-structure');
      expect(ids({ ...floor, layers: [layer(material), layer('plywood', { fate: 'remove' })] })).toContain('no-structure');
    }
  });

  it('refuses a dish over underlayment and still requires the test (F1869 1.3)', () => {
    const floor: FloorInput = {
      ...without(SLAB, 'slab-humidity'),
      layers: [layer('old-leveling'), ...SLAB.layers],
      product: null,
    };
    const missing = find({ ...floor, tests: [...floor.tests, test.dish()] }).find(
      (finding) => finding.key === 'test-missing:slab-moisture',
    );
    expect(missing?.text).toContain('needs bare, ground concrete');
  });

  // Common practice, no source: tubes and cables lie in or on the slab a moisture test is drilled into.
  it('has radiant heat located before a moisture test, unless there is none or it is still to be laid', () => {
    const untested = without(SLAB, 'slab-humidity');
    const heated = (radiantHeat: FloorInput['circumstances']['radiantHeat']): FloorInput => ({
      ...untested,
      circumstances: { ...SLAB.circumstances, radiantHeat },
    });
    for (const heat of ['in-floor', null] as const) expect(ids(heated(heat))).toContain('holes-over-heat');
    for (const heat of ['none', 'electric-in-pour'] as const) expect(ids(heated(heat))).not.toContain('holes-over-heat');
    expect(ids({ ...untested, layers: [layer('radiant-heating'), ...SLAB.layers] })).toContain('holes-over-heat');
    expect(ids({ ...BOARDS, circumstances: { ...BOARDS.circumstances, radiantHeat: null } })).not.toContain('holes-over-heat');
  });

  // Common practice, no source: 3/8 in. of cover. 5/8 in. is the outside of 1/2 in. tubing (ASTM F876, from memory), 1/8 in. a typical mat.
  it('counts the cover over heat from its highest point, not from the floor', () => {
    const INCH = 0.0254;
    const over = (radiantHeat: 'hydronic-in-pour' | 'electric-in-pour', thickIn: number | null | undefined, depthIn: number) => {
      const mats = thickIn === undefined ? [] : [layer('radiant-heating', { thicknessM: thickIn === null ? null : thickIn * INCH })];
      const floor = { layers: [...mats, ...SLAB.layers], depth: { leastM: depthIn * INCH, mostM: 0.06 } };
      return find({ ...SLAB, ...floor, circumstances: { ...SLAB.circumstances, radiantHeat } }).filter(({ ruleId }) =>
        ['thin-over-heat', 'heat-thickness'].includes(ruleId),
      );
    };
    const bare = over('hydronic-in-pour', 0.625, 0.375);
    expect(bare.map(({ ruleId, holds }) => [ruleId, holds])).toEqual([['thin-over-heat', ['pour']]]);
    expect(bare[0]?.text).toMatch(/It needs 1″: ⅝″ of mat or tubing and ⅜″ of cover \(typical\)\./);
    expect(over('hydronic-in-pour', 0.625, 0.99)).toHaveLength(1);
    expect(over('hydronic-in-pour', 0.625, 1)).toEqual([]);
    expect(over('electric-in-pour', 0.25, 0.5)).toHaveLength(1);
    expect(over('electric-in-pour', undefined, 0.4)[0]?.text).toMatch(/⅛″ of mat or tubing \(typical\)/);
    for (const [thickIn, text] of [
      [null, /^Measure the heat/],
      [undefined, /^Once the heat is laid,.*Add “radiant floor heat” as the top layer/],
    ] as const) {
      const unknown = over('hydronic-in-pour', thickIn, 2);
      expect(unknown.map(({ ruleId, holds }) => [ruleId, holds])).toEqual([['heat-thickness', ['pour']]]);
      expect(unknown[0]?.text).toMatch(text);
      expect(unknown[0]?.text).toMatch(/plan for 1″ or more/);
    }
  });

  it('finds the same, in the same order, whatever order tests were entered in', () => {
    fc.assert(
      fc.property(fc.shuffledSubarray([...SLAB.tests], { minLength: SLAB.tests.length }), (tests) => {
        expect(find({ ...SLAB, tests })).toEqual(find(SLAB));
      }),
    );
  });
});
