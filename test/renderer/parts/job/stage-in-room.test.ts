import { expect, it } from 'vitest';
import { stageInRoom, type StageOnSheet } from '../../../../renderer/parts/job/stage-words.ts';
import { roomStanding } from '../../../../shared-core/standing/room-standing.ts';
import { BUSINESS, bundle, pour, quote, summary } from '../../../shared-core/agenda/bundle-fixture.ts';

const NOW = '2026-05-12T11:05:00.000Z';

/** The stages that stay when a room of the job is selected from each of them. */
function kept(over: { readonly poured?: boolean; readonly planDrawn?: boolean }): readonly StageOnSheet[] {
  const { poured = false, planDrawn = true } = over;
  const plain = bundle({
    id: 'a',
    rooms: [{ roomId: 'room-a', name: 'Den' }],
    summaries: [summary('room-a', { planDrawn, bags: planDrawn ? 50 : null, prepOpen: 8 })],
    pours: poured ? [pour('pour0001', ['room-a'], '2026-05-01T13:00:00.000Z', '2026-05-01T16:00:00.000Z')] : [],
  });
  const standing = roomStanding({ ...plain, quotes: [quote(plain, 'issued', '2026-05-20')] }, 'room-a', BUSINESS, NOW);
  if (standing === null) throw new Error('the job has the room');
  const all = ['assess', 'prep', 'estimate', 'quote', 'pour', 'cure', 'handover'] as const;
  return all.filter((stage) => stageInRoom(standing, stage) === stage);
}

it('keeps the stage shown when another room is selected, where that room has come to it', () => {
  // With its quote open and no prep line signed, the room itself stands at Quote.
  expect(kept({})).toEqual(['assess', 'prep', 'estimate', 'quote']);
  expect(kept({ poured: true })).toEqual(['assess', 'prep', 'estimate', 'quote', 'pour', 'cure']);
  expect(kept({ planDrawn: false })).toEqual(['assess']);
});
