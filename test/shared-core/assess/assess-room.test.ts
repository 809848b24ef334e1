import { describe, expect, it } from 'vitest';
import type { JobRoom } from '../../../shared-core/book/job.ts';
import type { Room } from '../../../shared-core/book/room.ts';
import { type AssessInput, airFacts, assessRoom } from '../../../shared-core/assess/assess-room.ts';
import { corner, input, JOB_ROOM, PROPERTY, ROOM } from './a-room.ts';
import { BOARDS, SLAB, CALM, clearance, layer, mark, NOW, opening, recorded, test } from '../substrate/a-floor.ts';

const ids = (change: Partial<AssessInput> = {}, room: Partial<Room> = {}) =>
  assessRoom(input(change, room)).findings.map((finding) => finding.ruleId);

describe('a room’s assessment', () => {
  it('is Go for a dry, sound, tested slab', () => {
    const { verdict, findings, holdsPour, questions, facts } = assessRoom(input());
    expect(findings.filter((finding) => finding.verdict !== 'go')).toEqual([]);
    expect(verdict).toBe('go');
    expect(holdsPour).toEqual([]);
    expect(questions).toEqual([]);
    expect(facts.areaM2).toBeCloseTo(12, 9);
  });

  it('holds a pour heavier than the one the engineer’s letter was recorded for', () => {
    const room: Partial<Room> = {
      ...{ layers: [...BOARDS.layers], tests: [...BOARDS.tests] },
      circumstances: { ...BOARDS.circumstances, allowedExtraLoadPa: 479 },
    };
    const letter = recorded('load-over', 'engineer-letter', 575);
    const at = (addedLoadPa: number) => {
      const { findings, holdsPour } = assessRoom(input({ addedLoadPa, jobRoom: { ...JOB_ROOM, overrides: [letter] } }, room));
      return [findings.find((finding) => finding.ruleId === 'load-over')?.verdict, holdsPour.some(({ ruleId }) => ruleId === 'load-over')];
    };
    expect(at(575)).toEqual(['go', false]);
    expect(at(2011)).toEqual(['hold', true]);
  });

  // Common practice, no source: a letter speaks of what the engineer was shown. IRC Table R301.7: L/360; stone L/720, second-hand.
  it('clears with an engineer’s letter only the sign and the deflection limit that it was recorded for', () => {
    const letterFor = (key: string) => ({ ...JOB_ROOM, overrides: [recorded(key, 'engineer-letter')] });
    const held = (room: Partial<Room>, jobRoom: JobRoom) =>
      assessRoom(input({ jobRoom }, room)).findings.flatMap(({ verdict, ruleId, title }) =>
        verdict === 'hold' && ['structure-sign', 'deflection-over'].includes(ruleId) ? [title] : [],
      );
    const signs = (...structureSigns: NonNullable<typeof CALM.structureSigns>) => ({ circumstances: { ...CALM, structureSigns } });
    const cleared = letterFor('structure-sign:stepped-crack');
    expect(held(signs('stepped-crack'), JOB_ROOM)).toEqual(['a crack over 1/8 in. wide or with a step']);
    expect(held(signs('stepped-crack'), cleared)).toEqual([]);
    expect(held(signs('stepped-crack', 'heave'), cleared)).toEqual(['slab heave or a void under the slab']);

    const weak = { layers: [...BOARDS.layers], tests: [...BOARDS.tests.filter(({ kind }) => kind !== 'floor-deflection')] };
    const joists = { ...weak, tests: [...weak.tests, test.deflection({ spanM: 5 })] };
    const under = (flooring: JobRoom['flooring']) => held(joists, { ...letterFor('deflection-over:L/360'), flooring });
    expect(held(joists, JOB_ROOM)).toEqual(['joist deflection']);
    expect(under('wood-glued')).toEqual([]);
    expect(under('stone-tile')).toEqual(['joist deflection']);
  });

  it('holds a kitchen of 1962 with sheet flooring over unknown adhesive, and a lab result clears it', () => {
    const layers = [
      layer('sheet-flooring', { id: 'sheet', yearInstalled: 1974, fate: 'remove' }),
      layer('adhesive-unknown', { id: 'glue', yearInstalled: null, fate: 'remove' }),
      ...SLAB.layers,
    ];
    const property = { ...PROPERTY, yearBuilt: 1962 };
    expect(assessRoom(input({ property }, { layers })).verdict).toBe('hold');
    const answers = [test.lab({ id: 'lab-1', layerId: 'sheet' }), test.lab({ id: 'lab-2', layerId: 'glue' })];
    expect(assessRoom(input({ property }, { layers, tests: [...ROOM.tests, ...answers] })).verdict).toBe('go');
  });

  // ASTM F2170 clause 7.1: no holes in flooring or adhesive with asbestos. A clearance says that it is gone.
  it('holds the test holes until the clearance of the layer, or the lead firm, is recorded', () => {
    const layers = [layer('resilient-tile', { id: 'tile', yearInstalled: 1970, fate: 'remove' }), ...SLAB.layers];
    const tests = [...ROOM.tests.filter(({ kind }) => kind !== 'slab-humidity'), test.lab({ layerId: 'tile', state: 'found' })];
    const drills = (overrides: JobRoom['overrides'], room: Partial<Room>, property = PROPERTY) =>
      assessRoom(input({ property, jobRoom: { ...JOB_ROOM, overrides } }, room)).findings.flatMap(({ ruleId, holds }) =>
        holds.includes('drill') || holds.includes('grind') ? [ruleId] : [],
      );
    expect(drills([], { layers, tests })).toEqual(['asbestos-found-out', 'holes-in-hazard']);
    expect(drills([clearance('tile')], { layers, tests })).toEqual([]);

    const painted = { layers: [layer('paint-or-sealer', { id: 'paint', yearInstalled: null }), ...SLAB.layers], tests: tests.slice(0, -1) };
    const old = { ...PROPERTY, yearBuilt: 1950 };
    expect(drills([], painted, old)).toEqual(['lead-floor', 'holes-in-hazard']);
    expect(drills([recorded('lead-floor:paint', 'lead-firm')], painted, old)).toEqual([]);
  });

  it('uses the property’s own time zone for the day of a result', () => {
    const tile = layer('resilient-tile', { id: 'tile', yearInstalled: 1970, fate: 'remove' });
    const tests = [...ROOM.tests, test.lab({ layerId: 'tile', resultOn: '2026-05-04' })];
    // 03:30 UTC on May 5 is still May 4 in New York, and already May 5 in Auckland.
    const resultsOn = (timeZone: string, resultOn: string) =>
      ids(
        { now: '2026-05-05T03:30:00Z', property: { ...PROPERTY, timeZone } },
        { layers: [tile, ...ROOM.layers], tests: tests.map((one) => (one.kind === 'lab' ? { ...one, resultOn } : one)) },
      );
    expect(resultsOn('America/New_York', '2026-05-04')).toContain('asbestos-none');
    expect(resultsOn('America/New_York', '2026-05-05')).toContain('asbestos-answer-incomplete');
    expect(resultsOn('Pacific/Auckland', '2026-05-05')).toContain('asbestos-none');
  });

  it('reads dew point, margin and evaporation from the day’s air, by the rule of the unit system', () => {
    const tests = [
      ...ROOM.tests.filter((one) => one.kind !== 'air'),
      test.air({ airTempC: 25, relativeHumidity: 0.8, surfaceTempC: 24.2 }),
    ];
    expect(ids({ units: 'us' }, { tests })).toContain('dew-clear');
    expect(ids({ units: 'metric' }, { tests })).toContain('dew-close');
    const air = airFacts(tests, 'metric', NOW);
    expect(air?.dewPointC).toBeCloseTo(21.309, 1);
    expect(air?.evaporationKgM2H).toBeGreaterThan(0);
  });

  it('does not use air that is too old, without a surface temperature, or of tomorrow', () => {
    expect(airFacts([test.air()], 'us', '2026-05-05T00:00:01Z')).toBeNull();
    expect(airFacts([test.air({ takenAt: '2026-05-05T00:00:00Z' })], 'us', NOW)).toBeNull();
    expect(airFacts([test.air({ surfaceTempC: null })], 'us', NOW)).toMatchObject({ marginC: null, evaporationKgM2H: null });
    expect(airFacts([test.air({ airSpeedMPerS: null })], 'us', NOW)?.evaporationKgM2H).toBeNull();
    const blind = [...ROOM.tests.filter((one) => one.kind !== 'air'), test.air({ surfaceTempC: null })];
    expect(ids({}, { tests: blind })).toContain('air-on-the-day');
    expect(ids({}, { tests: blind })).not.toContain('dew-clear');
  });

  it('takes the latest air that is not of tomorrow, and says what it cannot know', () => {
    const morning = test.air({ id: 'air-2', takenAt: '2026-05-04T14:00:00Z', airTempC: 22 });
    const tomorrow = test.air({ id: 'air-3', takenAt: '2026-05-05T14:00:00Z' });
    expect(airFacts([test.air(), morning, tomorrow], 'us', NOW)?.test.id).toBe('air-2');
    expect(airFacts([test.air({ takenAt: NOW })], 'us', NOW)).not.toBeNull();
    // With no floor temperature there is neither a dew margin nor a drying rate; in moving air not measured, no rate.
    expect(airFacts([test.air({ surfaceTempC: null })], 'us', NOW)).toMatchObject({
      dewPointC: null,
      marginC: null,
      marginPasses: false,
      evaporationKgM2H: null,
      condenses: false,
    });
    const still = airFacts([test.air({ airSpeedMPerS: null })], 'us', NOW);
    expect(still?.evaporationKgM2H).toBeNull();
    // 20 °C at 50% has a dew point of 9.3 °C (psychrometric chart), 8.7 °C under a floor of 18 °C.
    expect(still?.dewPointC).toBeCloseTo(9.3, 1);
    expect(still?.marginC).toBeCloseTo(8.7, 1);
    expect(still?.marginPasses).toBe(true);
  });

  it('reads drains, stairs, the walls’ length, and the product from the records', () => {
    const holes = (['drain', 'stair', 'column'] as const).map((kind, i) => ({
      id: kind,
      kind,
      name: '',
      corners: [corner(1 + i, 1), corner(1.2 + i, 1), corner(1.2 + i, 1.2)],
    }));
    const of = (kinds: readonly string[]) => {
      const plan = {
        ...ROOM.plan,
        holes: holes.filter(({ kind }) => kinds.includes(kind)),
        openings: [opening({ id: 'b' }), opening({ id: 'a' })],
      };
      return assessRoom(input({}, { plan, marks: [mark('crack', { id: 'm2' }), mark('crack', { id: 'm1' })] })).facts;
    };
    const asksSlope = (kinds: readonly string[]) => {
      const circumstances = { ...ROOM.circumstances, slopeToDrain: null };
      const plan = { ...ROOM.plan, holes: holes.filter(({ kind }) => kinds.includes(kind)) };
      return assessRoom(input({}, { plan, circumstances })).findings.some(({ ruleId }) => ruleId === 'drain-unasked');
    };
    expect([asksSlope(['drain']), asksSlope(['stair', 'column'])]).toEqual([true, false]);
    expect([of(['stair']).hasStair, of(['drain', 'column']).hasStair]).toEqual([true, false]);
    expect(of([]).openings.map(({ id }) => id)).toEqual(['a', 'b']);
    expect(of([]).marks.map(({ id }) => id)).toEqual(['m1', 'm2']);
    // Walls of 14 m less two doors of 0.9 m.
    expect(of([]).baseboardM).toBeCloseTo(12.2, 9);
    expect(assessRoom(input({}, { plan: { ...ROOM.plan, outline: [] } })).facts).toMatchObject({ baseboardM: null, areaM2: null });
    expect(assessRoom(input({ jobRoom: null })).facts).toMatchObject({
      flooring: null,
      flooringLimits: null,
      level: { mode: 'level', ramp: null },
      product: null,
    });
  });

  it('warns of condensation from warm damp air on a cold floor', () => {
    const tests = [
      ...ROOM.tests.filter((one) => one.kind !== 'air'),
      test.air({ airTempC: 26.67, relativeHumidity: 0.9, surfaceTempC: 21.11 }),
    ];
    expect(ids({}, { tests })).toContain('water-settles');
  });

  it('asks about odd readings and years, and counts no reading of tomorrow', () => {
    const tests = ROOM.tests.map((one) => (one.kind === 'slab-humidity' ? { ...one, takenAt: '2026-05-06T12:00:00Z' } : one));
    const { questions, findings } = assessRoom(input({}, { tests, layers: [layer('concrete-on-ground', { yearInstalled: 1990 })] }));
    expect(questions.map((question) => question.about)).toEqual([
      'room.tests.rh-1',
      'room.tests.rh-2',
      'room.tests.rh-3',
      'room.layers.the-concrete-on-ground',
    ]);
    expect(findings.map((finding) => finding.key)).toContain('test-missing:slab-moisture');
  });

  it('holds a room that is neither drawn nor described', () => {
    const empty = assessRoom(input({ jobRoom: null }, { plan: { ...ROOM.plan, outline: [], openings: [] }, layers: [], tests: [] }));
    expect(empty.verdict).toBe('hold');
    expect(empty.findings.map((finding) => finding.ruleId)).toContain('no-outline');
  });
});
