/** `npm run sample -- --out DIR`: writes the documents and figures of the sample data to a folder. */
import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { agenda } from '../../shared-core/agenda/agenda.ts';
import { calendarFeed } from '../../shared-core/agenda/calendar-feed.ts';
import { readJob } from '../../shared-core/standing/read-job.ts';
import { todayList } from '../../shared-core/agenda/today.ts';
import { nextRevision } from '../../shared-core/documents/document-input.ts';
import { DOCUMENTS } from '../../shared-core/documents/document-list.ts';
import { readTree } from '../../shared-core/documents/stored-tree.ts';
import { sampleBook } from '../../shared-core/sample/sample-book.ts';
import { samplePaperPhotos } from '../../shared-core/sample/sample-pictures.ts';
import { wholeJobsOf } from '../../shared-core/sample/whole-jobs.ts';
import { writeCalendar } from './calendar.ts';
import { inkDocument } from './ink/ink-document.ts';

const out = process.argv[2] ?? 'sample-documents';
const now = process.env['STRAIGHTEDGE_NOW'] ?? new Date().toISOString();

/** The fonts are beside the built program. */
const fonts = join(import.meta.dirname, '..', 'fonts');

const write = async (): Promise<void> => {
  await mkdir(out, { recursive: true });
  const book = sampleBook(now);
  const readings = wholeJobsOf(book).map((whole) => readJob(whole, now));
  const business = book.business[0];
  if (business === undefined) throw new Error('The sample has no business.');
  const all = agenda(
    readings.map((reading) => reading.bundle),
    business,
    null,
  );
  const feed = calendarFeed(all.entries, [], () => null, now);
  await writeFile(join(out, 'calendar.ics'), writeCalendar({ name: business.name, events: [...feed.events], sentAt: now }));
  const papers: string[] = [];
  const saveDocument = async (tree: Parameters<typeof inkDocument>[0]): Promise<void> => {
    const name = `${tree.title}.pdf`;
    await writeFile(join(out, name), (await inkDocument(tree, fonts)).pdf);
    papers.push(name);
  };
  for (const document of book.documents) {
    const tree = readTree(document.content);
    if (tree !== null) await saveDocument(tree);
  }
  for (const reading of readings) {
    const photos = samplePaperPhotos(book.photos, reading.whole.job.id, (bytes) => Buffer.from(bytes).toString('base64'));
    for (const entry of DOCUMENTS)
      if (entry.missing(reading) === null)
        await saveDocument(entry.build({ reading, photos, now, revision: nextRevision(reading.whole, entry.kind), changes: [] }));
  }
  const summary = {
    instant: now,
    today: todayList(all, now).map(({ letter, entry, when }) => ({ letter, text: `${entry.verb} ${entry.rest}`, when })),
    jobs: readings.map(({ whole, estimate, rooms, standing }) => ({
      number: whole.job.number,
      customer: whole.customer.name,
      totalMinor: estimate.suggested.price.totalMinor,
      currency: whole.business.currency,
      ready: estimate.ready,
      options: estimate.options.map((option) => ({ name: option.name, totalMinor: option.price.totalMinor })),
      rooms: rooms.map(({ room, assessment, estimate: roomEstimate }) => ({
        name: room.name,
        stage: standing.rooms.find((standing) => standing.roomId === room.id)?.stage ?? null,
        verdict: assessment.verdict,
        areaM2: roomEstimate?.takeoff.room.areaM2 ?? null,
        volumeM3: roomEstimate?.takeoff.room.volume?.likelyM3 ?? null,
        bags: roomEstimate?.takeoff.bags?.quotedBags ?? null,
      })),
    })),
  };
  await writeFile(join(out, 'summary.json'), `${JSON.stringify(summary, null, 2)}\n`);
  process.stdout.write(`The sample data is in ${out}: ${[...papers, 'calendar.ics', 'summary.json'].join('; ')}.\n`);
};
await write();
