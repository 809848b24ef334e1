import type { Property } from '../../shared-core/book/property.ts';
import { LetterKey } from '../parts/LetterKey.tsx';
import { TextButton } from '../parts/TextButton.tsx';
import { TextField } from '../parts/TextField.tsx';
import { BlockPart } from '../parts/TitleBlock.tsx';

interface AccessNotesProps {
  readonly property: Property;
  readonly onEdit: (label: string, how: (p: Property) => Property) => void;
}

const LETTERS = ['K', 'W', 'P', ''] as const;
const ASKED = { K: 'Key', W: 'Water', P: 'Power', '': 'Also' } as const;

/** How one gets in, and where water and power are: a letter each. */
export function AccessNotes({ property, onEdit }: AccessNotesProps) {
  const set = (i: number, text: string): void =>
    onEdit('access notes', (p) => ({
      ...p,
      access: text === '' ? p.access.filter((_, k) => k !== i) : p.access.map((note, k) => (k === i ? { ...note, text } : note)),
    }));
  const missing = LETTERS.filter((letter) => letter === '' || !property.access.some((note) => note.letter === letter));
  return (
    <BlockPart heading="Getting in">
      <ul className="house-access">
        {property.access.map((note, i) => (
          // Notes have no id of their own; their order is what tells them apart.
          <li key={`${i}-${note.letter}`}>
            {note.letter === '' ? <span /> : <LetterKey letter={note.letter} />}
            <TextField
              bare
              label={ASKED[note.letter as keyof typeof ASKED] ?? 'Also'}
              value={note.text}
              onChange={(text) => set(i, text)}
            />
          </li>
        ))}
      </ul>
      <div className="house-access-add">
        {missing.map((letter) => (
          <TextButton
            key={letter}
            kind="plain"
            onPress={() =>
              onEdit('access notes', (p) => ({
                ...p,
                access: [...p.access, { letter, text: letter === '' ? 'Park…' : `${ASKED[letter]}: …`, at: null }],
              }))
            }
          >
            {ASKED[letter]}
          </TextButton>
        ))}
      </div>
    </BlockPart>
  );
}
