import { useMemo, useState } from 'react';
import { useLocation } from 'wouter';
import type { Business } from '../../shared-core/book/business.ts';
import type { Material, PowderSheet, FigureSource } from '../../shared-core/book/material.ts';
import { containerOf } from '../../shared-core/material/containers.ts';
import { sheetProblemWords } from '../../shared-core/price/takeoff-words.ts';
import { contradictions } from '../../shared-core/material/contradictions.ts';
import { type EffectiveSheet, effectiveSheet } from '../../shared-core/material/sheet.ts';
import { formatDuration, MINUTE_S } from '../../shared-core/measure/duration.ts';
import { dayOfInstant } from '../../shared-core/measure/moment.ts';
import { formatTemperature } from '../../shared-core/measure/temperature.ts';
import type { UnitSystem } from '../../shared-core/measure/unit-system.ts';
import {
  addPrice,
  changeMaterial,
  changePowder,
  copySheet,
  putMilestone,
  putPrimerUse,
  archiveSheet,
  removeMilestone,
  sheetUses,
} from '../book/material-commands.ts';
import { nowInstant } from '../book/command.ts';
import { useNow } from '../book/use-job-reading.ts';
import { useWhere } from '../book/use-records.ts';
import { useStock } from '../book/use-stock.ts';
import { unarchive, type Update } from '../book/write.ts';
import { ActionButton, TextButton } from '../parts/Buttons.tsx';
import { DatumDrawing } from '../parts/DrawingView.tsx';
import { focusLabeled } from '../parts/focus-labeled.ts';
import { Folded } from '../parts/Folded.tsx';
import { stageHref } from '../parts/job/stage-words.ts';
import { Notice, ResultNotice, type Said } from '../parts/Dialog.tsx';
import { Sheet, SheetHeading } from '../parts/Sheet.tsx';
import { useMeasure } from '../parts/use-measure.ts';
import { useSmall } from '../parts/use-small.ts';
import { ContradictionsPart, isSettled } from './ContradictionsPart.tsx';
import { FigureRows } from './FigureRow.tsx';
import { LiftView } from './LiftView.tsx';
import { MilestonesPart } from './MilestonesPart.tsx';
import { powderFigures } from './powder-figures.ts';
import { PricePart } from './PricePart.tsx';
import { PrimerPart } from './PrimerPart.tsx';
import { dryingFloorings, mixRows, priceYears, primerRows, rowsInWords, SHEET_DATUM_Y, timeSinceWater } from './sheet-datum.ts';
import { ArchiveDialog, SheetList } from './SheetList.tsx';
import { SheetFoot } from './SheetFoot.tsx';
import { ContainerPart } from './SundryPart.tsx';
import { MovedQuotesPart } from './MovedQuotesPart.tsx';
import { OnHandPart } from './OnHandPart.tsx';
import { WeighDialog } from './WeighDialog.tsx';
import { WordsPart } from './WordsPart.tsx';
import { formatListAnd } from '../../shared-core/measure/list.ts';
import { countWords } from '../../shared-core/measure/count-words.ts';

interface SheetShownProps {
  readonly material: Material;
  readonly materials: readonly Material[];
  readonly archived: readonly Material[];
  readonly business: Business;
  /** Shown when the address names a data sheet that does not exist. */
  readonly isMissing: boolean;
  readonly onAdd: () => void;
}

const ROW_PX = 42;
/** Drying rows shown before “Show more”. */
const FIRST_FLOORINGS = 2;

