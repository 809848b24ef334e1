import { updated, type Update } from '../../book/write.ts';
import { useMemo, useState } from 'react';
import { useLocation } from 'wouter';
import type { JobReading, RoomReading } from '../../../shared-core/standing/read-job.ts';
import type { JobRoom, LevelChoice, Crew } from '../../../shared-core/book/job.ts';
import type { Material } from '../../../shared-core/book/material.ts';
import { inventedCompany } from '../../../shared-core/book/sample-company.ts';
import { newLevelChoice } from '../../../shared-core/book/new-records.ts';
import { ballparkPrice, missingForBallpark, NO_NAME } from '../../../shared-core/documents/ballpark-sheet.ts';
import { DOCUMENTS } from '../../../shared-core/documents/document-list.ts';
import { isRoughlyKnown, mayTakeAggregate } from '../../../shared-core/price/estimate-room.ts';
import { followingLevel, levelForMaterial } from '../../../shared-core/material/minimum-thickness.ts';
import { formatDepth } from '../../../shared-core/measure/length-format.ts';
import { dayOfInstant } from '../../../shared-core/measure/moment.ts';
import { changeBusiness } from '../../book/business-commands.ts';
import { reprintDocument, saveJobDocument } from '../../book/document-commands.ts';
import { nowInstant } from '../../book/command.ts';
import { changeJobRoom, chooseMaterial } from '../../book/job-commands.ts';
import { saveMove } from '../../book/date-commands.ts';
import { enterOwnCompany } from '../../book/sample-commands.ts';
import { tryMove } from '../../book/move-pour-commands.ts';
import { usePrintedPhotos } from '../../book/use-photos.ts';
import { useNow } from '../../book/use-job-reading.ts';
import { ActionButton, LinkWord } from '../../parts/Buttons.tsx';
import { isTypicalCrew } from '../../../shared-core/pour/crew-names.ts';
import { AskCompany } from '../../parts/AskCompany.tsx';
import { CheckRow, ChoiceRow, SelectField } from '../../parts/Choices.tsx';
import { EmptySheet, BlockPart, LaterParts, SheetHeading } from '../../parts/Sheet.tsx';
import { DRAWN_HINT, SECTION_WORDS } from '../../parts/section-lines.ts';
import { sheetOptions } from '../../parts/sheet-options.ts';
import { Fields } from '../../parts/Fields.tsx';
import { DocumentsPart } from '../../parts/job/DocumentsPart.tsx';
import { SameAsPart } from '../../parts/job/SameAsPart.tsx';
import { sameAs } from '../../book/job-rooms.ts';
import { JobSheet, type StageProps } from '../../parts/job/JobSheet.tsx';
import { stageHref } from '../../parts/job/stage-words.ts';
import { PourMomentField } from '../../parts/job/PourMomentField.tsx';
import { ResultNotice, type Said } from '../../parts/Dialog.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { BallparkPart } from './BallparkPart.tsx';
import { CarryingPart } from './CarryingPart.tsx';
import { EstimateFoot } from './EstimateFoot.tsx';
import { EstimatePlan } from './EstimatePlan.tsx';
import { FlatnessPart } from './FlatnessPart.tsx';
import { LevelPart } from './LevelPart.tsx';
import { LevelSection } from './LevelSection.tsx';
import { ShortPart } from './ShortPart.tsx';
import { TakeoffPart } from './TakeoffPart.tsx';
import { useSection, type EstimateSection, type SectionHad } from './use-section.ts';
import { type Trying, useTry } from './use-try.ts';
import { WhatIfPart } from './WhatIfPart.tsx';
import { firstPourPlan, roomFloorOf } from '../../../shared-core/standing/read-pour.ts';
import { primersUnder } from '../../../shared-core/pour/placed-floor.ts';
import { listed } from '../../../shared-core/standing/names.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { CrewFields } from '../../parts/job/CrewFields.tsx';
import './estimate.css';

/** A what-if shows in its fields at once; its figures follow when they are calculated. */
function withRoomTried(roomReading: RoomReading, trying: Trying | null): RoomReading {
  const jobRoom = trying?.rooms.find((r) => r.roomId === roomReading.room.id);
  return jobRoom === undefined ? roomReading : { ...roomReading, jobRoom };
}

/** Dragging the level changes only its height, so that concurrent changes stay. */
const takenTo = (level: LevelChoice, moved: LevelChoice): LevelChoice =>
  level.mode === moved.mode
    ? { ...moved, leastThicknessM: level.leastThicknessM, textureM: level.textureM, grindMostM: level.grindMostM }
    : level;

