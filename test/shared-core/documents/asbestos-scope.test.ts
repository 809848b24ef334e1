/** A quote and the letter before the work, where old flooring contains asbestos. */
import { describe, expect, it } from 'vitest';
import type { Layer } from '../../../shared-core/book/layer.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { preparationLetter } from '../../../shared-core/documents/certificates.ts';
import { draftQuote } from '../../../shared-core/documents/issue-quote-document.ts';
import { wordingFor } from '../../../shared-core/substrate/wording.ts';
import { lineText } from '../../../shared-core/prep/line-words.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { sampleAt } from '../../sample-at.ts';
import { clearance, test } from '../substrate/a-floor.ts';
import { textOf as text } from './tree-text.ts';
import { sampleJob } from './sample-job.ts';

const NOW = '2026-05-12T15:00:00.000Z';
const POUR = '2026-05-27T13:40:00.000Z';
const wholeOf = (number: string): WholeJob => sampleJob(number, NOW);
const quoteOf = (whole: WholeJob): string => text(draftQuote(readJob(whole, NOW), NOW));
const poured = (whole: WholeJob): WholeJob => ({
  ...whole,
  job: { ...whole.job, rooms: whole.job.rooms.map((room) => ({ ...room, pourAt: POUR })) },
});

// 29 CFR 1926.1101: nobody but a firm licensed for it removes what contains asbestos. Common practice: the customer leaves it alone.
describe('old flooring that contains asbestos', () => {
  const LAYER = (whole: WholeJob) => whole.rooms.flatMap(({ layers }) => layers).find(({ material }) => material === 'adhesive-cutback');
  const withResult = (state: 'found' | 'none-found', materials: readonly Layer['material'][]): WholeJob => {
    const whole = wholeOf('26-029');
    const rooms = whole.rooms.map((room) => ({
      ...room,
      tests: [
        ...room.tests.filter(({ kind }) => kind !== 'lab'),
        ...room.layers
          .filter(({ material }) => materials.includes(material))
          .map(({ id }) => test.lab({ id: `lab-${id}`, layerId: id, state })),
      ],
    }));
    return { ...whole, rooms };
  };
  const letterOf = (whole: WholeJob, now = NOW): string =>
    text(preparationLetter({ reading: readJob(whole, now), photos: [], now, revision: 1, changes: [] }));

  it('is left to an abatement contractor in the scope, and is not in the price', () => {
    expect(LAYER(wholeOf('26-029'))?.fate).toBe('remove');
    const quoted = (state: 'found' | 'none-found', ...more: readonly Layer['material'][]) =>
      quoteOf(withResult(state, ['adhesive-cutback', ...more]));
    expect(quoted('none-found', 'resilient-tile')).toMatch(/Remove and dispose of the existing flooring$/m);
    expect(quoted('none-found')).toMatch(/existing flooring once a lab finds no asbestos in the resilient tile$/m);
    expect(quoted('none-found')).not.toContain('(not in this price)');
    // The tile is stuck in that adhesive, so the contractor takes both. Plank lies loose on it.
    expect(quoted('found')).toContain(
      'A licensed abatement contractor removes the resilient tile and cutback adhesive (not in this price)',
    );
    expect(quoted('found')).not.toContain('existing flooring');
    const found = withResult('found', ['adhesive-cutback']);
    const loose = found.rooms.map((room) => ({
      ...room,
      layers: room.layers.map((one) => (one.material === 'resilient-tile' ? { ...one, material: 'floating-plank' as const } : one)),
    }));
    expect(quoteOf({ ...found, rooms: loose })).toMatch(/Remove and dispose of the existing flooring, except the cutback adhesive$/m);
    expect(quoteOf({ ...found, rooms: loose })).toContain(
      'A licensed abatement contractor removes the cutback adhesive (not in this price)',
    );
  });

  it('is not promised to be removed by us in the letter, while any of it is presumed or detected', () => {
    const [ours, mayHold] = [/Leave the old flooring in place in [^.]+\. We remove it\./, /Some of it (?:may contain|contains) asbestos\./];
    const clear = letterOf(withResult('none-found', ['resilient-tile', 'adhesive-cutback']));
    expect([ours.test(clear), mayHold.test(clear)]).toEqual([true, false]);
    for (const whole of [wholeOf('26-029'), withResult('none-found', ['adhesive-cutback']), withResult('found', ['adhesive-cutback'])]) {
      const letter = letterOf(whole);
      expect([ours.test(letter), mayHold.test(letter)]).toEqual([false, true]);
    }
    // Once the clearance of each is recorded, it is gone.
    const found = withResult('found', ['resilient-tile', 'adhesive-cutback']);
    const overrides = found.rooms.flatMap(({ layers }) => layers.map(({ id }) => clearance(id)));
    const cleared = letterOf({ ...found, job: { ...found.job, rooms: found.job.rooms.map((room) => ({ ...room, overrides })) } });
    expect([mayHold.test(letterOf(found)), mayHold.test(cleared)]).toEqual([true, false]);
  });

  it('is not in the letter once its removal is signed, and is again once a signature is voided', () => {
    // Its plank and its foam pad are signed as removed in the sample.
    const whole = wholeJobsOf(sampleAt(NOW)).find(({ job }) => job.number === '26-028') ?? expect.fail('no job 26-028');
    expect(letterOf(whole)).not.toContain('old flooring');
    const rooms = whole.job.rooms.map((room) => ({ ...room, signed: room.signed.map((line) => ({ ...line, withdrawnAt: NOW })) }));
    expect(letterOf({ ...whole, job: { ...whole.job, rooms } })).toMatch(/Leave the old flooring in place in [^.]+\. We remove it\./);
    // An abatement contractor's line as well.
    const found = withResult('found', ['resilient-tile', 'adhesive-cutback']);
    const lines = readJob(found, NOW).rooms.flatMap(({ preparation }) => preparation.lines.filter(({ key }) => key.startsWith('remove:')));
    const signed = lines.flatMap(({ key, item }) =>
      item === null ? [] : [{ key, text: lineText(item, wordingFor('us', 'en-US'), 'en-US') }],
    );
    const gone = found.job.rooms.map((room) => ({
      ...room,
      signed: signed.map(({ key, text: signedText }) => ({
        ...{ itemKey: key, signedText, initials: 'Bea', note: '', doneAt: NOW, withdrawnAt: null, photoIds: [] },
      })),
    }));
    expect(letterOf(found)).toContain('Some of it contains asbestos.');
    expect(letterOf({ ...found, job: { ...found.job, rooms: gone } })).not.toContain('old flooring');
  });

  it('is not in the letter once its room is poured, nor is a pour date that has passed', () => {
    const whole = poured(withResult('none-found', ['resilient-tile', 'adhesive-cutback']));
    expect(letterOf(whole)).toContain('Wednesday, May 27, 2026');
    const later = letterOf(whole, '2026-05-28T15:00:00.000Z');
    expect(later).toContain('We will call you with the first day.');
    expect(later).not.toContain('May 27');
    const done = wholeJobsOf(sampleAt(NOW)).find(({ pours }) => pours.some(({ finishedAt }) => finishedAt !== null));
    if (done === undefined) throw new Error('The sample has a poured job.');
    const tile = { ...(LAYER(whole) as Layer), id: 'old-tile', material: 'ceramic-tile' as const, yearInstalled: 2005 };
    const rooms = done.rooms.map((room) => ({ ...room, layers: [tile, ...room.layers] }));
    const isOpen = readJob(done, NOW).standing.rooms.some((room) => room.poured === 'none');
    expect(letterOf({ ...done, rooms }).includes('We remove it.')).toBe(isOpen);
    expect(letterOf({ ...done, rooms, pours: [], pourEvents: [] })).toContain('We remove it.');
  });
});
