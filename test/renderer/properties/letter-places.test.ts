/** The places of the access notes' letters, which move with their rooms. */
import { describe, expect, it } from 'vitest';
import { emptyAddress, newProperty, newRoom } from '../../../shared-core/book/new-records.ts';
import { letterNotes, letterPlace, movedLetters, roomAt } from '../../../renderer/properties/letter-places.ts';
import { points } from '../../outlines.ts';

const now = '2026-05-06T12:00:00.000Z';
const roomOf = (id: string, placedAt: { xM: number; yM: number; turnDeg: number }) => {
  const room = newRoom({ id, now }, 'property-1', 'Hall');
  const outline = points('0,0 4,0 4,3 0,3');
  return { ...room, plan: { ...room.plan, outline, placedAt } };
};
const property = newProperty({ id: 'property-1', now }, 'customer-1', emptyAddress('US'), 'America/New_York');

describe('a letter on the plan', () => {
  it.each([0, 90, 180, 270, 33])('is inside its room, rotated by %d°', (turnDeg) => {
    const room = roomOf('room-1', { xM: 5, yM: -2, turnDeg });
    const point = letterPlace(room, []);
    expect(roomAt([room], point)?.id).toBe('room-1');
  });
  it('avoids the letters that are there', () => {
    const room = roomOf('room-1', { xM: 0, yM: 0, turnDeg: 0 });
    const first = letterPlace(room, []);
    const second = first === null ? null : letterPlace(room, [first]);
    expect(second).not.toBeNull();
    expect(second).not.toEqual(first);
  });
  it('has no place while the room is not drawn', () => {
    expect(letterPlace(newRoom({ id: 'room-2', now }, 'property-1', 'Loft'), [])).toBeNull();
  });
  it('moves with its room and leaves letters of other rooms', () => {
    const [hall, shed] = [roomOf('room-1', { xM: 0, yM: 0, turnDeg: 0 }), roomOf('room-2', { xM: 10, yM: 0, turnDeg: 0 })];
    const house = {
      ...property,
      access: [
        { letter: 'K', text: 'Key', point: letterPlace(hall, []) },
        { letter: 'W', text: 'Water', point: letterPlace(shed, []) },
      ],
    };
    const placedAt = { xM: -7, yM: 4, turnDeg: 90 };
    const moved = movedLetters(house, hall, placedAt);
    const placed = { ...hall, plan: { ...hall.plan, placedAt } };
    expect(roomAt([placed], moved.access[0]?.point ?? null)?.id).toBe('room-1');
    expect(moved.access[1]).toEqual(house.access[1]);
    expect(letterNotes(moved, [placed, shed]).map((n) => [n.letter, n.roomId])).toEqual([
      ['K', 'room-1'],
      ['W', 'room-2'],
    ]);
  });
});
