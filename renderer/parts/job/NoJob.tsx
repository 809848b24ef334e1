import { EmptySheet } from '../EmptySheet.tsx';
import { LinkWord } from '../LinkWord.tsx';
import { Sheet } from '../Sheet.tsx';
import { SheetHeading } from '../TitleBlock.tsx';

/** The sheet of a job or room that is not in the book. */
export function NoJob() {
  return (
    <Sheet page="Jobs" who={{ name: 'Jobs' }}>
      <SheetHeading>No such room in a job</SheetHeading>
      <EmptySheet
        what="This job, or this room of it, is not in the book."
        how="It may have been put away, or the address is of another book."
        first={<LinkWord href="/jobs">See every job</LinkWord>}
      />
    </Sheet>
  );
}
