/** A room of the sample with layers and tests of its own, and what its amounts are judged by. */
import { newJobRoom } from '../../../shared-core/book/new-records.ts';
import type { Room } from '../../../shared-core/book/room.ts';
import { newBusiness } from '../../../shared-core/book/typical-business.ts';
import type { JudgedBy } from '../../../shared-core/material/room-amounts.ts';
import { sampleAt } from '../../sample-at.ts';
import { layer, ROOM_4_BY_3 } from '../substrate/a-floor.ts';

export const NOW = '2026-05-12T12:00:00.000Z';
const from = sampleAt(NOW).rooms[0];
if (from === undefined) throw new Error('The sample has rooms.');
export const room = (layers: Room['layers'], tests: Room['tests'] = []): Room => ({
  ...from,
  layers,
  tests,
  marks: [],
  plan: { ...from.plan, ...ROOM_4_BY_3 },
});
export const FILL = { areaM2: 12, perimeterM: 14, volume: null, depths: null, grind: { areaM2: 0, volumeM3: 0 } };
export const CHOICE = newJobRoom('room');
export const by = (change: Partial<JudgedBy> = {}): JudgedBy => ({
  business: newBusiness(NOW, 'America/New_York', 'en-US'),
  property: { yearBuilt: 1998, timeZone: 'America/New_York' },
  day: '2026-05-12',
  resultsDay: '2026-05-12',
  material: null,
  ...change,
});
export const NEW_SLAB = layer('concrete-on-ground', { yearInstalled: 2001 });
