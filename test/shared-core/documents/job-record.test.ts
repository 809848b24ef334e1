import { execFileSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inkDocument } from '../../../main/desk/ink/ink-document.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { preparationLetter } from '../../../shared-core/documents/certificates.ts';
import { jobRecord } from '../../../shared-core/documents/job-record.ts';
import { documentTreeSchema } from '../../../shared-core/documents/tree.ts';
import { sampleAt } from '../../sample-at.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { textOf } from './tree-text.ts';
import { visit } from '../agenda/bundle-fixture.ts';
import { testFonts } from '../../main/desk/working-desk.ts';
import { removeFolder } from '../../../build/remove-folder.mjs';

const NOW = '2026-05-12T16:00:00.000Z';
const jobs = wholeJobsOf(sampleAt(NOW));
const found = jobs.find((w) => w.job.id === 'sample-job-abara');
if (found === undefined) throw new Error('The sample has the job of the three floors.');
const sample: WholeJob = found;

/** A picture of one white pixel (ISO/IEC 15948). */
const PIXEL = 'data:image/png;base64,iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mP8z8BQDwAEhQGAhKmMIQAAAABJRU5ErkJggg==';
const callback = {
  ...visit('visit-crack', 'callback', '2026-05-11T14:00:00.000Z', ['sample-living']),
  ...{ jobId: sample.job.id, title: 'hair crack by the door', doneAt: '2026-05-11T15:00:00.000Z' },
  ...{ cause: 'The dam stood too tight.', fix: 'Opened and filled.' },
};
const whole: WholeJob = { ...sample, visits: [...sample.visits, callback] };
const photo = {
  photo: {
    id: 'photo-0001',
    caption: 'Crack at the door',
    takenAt: NOW,
    createdAt: NOW,
    roomId: 'sample-living',
    sha256: 'a'.repeat(64),
    mediaType: 'image/png' as const,
  },
  picture: PIXEL,
};

async function printed(job: WholeJob): Promise<{ text: string; images: string }> {
  const { pdf } = await inkDocument(jobRecord(readJob(job, NOW), [photo], NOW, 1), testFonts());
  const folder = mkdtempSync(join(tmpdir(), 'straightedge-record-'));
  try {
    const file = join(folder, 'record.pdf');
    writeFileSync(file, pdf);
    execFileSync('qpdf', ['--check', file]);
    return {
      text: execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' }),
      images: execFileSync('pdfimages', ['-list', file], { encoding: 'utf8' }),
    };
  } finally {
    removeFolder(folder);
  }
}

describe('the record of a job', () => {
  it('prints every log entry, promise, test and callback, and the photo', async () => {
    const { text, images } = await printed(whole);
    const flat = text.replace(/\s+/g, ' ');
    for (const event of whole.pourEvents) {
      if (event.kind === 'lot') expect(flat).toContain(`Lot ${event.lot}`);
      if (event.kind === 'placed') expect(flat).toContain(`Batch ${event.batch} placed`);
    }
    for (const room of whole.rooms) expect(flat).toContain(room.name);
    for (const line of whole.job.rooms.flatMap((r) => r.signed)) expect(flat).toContain(line.initials);
    expect(flat).toContain('Promised dates');
    expect(flat).toContain('Moisture tests');
    expect(flat).toContain('The dam stood too tight.');
    expect(flat).toContain('Opened and filled.');
    expect(flat).toContain('Crack at the door');
    expect(images.split('\n').filter((line) => /\bimage\b/.test(line)).length).toBeGreaterThan(0);
    // Calculates the job, inks nine pages and starts three programs, which is slow under load.
  }, 120_000);

  it('gives one time at which a pour finished: that of its last batch, not the end of its log', () => {
    const record = textOf(jobRecord(readJob(sample, NOW), [], NOW, 1));
    const [pour] = sample.pours;
    const ended = sample.pourEvents.find((event) => event.pourId === pour?.id && event.kind === 'finished');
    // The crew cleans up before it ends the log.
    expect(ended !== undefined && ended.instant > (pour?.finishedAt ?? NOW)).toBe(true);
    expect(record).toMatch(/, finished \w+ \d+, \d{4}, \d+:\d\d [ap]m\./);
    expect(record).toMatch(/Log ended: \d+ bags? left/);
    expect(record).not.toContain('Pour finished');
  });

  it('dates an entry of another day than the pour', () => {
    const [pour] = sample.pours;
    if (pour === undefined) throw new Error('The sample has a pour.');
    const late = {
      id: 'event-late',
      pourId: pour.id,
      seq: 901,
      instant: '2030-12-23T14:00:00.000Z',
      estimated: false,
      kind: 'lot' as const,
      lot: 'B7',
    };
    const record = textOf(jobRecord(readJob({ ...sample, pourEvents: [...sample.pourEvents, late] }, NOW), [], NOW, 1));
    expect(record).toMatch(/901 \| December 23, 2030, 9:00 am/);
  });

  it('shows a voided entry and the one that voided it', () => {
    const placed = whole.pourEvents.find((e) => e.kind === 'placed');
    if (placed === undefined) throw new Error('The sample has a batch.');
    const undone = {
      id: 'event-undone',
      pourId: placed.pourId,
      seq: 900,
      instant: NOW,
      estimated: false,
      kind: 'undone' as const,
      eventId: placed.id,
    };
    const tree = jobRecord(readJob({ ...whole, pourEvents: [...whole.pourEvents, undone] }, NOW), [], NOW, 1);
    const text = JSON.stringify(tree.blocks);
    expect(text).toContain('Voided by entry 900');
    expect(text).toContain(`Voided: entry ${placed.seq}`);
  });

  it('is a valid document, also for a job where nothing is poured', () => {
    for (const job of [whole, ...jobs.filter((j) => j.pours.length === 0)]) {
      expect(documentTreeSchema.safeParse(jobRecord(readJob(job, NOW), [], NOW, 1)).error?.issues ?? []).toEqual([]);
    }
  });
});

