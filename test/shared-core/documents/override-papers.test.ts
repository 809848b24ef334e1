/** Which papers print an override is stated where one is entered. Here it is compared with every paper that the job can save. */
import { expect, it } from 'vitest';
import { overriddenWords, overrideOf } from '../../../shared-core/assess/overrides.ts';
import type { Override } from '../../../shared-core/book/job.ts';
import { issueQuoteWithDocument } from '../../../shared-core/documents/issue-quote-document.ts';
import { overridePapers } from '../../../shared-core/documents/open-holds.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { QUOTE_IS_ACCEPTED } from '../../../shared-core/price/issue-quote.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { sampleAt } from '../../sample-at.ts';
import { jobPapers } from './paper-set.ts';
import { textOf } from './tree-text.ts';

const NOW = '2026-05-12T15:00:00.000Z';
const WHY = 'The owner wants it left in place.';
const found = wholeJobsOf(sampleAt(NOW)).find(({ job }) => job.number === '26-031');
if (found === undefined) throw new Error('The sample has this job.');
const whole = found;
const reading = readJob(whole, NOW);
const accepted = wholeJobsOf(sampleAt(NOW))
  .flatMap(({ quotes }) => quotes.filter(({ state }) => state === 'accepted'))
  .slice(0, 1)
  .map((quote) => ({ ...quote, jobId: whole.job.id }));
const kinds = new Map([
  ['quote-draft', 'on the next quote'],
  ['prep-sheet', 'on the prep sheet'],
  ['job-record', 'in the job record'],
]);

/** The kinds of paper that have the reason once a room has this override, as words. */
const printedOn = (roomId: string, override: Pick<Override, 'key' | 'document'>, isAccepted = false): string[] => {
  const overrides = [{ ...override, why: WHY, instant: NOW, initials: 'RT' }];
  const job = { ...whole.job, rooms: whole.job.rooms.map((room) => (room.roomId === roomId ? { ...room, overrides } : room)) };
  const read = readJob({ ...whole, job, quotes: isAccepted ? accepted : [] }, NOW);
  // An accepted quote is the contract: no other can be issued, so the draft is no paper.
  expect(issueQuoteWithDocument(read, { id: 'next-quote', instant: NOW, by: 'Ros', note: '' })).toMatchObject(
    isAccepted ? { ok: false, message: QUOTE_IS_ACCEPTED } : {},
  );
  const papers = jobPapers(read, NOW).filter(({ kind }) => !isAccepted || kind !== 'quote-draft');
  const having = papers.filter(({ tree }) => textOf(tree).includes(WHY));
  return [...new Set(having.map(({ kind }) => kinds.get(kind) ?? kind))].toSorted();
};
const stated = (words: string): string[] => [...kinds.values()].filter((paper) => words.includes(paper)).toSorted();

it('of a finding, of a line of the checklist, and of a document are printed where the screen says', () => {
  const holds = reading.rooms.flatMap(({ room, preparation }) => preparation.holds.map((hold) => ({ roomId: room.id, hold })));
  for (const by of ['finding', 'line'] as const) {
    const of = holds.find(({ hold }) => hold.by === by && hold.clearedBy === 'reason');
    if (of === undefined) throw new Error(`The job has no hold by a ${by}.`);
    for (const isAccepted of [false, true])
      expect(printedOn(of.roomId, { key: of.hold.key }, isAccepted), `${by} ${isAccepted}`).toEqual(
        stated(overridePapers({ by, isDocument: false, isAccepted })),
      );
  }
  const document = { kind: 'engineer-letter' as const, issuedBy: 'Span Engineers', number: 'L-9', datedOn: '2026-05-10' };
  const roomId = reading.rooms[0]?.room.id ?? '';
  expect(printedOn(roomId, { key: 'load-over', document })).toEqual(
    stated(overridePapers({ by: 'finding', isDocument: true, isAccepted: false })),
  );
});

it('names its hold in the job record as it read then, also once the hold is gone, and on the prep sheet where it reads differently', () => {
  const one = reading.rooms.flatMap(({ room, preparation }) =>
    preparation.holds.filter(({ by, clearedBy }) => by === 'finding' && clearedBy === 'reason').map((hold) => ({ roomId: room.id, hold })),
  )[0];
  if (one === undefined) throw new Error('The job has a hold by a finding.');
  const entered = { why: WHY, document: null, initials: 'RT' };
  const then = 'the slab was at 86% RH. The limit is 80%.';
  const printed = (override: Override, kind: string): string => {
    const rooms = whole.job.rooms.map((room) => (room.roomId === one.roomId ? { ...room, overrides: [override] } : room));
    const papers = jobPapers(readJob({ ...whole, job: { ...whole.job, rooms } }, NOW), NOW);
    return papers.flatMap((paper) => (paper.kind === kind ? [textOf(paper.tree)] : [])).join(' ');
  };
  const gone = overrideOf({ key: 'no-such-hold', text: then }, entered, NOW);
  expect(printed(gone, 'job-record')).toContain('The slab was at 86% RH. The limit is 80%.');
  expect(printed(gone, 'job-record')).toContain(`hold overridden: the slab was at 86% RH. ${WHY}`);
  const changed = overrideOf({ key: one.hold.key, text: then }, entered, NOW);
  const words = `${WHY} The hold read then: The slab was at 86% RH. The limit is 80%.`;
  expect(printed(changed, 'prep-sheet')).toContain(words);
  expect(overriddenWords(changed, one.hold.text)).toBe(`Overridden by RT: ${words}`);
  expect(overriddenWords(overrideOf(one.hold, entered, NOW), one.hold.text)).toBe(`Overridden by RT: ${WHY}`);
  // A row stored before the hold's words were.
  const { hold: _, ...old } = changed;
  expect(overriddenWords(old, one.hold.text)).toBe(`Overridden by RT: ${WHY}`);
  expect(printed(old, 'job-record')).toContain('Not recorded');
});
