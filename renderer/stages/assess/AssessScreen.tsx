import { useMemo, useState } from 'react';
import { useLocation } from 'wouter';
import type { RoomReading } from '../../../shared-core/standing/read-job.ts';
import type { FloorTest } from '../../../shared-core/book/layer.ts';
import { testContext } from '../../../shared-core/assess/test-arithmetic.ts';
import { layerLine } from '../../../shared-core/drawing/room-layers.ts';
import { dayOfInstant, formatInstant } from '../../../shared-core/measure/moment.ts';
import { acceptedQuote } from '../../../shared-core/price/change-order.ts';
import { unfinishedLabResult } from '../../../shared-core/substrate/asbestos.ts';
import type { Finding } from '../../../shared-core/substrate/rule.ts';
import { documentAsked, findingWords } from '../../../shared-core/assess/overrides.ts';
import {
  type ChosenAgain,
  overrideHold,
  storeTest,
  setCircumstances,
  setFlooring,
  setFlooringLimits,
  setLayers,
  setYearBuilt,
  deleteTest,
} from '../../book/assessment-commands.ts';
import { newId, nowInstant, type Outcome } from '../../book/command.ts';
import { useNow } from '../../book/use-job-reading.ts';
import { useInitials } from '../../book/settings.ts';
import { usePhotos } from '../../book/use-photos.ts';
import { ActionButton, LinkWord, TextButton } from '../../parts/Buttons.tsx';
import { Answer } from '../../parts/Answer.tsx';
import { ConfirmWhy } from '../../parts/ConfirmWhy.tsx';
import { EmptySheet, BlockPart, SheetHeading } from '../../parts/Sheet.tsx';
import { SameAsPart } from '../../parts/job/SameAsPart.tsx';
import { sameAs } from '../../book/job-rooms.ts';
import { JobSheet, type StageProps } from '../../parts/job/JobSheet.tsx';
import { stageHref } from '../../parts/job/stage-words.ts';
import { Notice } from '../../parts/Dialog.tsx';
import { PhotosPart } from '../../parts/PhotosPart.tsx';
import { useMeasure, useWording } from '../../parts/use-measure.ts';
import { useSmall } from '../../parts/use-small.ts';
import { AssessHang } from './AssessHang.tsx';
import { chosenWords, footWords, findingsWords, seenWords } from './assess-words.ts';
import { CircumstancesPart } from './CircumstancesPart.tsx';
import { FlooringPart } from './FlooringPart.tsx';
import { Findings } from './Findings.tsx';
import { LabDialog, type LabTest } from './LabDialog.tsx';
import { LayersPart } from './LayersPart.tsx';
import { focusField, type Lift, liftOf } from './clearing.ts';
import { TestDialog } from '../../parts/floor-test/TestDialog.tsx';
import { TestsTaken } from './TestsTaken.tsx';
import { kindOf, TEST_KINDS } from '../../../shared-core/substrate/test-kinds.ts';
import './assessment.css';
import { theRoom } from '../../../shared-core/standing/names.ts';
import { lowerFirst } from '../../../shared-core/measure/first-letter.ts';

/** A test's fields without its id and times, for editing. */
function valuesOf(test: FloorTest): Record<string, unknown> {
  const { id: _id, takenAt: _takenAt, by: _by, point: _at, note: _note, kind: _kind, ...values } = test;
  return values;
}

type FieldTest = Exclude<FloorTest, LabTest>;
type Begun = { readonly kind: FieldTest['kind']; readonly stamps: Pick<FloorTest, 'id' | 'takenAt' | 'by' | 'point' | 'note'> };
type Open =
  | (Begun & { readonly open: 'test'; readonly values: Readonly<Record<string, unknown>>; readonly isNew: boolean })
  | { readonly open: 'lab'; readonly test: LabTest }
  | { readonly open: 'past'; readonly finding: Finding; readonly problem: string | null };