it('gives the day of an entry that was logged on another day than the pour', () => {
  const [pour] = sample.pours;
  const began = sample.pourEvents.find(({ pourId }) => pourId === pour?.id);
  if (pour === undefined || began === undefined) throw new Error('A pour of the sample has a log.');
  const note = {
    id: 'event-late',
    pourId: pour.id,
    seq: 901,
    estimated: false,
    kind: 'note' as const,
    text: 'Customer called',
    photoIds: [],
  };
  // New York is four hours behind UTC in May.
  const pourEvents = [...sample.pourEvents, { ...note, instant: '2026-05-12T13:01:00.000Z' }];
  expect(pour.startedAt?.slice(0, 10)).not.toBe('2026-05-12');
  expect(textOf(jobRecord(readJob({ ...sample, pourEvents }, NOW), [], NOW, 1))).toContain('May 12, 2026, 9:01 am');
});

it('counts one signed line of prep in the singular', () => {
  const rooms = sample.job.rooms.map((room) => ({
    ...room,
    signed: room.signed.filter(({ withdrawnAt }) => withdrawnAt === null).slice(0, 1),
  }));
  const text = textOf(jobRecord(readJob({ ...sample, job: { ...sample.job, rooms } }, NOW), [], NOW, 1));
  expect(text).toContain(': 1 prep line signed');
});

it('is preceded by a letter that says which day is called: the first, or the next once a floor is poured', () => {
  const letterOf = (pours: WholeJob['pours']): string => {
    const rooms = sample.job.rooms.map((room) => ({ ...room, pourAt: null }));
    const job = { ...sample.job, prepVisitAt: null, rooms };
    const reading = readJob({ ...sample, pours, job }, NOW);
    return textOf(preparationLetter({ reading, photos: [], now: NOW, revision: 1, changes: [] }));
  };
  expect(letterOf([])).toMatch(/call you with the first day\.[^]*Please do before our first day/);
  expect(letterOf(sample.pours.slice(0, 1))).toMatch(/call you with the next day\.[^]*Please do before our next day/);
});

it('is preceded by a letter that names its day as a visit or as a pour, and gives a contact to call', () => {
  const letterOf = (prepVisitAt: string | null, own: Partial<WholeJob['business']> = {}): string => {
    const rooms = sample.job.rooms.map((room) => ({ ...room, pourAt: '2030-06-05T14:00:00.000Z' }));
    const whole = {
      ...sample,
      pours: [],
      pourEvents: [],
      business: { ...sample.business, ...own },
      job: { ...sample.job, prepVisitAt, rooms },
    };
    const now = '2030-06-01T14:00:00.000Z';
    return textOf(preparationLetter({ reading: readJob(whole, now), photos: [], now, revision: 1, changes: [] }));
  };
  expect(letterOf(null)).toContain('Our first pour is Wednesday, June 5, 2030.');
  expect(letterOf('2030-06-03T13:00:00.000Z')).toContain('Our first day is Monday, June 3, 2030.');
  // The visit is over: the day to come is the pour.
  expect(letterOf('2030-05-30T13:00:00.000Z')).toContain('Our first pour is Wednesday, June 5, 2030.');
  expect(letterOf(null, { ownerName: '', phone: '555-0142', email: '' })).toContain('Questions? Call 555-0142.');
  expect(letterOf(null, { ownerName: '', phone: '', email: 'ros@example.com' })).toContain('Questions? Email ros@example.com.');
  expect(letterOf(null, { ownerName: '', phone: '', email: '' })).toContain('Questions? Call us.');
});