/** One data sheet: its figures, thickness, milestones and price. */
export function SheetShown({ material, materials, archived, business, isMissing, onAdd }: SheetShownProps) {
  const [, go] = useLocation();
  const { units, locale } = useMeasure();
  const small = useSmall();
  const jobs = useWhere('jobs', 'state', 'open');
  const stock = useStock();
  const today = dayOfInstant(useNow(), business.timeZone);
  const [problem, say] = useState<Said>(null);
  const [weighing, setWeighing] = useState(false);
  const [held, setHeld] = useState(false);
  const [allDry, setAllDry] = useState(false);
  const { id, powder } = material;
  const edit = (label: string, update: Update<Material>): void => void changeMaterial(id, label, update).then(say);
  const editPowder = (label: string, update: Update<PowderSheet>): void => void changePowder(id, label, update).then(say);

  const effective = useMemo(() => (powder === null ? null : effectiveSheet(material)), [material, powder]);
  const sheet = effective?.ok === true ? effective.value : null;
  const found = useMemo(() => contradictions(material), [material]);
  const uses = useMemo(() => sheetUses(material, materials, jobs ?? []), [material, materials, jobs]);
  const open = powder === null ? [] : found.filter((c) => !isSettled(c, powder));
  const odd = new Set(open.flatMap((c) => c.figures));
  const figures =
    powder === null
      ? null
      : powderFigures(powder, sheet, { isTypical: material.typical, hasEnClass: business.address.country !== 'US', units, locale });
  const floorings = sheet === null ? [] : dryingFloorings(sheet.milestones);
  const rows =
    sheet !== null
      ? mixRows(sheet, allDry ? floorings : firstFloorings(floorings), units, locale)
      : material.primer.length > 0
        ? primerRows(material)
        : null;
  const minutes = (m: number): string => formatDuration(m * MINUTE_S, locale);

  const away_ = (inUseToo: boolean): void =>
    void archiveSheet(material, inUseToo).then((outcome) => {
      say(outcome);
      if (outcome.ok) go('/materials');
    });
  const aside = (
    <div>
      <PricePart
        material={material}
        today={today}
        onAdd={(price) => void addPrice(id, price).then(say)}
        onRemove={(price) => edit('delete price', (m) => ({ ...m, prices: m.prices.filter((p) => p.from !== price.from) }))}
      />
      <MovedQuotesPart material={material} today={today} />
      <OnHandPart material={material} stock={stock?.stock} onSupplier={(supplier) => edit('supplier', { supplier })} />
    </div>
  );
  return (
    <Sheet
      page="Materials"
      who={{ name: 'Materials', ...(small ? { short: material.name } : {}) }}
      block={
        <>
          <SheetList
            materials={materials}
            archived={archived}
            stock={stock?.stock}
            picked={material}
            onPick={(picked) => go(`/materials/${picked}`)}
            onAdd={onAdd}
            onCopy={() =>
              void copySheet(material).then((outcome) => {
                say(outcome);
                if (outcome.ok) go(`/materials/${outcome.value}`);
              })
            }
            onArchive={() => (uses.length > 0 ? setHeld(true) : away_(false))}
            onUnarchive={(m) => void unarchive([{ table: 'materials', id: m.id }], `unarchive ${m.name}`, nowInstant()).then(say)}
          />
          {powder !== null && (
            <ContradictionsPart
              found={found}
              powder={powder}
              onYieldBasis={(yieldBasis) => editPowder('yield used', { yieldBasis })}
              onWeigh={() => setWeighing(true)}
            />
          )}
        </>
      }
      datum={
        <DatumDrawing
          key={material.id}
          linePx={SHEET_DATUM_Y}
          label={
            rows === null
              ? `Price history of one ${containerOf(material).name} of ${material.name}. The figures are under Price.`
              : rowsInWords(sheet === null ? 'Time since the coat was applied' : 'Time since mixing', rows, minutes)
          }
          draw={(widthPx) =>
            rows === null
              ? priceYears(material, today, business.currency, locale, { widthPx, rowPx: ROW_PX })
              : timeSinceWater(rows, widthPx, ROW_PX, sheet === null ? 'coat applied' : 'water added')
          }
        />
      }
      below={
        <>
          {floorings.length > FIRST_FLOORINGS && (
            <TextButton kind="plain" expanded={allDry} onPress={() => setAllDry(!allDry)}>
              {allDry ? 'Show fewer floorings' : `Show all ${floorings.length} floorings`}
            </TextButton>
          )}
          <div className="materials-parts">
            {powder !== null && aside}
            {figures !== null && (
              <Folded heading label="Other data sheet figures" holds={enteredWords([...figures.rest, ...figures.other])}>
                <div className="milestone-columns">
                  <FigureRows rows={figures.rest} odd={odd} onChange={editPowder} />
                  <FigureRows rows={figures.other} odd={odd} onChange={editPowder} />
                </div>
              </Folded>
            )}
            {sheet !== null && (
              <Folded heading label="Hours after mixing" holds={enteredWords(sheet.milestones)}>
                <MilestonesPart
                  sheet={sheet}
                  onPut={(milestone) => void putMilestone(id, milestone).then(say)}
                  onRemove={(milestone) => void removeMilestone(id, milestone).then(say)}
                />
              </Folded>
            )}
            <Folded heading label="Name, notes, and cautions" holds={notesWords(material)}>
              <WordsPart material={material} edit={edit} />
            </Folded>
          </div>
        </>
      }
      foot={<SheetFoot material={material} sheet={sheet} problem={effective?.ok === false ? sheetProblemWords(effective.problem) : null} />}
      action={
        powder !== null ? (
          <ActionButton onPress={() => setWeighing(true)}>Weigh a mixed bag</ActionButton>
        ) : (
          <ActionButton onPress={() => focusLabeled('New price')}>Add a price</ActionButton>
        )
      }
    >
      <SheetHeading under={sheetUnder(material, sheet, units, locale)}>{material.name}</SheetHeading>
      {material.deletedAt !== null && (
        <Notice
          action={{
            word: 'Unarchive',
            run: () => void unarchive([{ table: 'materials', id }], `unarchive ${material.name}`, nowInstant()).then(say),
          }}
        >
          This data sheet is archived. No job can choose it.
        </Notice>
      )}
      {isMissing && <Notice>That data sheet was deleted. The first one is shown.</Notice>}
      <ResultNotice message={problem} onClose={say} />
      {figures === null ? (
        <div className="materials-sundry">
          {material.container !== null && <ContainerPart material={material} container={material.container} edit={edit} />}
          {material.kind === 'primer' && (
            <PrimerPart
              material={material}
              onPut={(use, change) => void putPrimerUse(id, use, change).then(say)}
              onRemove={(use) => edit('delete coverage', (m) => ({ ...m, primer: m.primer.filter((u) => u.substrate !== use.substrate) }))}
            />
          )}
          {aside}
        </div>
      ) : (
        <div className="materials-top">
          <FigureRows rows={figures.first} odd={odd} onChange={editPowder} />
          {sheet !== null && <LiftView sheet={sheet} />}
        </div>
      )}
      {weighing && powder !== null && (
        <WeighDialog
          name={material.name}
          powder={powder}
          onClose={() => setWeighing(false)}
          onSave={(measuredYieldM3) => {
            editPowder('weighed bag', { measuredYieldM3, yieldBasis: 'measured' });
            setWeighing(false);
          }}
        />
      )}
      {held && (
        <ArchiveDialog
          material={material}
          uses={uses}
          hrefOf={(use) => stageHref(use.jobId, 'estimate', use.roomId)}
          onClose={() => setHeld(false)}
          onGoOn={() => {
            setHeld(false);
            away_(true);
          }}
        />
      )}
    </Sheet>
  );
}

