/** Saves dates as calendar files: all jobs in one, or one job's, and again when they change. */
import { type Became, whatBecame, whatBecameOfLead } from '../../shared-core/agenda/became.ts';
import { type CalendarEvent, type CalendarFeed, calendarFeed, fingerprint, hasEnded } from '../../shared-core/agenda/calendar-feed.ts';
import { jobAgenda } from '../../shared-core/agenda/job-agenda.ts';
import { type JobGlance, type JobReading, readJob } from '../../shared-core/standing/read-job.ts';
import type { CalendarEntry } from '../../shared-core/book/papers.ts';
import { askDesk } from '../desk/desk-client.ts';
import { fileName, type SavedFile } from '../desk/save-file.ts';
import { changeCalendarState, noteCalendarSent, readCalendarSent, readCalendarState } from './calendar-commands.ts';
import type { GatheredAgenda } from './gather-agenda.ts';
import { nowInstant } from './command.ts';
import { jobsOfNumber } from './export-rows.ts';
import { openBackup } from './open-read-only.ts';
import { readWholeJob } from './use-whole-job.ts';

const WHOLE_FILE = 'Straightedge calendar.ics';

type Titled = { readonly file: string; readonly name: string; readonly events: readonly CalendarEvent[] };
/** A saved calendar. The desk replaces no file of other data, so its name may differ from the one asked for. */
type KeptAt = SavedFile & { readonly asked: string; readonly folder: string };

const jobTitles = (number: string) => ({ file: fileName(`Job ${number} dates`, 'ics'), name: `Job ${number}` });

async function saveCalendar({ file, name, events }: Titled, sentAt: string): Promise<KeptAt> {
  const saved = await askDesk('calendar.save', { file, name, events: [...events], sentAt });
  if (!saved.ok) return { ok: false, asked: file, name: file, text: saved.error.message, folder: '' };
  const { name: kept, folder } = saved.value;
  return { ok: true, asked: file, name: kept, text: `${kept} was saved to ${folder}.`, folder };
}

/** One window at a time, because entries get sequence numbers. */
const inTurn = <T>(work: () => Promise<T>): Promise<T> => navigator.locks.request('straightedge-calendar', work);

/** The records of a feed that differ from those sent before. */
export function newsOf(feed: Pick<CalendarFeed, 'records'>, sent: readonly CalendarEntry[]): readonly CalendarEntry[] {
  const before = new Map(sent.map((entry) => [entry.uid, entry]));
  return feed.records.filter((record) => {
    const sentEntry = before.get(record.uid);
    return (
      sentEntry?.sequence !== record.sequence || sentEntry.cancelled !== record.cancelled || sentEntry.fingerprint !== record.fingerprint
    );
  });
}

const note = (feed: CalendarFeed, sent: readonly CalendarEntry[]) => noteCalendarSent({ records: newsOf(feed, sent) });

/** A calendar file has one event at least (RFC 5545, 3.6). */
const NO_DATES: SavedFile = { ok: true, name: '', text: 'There are no dates to save yet.' };

/** The refusal while a backup is open, so that its dates never replace those of the calendar; null while none is. */
const whileBackupOpen = (): SavedFile | null =>
  openBackup() === null ? null : { ok: false, name: '', text: 'A backup is open read-only. Close it to save your dates.' };

export function saveJobCalendar({ whole, bundle }: JobReading): Promise<SavedFile> {
  return inTurn(async () => {
    const sentAt = nowInstant();
    const sent = await readCalendarSent(whole.job.id);
    const feed = calendarFeed(
      jobAgenda(bundle, whole.business).entries,
      sent,
      (asked) => whatBecame(bundle, whole.business, asked, sentAt),
      sentAt,
    );
    // Two imported jobs may share a number, and the file of that number has the dates of both.
    const isShared = (await jobsOfNumber(whole.job.number)).length > 1;
    const title = jobTitles(isShared ? `${whole.job.number} ${whole.customer.name}` : whole.job.number);
    const refused = whileBackupOpen();
    if (refused !== null) return refused;
    if (feed.events.length === 0) return NO_DATES;
    const saved = await saveCalendar({ ...title, events: feed.events }, sentAt);
    if (saved.ok) await note(feed, sent);
    return saved;
  });
}

