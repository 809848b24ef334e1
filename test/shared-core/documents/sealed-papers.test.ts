/** A topping that is sealed is the finished floor: its papers say nothing of flooring to come. */
import { expect, it } from 'vitest';
import type { Flooring } from '../../../shared-core/book/flooring.ts';
import { DOCUMENTS } from '../../../shared-core/documents/document-list.ts';
import { handoverSheet } from '../../../shared-core/documents/handover-sheet.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { at, pouredFamily, ROOM } from './poured-family.ts';
import { textOf } from './tree-text.ts';

const now = at('15', 0);
function papersOf(flooring: Flooring) {
  const whole = pouredFamily();
  const rooms = whole.job.rooms.map((room) => (room.roomId === ROOM ? { ...room, flooring } : room));
  const reading = readJob({ ...whole, job: { ...whole.job, rooms } }, now);
  const sheet = handoverSheet(reading, { now, revision: 1, changes: [] });
  const installer = DOCUMENTS.find(({ kind }) => kind === 'installer-page');
  return { text: textOf(sheet), all: JSON.stringify(sheet), missing: installer?.missing(reading) };
}

it('speaks of the sealer on the sheet, and offers no installer page', () => {
  const { text, all, missing } = papersOf('bare-sealed');
  expect(text).toContain('Until it is sealed');
  expect(text).toContain('the moisture limit on the sealer’s data sheet');
  expect(all).toContain('Ready for its sealer');
  expect(all).not.toMatch(/ready for flooring|until flooring|flooring date|flooring manufacturer|pour to flooring|flooring between/i);
  expect(missing).toBe('The placed floors are sealed. No flooring goes over them.');
});

it('speaks of the flooring where there is one', () => {
  const { text, all, missing } = papersOf('wood-glued');
  expect(text).toContain('Until flooring goes down');
  expect(text).toContain('The floor must meet the flooring manufacturer’s limit.');
  expect(all).toContain('Ready for flooring');
  expect(all).not.toMatch(/sealer|sealed/);
  expect(missing).toBeNull();
});
