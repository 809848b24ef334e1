import { describe, expect, it } from 'vitest';
import type { FloorTest } from '../../../shared-core/book/layer.ts';
import { questionsAboutLayer, questionsAboutTest } from '../../../shared-core/substrate/odd-readings.ts';
import { wordingFor } from '../../../shared-core/substrate/wording.ts';
import { BOARDS, layer, NOW, SLAB, test } from './a-floor.ts';

const CONTEXT = { now: NOW, yearBuilt: 1998 };
const questionsOn = (one: FloorTest): string => questionsAboutTest(one, CONTEXT, wordingFor('us', 'en-US')).join(' ');

describe('unlikely readings', () => {
  it('asks nothing about an ordinary reading', () => {
    for (const one of [...SLAB.tests, ...BOARDS.tests, test.dish(), test.pull(2e6), test.lab()]) expect(questionsOn(one), one.id).toBe('');
  });

  it.each<[string, FloorTest, string]>([
    ['a dish that lost mass', test.dish({ massAfterG: 29 }), 'lost mass'],
    ['a dish that gained more than slabs give off', test.dish({ massAfterG: 60 }), 'Check the weights'],
    ['100 % in a slab', test.humidity({ relativeHumidity: 1 }), 'water in the hole'],
    ['a slab drier than slabs get', test.humidity({ relativeHumidity: 0.1 }), 'Is it the room humidity?'],
    ['a hole deeper than the slab', test.humidity({ depthM: 0.2 }), 'equals the slab thickness'],
    ['soaked wood', test.wood('boards', [0.1, 1.05]), 'decimal point'],
    ['bone-dry wood', test.wood('boards', [0.01]), 'drier'],
    ['a drop gone after the watch stopped', test.drop('drop9', 70), 'Check both times'],
    ['pH 13.5', test.ph(13.5), 'new strip'],
    ['a pull no floor holds', test.pull(7e6), 'Check the unit'],
    ['a hot floor', test.air({ surfaceTempC: 65 }), 'unlikely indoors'],
    ['air without any vapor', test.air({ relativeHumidity: 0 }), '0% humidity'],
    ['a span read as inches', test.deflection({ spanM: 0.3048 }), 'between its supports'],
    ['joists over 9 m', test.deflection({ spanM: 9.1 }), 'wall or a beam'],
    ['the name of a joist for its depth', test.deflection({ joistDepthM: 0.254 }), 'nominal depth'],
    ['a joist lying flat', test.deflection({ joistWidthM: 0.3 }), 'may be swapped'],
    ['a modulus in the wrong unit', test.deflection({ modulusPa: 1.6e6 }), 'modulus'],
    ['an answer from no lab', test.lab({ lab: '' }), 'does not count'],
    ['tomorrow’s reading', { ...test.ph(8), takenAt: '2026-05-05T12:00:00Z' }, 'in the future'],
    ['a reading older than the house', { ...test.ph(8), takenAt: '1997-05-05T12:00:00Z' }, 'older than the house'],
  ])('asks about %s', (_, one, words) => {
    expect(questionsOn(one)).toContain(words);
  });

  // Our limits, no source: what a handheld meter reads indoors, and what lumber is.
  it.each<[string, FloorTest, FloorTest]>([
    ['air over 45 °C', test.air({ airTempC: 45, surfaceTempC: 45 }), test.air({ airTempC: 45.1 })],
    ['air under -10 °C', test.air({ airTempC: -10 }), test.air({ airTempC: -10.1 })],
    ['a floor over 45 °C', test.air({ surfaceTempC: 45 }), test.air({ surfaceTempC: 45.1 })],
    ['a span over 9 m', test.deflection({ spanM: 9 }), test.deflection({ spanM: 9.01 })],
    ['a modulus under 4 GPa', test.deflection({ modulusPa: 4e9 }), test.deflection({ modulusPa: 3.99e9 })],
    ['a modulus over 20 GPa', test.deflection({ modulusPa: 20e9 }), test.deflection({ modulusPa: 20.1e9 })],
    ['a joist over 0.5 m deep', test.deflection({ joistDepthM: 0.5 }), test.deflection({ joistDepthM: 0.501 })],
    ['joists that touch', test.deflection({ joistWidthM: 0.1, spacingM: 0.101 }), test.deflection({ joistWidthM: 0.1, spacingM: 0.1 })],
    ['a slab under 20 %', test.humidity({ relativeHumidity: 0.2 }), test.humidity({ relativeHumidity: 0.199 })],
    ['wood over 30 %', test.wood('boards', [0.1, 0.3]), test.wood('boards', [0.1, 0.301])],
    ['wood under 4 %', test.wood('boards', [0.1, 0.04]), test.wood('boards', [0.1, 0.039])],
    ['pH over 13', test.ph(13), test.ph(13.1)],
    ['pH under 4', test.ph(4), test.ph(3.9)],
    ['a pull over 6 MPa', test.pull(6e6), test.pull(6.01e6)],
  ])('asks about %s, and not at the limit', (_, at, beyond) => {
    expect(questionsOn(at)).toBe('');
    expect(questionsOn(beyond)).not.toBe('');
  });

  it('asks about a layer of a future year, or from before the house', () => {
    expect(questionsAboutLayer(layer('boards', { yearInstalled: 2027 }), CONTEXT)).toHaveLength(1);
    expect(questionsAboutLayer(layer('boards', { yearInstalled: 1997 }), CONTEXT)).toHaveLength(1);
    expect(questionsAboutLayer(layer('boards', { yearInstalled: 1998 }), CONTEXT)).toEqual([]);
    expect(questionsAboutLayer(layer('boards', { yearInstalled: null }), CONTEXT)).toEqual([]);
  });
});
