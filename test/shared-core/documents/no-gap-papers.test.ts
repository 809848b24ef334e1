/** A floor read as one slope is out of level and shows no gap under a straightedge. The papers do not call it flat by a zero. */
import { expect, it } from 'vitest';
import type { Survey } from '../../../shared-core/book/plan-fields.ts';
import type { Room } from '../../../shared-core/book/room.ts';
import { handoverSheet } from '../../../shared-core/documents/handover-sheet.ts';
import { draftQuote } from '../../../shared-core/documents/issue-quote-document.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { at, family, NOW, pouredFamily } from './poured-family.ts';
import { textOf } from './tree-text.ts';

const LATER = at('25', 0);
/** The readings of a floor that falls evenly, 5 mm a meter, and of one that has the dips it was read with. */
const sloped = <S extends Pick<Survey, 'readings'>>(survey: S): S => ({
  ...survey,
  readings: survey.readings.map((reading) => ({ ...reading, valueM: 1 + 0.005 * reading.xM })),
});
const roomsOf = (change: <S extends Pick<Survey, 'readings'>>(survey: S) => S, isPoured = false): readonly Room[] =>
  family.rooms.map((room) => ({
    ...room,
    survey: change(room.survey),
    surveyAfter: isPoured ? { ...room.survey, takenAt: at('14', 0) } : null,
  }));
const as = <T>(value: T): T => value;

it('on the quote: out of level, with nothing said of flat', () => {
  const textWith = (change: typeof sloped): string =>
    textOf(draftQuote(readJob({ ...family, quotes: [], rooms: roomsOf(change) }, NOW), NOW));
  expect(textWith(as)).toMatch(/It is \S+ out of level and up to \S+ in 10 ft out of flat\./);
  expect(textWith(sloped)).toMatch(/It is \S+ out of level\./);
  expect(textWith(sloped)).not.toContain('out of flat');
});

it('on the handover sheet: no figure before the pour', () => {
  const textWith = (change: typeof sloped): string =>
    JSON.stringify(
      handoverSheet(readJob({ ...pouredFamily(), rooms: roomsOf(change, true) }, LATER), { now: LATER, revision: 1, changes: [] }),
    );
  expect(textWith(as)).toMatch(/Before: [^"]+ in 10 ft/);
  expect(textWith(sloped)).toContain('before the pour');
  expect(textWith(sloped)).not.toMatch(/before(?: the pour)?: 0″/i);
});
