import type { Property } from '../../shared-core/book/property.ts';
import { nowInstant } from '../book/moment.ts';
import type { Outcome } from '../book/outcome.ts';
import { unarchive, archive } from '../book/write.ts';
import { TextButton } from '../parts/TextButton.tsx';
import { BlockPart } from '../parts/TitleBlock.tsx';

interface HouseAwayProps {
  readonly property: Property;
  readonly openJobs: number;
  readonly onSay: (outcome: Outcome<unknown>) => void;
}

/** Putting the house away, while no job is open in it; bringing it back. */
export function HouseAway({ property, openJobs, onSay }: HouseAwayProps) {
  const one = [{ table: 'properties' as const, id: property.id }];
  const { line } = property.address;
  if (property.deletedAt !== null) {
    return (
      <BlockPart>
        <TextButton onPress={() => void unarchive(one, `brought back ${line}`, nowInstant()).then(onSay)}>Bring this house back</TextButton>
      </BlockPart>
    );
  }
  if (openJobs > 0) return null;
  return (
    <BlockPart>
      <TextButton onPress={() => void archive(one, `put away ${line}`, nowInstant()).then(onSay)}>Put this house away</TextButton>
    </BlockPart>
  );
}
