import { expect, it } from 'vitest';
import { layerLine } from '../../../shared-core/drawing/room-layers.ts';
import { layer } from '../substrate/a-floor.ts';

it('calls a layer new that is laid for the pour, and gives the age of any other', () => {
  const plywood = (change: Parameters<typeof layer>[1]): string => layerLine(layer('plywood', { thicknessM: 0.0127, ...change }), 'us');
  expect(plywood({ yearInstalled: null, laid: 'after-readings' })).toBe('½″ plywood, new: stays');
  expect(plywood({ yearInstalled: null, laid: 'before-readings' })).toBe('½″ plywood, new: stays');
  expect(plywood({ yearInstalled: null })).toBe('½″ plywood, age not known: stays');
  expect(plywood({ yearInstalled: 1962 })).toBe('½″ plywood of 1962: stays');
});
