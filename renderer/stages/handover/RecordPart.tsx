import { useState } from 'react';
import type { JobReading } from '../../../shared-core/standing/read-job.ts';
import { jobRecord } from '../../../shared-core/documents/job-record.ts';
import { nowInstant } from '../../book/moment.ts';
import { notePaper } from '../../book/paper-commands.ts';
import { paperPhotos } from '../../book/record-commands.ts';
import { makePaper } from '../../parts/make-paper.ts';
import { Notice } from '../../parts/Notice.tsx';
import { TextButton } from '../../parts/TextButton.tsx';
import { BlockPart } from '../../parts/TitleBlock.tsx';

/** The paper for the file: everything the book holds about the job, for the day someone asks why. */
export function RecordPart({ reading }: { readonly reading: JobReading }) {
  const [said, setSaid] = useState<{ ok: boolean; says: string } | null>(null);
  const { job } = reading.whole;
  const make = async (): Promise<void> => {
    const now = nowInstant();
    const tree = jobRecord(reading, await paperPhotos(job.id), now);
    const paper = await makePaper(tree);
    if (!paper.ok) return setSaid(paper);
    // Its content is kept without the photos, which the book holds already.
    const kept = await notePaper(reading.whole, { kind: 'job-record', tree: jobRecord(reading, [], now), sha256: paper.sha256 });
    setSaid(kept.ok ? paper : { ok: false, says: kept.message });
  };
  return (
    <BlockPart heading="For the file">
      <p className="small">Everything on record about this job: floor, prep, log of the pour, cure, promises, tests, visits, photos.</p>
      <TextButton onPress={() => void make()}>Make the job record</TextButton>
      {said !== null && (
        <Notice kind={said.ok ? 'told' : 'failure'} onClose={() => setSaid(null)}>
          {said.says}
        </Notice>
      )}
    </BlockPart>
  );
}
