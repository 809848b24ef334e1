import { useState } from 'react';
import type { Business } from '../../shared-core/book/business.ts';
import type { Material, MaterialKind } from '../../shared-core/book/material.ts';
import { startingSheets, type SheetUse } from '../book/material-commands.ts';
import { Dialog } from '../parts/Dialog.tsx';
import { LinkWord, TextButton } from '../parts/Buttons.tsx';
import { SelectField } from '../parts/Choices.tsx';
import { TextField, checkShort } from '../parts/Fields.tsx';
import { KIND_WORDS } from './sheet-words.ts';

interface AddDialogProps {
  readonly now: string;
  readonly business: Pick<Business, 'timeZone' | 'currency'>;
  /** Returns an error, or null when it was added. */
  readonly onAdd: (kind: MaterialKind, name: string, startFrom: string | null) => Promise<string | null>;
  readonly onClose: () => void;
}

export function AddSheetDialog({ now, business, onAdd, onClose }: AddDialogProps) {
  const [kind, setKind] = useState<MaterialKind>('cement-underlayment');
  const [name, setName] = useState('');
  const [from, setFrom] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const typical = startingSheets(kind, now, business);
  const start = typical.find((m) => m.id === from) ?? typical[0] ?? null;
  const add = async (): Promise<void> => setProblem(await onAdd(kind, name, start?.id ?? null));
  return (
    <Dialog onClose={onClose} title="New data sheet" onSave={() => void add()} saveWord="Add data sheet">
      <SelectField label="Kind" value={kind} options={KIND_WORDS} onChange={setKind} />
      <TextField
        label="Name"
        value={name}
        check={checkShort}
        onChange={setName}
        problem={problem}
        placeholder="Self-leveling underlayment, fine"
        hint="Enter a generic name: customers see it in the quote. Enter the manufacturer in the notes."
      />
      {typical.length > 1 ? (
        <SelectField
          label="Start from"
          value={start?.id ?? null}
          options={typical.map((m) => ({ value: m.id, word: `${m.name}, typical` }))}
          onChange={setFrom}
        />
      ) : (
        <p className="small">
          {start === null
            ? 'It starts empty. Enter the values from its data sheet.'
            : `It starts from typical values (${start.name}), in italics until you enter your own.`}
        </p>
      )}
    </Dialog>
  );
}

const CHOSEN_STILL =
  'Choose another material in these jobs first. If you archive it anyway, they keep using it and no other job can choose it.';
const LAST_OF_KIND =
  'This is the last data sheet of its kind, and open jobs use it. Add another one first. If you archive it anyway, their shopping lists show the amount without containers.';

interface ArchiveDialogProps {
  readonly material: Material;
  readonly uses: readonly SheetUse[];
  readonly hrefOf: (use: SheetUse) => string;
  readonly onGoOn: () => void;
  readonly onClose: () => void;
}

export function ArchiveDialog({ material, uses, hrefOf, onGoOn, onClose }: ArchiveDialogProps) {
  return (
    <Dialog
      onClose={onClose}
      firm
      title={`${material.name} is still in use`}
      actions={
        <>
          <TextButton kind="outlined" onPress={onGoOn}>
            Archive anyway
          </TextButton>
          <TextButton onPress={onClose}>Cancel</TextButton>
        </>
      }
    >
      <p>{material.powder !== null || material.kind === 'primer' ? CHOSEN_STILL : LAST_OF_KIND}</p>
      <ul className="ends">
        {uses.map((use) => (
          <li key={use.jobId}>
            <LinkWord href={hrefOf(use)} tall>
              {`${use.number} ${use.title}`.trim()}
            </LinkWord>
          </li>
        ))}
      </ul>
    </Dialog>
  );
}
