import { describe, expect, it } from 'vitest';
import { type Layer, layerSchema } from '../../../shared-core/book/layer.ts';
import type { PowderSheet } from '../../../shared-core/book/material.ts';
import type { Room } from '../../../shared-core/book/room.ts';
import { taskOfLine } from '../../../shared-core/learn/logged-hours.ts';
import { roomAmounts } from '../../../shared-core/material/room-amounts.ts';
import { type RoomTakeoff, takeoff, type TakeoffChoices } from '../../../shared-core/material/takeoff.ts';
import { layerMassKg } from '../../../shared-core/material/weight.ts';
import { hoursFor } from '../../../shared-core/prep/task-hours.ts';
import { substrateClass } from '../../../shared-core/substrate/primed-substrate.ts';
import { POWDER } from '../agenda/bundle-fixture.ts';
import { by, CHOICE, FILL, NEW_SLAB, room } from './a-room.ts';
import { line, listOf } from '../prep/prep-lines.ts';
import { layer, LEFT_HALF, opening, powder, SLAB, STRIP, test } from '../substrate/a-floor.ts';

type Named = PowderSheet['bondsTo'];
const amounts = (layers: Room['layers']) => roomAmounts(room(layers), CHOICE, FILL, by());
const slab = layer('concrete-on-ground');
const CHOICES: TakeoffChoices = {
  ...{ material: { ...POWDER, powder: powder() }, primer: null, withAggregate: false, usualLossShare: 0.05, bagPercentile: 80 },
  ...{ bagsPerBatch: 1, bucketL: 60, mixers: 1, helpers: 1, laterSections: 0, isTakenAlong: false, plannedMinutes: null },
};

