import { useState } from 'react';
import { onHand, type Stock } from '../../shared-core/ledger/stock.ts';
import type { Material } from '../../shared-core/book/material.ts';
import { formatNumber } from '../../shared-core/measure/number.ts';
import { SAMPLE_PREFIX } from '../book/sample-commands.ts';
import { ChoiceList } from '../parts/Choices.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import { BlockPart } from '../parts/Sheet.tsx';
import { useMeasure } from '../parts/use-measure.ts';
import { containersWord, FIRST_KINDS, KINDS } from './sheet-words.ts';

interface SheetListProps {
  readonly materials: readonly Material[];
  readonly archived: readonly Material[];
  /** Undefined while loading. */
  readonly stock: Stock | undefined;
  readonly picked: Material;
  readonly onPick: (id: string) => void;
  readonly onAdd: () => void;
  readonly onCopy: () => void;
  readonly onArchive: () => void;
  readonly onUnarchive: (material: Material) => void;
}

/** Sample data sheets are hidden behind the user's own, because their names would repeat. */
const isSample = (material: Material): boolean => material.id.startsWith(SAMPLE_PREFIX);

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
  const ofSample = new Set(sorted.filter(isSample).map((m) => m.name));
  const first = sorted.filter((m) => FIRST_KINDS.has(m.kind) && (isSample(m) || !ofSample.has(m.name)));
  const others = sorted.length - first.length;
  const all = opened || !first.includes(picked);
  const onHandWords = (m: Material): string => {
    const containers = stock === undefined ? 0 : onHand(stock, m.id);
    return containers === 0
      ? 'none on hand'
      : `${containersWord(containers, formatNumber(containers, { most: 2 }, locale), m.container.name)} on hand`;
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
              right: isSample(m) ? `sample, ${onHandWords(m)}` : onHandWords(m),
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
            {awayOpen && (
              <ul className="ends">
                {inOrder(archived).map((m) => (
                  <li key={m.id}>
                    <span>{m.name}</span>
                    <TextButton label={`Unarchive ${m.name}`} onPress={() => onUnarchive(m)}>
                      Unarchive
                    </TextButton>
                  </li>
                ))}
              </ul>
            )}
          </>
        )}
      </BlockPart>
    </>
  );
}
