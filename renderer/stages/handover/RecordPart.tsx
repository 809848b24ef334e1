import { useState } from 'react';
import type { JobReading } from '../../../shared-core/standing/read-job.ts';
import { jobRecord } from '../../../shared-core/documents/job-record.ts';
import { nextRevision, saveDocument } from '../../book/document-commands.ts';
import { nowInstant } from '../../book/moment.ts';
import { paperPhotos } from '../../book/record-commands.ts';
import { Notice } from '../../parts/Notice.tsx';
import { TextButton } from '../../parts/TextButton.tsx';
import { BlockPart } from '../../parts/TitleBlock.tsx';

/** The job record: everything stored about the job, for a later question or dispute. */
export function RecordPart({ reading }: { readonly reading: JobReading }) {
  const [said, setSaid] = useState<{ ok: boolean; says: string } | null>(null);
  const { job, documents } = reading.whole;
  const make = async (): Promise<void> => {
    const photos = await paperPhotos(job.id);
    const tree = jobRecord(reading, photos, nowInstant());
    setSaid(await saveDocument({ jobId: job.id, kind: 'job-record', revision: nextRevision(documents, 'job-record'), tree, photos }));
  };
  return (
    <BlockPart heading="Job record">
      <p className="small">Everything on record about this job: floor, prep, pour log, cure, dates, tests, visits, and photos.</p>
      <TextButton onPress={() => void make()}>Save job record PDF</TextButton>
      {said !== null && (
        <Notice kind={said.ok ? 'told' : 'failure'} onClose={() => setSaid(null)}>
          {said.says}
        </Notice>
      )}
    </BlockPart>
  );
}
