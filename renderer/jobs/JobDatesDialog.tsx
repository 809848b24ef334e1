import type { Job } from '../../shared-core/book/job.ts';
import { dayOfInstant } from '../../shared-core/measure/moment.ts';
import { changeJob } from '../book/job-commands.ts';
import type { Outcome } from '../book/outcome.ts';
import { DateField, Fields, MomentField } from '../parts/Fields.tsx';
import { Dialog } from '../parts/Dialog.tsx';
import { TextButton } from '../parts/Buttons.tsx';

interface JobDatesDialogProps {
  readonly job: Job;
  readonly title: string;
  /** IANA time zone of the property. */
  readonly zone: string;
  readonly now: string;
  /** Conflicts of this job's dates, in sentences. */
  readonly conflicts: readonly string[];
  readonly onSaved: (outcome: Outcome) => void;
  readonly onClose: () => void;
}

/** The dates set by hand: quote due, prep, handover. The pour date is set on Pour, visits on Cure. */
export function JobDatesDialog({ job, title, zone, now, conflicts, onSaved, onClose }: JobDatesDialogProps) {
  const edit = (label: string, change: (was: Job) => Job): void => void changeJob(job.id, label, change).then(onSaved);
  return (
    <Dialog onClose={onClose} title={title} actions={<TextButton onPress={onClose}>Close</TextButton>}>
      <Fields>
        <DateField
          label="Quote due"
          today={dayOfInstant(now, zone)}
          value={job.quotePromisedOn}
          onChange={(quotePromisedOn) => edit('quote due date', (stored) => ({ ...stored, quotePromisedOn }))}
        />
        <MomentField
          label="Prep visit"
          zone={zone}
          now={now}
          value={job.prepVisitAt}
          placeholder="Day and time"
          onChange={(prepVisitAt) => edit('prep visit', (stored) => ({ ...stored, prepVisitAt }))}
        />
        <MomentField
          label="Handover"
          zone={zone}
          now={now}
          value={job.handoverAt}
          placeholder="Day and time"
          onChange={(handoverAt) => edit('handover date', (stored) => ({ ...stored, handoverAt }))}
        />
      </Fields>
      {conflicts.length > 0 && (
        <>
          <h3 className="caption">Conflicts</h3>
          <ul>
            {conflicts.map((sentence) => (
              <li key={sentence} className="late">
                {sentence}
              </li>
            ))}
          </ul>
        </>
      )}
    </Dialog>
  );
}
