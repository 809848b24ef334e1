// @vitest-environment node
import { expect, test } from 'vitest';
import { newRoom } from '../../../shared-core/book/new-records.ts';
import { book } from '../../../renderer/book/database.ts';
import { readBy } from '../../../renderer/book/use-records.ts';
import { freshBook, LATER, NOW } from './fresh-book.ts';

test('the rooms of a property are in the order in which they were entered, whatever their ids', async () => {
  await freshBook();
  const entered = [
    newRoom({ id: 'room-z', now: NOW }, 'property-1', 'Hall'),
    newRoom({ id: 'room-m', now: LATER }, 'property-1', 'Office 1'),
    newRoom({ id: 'room-a', now: '2026-05-12T11:07:00.000Z' }, 'property-1', 'Office 2'),
  ];
  await book()
    .rowsOf('rooms')
    .bulkPut([...entered, newRoom({ id: 'room-b', now: NOW }, 'property-2', 'Laundry')]);
  expect((await readBy('rooms', 'propertyId', ['property-1'])).map(({ name }) => name)).toEqual(['Hall', 'Office 1', 'Office 2']);
});