/** Jobs that are no longer on the agenda but have calendar entries whose outcome is unknown. */
async function readOthers(gathered: GatheredAgenda, sent: readonly CalendarEntry[]): Promise<ReadonlyMap<string, JobGlance>> {
  const open = new Set(sent.flatMap((entry) => (hasEnded(entry) ? [] : [entry.jobId])));
  const others = new Map<string, JobGlance>();
  for (const jobId of open) {
    if (gathered.readings.has(jobId) || gathered.archive.has(jobId)) continue;
    const whole = await readWholeJob(jobId);
    if (whole !== null) others.set(jobId, readJob(whole, nowInstant()));
  }
  return others;
}

const sentencesOf = (written: readonly KeptAt[]): string => {
  const [whole] = written;
  const more = written.length - 1;
  if (whole === undefined) return '';
  if (more === 0) return whole.text;
  return `${whole.name} and ${more === 1 ? '1 job file' : `${more} job files`} were saved to ${whole.folder}.`;
};

/**
 * Saves all dates as one calendar file, and one for each job if asked.
 * @param again also writes files whose content has not changed
 */
export function saveCalendars(gathered: GatheredAgenda, again: boolean, jobsToo: boolean): Promise<SavedFile> {
  return inTurn(async () => {
    const sentAt = nowInstant();
    const [sent, before] = [await readCalendarSent(null), await readCalendarState()];
    const others = await readOthers(gathered, sent);
    const refused = whileBackupOpen();
    if (refused !== null) return refused;
    const { business } = gathered.agenda;
    const becameOf = (asked: Parameters<typeof whatBecame>[2] & { readonly jobId: string }): Became | null => {
      const ofLead = whatBecameOfLead(asked, sentAt);
      if (ofLead !== null) return ofLead;
      const { jobId } = asked;
      const bundle = (gathered.readings.get(jobId) ?? others.get(jobId))?.bundle;
      if (bundle !== undefined) return whatBecame(bundle, business, asked, sentAt);
      return gathered.numbers.has(jobId) && !gathered.archive.has(jobId) ? null : { kind: 'dropped' };
    };
    const feed = calendarFeed(gathered.agenda.entries, sent, becameOf, sentAt);
    if (feed.events.length === 0) return NO_DATES;
    // By number, because two imported jobs may share one: their file then has the dates of both.
    const byNumber = new Map<string, CalendarEvent[]>();
    for (const event of jobsToo ? feed.events : []) {
      const number = gathered.numbers.get(event.jobId);
      if (number !== undefined) byNumber.set(number, [...(byNumber.get(number) ?? []), event]);
    }
    const files: Titled[] = [
      { file: WHOLE_FILE, name: gathered.name === '' ? 'Straightedge' : gathered.name, events: feed.events },
      ...[...byNumber].map(([number, events]) => ({ ...jobTitles(number), events })),
    ];
    const fingerprints: Record<string, string> = { ...before.fingerprints };
    const written: KeptAt[] = [];
    for (const file of files) {
      const print = fingerprint(JSON.stringify(file.events));
      if (!again && before.failed === null && fingerprints[file.file] === print) continue;
      const saved = await saveCalendar(file, sentAt);
      written.push(saved);
      if (!saved.ok) break;
      fingerprints[file.file] = print;
      // Sequence numbers are stored once one file has them, so that a retry does not reuse a number for other content.
      if (written.length === 1) await note(feed, sent);
    }
    const wrong = written.find(({ ok }) => !ok) ?? null;
    if (written.length > 0)
      await changeCalendarState((state) => ({
        ...state,
        fingerprints,
        failed: wrong?.text ?? null,
        file: written.find(({ ok, asked }) => ok && asked === WHOLE_FILE)?.name ?? state.file,
        ...(wrong === null ? { writtenAt: sentAt } : {}),
      }));
    return wrong ?? { ok: true, name: written[0]?.name ?? WHOLE_FILE, text: sentencesOf(written) };
  });
}

/** Updates the files automatically, if that is turned on. */
export async function followCalendars(gathered: GatheredAgenda, again: boolean): Promise<void> {
  const { following } = await readCalendarState();
  if (following !== 'off') await saveCalendars(gathered, again, following === 'jobs');
}
