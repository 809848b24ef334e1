import { useMemo, useState } from 'react';
import { nextStep } from '../../shared-core/agenda/next-step.ts';
import type { JobReading } from '../../shared-core/agenda/read-job.ts';
import type { Job } from '../../shared-core/book/job.ts';
import { useNow } from '../book/use-job-reading.ts';
import { useJobReadings } from '../book/use-job-readings.ts';
import { useBusiness, useWhere } from '../book/use-records.ts';
import { useWholeJobs } from '../book/use-whole-job.ts';
import { ActionButton } from '../parts/ActionButton.tsx';
import { ChoiceRow } from '../parts/ChoiceRow.tsx';
import { EmptySheet } from '../parts/EmptySheet.tsx';
import { LinkWord } from '../parts/LinkWord.tsx';
import { Sheet } from '../parts/Sheet.tsx';
import { StateShape } from '../parts/StateShape.tsx';
import { TextButton } from '../parts/TextButton.tsx';
import { BlockPart, SheetHeading } from '../parts/TitleBlock.tsx';
import { openingStage, roomWords, stageHref } from '../parts/job/stage-words.ts';
import './jobs.css';

type Shown = Job['state'];
const SHOWN: readonly { readonly value: Shown; readonly word: string }[] = [
  { value: 'open', word: 'Open' },
  { value: 'finished', word: 'Finished' },
  { value: 'declined', word: 'Declined' },
  { value: 'set-aside', word: 'Set aside' },
];

/** Jobs read whole at a time: ten years of them are not drawn to show the last. */
const AT_ONCE = 40;

/** Every job, the newest first, each room with where it stands and what moves it on. */
export function JobsScreen() {
  const business = useBusiness();
  const now = useNow();
  const [shown, setShown] = useState<Shown>('open');
  const [most, setMost] = useState(AT_ONCE);
  const jobs = useWholeJobs(shown, most);
  const open = useWhere('jobs', 'state', 'open')?.length ?? 0;
  const all = useWhere('jobs', 'state', shown)?.length ?? 0;
  const wanted = useMemo(
    () => jobs?.filter(({ job }) => job.state === shown).sort((a, b) => b.job.number.localeCompare(a.job.number)),
    [jobs, shown],
  );
  const readings = useJobReadings(wanted, now);
  if (readings === undefined || business === undefined) return <p className="today-reading caption">Reading the book…</p>;
  return (
    <Sheet
      page="Jobs"
      who={{ name: business.name === '' ? 'Your business' : business.name, where: business.address.town }}
      block={
        <BlockPart>
          <p>
            {open === 0 ? 'No job is open.' : open === 1 ? 'One job is open.' : `${open} jobs are open.`} A new one begins at the house it
            is for.
          </p>
        </BlockPart>
      }
      foot={<p className="speech">A job begins with its house and rooms.</p>}
      action={<ActionButton href="/people">Choose the customer</ActionButton>}
    >
      <SheetHeading>Jobs</SheetHeading>
      <div className="jobs-choice">
        <ChoiceRow
          label="Which jobs"
          value={shown}
          onChange={(state) => {
            setShown(state);
            setMost(AT_ONCE);
          }}
          options={SHOWN}
        />
      </div>
      {readings.length === 0 ? (
        <EmptySheet
          what={shown === 'open' ? 'Open jobs go here.' : 'None here.'}
          how="Every job keeps its rooms, papers and dates for good."
        />
      ) : (
        <ul className="jobs-list">
          {readings.map((reading) => (
            <JobRow key={reading.whole.job.id} reading={reading} now={now} />
          ))}
        </ul>
      )}
      {all > readings.length && readings.length > 0 && (
        <p className="small">
          {readings.length} of {all}.{' '}
          <TextButton onPress={() => setMost(most + AT_ONCE)}>Show {Math.min(AT_ONCE, all - readings.length)} more</TextButton>
        </p>
      )}
    </Sheet>
  );
}

function JobRow({ reading, now }: { readonly reading: JobReading; readonly now: string }) {
  const { whole, rooms, bundle } = reading;
  return (
    <li className="jobs-job">
      <div className="jobs-who">
        <h2>
          <LinkWord href={`/people/${whole.client.id}`} quiet>
            {whole.client.name}
          </LinkWord>
        </h2>
        <p className="caption">
          <LinkWord href={`/houses/${whole.property.id}`} quiet>
            {whole.property.address.line}
          </LinkWord>
        </p>
        <p className="small">
          Job {whole.job.number}
          {whole.job.title === '' ? '' : `, ${whole.job.title}`}
        </p>
      </div>
      <ul className="jobs-rooms">
        {rooms.map(({ room, jobRoom }) => {
          const step = nextStep(bundle, room.id, whole.business, now);
          const held = bundle.summaries.find((s) => s.roomId === room.id)?.holds.length ?? 0;
          const state =
            jobRoom.stage === 'done' ? 'done' : held > 0 && jobRoom.stage !== 'cure' && jobRoom.stage !== 'handover' ? 'held' : 'under-way';
          return (
            <li key={room.id}>
              <StateShape state={state} />
              <LinkWord href={stageHref(whole.job.id, openingStage(jobRoom.stage), room.id)} quiet>
                {room.name}
              </LinkWord>
              <span className="caption">{roomWords(jobRoom.stage)}</span>
              <span className="jobs-step">{step?.sentence ?? ''}</span>
            </li>
          );
        })}
      </ul>
    </li>
  );
}
