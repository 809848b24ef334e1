import { useState } from 'react';
import { calendarFeed } from '../../../shared-core/agenda/calendar-feed.ts';
import { jobAgenda } from '../../../shared-core/agenda/job-agenda.ts';
import type { JobReading } from '../../../shared-core/agenda/read-job.ts';
import { noteCalendarSent } from '../../book/calendar-commands.ts';
import { nowInstant } from '../../book/moment.ts';
import { base64OfText } from '../../parts/base64.ts';
import { askDesk } from '../../parts/desk-client.ts';
import { fileName, keepAndOpen } from '../../parts/keep-file.ts';
import { Notice } from '../../parts/Notice.tsx';
import { TextButton } from '../../parts/TextButton.tsx';

/** The job's dates as a calendar file. */
export function CalendarButton({ reading }: { readonly reading: JobReading }) {
  const [said, setSaid] = useState<{ ok: boolean; says: string } | null>(null);
  const save = async (): Promise<void> => {
    const sentAt = nowInstant();
    const { whole } = reading;
    const feed = calendarFeed(jobAgenda(reading.bundle, whole.business).entries, whole.calendarEntries, sentAt);
    const written = await askDesk('calendar.write', { name: `Job ${whole.job.number}`, events: [...feed.events], sentAt });
    if (!written.ok) {
      setSaid({ ok: false, says: written.error.message });
      return;
    }
    const kept = await keepAndOpen(fileName(`Job ${whole.job.number} dates`, 'ics'), base64OfText(written.value.text), false);
    if (kept.ok) await noteCalendarSent(feed);
    setSaid(kept);
  };
  return (
    <>
      <TextButton onPress={() => void save()}>Save this job’s dates as a calendar file</TextButton>
      {said !== null && (
        <Notice kind={said.ok ? 'told' : 'failure'} onClose={() => setSaid(null)}>
          {said.says}
        </Notice>
      )}
    </>
  );
}
