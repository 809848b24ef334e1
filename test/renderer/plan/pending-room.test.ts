import { describe, expect, test } from 'vitest';
import { withAhead } from '../../../renderer/plan/pending-room.ts';
import type { Room } from '../../../shared-core/book/room.ts';
import { newRoom } from '../../../shared-core/book/new-records.ts';

const room: Room = { ...newRoom({ id: 'hall', now: '2026-03-02T08:00:00.000Z' }, 'house', 'Hall'), changedAt: '2026-03-02T08:00:05.000Z' };
const named = (instant: string, word: string) => ({ instant, update: (r: Room): Room => ({ ...r, name: `${r.name} ${word}` }) });

describe('a room with changes that its view does not show yet', () => {
  test('applies later changes in their order', () => {
    const pending = [named('2026-03-02T08:00:05.001Z', 'first'), named('2026-03-02T08:00:06.000Z', 'second')];
    expect(withAhead(room, pending).name).toBe('Hall first second');
  });

  test('does not apply changes twice that the view has', () => {
    const pending = [named('2026-03-02T08:00:04.999Z', 'first'), named('2026-03-02T08:00:05.000Z', 'second')];
    expect(withAhead(room, pending)).toBe(room);
  });

  test('keeps the other changes when one fails', () => {
    const broken = {
      instant: '2026-03-02T08:00:06.000Z',
      update: (): Room => {
        throw new RangeError('There is no such wall.');
      },
    };
    expect(withAhead(room, [broken, named('2026-03-02T08:00:07.000Z', 'second')]).name).toBe('Hall second');
  });
});