// Areas by hand: the room is 4 m by 3 m, a half 6 m², the strip 3 m².
describe('the amounts of a room', () => {
  it('abrade and reinforce only the parts of a floor that need it', () => {
    expect(amounts([slab]).abradeM2).toBe(12);
    expect(amounts([layer('resilient-tile', { area: STRIP, yearInstalled: 2005 }), slab]).abradeM2).toBeCloseTo(9, 9);
    const half = amounts([layer('plywood', { area: LEFT_HALF }), slab]);
    expect([half.abradeM2, half.reinforceM2]).toEqual([expect.closeTo(6, 9), expect.closeTo(6, 9)]);
    expect(amounts([layer('plywood'), layer('joists')]).reinforceM2).toBe(12);
  });

  // Common practice, no source: particleboard over a slab comes out before the pour, and is neither screwed down nor lathed.
  it('screw down and lath no particleboard on a slab', () => {
    const onSlab = amounts([layer('particleboard'), slab]);
    expect([onSlab.reinforceM2, onSlab.fasten.subfloorM2]).toEqual([0, 0]);
    const onJoists = amounts([layer('particleboard'), layer('joists')]);
    expect([onJoists.reinforceM2, onJoists.fasten.subfloorM2]).toEqual([12, 12]);
  });

  // Common practice, no source. Rates are the program's own, of one table.
  it('abrade and fasten what the checklist does', () => {
    const made = (layers: Room['layers'], looks: Parameters<typeof test.look>[0] = ['sound-clean'], bondsTo: Named = ['concrete']) => {
      const material = { ...POWDER, powder: powder({ bondsTo }) };
      return roomAmounts(room(layers, [test.look(looks)]), CHOICE, FILL, by({ material }));
    };
    const wood = [layer('plywood'), layer('joists')];
    expect(made([layer('gypsum'), ...wood], ['sound-clean'], ['gypsum']).abradeM2).toBe(12);
    expect(made([layer('gypsum'), ...wood], ['sound-clean'], ['concrete']).abradeM2).toBe(0);
    expect(made([layer('membrane', { area: STRIP }), slab], ['glossy']).abradeM2).toBeCloseTo(12, 9);
    expect(made(wood, ['waxed']).abradeM2).toBe(12);
    expect(made([slab], ['oily']).abradeM2).toBe(12);
    const fastened = (layers: Room['layers']) => {
      const { subfloorM2, plywoodM2 } = made(layers).fasten;
      return subfloorM2 + plywoodM2;
    };
    expect([fastened(wood), fastened([slab])]).toEqual([12, 0]);
    expect(fastened([layer('plywood', { sound: 'loose' }), layer('joists')])).toBe(12);
    // Planks that no sheet names: they are screwed down, and plywood over them.
    expect(fastened([layer('boards', { area: STRIP }), ...wood])).toBeCloseTo(12 + 3, 9);
    // Once the plywood is entered as a new layer the work is the same. On joists it is the subfloor itself.
    const planks = [layer('boards'), layer('joists')];
    const over = layer('plywood', { id: 'new', laid: 'after-readings' });
    expect(made(planks).fasten).toEqual({ subfloorM2: 12, plywoodM2: 12 });
    expect(made([over, ...planks]).fasten).toEqual({ subfloorM2: 12, plywoodM2: 12 });
    expect(made([{ ...over, id: 'two' }, over, ...planks]).fasten).toEqual({ subfloorM2: 12, plywoodM2: 12 });
    expect(made([over, layer('joists')]).fasten).toEqual({ subfloorM2: 12, plywoodM2: 0 });
    expect(made([over, slab]).fasten).toEqual({ subfloorM2: 12, plywoodM2: 0 });
    const strip = made([{ ...over, area: STRIP }, ...planks]).fasten;
    expect([strip.subfloorM2, strip.plywoodM2]).toEqual([12, 12]);
    const hours = takeoff(made(wood), CHOICES).hours.find(({ key }) => key === 'fasten')?.ownHours;
    expect(hours).toBeCloseTo(hoursFor('refasten', 12), 9);
  });

  it('dam every opening but a feather edge', () => {
    const openings = (['dam', 'stop', 'feather'] as const).map((edge, i) => opening({ id: edge, edge, widthM: i + 1 }));
    const of = room([slab]);
    const taken = takeoff(roomAmounts({ ...of, plan: { ...of.plan, openings } }, CHOICE, FILL, by()), CHOICES);
    expect([taken.dams, taken.damM]).toEqual([2, 3]);
    const prep = line(listOf({ ...SLAB, openings }), 'dams');
    expect([prep?.on.length, prep?.amount?.value]).toEqual([taken.dams, taken.damM]);
  });

  it.each(layerSchema.shape.material.options)('remove a layer in the hours of its prep line (%s)', (material) => {
    const layers = [layer(material, { id: 'old', fate: 'remove', yearInstalled: 2001 }), slab];
    const removal = takeoff(amounts(layers), CHOICES).hours.find(({ key }) => key === 'remove');
    expect(removal?.ownHours).toBe(line(listOf({ ...SLAB, layers }), 'remove:old')?.hours);
  });

  // Common practice, no source: it is residue, so the price disposes of nothing.
  it('scrape adhesive that stays in the hours of its prep line, and none that a contractor takes off', () => {
    const glue = layer('adhesive-other', { id: 'glue', yearInstalled: 2005 });
    const taken = takeoff(amounts([glue, slab]), CHOICES);
    expect(taken.room.scraped).toMatchObject([
      { material: 'adhesive-other', areaM2: 12, isLabFirst: false, isLoose: false, isByContractor: false },
    ]);
    expect([taken.room.removed, taken.disposalKg]).toEqual([[], 0]);
    const hours = taken.hours.find(({ key }) => key === 'remove')?.ownHours;
    expect(hours).toBe(hoursFor('scrapeAdhesive', 12));
    expect(hours).toBe(line(listOf({ ...SLAB, layers: [glue, slab] }), 'scrape:glue')?.hours);
    const byContractor = takeoff(amounts([layer('resilient-tile', { area: STRIP, yearInstalled: 1965 }), glue, slab]), CHOICES);
    expect(byContractor.room.scraped).toMatchObject([{ material: 'adhesive-other', isByContractor: true }]);
    expect(byContractor.room.scraped[0]?.areaM2).toBeCloseTo(9, 9);
    expect(byContractor.hours.find(({ key }) => key === 'remove')).toBeUndefined();
    expect(taskOfLine('scrape:glue')).toBe(taskOfLine('remove:glue'));
  });

  it.each(['adhesive-other', 'ceramic-tile', 'old-leveling'] as const)(
    'take off loose %s that stays in the hours of its prep line',
    (material) => {
      const loose = layer(material, { id: 'loose', yearInstalled: 2005, sound: 'loose' });
      const taken = takeoff(amounts([loose, slab]), CHOICES);
      expect(taken.room.scraped).toMatchObject([{ material, areaM2: 12, isLabFirst: false, isLoose: true, isByContractor: false }]);
      const hours = taken.hours.find(({ key }) => key === 'remove')?.ownHours ?? 0;
      expect(hours).toBeGreaterThan(0);
      expect(hours).toBe(line(listOf({ ...SLAB, layers: [loose, slab] }), 'remove:loose')?.hours);
    },
  );

  // By hand: 3/8 in. (9.525 mm) of tile at 2,200 kg/m³, a usual handbook density, over 12 m².
  it('dispose of loose flooring as of flooring that is planned to be removed', () => {
    const tile = layer('ceramic-tile', { id: 'tile', yearInstalled: 2005, thicknessM: 0.009525 });
    const of = (change: Partial<typeof tile>) => takeoff(amounts([{ ...tile, ...change }, slab]), CHOICES);
    const [loose, removed] = [of({ sound: 'loose' }), of({ fate: 'remove' })];
    expect(loose.disposalKg).toBeCloseTo(0.009525 * 2200 * 12, 6);
    expect(loose.disposalKg).toBe(removed.disposalKg);
    expect(of({}).disposalKg).toBe(0);
  });

  // Common practice, no source: a skin of a loose slab is scraped off, and loose boards over it come off whole.
  it('dispose of the skin of a loose slab, whatever its thickness, and of all of a slab that is removed', () => {
    const of = (change: Partial<typeof slab>) => takeoff(amounts([{ ...slab, ...change }]), CHOICES).disposalKg;
    const skin = layerMassKg({ material: 'concrete-on-ground', thicknessM: null, areaM2: 12 });
    // By hand: 4 in. (0.1 m) of concrete at 2,400 kg/m³, a usual handbook density, over 12 m².
    const whole = 0.1 * 2400 * 12;
    expect(skin).toBeLessThan(whole / 10);
    for (const thicknessM of [0.1, 0.3, null]) expect(of({ sound: 'loose', thicknessM }), String(thicknessM)).toBeCloseTo(skin, 6);
    expect(of({ fate: 'remove', thicknessM: 0.1 })).toBeCloseTo(whole, 6);
    const boards = layer('boards', { id: 'boards', sound: 'loose', thicknessM: 0.02 });
    expect(takeoff(amounts([boards, slab]), CHOICES).disposalKg).toBeCloseTo(0.02 * 550 * 12, 6);
  });

  // Common practice, no source: sand is broadcast into the system and vacuumed. The hours are those of the two prep lines.
  it('price the sand of a moisture mitigation system in hours, as Prep asks for it', () => {
    const of = { ...CHOICE, moistureSystemId: 'typical-moisture-barrier' };
    const hours = takeoff(roomAmounts(room([slab]), of, FILL, by()), CHOICES).hours.find(({ key }) => key === 'mitigate')?.ownHours;
    const prep = listOf({ ...SLAB, hasMoistureSystem: true });
    expect(hours).toBeCloseTo((line(prep, 'moisture-system')?.hours ?? 0) + (line(prep, 'moisture-sand')?.hours ?? 0), 9);
    expect(taskOfLine('moisture-sand')).toBe(taskOfLine('moisture-system'));
  });

  // 29 CFR 1926.1101(l)(3): no sanding or abrading where the surface may hold asbestos. 1980 is its last year.
  it('abrade nothing where a part of the surface may hold asbestos', () => {
    const strip = layer('resilient-tile', { area: STRIP, yearInstalled: 1980 });
    const abraded = (state: 'found' | 'none-found', yearInstalled: number) =>
      roomAmounts(room([{ ...strip, yearInstalled }, slab], [test.lab({ layerId: strip.id, state })]), CHOICE, FILL, by()).abradeM2;
    expect(amounts([strip, slab]).abradeM2).toBe(0);
    expect(abraded('found', 2005)).toBe(0);
    expect(abraded('none-found', 1980)).toBeCloseTo(9, 9);
    expect(amounts([{ ...strip, fate: 'remove' }, slab]).abradeM2).toBe(12);
  });

  // By hand: 1/2 in. (12.7 mm) of plywood at 600 kg/m³, a usual handbook density, is 7.62 kg/m² or 74.7 Pa, at 9.80665 m/s².
  it('load a floor with the plywood laid new for the pour', () => {
    const depths = { leastM: 0.005, meanM: 0.01, mostM: 0.02 };
    const load = (laid: Partial<Parameters<typeof layer>[1]>) =>
      takeoff({ ...amounts([layer('plywood', { thicknessM: 0.0127, ...laid }), slab]), depths }, CHOICES).weight?.deepestPa ?? Number.NaN;
    expect(load({ laid: 'after-readings' }) - load({})).toBeCloseTo(74.73, 2);
    expect(load({ laid: 'before-readings' }) - load({})).toBeCloseTo(74.73, 2);
    expect(load({ laid: 'after-readings', area: STRIP }) - load({ area: STRIP })).toBeCloseTo(74.73, 2);
  });

  it('prime for what is poured on over most of the room', () => {
    expect(substrateClass(room([layer('plywood', { area: STRIP }), slab])).substrate).toBe('porous');
    expect(substrateClass(room([layer('resilient-tile', { area: STRIP }), layer('plywood'), layer('joists')])).substrate).toBe('wood');
  });

  // Common practice, no source: residue, resilient flooring, paint and membranes take up no water; concrete, old patch and gypsum do.
  // Of an unknown layer nothing is known but what the drops tell.
  // ASTM F3191 asks for the drop on the surface that is primed.
  it('prime what takes up no water by what it is, whatever a drop on the slab says, and the rest by the drops', () => {
    const drops = ['a', 'b', 'c'].map((id) => test.drop(id, 20));
    const closed = ['adhesive-cutback', 'adhesive-other', 'sheet-flooring', 'resilient-tile', 'membrane'] as const;
    for (const material of closed)
      for (const tests of [[], drops])
        expect(substrateClass(room([layer(material), slab], tests)), material).toEqual({ substrate: 'non-porous', by: 'layer' });
    for (const material of ['concrete-suspended', 'old-leveling', 'screed', 'thinset', 'gypsum', 'unknown'] as const) {
      expect(substrateClass(room([layer(material), slab])), material).toEqual({ substrate: 'porous', by: 'presumed' });
      expect(substrateClass(room([layer(material), slab], drops)), material).toEqual({ substrate: 'porous', by: 'drops' });
    }
  });

  it('prime and reinforce what is under paint, which comes off', () => {
    const paint = layer('paint-or-sealer');
    expect(substrateClass(room([paint, slab])).substrate).toBe('porous');
    expect(substrateClass(room([paint, layer('plywood'), layer('joists')])).substrate).toBe('wood');
    const wood = amounts([paint, layer('plywood'), layer('joists')]);
    expect([wood.reinforceM2, wood.abradeM2]).toEqual([12, 0]);
    for (const fate of ['keep', 'remove'] as const)
      expect(amounts([{ ...paint, fate }, slab])).toMatchObject({ abradeM2: 12, removed: [{ material: 'paint-or-sealer', areaM2: 12 }] });
  });

  // Common practice, no source: resilient flooring is stripped wet, which the hours of grinding do not measure.
  it('take no hours of grinding for paint that is stripped wet', () => {
    const paint = layer('paint-or-sealer');
    const tile = layer('resilient-tile', { yearInstalled: 2005 });
    const of = (change: Partial<Room['layers'][number]>) => roomAmounts(room([paint, { ...tile, ...change }, slab]), CHOICE, FILL, by());
    expect(of({}).removed).toMatchObject([{ material: 'paint-or-sealer', areaM2: 0 }]);
    expect(takeoff(of({}), CHOICES).hours.map(({ key }) => key)).not.toContain('remove');
    expect(of({ area: STRIP }).removed[0]?.areaM2).toBeCloseTo(9, 9);
    // The quote still says who strips how much.
    expect(of({ area: STRIP }).removed[0]?.strippedM2).toBeCloseTo(3, 9);
    expect(of({ yearInstalled: 1965 }).removed).toMatchObject([{ areaM2: 0, strippedM2: 0, byContractorM2: 12 }]);
    expect(of({ fate: 'remove' }).removed).toMatchObject([
      { areaM2: 0, strippedM2: 0, byContractorM2: 0 },
      { material: 'resilient-tile', areaM2: 12 },
    ]);
  });

  it('prime and reinforce the plywood under mats, not the mats', () => {
    const under = (laid: Layer['laid']) => [
      layer('radiant-heating', laid === undefined ? {} : { laid }),
      layer('plywood'),
      layer('joists'),
    ];
    expect(substrateClass(room(under(undefined)))).toEqual({ substrate: 'wood', by: 'layer' });
    const laidLater = amounts(under('after-readings'));
    expect([laidLater.reinforceM2, laidLater.fasten.subfloorM2]).toEqual([12, 12]);
    // Heat that was there is not fastened through.
    const found = amounts(under(undefined));
    expect([found.reinforceM2, found.fasten]).toEqual([0, { subfloorM2: 0, plywoodM2: 0 }]);
  });

  it('weigh new plywood, and not the heat on top, whose space the pour fills', () => {
    const fresh = { laid: 'after-readings' as const };
    const layers = [layer('radiant-heating', fresh), layer('plywood', fresh), layer('joists')];
    expect(amounts(layers).laid.map(({ material }) => material)).toEqual(['plywood']);
  });

  // ASTM F3191: test again after any grinding. The drops before it say nothing of the new surface.
  it('prime by the water drops of the last visit, as the assessment does', () => {
    const drop = (id: string, seconds: number | null, takenAt: string) => ({ ...test.drop(id, seconds), takenAt });
    const before = ['a', 'b', 'c'].map((id) => drop(id, null, '2026-05-02T12:00:00.000Z'));
    const after = ['d', 'e', 'f'].map((id) => drop(id, 20, '2026-05-03T12:00:00.000Z'));
    expect(substrateClass(room([...SLAB.layers], before)).by).toBe('expected');
    expect(substrateClass(room([...SLAB.layers], [...before, ...after]))).toEqual({ substrate: 'porous', by: 'drops' });
    const unwatched = { ...drop('g', null, '2026-05-04T12:00:00.000Z'), watchedSeconds: 30 };
    expect(substrateClass(room([...SLAB.layers], [...before, unwatched])).by).toBe('expected');
  });
});

