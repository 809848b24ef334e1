import { describe, expect, it } from 'vitest';
import { read } from './a-call.ts';

describe('the floor of a call', () => {
  it.each<readonly [talk: string, floor: string]>([
    ['carpet, tile over slab', 'carpet over tile over slab'],
    ['carpet, pad over slab', 'carpet over pad over slab'],
    ['carpet, pad, slab', 'carpet over pad over slab'],
    ['tile, plywood', 'tile over plywood'],
    ['floor is tile over slab', 'tile over slab'],
    ['floor: tile over slab', 'tile over slab'],
    ...['both', 'right now it’s', 'there’s'].map((words) => [`${words} tile over slab`, 'tile over slab'] as const),
    ['glued down carpet over slab', 'carpet over slab'],
    ['white oak over ply over joists', 'oak over ply over joists'],
    ['tile over plywood subfloor over joists', 'tile over plywood subfloor over joists'],
    ['oak, ply over joists', 'oak over ply over joists'],
    ['has 12x12 tile, ply over joists', 'tile over ply over joists'],
    ...['existing', 'old', 'has', 'floor is', 'currently'].map((word) => [`${word} 12x12 tile`, 'tile'] as const),
  ])('reads the covering with what it is on in %s', (talk, floor) =>
    expect(read(`Dana Wicklow, kitchen 12x14, ${talk}`)).toMatchObject({ floor, rooms: [{ name: 'Kitchen' }] }),
  );

  it('joins no floor of one room with that of another', () =>
    expect(read('Dana Wicklow, kitchen carpet, hall tile over slab').floor).toBe('tile over slab'));

  // How a floor that is wanted, or is only in one of two rooms, is talked about: common practice, no source.
  it.each([
    ...['wants LVP over slab', 'wants new tile over the existing slab', 'will be tile over concrete', 'installing tile over plywood'],
    ...['tearing out tile, putting down LVP over slab', 'not tile over slab', 'kitchen is tile over slab, hall is vinyl over ply'],
    'kitchen tile, hall vinyl',
  ])('reads no floor in %s, and keeps all of it', (talk) =>
    expect(read(`Dana Wicklow, ${talk}`)).toMatchObject({ floor: '', notes: talk }),
  );
});
