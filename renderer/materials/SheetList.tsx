import { useState } from 'react';
import { onHand, type Stock } from '../../shared-core/ledger/stock.ts';
import type { Material, MaterialKind } from '../../shared-core/book/material.ts';
import { containerOf } from '../../shared-core/material/containers.ts';
import { formatNumber } from '../../shared-core/measure/number.ts';
import { ArchivedList } from '../parts/ArchivedList.tsx';
import { ChoiceList, SelectField } from '../parts/Choices.tsx';
import { TextButton, LinkWord } from '../parts/Buttons.tsx';
import { BlockPart } from '../parts/Sheet.tsx';
import { isSampleSheet } from '../parts/sheet-options.ts';
import { useMeasure } from '../parts/use-measure.ts';
import { containersWord, FIRST_KINDS, KINDS, KIND_WORDS } from './sheet-words.ts';
import type { Business } from '../../shared-core/book/business.ts';
import { isChosenById, startingSheets, type SheetUse } from '../book/material-commands.ts';
import { Dialog } from '../parts/Dialog.tsx';
import { TextField } from '../parts/Fields.tsx';

interface SheetListProps {
  readonly materials: readonly Material[];
  readonly archived: readonly Material[];
  readonly stock: Stock | undefined;
  readonly picked: Material;
  readonly onPick: (id: string) => void;
  readonly onAdd: () => void;
  readonly onCopy: () => void;
  readonly onArchive: () => void;
  readonly onUnarchive: (material: Material) => void;
}

/** Sorted in the order of the work. */
export function inOrder(materials: readonly Material[]): Material[] {
  return materials.toSorted((a, b) => KINDS.indexOf(a.kind) - KINDS.indexOf(b.kind) || a.name.localeCompare(b.name));
}

export function SheetList(props: SheetListProps) {
  const { materials, archived, stock, picked, onPick, onAdd, onCopy, onArchive, onUnarchive } = props;
  const { locale } = useMeasure();
  const [opened, setOpened] = useState(false);
  const [awayOpen, setAwayOpen] = useState(false);
  const sorted = inOrder(materials);
  const ofSample = new Set(sorted.filter(isSampleSheet).map((m) => m.name));
  const first = sorted.filter((m) => FIRST_KINDS.has(m.kind) && (isSampleSheet(m) || !ofSample.has(m.name)));
  const others = sorted.length - first.length;
  const all = opened || !first.includes(picked);
  const onHandWords = (m: Material): string => {
    const containers = stock === undefined ? 0 : onHand(stock, m.id);
    return containers === 0
      ? 'none on hand'
      : `${containersWord(containers, formatNumber(containers, { most: 2 }, locale), containerOf(m).name)} on hand`;
  };
  return (
    <>
      <BlockPart>
        <div className="sheet-list">
          <ChoiceList
            label="Data sheets"
            value={picked.id}
            options={(all ? sorted : first).map((m) => ({
              id: m.id,
              word: m.name,
              right: isSampleSheet(m) ? `sample, ${onHandWords(m)}` : onHandWords(m),
            }))}
            onChange={onPick}
          />
        </div>
        <div className="words sheet-list-words">
          {first.includes(picked) && others > 0 && (
            <TextButton kind="plain" expanded={opened} onPress={() => setOpened(!opened)}>
              {opened ? 'Show fewer' : `Show ${others} more`}
            </TextButton>
          )}
          <TextButton onPress={onAdd}>Add data sheet</TextButton>
          <TextButton kind="plain" label={`Duplicate ${picked.name}`} onPress={onCopy}>
            Duplicate
          </TextButton>
          <TextButton kind="plain" label={`Archive ${picked.name}`} onPress={onArchive}>
            Archive
          </TextButton>
        </div>
        {archived.length > 0 && (
          <>
            <TextButton kind="plain" expanded={awayOpen} onPress={() => setAwayOpen(!awayOpen)}>
              {`${archived.length} archived`}
            </TextButton>
            {awayOpen && <ArchivedList rows={inOrder(archived)} onUnarchive={onUnarchive} />}
          </>
        )}
      </BlockPart>
    </>
  );
}

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
    <Dialog onClose={onClose} firm title={`${material.name} is still in use`} onSave={onGoOn} saveWord="Archive anyway">
      <p>{isChosenById(material) ? CHOSEN_STILL : LAST_OF_KIND}</p>
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