// EPA's renovation rule, 40 CFR 745.82 and .83: painted surfaces, floors included, in housing built before 1978, over 6 sq ft a room.
describe('lead-safe work', () => {
  const FOOT_M = 0.3048;
  const old = { property: { yearBuilt: 1955, timeZone: 'America/New_York' } };
  const leadSafe = (of: Room, fill = FILL) => roomAmounts(of, CHOICE, fill, by(old)).leadSafe;

  it('is charged where the paint of a slab is ground off', () => {
    const painted = [test.look(['painted'])];
    expect(leadSafe(room([NEW_SLAB], [test.look()]))).toBe(false);
    expect(leadSafe(room([NEW_SLAB], painted))).toBe(true);
    expect(roomAmounts(room([NEW_SLAB], painted), CHOICE, FILL, by()).leadSafe).toBe(false);
  });

  it('counts the baseboard less its openings: 16 ft of 4 in. is 5.33 sq ft, 19 ft is 6.33', () => {
    const [widthM, lengthM] = [5 * FOOT_M, 4.5 * FOOT_M];
    const closet = (doorM: number): Room => {
      const of = room([NEW_SLAB], [test.look()]);
      const outline = [0, widthM, widthM, 0].map((xM, i) => ({ xM, yM: i < 2 ? 0 : lengthM }));
      const openings = doorM === 0 ? [] : [opening({ widthM: doorM })];
      const circumstances = { ...of.circumstances, paintedTrim: 'to-be-disturbed' as const, baseboardHeightM: FOOT_M / 3 };
      return { ...of, circumstances, plan: { ...of.plan, outline, openings } };
    };
    const fill = { ...FILL, areaM2: widthM * lengthM, perimeterM: 2 * (widthM + lengthM) };
    expect(leadSafe(closet(3 * FOOT_M), fill)).toBe(false);
    expect(leadSafe(closet(0), fill)).toBe(true);
  });

  it('is not charged for varnished oak that is only fastened and primed', () => {
    const oak = layer('wood-flooring', { yearInstalled: 1955 });
    const floor = [layer('plywood'), layer('joists')];
    expect(leadSafe(room([oak, ...floor]))).toBe(false);
    expect(leadSafe(room([{ ...oak, fate: 'remove' }, ...floor]))).toBe(true);
    expect(leadSafe(room([oak, ...floor]), { ...FILL, grind: { areaM2: 1, volumeM3: 0.001 } })).toBe(true);
  });

  it('stays with one sample that has lead, whatever another says', () => {
    const paint = layer('paint-or-sealer', { yearInstalled: 1955, fate: 'remove' });
    const lab = (id: string, state: 'found' | 'none-found') => test.lab({ id, question: 'lead-paint', layerId: paint.id, state });
    expect(leadSafe(room([paint, NEW_SLAB], [lab('a', 'none-found')]))).toBe(false);
    expect(leadSafe(room([paint, NEW_SLAB], [lab('a', 'none-found'), lab('b', 'found')]))).toBe(true);
  });
});

