import { useState } from 'react';
import type { JobReading } from '../../../shared-core/standing/read-job.ts';
import { saveJobCalendar } from '../../book/calendar-files.ts';
import { Notice } from '../../parts/Notice.tsx';
import { TextButton } from '../../parts/TextButton.tsx';

/** The job's dates as a calendar file. */
export function CalendarButton({ reading }: { readonly reading: JobReading }) {
  const [said, setSaid] = useState<{ ok: boolean; says: string } | null>(null);
  return (
    <>
      <TextButton onPress={() => void saveJobCalendar(reading).then(setSaid)}>Save this job’s dates as a calendar file</TextButton>
      {said !== null && (
        <Notice kind={said.ok ? 'told' : 'failure'} onClose={() => setSaid(null)}>
          {said.says}
        </Notice>
      )}
    </>
  );
}
