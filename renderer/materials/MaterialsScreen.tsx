import { useMemo, useState } from 'react';
import { useLocation } from 'wouter';
import type { Business } from '../../shared-core/book/business.ts';
import type { Material } from '../../shared-core/book/material.ts';
import { addSheet } from '../book/material-commands.ts';
import { nowInstant } from '../book/command.ts';
import { useAll, useBusiness, useOne, useArchive } from '../book/use-records.ts';
import { unarchive } from '../book/write.ts';
import { ActionButton, TextButton } from '../parts/Buttons.tsx';
import { EmptySheet, Sheet, SheetHeading } from '../parts/Sheet.tsx';
import { Notice } from '../parts/Dialog.tsx';
import { AddSheetDialog, inOrder } from './SheetList.tsx';
import { SheetShown } from './SheetShown.tsx';
import './materials.css';
import { countWords } from '../../shared-core/measure/count-words.ts';

export function MaterialsScreen({ materialId }: { readonly materialId?: string }) {
  const [, go] = useLocation();
  const materials = useAll('materials');
  const archived = useArchive('materials');
  const business = useBusiness();
  const asked = useOne('materials', materialId ?? null);
  const [adding, setAdding] = useState(false);
  const now = useMemo(nowInstant, []);
  if (materials === undefined || archived === undefined || business === undefined || asked === undefined)
    return <p className="app-opening caption">Loading…</p>;
  const shown = asked ?? inOrder(materials)[0] ?? null;
  const add = adding && (
    <AddSheetDialog
      now={now}
      business={business}
      onClose={() => setAdding(false)}
      onAdd={async (kind, name, startFrom) => {
        const added = await addSheet(kind, name, startFrom, business);
        if (!added.ok) return added.message;
        setAdding(false);
        go(`/materials/${added.value}`);
        return null;
      }}
    />
  );
  if (shown === null)
    return (
      <>
        <NoSheet business={business} archived={archived} onAdd={() => setAdding(true)} />
        {add}
      </>
    );
  return (
    <>
      <SheetShown
        key={shown.id}
        material={shown}
        materials={shown.deletedAt === null ? materials : [...materials, shown]}
        archived={archived.filter((m) => m.id !== shown.id)}
        business={business}
        isMissing={materialId !== undefined && asked === null}
        onAdd={() => setAdding(true)}
      />
      {add}
    </>
  );
}

interface NoSheetProps {
  readonly business: Business;
  readonly archived: readonly Material[];
  readonly onAdd: () => void;
}

function NoSheet({ business, archived, onAdd }: NoSheetProps) {
  const [problem, setProblem] = useState<string | null>(null);
  const backAll = (): void =>
    void unarchive(
      archived.map((m) => ({ table: 'materials' as const, id: m.id })),
      'unarchive the data sheets',
      nowInstant(),
    ).then((o) => setProblem(o.ok ? null : o.message));
  return (
    <Sheet
      page="Materials"
      who={{ name: business.name === '' ? 'Your company' : business.name }}
      foot={<p className="speech">Add a data sheet to start an estimate.</p>}
      action={<ActionButton onPress={onAdd}>Add data sheet</ActionButton>}
    >
      <SheetHeading>Materials</SheetHeading>
      {problem !== null && <Notice kind="failure">{problem}</Notice>}
      <EmptySheet
        drawing="material"
        heading="Add a data sheet for each product you pour, prime with, or buy."
        hint="Start from typical values, then enter the values from your data sheet."
        or={
          archived.length > 0 ? (
            <TextButton onPress={backAll}>{`Unarchive ${countWords(archived.length, 'data sheet', business.locale)}`}</TextButton>
          ) : undefined
        }
      />
    </Sheet>
  );
}