// 29 CFR 1926.1101: only people trained and equipped for it remove what contains asbestos. Common practice: a licensed contractor.
it('leave a layer with asbestos to an abatement contractor: no hours, no disposal, and the weight still comes off', () => {
  const glue = layer('adhesive-cutback', { yearInstalled: 1971, fate: 'remove', thicknessM: 0.002 });
  const plank = layer('floating-plank', { yearInstalled: 2010, fate: 'remove', thicknessM: 0.01 });
  const tile = layer('ceramic-tile', { yearInstalled: 1971, fate: 'remove', thicknessM: 0.01 });
  const depths = { leastM: 0.003, meanM: 0.006, mostM: 0.009 };
  const of = (state: 'found' | 'none-found', over = plank) => {
    const amounts = roomAmounts(room([over, glue, slab], [test.lab({ layerId: glue.id, state })]), CHOICE, { ...FILL, depths }, by());
    return takeoff(amounts, CHOICES);
  };
  const [clear, abated] = [of('none-found'), of('found')];
  const removal = ({ hours }: RoomTakeoff) => hours.find(({ key }) => key === 'remove');
  expect(abated.room.removed.map(({ material, isAbated }) => [material, isAbated])).toEqual([
    ['floating-plank', false],
    ['adhesive-cutback', true],
  ]);
  expect(clear.disposalKg).toBeGreaterThan(abated.disposalKg);
  expect(abated.disposalKg).toBeCloseTo(layerMassKg({ material: 'floating-plank', thicknessM: 0.01, areaM2: 12 }), 9);
  expect((removal(clear)?.ownHours ?? 0) - (removal(abated)?.ownHours ?? 0)).toBeCloseTo(hoursFor('scrapeAdhesive', 12), 9);
  expect(removal(abated)?.why).toMatchObject({ amount: { layers: [{ material: 'floating-plank' }] } });
  expect(abated.weight?.removedKgM2).toBe(clear.weight?.removedKgM2);
  // Tile set in that adhesive breaks it: the contractor takes both.
  const bonded = of('found', tile);
  expect(bonded.room.removed.map(({ isAbated }) => isAbated)).toEqual([true, true]);
  expect([bonded.disposalKg, removal(bonded)]).toEqual([0, undefined]);
});
