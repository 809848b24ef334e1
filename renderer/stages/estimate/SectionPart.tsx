import { SelectField } from '../../parts/Choices.tsx';
import { BlockPart } from '../../parts/Sheet.tsx';
import type { EstimateSection, SectionHad } from './use-section.ts';

/** The choice of the section's line. */
export function SectionPart({ section }: { readonly section: SectionHad }) {
  return (
    <BlockPart>
      <SelectField<EstimateSection>
        label="Section"
        value={section.choice}
        onChange={(choice) => section.onChoice(choice)}
        options={{
          deepest: 'through the deepest point',
          long: 'along the room',
          across: 'across the room',
          worst: 'through the max gap',
          drawn: 'along a line drawn on the plan',
        }}
        hint={section.choice === 'drawn' ? 'Drag its ends, or click its start and its end.' : undefined}
        problem={section.misses ? 'This line misses the floor. Drag one of its ends across the room.' : null}
      />
    </BlockPart>
  );
}
