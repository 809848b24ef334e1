import { useState } from 'react';
import type { JobReading } from '../../../shared-core/standing/read-job.ts';
import { saveJobCalendar } from '../../book/calendar-files.ts';
import { Notice } from '../../parts/Notice.tsx';
import { TextButton } from '../../parts/Buttons.tsx';

/** Saves the job's dates as a calendar file. */
export function CalendarButton({ reading }: { readonly reading: JobReading }) {
  const [message, setMessage] = useState<{ ok: boolean; text: string } | null>(null);
  return (
    <>
      <TextButton onPress={() => void saveJobCalendar(reading).then(setMessage)}>Save this job’s dates as a calendar file</TextButton>
      {message !== null && (
        <Notice kind={message.ok ? 'success' : 'failure'} onClose={() => setMessage(null)}>
          {message.text}
        </Notice>
      )}
    </>
  );
}