/** Assess: whether this floor can be poured, and what has to be done first. */
export function AssessScreen({ reading, roomReading }: StageProps) {
  const { whole } = reading;
  const { business, property, job } = whole;
  const signer = useInitials(business.ownerName);
  const { room, assessment } = roomReading;
  const { units, locale } = useMeasure();
  const wording = useWording();
  const [, go] = useLocation();
  const small = useSmall();
  const now = useNow();
  const [open, setOpen] = useState<Open | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const [unkept, setUnkept] = useState<FloorTest | null>(null);
  const [chosen, setChosen] = useState<string | null>(null);
  const say = (outcome: Outcome<unknown>): void => setProblem(outcome.ok ? null : outcome.message);
  const sayChosen = (outcome: Outcome<ChosenAgain>): void => {
    say(outcome);
    const words = outcome.ok ? chosenWords(outcome.value, whole.materials, wording) : '';
    if (words !== '') setChosen(words);
  };
  const album = usePhotos(job.id, room.id);
  const zone = property.timeZone;
  const stamps = (): Begun['stamps'] => ({ id: newId(), takenAt: nowInstant(), by: business.ownerName, point: null, note: '' });

  const enter = (kind: FieldTest['kind'], begins: Readonly<Record<string, unknown>> = {}): void =>
    setOpen({ open: 'test', kind, stamps: stamps(), values: { ...TEST_KINDS[kind].form.begins, ...begins }, isNew: true });
  const blankLab = (question: LabTest['question'], layerId: string | null): LabTest => ({
    ...stamps(),
    ...{ kind: 'lab', question, layerId, state: 'sent', lab: '', sample: '', resultOn: null, dueOn: null },
  });
  const enterLab = (question: LabTest['question'], layerId: string | null, state: LabTest['state'] | null): void => {
    const test = unfinishedLabResult(room.tests, question, layerId, dayOfInstant(now, zone)) ?? blankLab(question, layerId);
    setOpen({ open: 'lab', test: state === null ? test : { ...test, state } });
  };
  const lift = (to: Lift): void => {
    if (to.to === 'lab') enterLab(to.question, to.layerId, null);
    else if (to.to === 'test') enter(to.kind, to.begins);
    else if (to.to === 'plan') go(`/plan/${room.id}/${to.tool}`);
    else if (to.to === 'estimate') go(stageHref(job.id, 'estimate', room.id));
    else focusField(to.elementId);
  };
  const openTest = (test: FloorTest): void => {
    if (test.kind === 'lab') setOpen({ open: 'lab', test });
    else setOpen({ open: 'test', kind: test.kind, stamps: test, values: valuesOf(test), isNew: false });
  };
  const titleOf = (test: FloorTest): string => lowerFirst(kindOf(test).form.title);
  // The next place can be entered while this one is being stored; a refused test can be reopened as entered.
  const saveTest = (test: FloorTest, then: Open | null): void => {
    setOpen(then);
    void storeTest(room.id, titleOf(test), test, whole).then((outcome) => {
      sayChosen(outcome);
      setUnkept(outcome.ok ? null : test);
    });
  };
  const heldIds = useMemo(() => heldLayers(assessment.findings, room.layers), [assessment.findings, room.layers]);
  const past = new Map(assessment.overrides.map((o) => [o.key, o]));
  const holds = assessment.findings.filter((f) => f.verdict === 'hold' && !past.has(f.key));
  const hold = holds[0] ?? null;
  const isAccepted = acceptedQuote(whole.quotes) !== null;
  const standing = reading.standing.rooms.find((r) => r.roomId === room.id);
  const pouredAt = standing?.poured === 'whole' ? standing.pouredAt : null;
  const foot =
    pouredAt === null
      ? footWords(holds, assessment, { tests: room.tests, isAccepted, locale })
      : { text: `Poured ${formatInstant(pouredAt, zone, 'weekday', locale)}.`, under: 'The findings are as of the pour.' };
  const context = testContext(assessment, { now, yearBuilt: property.yearBuilt, units, locale, layers: room.layers });
  const findings = (
    <Findings
      findings={assessment.findings}
      tests={room.tests}
      past={past}
      onLift={lift}
      onAnswer={(to, state) => enterLab(to.question, to.layerId, state)}
      onOverride={(finding) => setOpen({ open: 'past', finding, problem: null })}
    />
  );
  return (
    <JobSheet
      reading={reading}
      roomId={room.id}
      stage="assess"
      {...(small ? {} : { block: <BlockPart heading={findingsWords(assessment.findings)}>{null}</BlockPart> })}
      datum={
        <AssessHang roomReading={roomReading} heldIds={heldIds} zone={zone} onEnter={lift} findings={findings}>
          <SameAsPart reading={reading} roomReading={roomReading} onPick={(from) => void sameAs(job.id, room.id, from.room.id).then(say)} />
          <FlooringPart
            roomReading={roomReading}
            yearBuilt={property.yearBuilt}
            onFlooring={(flooring) => void setFlooring(job.id, room.id, `flooring of ${theRoom(room.name)}`, flooring).then(say)}
            onLimits={(limits) => void setFlooringLimits(job.id, room.id, limits).then(say)}
            onYearBuilt={(year) => void setYearBuilt(property.id, year).then(say)}
          />
          <LayersPart
            plan={room.plan}
            layers={room.layers}
            heldIds={heldIds}
            onChange={(label, update) => void setLayers(room.id, label, update, whole).then(sayChosen)}
          />
          <TestsTaken
            tests={room.tests}
            needs={assessment.needs}
            wordsOf={(test) => kindOf(test).words(test, units, locale)}
            zone={zone}
            locale={locale}
            onEnter={(kind) => (kind === 'lab' ? openTest(blankLab('asbestos', null)) : enter(kind))}
            onOpen={openTest}
            onDelete={(test) => void deleteTest(room.id, `delete ${titleOf(test)}`, test.id, whole).then(sayChosen)}
          />
          <CircumstancesPart
            of={room.circumstances}
            isSuspended={assessment.facts.isSuspended}
            onChange={(update) => void setCircumstances(room.id, update, whole).then(sayChosen)}
          />
          <div className="assess-part">
            <PhotosPart album={album} zone={zone} label="Photos of the floor" />
          </div>
        </AssessHang>
      }
      foot={<Answer under={foot.under}>{foot.text}</Answer>}
      action={
        <>
          {hold !== null && pouredAt === null && room.survey.readings.length >= 3 && (
            <TextButton onPress={() => go(stageHref(job.id, 'estimate', room.id))}>Go to Estimate</TextButton>
          )}
          {pouredAt === null ? (
            <AssessAction hold={hold} roomReading={roomReading} jobId={job.id} onLift={lift} />
          ) : (
            <ActionButton href={stageHref(job.id, 'cure', room.id)}>Next: Cure</ActionButton>
          )}
        </>
      }
    >
      <SheetHeading
        under={seenWords(roomReading, locale)}
        right={
          <span className="words">
            <LinkWord href={`/plan/${room.id}`}>{room.plan.outline.length < 3 ? 'Draw room' : 'Plan'}</LinkWord>
            <LinkWord href={`/readings/${room.id}`}>{room.survey.readings.length === 0 ? 'Take readings' : 'Readings'}</LinkWord>
          </span>
        }
      >
        {room.name}: floor assembly and tests
      </SheetHeading>
      {problem !== null && (
        <Notice
          kind="failure"
          {...(unkept === null ? {} : { action: { word: 'Edit again', run: () => openTest(unkept) } })}
          onClose={() => {
            setProblem(null);
            setUnkept(null);
          }}
        >
          {problem}
        </Notice>
      )}
      {chosen !== null && <Notice>{chosen}</Notice>}
      {assessment.questions.map((q) => (
        <Notice key={q.about + q.text}>{q.text}</Notice>
      ))}
      {room.layers.length === 0 && (
        <EmptySheet
          drawing="layers"
          heading="Add the layers of the floor, from the top down to the structure."
          hint="Look at a doorway edge, a register or a pipe opening. Do not lift or cut old flooring. A year you do not know counts as the house’s."
          first={
            <TextButton kind="outlined" onPress={() => focusField('lift-layers')}>
              Add top layer
            </TextButton>
          }
        />
      )}
      {open?.open === 'lab' && (
        <LabDialog
          key={open.test.id}
          test={open.test}
          layers={room.layers.map((l) => ({ value: l.id, word: layerLine(l, units) }))}
          today={dayOfInstant(now, zone)}
          onSave={(test) => saveTest(test, null)}
          onClose={() => setOpen(null)}
        />
      )}
      {open?.open === 'test' && (
        <TestDialog
          key={open.stamps.id}
          kind={open.kind}
          stamps={open.stamps}
          values={open.values}
          layers={room.layers}
          context={context}
          zone={zone}
          isNew={open.isNew}
          onSave={(test) => saveTest(test, null)}
          onNext={(test, values) => saveTest(test, { ...open, stamps: { ...stamps(), by: test.by }, values })}
          onClose={() => setOpen(null)}
        />
      )}
      {open?.open === 'past' && (
        <ConfirmWhy
          hold={`Hold: ${open.finding.title}`}
          because={open.problem === null ? open.finding.text : `${open.problem} ${open.finding.text}`}
          source={open.finding.source}
          by={open.finding.holds.includes('pour') ? 'finding' : null}
          isAccepted={isAccepted}
          document={documentAsked(open.finding.clearedBy, assessment.facts, dayOfInstant(now, zone))}
          onBack={() => setOpen(null)}
          initials={signer.known}
          onGoOn={(overridden) => {
            signer.keep(overridden.initials);
            void overrideHold(job.id, room.id, { ...open.finding, text: findingWords(open.finding) }, overridden).then((outcome) =>
              setOpen(outcome.ok ? null : { ...open, problem: outcome.message }),
            );
          }}
        />
      )}
    </JobSheet>
  );
}

type ActionProps = {
  readonly hold: Finding | null;
  readonly roomReading: RoomReading;
  readonly jobId: string;
  readonly onLift: (to: Lift) => void;
};

function AssessAction({ hold, roomReading, jobId, onLift }: ActionProps) {
  const { room } = roomReading;
  if (room.plan.outline.length < 3) return <ActionButton href={`/plan/${room.id}`}>Draw room</ActionButton>;
  if (hold !== null) {
    const to = liftOf(hold);
    return <ActionButton onPress={() => onLift(to)}>{to.word}</ActionButton>;
  }
  if (room.survey.readings.length < 3) return <ActionButton href={`/readings/${room.id}`}>Take readings</ActionButton>;
  return <ActionButton href={stageHref(jobId, 'prep', room.id)}>Next: Prep</ActionButton>;
}

/** Ids of layers with a hold, from the findings' keys. */
function heldLayers(findings: readonly Finding[], layers: RoomReading['room']['layers']): ReadonlySet<string> {
  const keys = findings.filter((finding) => finding.verdict === 'hold').map((finding) => finding.key);
  return new Set(layers.filter((layer) => keys.some((key) => key.endsWith(`:${layer.id}`))).map((layer) => layer.id));
}
