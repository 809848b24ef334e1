import { describe, expect, it } from 'vitest';
import type { Layer } from '../../../shared-core/book/layer.ts';
import type { Survey } from '../../../shared-core/book/plan-fields.ts';
import { surveyOnceOut } from '../../../shared-core/survey/once-out.ts';
import { surveyRoom } from '../../../shared-core/survey/survey-room.ts';
import { levelChoice, planOf, surveyOf, SURVEY_OPTIONS } from './floors.ts';
import { points, xy } from '../../outlines.ts';

const layer = (thicknessM: number | null, area: Layer['area'] = null, fate: Layer['fate'] = 'remove'): Layer => ({
  id: 'layer-001',
  material: 'carpet',
  thicknessM,
  yearInstalled: null,
  sound: 'sound',
  fate,
  area,
  note: '',
});
const plan = planOf(xy('0,0 4,0 4,3 0,3'));
const LEFT = points('0,0 2,0 2,3 0,3');
const asFound: Survey = {
  ...surveyOf(
    [0.5, 1.5, 2.5, 3.5].flatMap((x): [number, number, number][] => [
      [x, 0.5, 0],
      [x, 2.5, 0],
    ]),
  ),
  over: 'as-found',
};
const volumeAt = (layers: readonly Layer[], survey = asFound, levelM = 0.01): number => {
  const surveyed = surveyRoom(plan, surveyOnceOut(survey, layers), levelChoice({ leastThicknessM: 0, levelM }), SURVEY_OPTIONS);
  if (surveyed.state === 'waiting') throw new Error(surveyed.message);
  return surveyed.level.fill.volumeM3;
};

// Prisms: area times depth.
describe('a floor measured before layers are removed', () => {
  it('is lower by the thickness of the removed layers over the whole room', () => {
    expect(volumeAt([])).toBeCloseTo(12 * 0.01, 12);
    expect(volumeAt([layer(0.008)])).toBeCloseTo(12 * 0.018, 12);
    expect(volumeAt([layer(0.008), layer(0.002)])).toBeCloseTo(12 * 0.02, 12);
    expect(volumeAt([layer(0.008, null, 'keep'), layer(null)])).toBeCloseTo(12 * 0.01, 12);
  });
  it('is lower over the part of the room where they are', () => {
    // Half the room, with readings 1 m apart on both sides of its edge: the slope between them evens out.
    expect(volumeAt([layer(0.008, LEFT)])).toBeCloseTo(12 * 0.01 + 6 * 0.008, 12);
  });
  it('is higher by the thickness of a layer laid after the readings, whenever others were removed', () => {
    const plywood: Layer = { ...layer(0.012, null, 'keep'), material: 'plywood', laid: 'after-readings' };
    expect(volumeAt([plywood], asFound, 0.02)).toBeCloseTo(12 * 0.008, 12);
    expect(volumeAt([plywood, layer(0.008)], asFound, 0.02)).toBeCloseTo(12 * 0.016, 12);
    expect(volumeAt([plywood, layer(0.008)], { ...asFound, over: 'once-out' }, 0.02)).toBeCloseTo(12 * 0.008, 12);
    expect(volumeAt([{ ...plywood, laid: 'before-readings' }], asFound, 0.02)).toBeCloseTo(12 * 0.02, 12);
  });
  it('is not higher by heat on top, which the pour runs between, but by heat under a new layer', () => {
    const heat: Layer = { ...layer(0.016, null, 'keep'), material: 'radiant-heating', laid: 'after-readings' };
    const plywood: Layer = { ...layer(0.012, null, 'keep'), material: 'plywood', laid: 'after-readings' };
    expect(volumeAt([heat], asFound, 0.04)).toBeCloseTo(12 * 0.04, 12);
    expect(volumeAt([heat, plywood], asFound, 0.04)).toBeCloseTo(12 * 0.028, 12);
    expect(volumeAt([plywood, heat], asFound, 0.04)).toBeCloseTo(12 * 0.012, 12);
  });
  it('is as measured once they are removed, and where nothing is known', () => {
    expect(volumeAt([layer(0.008)], { ...asFound, over: 'once-out' })).toBeCloseTo(12 * 0.01, 12);
    const { over: _, ...unstated } = asFound;
    expect(volumeAt([layer(0.008)], unstated)).toBeCloseTo(12 * 0.01, 12);
  });
  it('lowers a distance down by making it longer', () => {
    const down = surveyOnceOut({ ...asFound, method: 'distance-down' }, [layer(0.008)]);
    expect(down.readings.every((r) => r.valueM === 0.008)).toBe(true);
  });
});
