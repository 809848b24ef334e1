import { EmptySheet, Sheet, SheetHeading } from '../Sheet.tsx';
import { LinkWord } from '../Buttons.tsx';

/** Shown when a job or room is not found. */
export function NoJob() {
  return (
    <Sheet page="Jobs" who={{ name: 'Jobs' }}>
      <SheetHeading>Job not found</SheetHeading>
      <EmptySheet
        drawing="jobs"
        heading="This job or room was not found."
        hint="It may be archived, or on another computer."
        first={<LinkWord href="/jobs">Go to Jobs</LinkWord>}
      />
    </Sheet>
  );
}
