import type { Update } from '../book/write.ts';
import { useState } from 'react';
import type { Property } from '../../shared-core/book/property.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { LetterKey } from '../parts/LetterRow.tsx';
import { SelectField } from '../parts/Choices.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import { TextField } from '../parts/Fields.tsx';
import { BlockPart } from '../parts/Sheet.tsx';
import { letterPlace, roomAt } from './letter-places.ts';

type Note = Property['access'][number];

interface AccessNotesProps {
  readonly property: Property;
  readonly rooms: readonly Room[];
  readonly onEdit: (label: string, change: Update<Property>) => void;
}

/** Each kind of note: its letter on the plan, its name, and an example. */
const KINDS = [
  { letter: 'K', word: 'Key', example: 'with the neighbor at 43' },
  { letter: 'W', word: 'Water', example: 'at the laundry, 3 gallons a minute' },
  { letter: 'P', word: 'Power', example: 'two 15 A breakers behind the clock' },
  { letter: '', word: 'Other', example: 'parking, steps, a dog' },
] as const;
type Kind = (typeof KINDS)[number];
const kindOf = (letter: string): Kind => KINDS.find((k) => k.letter === letter) ?? KINDS[3];

/** Keys, water and power on site, each with its letter on the plan. */
export function AccessNotes({ property, rooms, onEdit }: AccessNotesProps) {
  const [adding, setAdding] = useState<Kind | null>(null);
  /** The note just added with Enter, where the cursor stays. */
  const [added, setAdded] = useState<number | null>(null);
  const drawn = rooms.filter((room) => room.plan.outline.length >= 3);
  const edit = (i: number, change: (note: Note) => Note | null): void =>
    onEdit('access notes', (p) => ({
      ...p,
      access: p.access.flatMap((note, k) => {
        const next = k === i ? change(note) : note;
        return next === null ? [] : [next];
      }),
    }));
  const missing = KINDS.filter((kind) => kind.letter === '' || !property.access.some((note) => note.letter === kind.letter));
  return (
    <BlockPart heading="Site access">
      <ul className="property-access">
        {property.access.map((note, i) => (
          // Notes have no id, so their order is the key.
          <li key={`${i}-${note.letter}`}>
            {note.letter === '' ? <span /> : <LetterKey letter={note.letter} />}
            <TextField
              bare
              long
              label={kindOf(note.letter).word}
              autoFocus={i === added}
              value={note.text}
              onChange={(text) => edit(i, (n) => (text === '' ? null : { ...n, text }))}
            />
          </li>
        ))}
        {adding !== null && (
          <li key={`new-${adding.letter}`}>
            {adding.letter === '' ? <span /> : <LetterKey letter={adding.letter} />}
            <TextField
              bare
              autoFocus
              waits
              label={adding.word}
              placeholder={adding.example}
              value=""
              onEnter={() => setAdded(property.access.length)}
              onChange={(text) => {
                if (text === '') return;
                setAdding(null);
                onEdit('access notes', (p) => ({ ...p, access: [...p.access, { letter: adding.letter, text, point: null }] }));
              }}
            />
          </li>
        )}
      </ul>
      <div className="words">
        <span className="caption">Add</span>
        {missing.map((kind) => (
          <TextButton
            key={kind.letter}
            kind="plain"
            label={`Add access note: ${kind.word.toLowerCase()}`}
            onPress={() => {
              setAdding(kind);
              setAdded(null);
            }}
          >
            {kind.word}
          </TextButton>
        ))}
      </div>
      {drawn.length > 0 && property.access.some((note) => note.letter !== '') && (
        <details className="below property-facts">
          <summary>Letters on the plan</summary>
          <div className="stack-wide">
            {property.access.map((note, i) =>
              note.letter === '' ? null : (
                <SelectField
                  key={`${i}-${note.letter}`}
                  label={`${note.letter}: ${kindOf(note.letter).word.toLowerCase()}`}
                  none="Not on the plan"
                  value={roomAt(drawn, note.point)?.id ?? null}
                  options={drawn.map((room) => ({ value: room.id, word: room.name }))}
                  onChange={(id) => {
                    const room = drawn.find((r) => r.id === id);
                    const occupied = property.access.flatMap((n, k) => (k === i || n.point === null ? [] : [n.point]));
                    edit(i, (n) => ({ ...n, point: room === undefined ? null : letterPlace(room, occupied) }));
                  }}
                />
              ),
            )}
          </div>
        </details>
      )}
    </BlockPart>
  );
}