type Looking = 'stands' | 'tried';
const LOOKING = { stands: 'Current', tried: 'What if' };

/** Estimate: pour depth, materials and price. */
export function EstimateScreen({ reading: planned, roomReading: plannedAt }: StageProps) {
  const { whole } = planned;
  const { units } = useMeasure();
  const now = useNow(whole);
  const [, go] = useLocation();
  const [looking, setLooking] = useState<Looking>('stands');
  const [problem, say] = useState<Said>(null);
  const [saved, setSaved] = useState<{ readonly ok: boolean; readonly text: string } | null>(null);
  const isTrying = looking === 'tried';
  const trying = useTry(planned, now, isTrying);
  const reading = trying.reading ?? planned;
  const roomReading = withRoomTried(reading.rooms.find((r) => r.room.id === plannedAt.room.id) ?? plannedAt, isTrying ? trying : null);
  const { room, jobRoom } = roomReading;
  const isWhole = reading.standing.rooms.some(({ roomId, poured }) => roomId === room.id && poured === 'whole');
  const printed = usePrintedPhotos(whole.job.id);
  const primedWith = primersUnder(roomFloorOf(planned, room.id));
  const zone = whole.property.timeZone;
  const edit = (label: string, update: Parameters<typeof changeJobRoom>[3]): void => {
    if (isTrying) trying.change(room.id, update);
    else void changeJobRoom(whole.job.id, room.id, label, update).then(say);
  };
  const choose = (usual: 'usualMaterialId' | 'usualPrimerId', id: string | null, update: Parameters<typeof chooseMaterial>[3]): void => {
    if (isTrying) trying.change(room.id, update);
    else void chooseMaterial(whole.job.id, room.id, { usual, id }, update).then(say);
  };
  const editLevel = (label: string, update: Update<LevelChoice>): void => edit(label, (r) => ({ ...r, level: updated(r.level, update) }));
  const survey = roomReading.estimate?.survey ?? null;
  const section = useSection(room, survey);
  const { cut } = section;
  const day = dayOfInstant(now, whole.business.timeZone);
  const context = useMemo(
    () => ({
      ...{ business: whole.business, property: whole.property, job: whole.job, day, resultsDay: day },
      ...{ rooms: whole.rooms, materials: whole.materials },
    }),
    [whole, day],
  );
  const takeoff = roomReading.estimate?.takeoff ?? null;
  const problems = (roomReading.estimate?.problems ?? []).filter((p) => p.key !== 'survey');
  const powders = whole.materials.filter((m) => m.powder !== null);
  const primers = whole.materials.filter((m) => m.kind === 'primer');
  const systems = whole.materials.filter((m) => m.kind === 'moisture-barrier');
  const powderOf = (id: string | null): Material | null => powders.find((m) => m.id === id) ?? null;
  const levelFor = (r: JobRoom, materialId: string | null): LevelChoice =>
    levelForMaterial(
      r.level,
      { before: powderOf(r.materialId), after: powderOf(materialId), floor: room },
      newLevelChoice().leastThicknessM,
    );
  const saveTry = (): void =>
    void trying.save().then((outcome) => {
      say(outcome);
      if (outcome.ok) setLooking('stands');
    });
  const isBallpark = roomReading.estimate !== null && isRoughlyKnown(roomReading.estimate);
  const missing = missingForBallpark(reading);
  const saveBallpark = async (): Promise<void> => {
    const entry = DOCUMENTS.find((one) => one.kind === 'ballpark');
    if (entry !== undefined) setSaved(await saveJobDocument(reading, entry));
  };
  const askCompany = isBallpark && (missing === null || missing === NO_NAME) && (
    <AskCompany
      business={whole.business}
      jobId={whole.job.id}
      onEdit={(label, update) => void changeBusiness(label, update).then(say)}
      onDone={() => void changeBusiness('company details', { companyAskedAt: nowInstant() }).then(say)}
      onOwn={() => void enterOwnCompany().then(say)}
    />
  );
  const heading = <SheetHeading under={underWords(roomReading, units)}>{room.name}: pour depth</SheetHeading>;
  return (
    <JobSheet
      reading={reading}
      roomId={room.id}
      stage="estimate"
      block={
        <>
          {!isTrying && (
            <SameAsPart
              reading={reading}
              roomReading={roomReading}
              onPick={(from) => void sameAs(whole.job.id, room.id, from.room.id).then(say)}
            />
          )}
          <LevelPart
            roomReading={roomReading}
            onChange={editLevel}
            following={(level) => followingLevel(level, powderOf(jobRoom.materialId), room)}
            onThickness={(flooringThicknessM) => edit('flooring thickness', (r) => ({ ...r, flooringThicknessM }))}
          >
            <FlatnessPart roomReading={roomReading} jobId={whole.job.id} />
          </LevelPart>
          {room.survey.readings.length === 0 && <BallparkPart room={room} onOutcome={say} />}
          <LaterParts>
            {survey?.state === 'surveyed' && <SectionPart section={section} />}
            {isTrying && <TryCrew roomReading={roomReading} whole={reading.whole} onChange={(update) => trying.change(room.id, update)} />}
            <BlockPart>
              <Fields>
                <SelectField
                  label="Material"
                  value={jobRoom.materialId}
                  none="Choose a data sheet"
                  options={sheetOptions(powders, jobRoom.materialId)}
                  onChange={(materialId) =>
                    choose('usualMaterialId', materialId, (r) => ({ ...r, materialId, level: levelFor(r, materialId) }))
                  }
                />
                <SelectField
                  label="Primer"
                  value={jobRoom.primerId}
                  none="Choose a data sheet"
                  options={sheetOptions(primers, jobRoom.primerId)}
                  onChange={(primerId) => choose('usualPrimerId', primerId, (r) => ({ ...r, primerId }))}
                />
                <SelectField
                  label="Moisture mitigation"
                  value={jobRoom.moistureSystemId ?? null}
                  none="none"
                  options={sheetOptions(systems, jobRoom.moistureSystemId ?? null)}
                  onChange={(moistureSystemId) => edit('moisture mitigation system', (r) => ({ ...r, moistureSystemId }))}
                />
              </Fields>
              {primedWith.length > 0 && <p className="small">{`Poured over: ${listed(primedWith)}. A change here does not alter that.`}</p>}
              {(jobRoom.withAggregate === true || mayTakeAggregate(jobRoom.level, powderOf(jobRoom.materialId))) && (
                <CheckRow
                  label="Aggregate (extended mix)"
                  checked={jobRoom.withAggregate === true}
                  onChange={(withAggregate) => edit('aggregate', (r) => ({ ...r, withAggregate }))}
                />
              )}
            </BlockPart>
            {!isTrying && !isWhole && (
              <BlockPart>
                <PourMomentField
                  label="Planned pour"
                  zone={zone}
                  now={now}
                  value={roomReading.nextPourAt}
                  onSet={(pourAt) => edit('pour date', (r) => ({ ...r, pourAt }))}
                  onTry={(toAt) => tryMove(whole.job.id, room.id, toAt)}
                  onMove={(move) => void saveMove(move, 'Move pour').then(say)}
                />
              </BlockPart>
            )}
            {takeoff !== null && takeoff.bags !== null && <ShortPart bags={takeoff.bags} />}
            {takeoff !== null && (
              <TakeoffPart takeoff={takeoff} typicalCrew={isTypicalCrew(jobRoom.pourPlan, whole.job.crewNames, whole.business)} />
            )}
            <DocumentsPart
              reading={planned}
              stage="estimate"
              photos={printed}
              onSave={(entry) => saveJobDocument(planned, entry)}
              onPrint={reprintDocument}
            />
            <CarryingPart takeoff={reading.estimate.base.takeoff} isWhole={reading.rooms.length > 1} />
            {problems.length > 0 && (
              <BlockPart heading="Notes">
                <ul className="estimate-problems">
                  {problems.map((p) => (
                    <li key={p.key}>{p.message}</li>
                  ))}
                </ul>
              </BlockPart>
            )}
          </LaterParts>
        </>
      }
      datumSticks
      pinned={!isTrying && survey?.state === 'surveyed'}
      datum={
        survey?.state === 'surveyed' && cut !== null ? (
          <LevelSection
            key={room.id}
            roomReading={roomReading}
            survey={survey}
            cut={cut}
            context={context}
            onChange={(moved) => editLevel('finish elevation', (level) => takenTo(level, moved))}
          />
        ) : undefined
      }
      foot={
        <EstimateFoot
          reading={reading}
          roomReading={roomReading}
          planned={trying.reading === null ? null : { reading: planned, roomReading: plannedAt }}
        />
      }
      action={
        isTrying ? (
          <ActionButton held={trying.tries.length === 0 ? 'Change the depth, material, or crew first.' : null} onPress={saveTry}>
            Save what-if
          </ActionButton>
        ) : isBallpark ? (
          <>
            {survey?.state === 'surveyed' && <LinkWord href={`/readings/${room.id}`}>Take readings</LinkWord>}
            <ActionButton
              held={missing === NO_NAME ? null : (missing ?? inventedCompany(whole.business, whole.job.id))}
              onPress={() => void saveBallpark()}
            >
              Save ballpark PDF
            </ActionButton>
          </>
        ) : (
          <ActionButton
            held={takeoff?.bags == null ? 'The bags cannot be counted yet. See Notes.' : null}
            onPress={() => go(stageHref(whole.job.id, 'quote', room.id))}
          >
            Next: Quote
          </ActionButton>
        )
      }
    >
      <ResultNotice message={problem} onClose={say} />
      <ResultNotice message={saved} onClose={setSaved} />
      {survey?.state !== 'surveyed' ? (
        <>
          {heading}
          {askCompany}
          <EmptySheet
            drawing="section"
            heading={isBallpark ? ballparkWords(reading) : 'No readings yet.'}
            hint={
              room.survey.readings.length > 0 && survey?.state === 'waiting'
                ? survey.message
                : isBallpark
                  ? powderOf(jobRoom.materialId)?.typical === true
                    ? 'Nothing was measured, and the material is typical. Take readings and choose your material for a quote.'
                    : 'Nothing was measured. Take readings for a quote.'
                  : 'Enter a ballpark for a rough price, or take readings for a quote.'
            }
            first={
              <LinkWord href={room.plan.outline.length < 3 ? `/plan/${room.id}` : `/readings/${room.id}`}>
                {room.plan.outline.length < 3 ? 'Draw the room' : 'Take readings'}
              </LinkWord>
            }
          />
        </>
      ) : (
        <>
          {askCompany}
          <div className={`estimate-main${isTrying ? ' estimate-main-what-if' : ''}`}>
            <EstimatePlan
              roomReading={roomReading}
              survey={survey}
              section={section}
              heading={heading}
              choice={<ChoiceRow label="Figures" options={LOOKING} value={looking} onChange={setLooking} />}
            />
            {isTrying && (
              <WhatIfPart planned={planned} roomId={room.id} trying={trying} now={now} onOffer={() => void trying.offer().then(say)} />
            )}
          </div>
        </>
      )}
    </JobSheet>
  );
}

