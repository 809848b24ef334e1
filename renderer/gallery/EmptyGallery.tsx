import { ActionButton } from '../parts/ActionButton.tsx';
import { Answer } from '../parts/Answer.tsx';
import { EmptySheet } from '../parts/EmptySheet.tsx';
import { Sheet } from '../parts/Sheet.tsx';
import { TextButton } from '../parts/TextButton.tsx';
import { BlockPart } from '../parts/TitleBlock.tsx';

export function EmptyGallery() {
  return (
    <Sheet
      page="Jobs"
      who={{ name: 'Jobs', where: 'None yet' }}
      block={
        <BlockPart>
          <p className="second">Each job stands here by name, with where it is and the one thing that moves it on.</p>
        </BlockPart>
      }
      foot={<Answer>No job is open.</Answer>}
      action={<ActionButton>Enter the first job</ActionButton>}
    >
      <EmptySheet
        headingLevel="h1"
        heading="Your jobs go here."
        hint="A job is a house, the rooms in it, and what is to be done to their floors. Begin with who rang and where they live."
        or={<TextButton>Look round the sample book</TextButton>}
      />
    </Sheet>
  );
}