/** The source of the figures, and the temperature that its hours refer to. */
function sheetUnder(material: Material, sheet: EffectiveSheet | null, units: UnitSystem, locale: string): string {
  const from = material.sheetFrom.replace(/\.$/, '');
  const underText =
    from !== '' ? `${from}.` : material.typical ? 'Typical figures, not from a data sheet.' : 'No source is entered for these figures.';
  return sheet === null ? underText : `${underText} At ${formatTemperature(sheet.referenceTempC.value, units, locale)}.`;
}

/** Tile and wood first, because most floors get one of them; otherwise the first in the data sheet. */
function firstFloorings<C extends string>(floorings: readonly C[]): C[] {
  const wanted = floorings.filter((c) => c === 'tile-small' || c === 'wood-glued');
  return [...wanted, ...floorings.filter((c) => !wanted.includes(c))].slice(0, FIRST_FLOORINGS);
}

function enteredWords(figures: readonly { readonly source: FigureSource | null }[]): string {
  const entered = figures.filter(({ source }) => source !== null && source !== 'typical').length;
  return `${countWords(figures.length, 'figure', 'en-US')}, ${entered === 0 ? 'none' : entered} from your data sheet.`;
}

function notesWords({ notes, cautions, silica }: Material): string {
  const held = [notes === '' ? '' : 'notes', cautions === '' ? '' : 'cautions', silica ? 'silica' : ''].filter((word) => word !== '');
  return held.length === 0 ? 'No notes or cautions.' : `Has ${formatListAnd(held)}.`;
}
