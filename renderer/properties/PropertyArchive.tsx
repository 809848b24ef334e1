import type { Property } from '../../shared-core/book/property.ts';
import { nowInstant } from '../book/now-instant.ts';
import type { Outcome } from '../book/outcome.ts';
import { unarchive, archive } from '../book/write.ts';
import { TextButton } from '../parts/Buttons.tsx';
import { BlockPart } from '../parts/Sheet.tsx';

interface PropertyArchiveProps {
  readonly property: Property;
  readonly openJobs: number;
  readonly onSay: (outcome: Outcome<unknown>) => void;
}

export function PropertyArchive({ property, openJobs, onSay }: PropertyArchiveProps) {
  const one = [{ table: 'properties' as const, id: property.id }];
  const { line } = property.address;
  if (property.deletedAt !== null) {
    return (
      <BlockPart>
        <TextButton onPress={() => void unarchive(one, `unarchive ${line}`, nowInstant()).then(onSay)}>Unarchive property</TextButton>
      </BlockPart>
    );
  }
  if (openJobs > 0) return null;
  return (
    <BlockPart>
      <TextButton kind="delete" onPress={() => void archive(one, `archive ${line}`, nowInstant()).then(onSay)}>
        Archive property
      </TextButton>
    </BlockPart>
  );
}