/** The price range of a ballpark, before tax. */
function ballparkWords(reading: JobReading): string {
  if (missingForBallpark(reading) !== null && missingForBallpark(reading) !== NO_NAME) return 'Ballpark only';
  return `Ballpark: ${ballparkPrice(reading)} before tax`;
}

function underWords({ room, estimate }: RoomReading, units: 'us' | 'metric'): string {
  const survey = estimate?.survey;
  if (survey?.state !== 'surveyed') return '';
  const step = formatDepth(survey.level.contourStepM, units);
  const beyond =
    survey.floor.extrapolatedShare > 0.02
      ? ` ${Math.round(survey.floor.extrapolatedShare * 100)}% is beyond the readings (extrapolated).`
      : '';
  return `${room.survey.readings.length} readings. High to low ${formatDepth(survey.floor.highestM - survey.floor.lowestM, units)}. Contours every ${step}.${beyond}`;
}

function SectionPart({ section }: { readonly section: SectionHad }) {
  return (
    <BlockPart>
      <SelectField<EstimateSection>
        label="Section"
        value={section.choice}
        onChange={(choice) => section.onChoice(choice)}
        options={{ deepest: 'through the deepest point', ...SECTION_WORDS }}
        hint={section.choice === 'drawn' ? DRAWN_HINT : undefined}
        problem={section.misses ? 'This line misses the floor. Drag one of its ends across the room.' : null}
      />
    </BlockPart>
  );
}

interface TryCrewProps {
  readonly roomReading: RoomReading;
  readonly whole: WholeJob;
  readonly onChange: (update: Update<JobRoom>) => void;
}

/** Tries another crew; the Pour screen has the rest of the plan. */
function TryCrew({ roomReading, whole, onChange }: TryCrewProps) {
  const firstPlan = firstPourPlan(roomReading, whole);
  const { crew } = roomReading.jobRoom.pourPlan ?? firstPlan;
  const set = (to: Partial<Crew>): void =>
    onChange((room) => {
      const plan = room.pourPlan ?? firstPlan;
      return { ...room, pourPlan: { ...plan, crew: { ...plan.crew, ...to }, likelyMinutes: null, likelyVolumeM3: null } };
    });
  return (
    <BlockPart heading="Crew">
      <CrewFields short crew={crew} onCrew={(_label, to) => set(to)} />
    </BlockPart>
  );
}
