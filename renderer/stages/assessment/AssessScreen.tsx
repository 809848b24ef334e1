import { useMemo, useState } from 'react';
import { useLocation } from 'wouter';
import type { JobReading, RoomReading } from '../../../shared-core/agenda/read-job.ts';
import { coveringSchema } from '../../../shared-core/book/covering.ts';
import type { FloorTest, FloorTestKind } from '../../../shared-core/book/layer.ts';
import { COVERING_NAME } from '../../../shared-core/cure/cover-tests.ts';
import { layersSection } from '../../../shared-core/drawing/layers-section.ts';
import { layerLine, roomLayers } from '../../../shared-core/drawing/room-layers.ts';
import { dayOfInstant } from '../../../shared-core/measure/moment.ts';
import type { Finding } from '../../../shared-core/substrate/rule.ts';
import { changeJobRoom, changeRoom, moveRoomTo } from '../../book/job-commands.ts';
import { newId, nowInstant } from '../../book/moment.ts';
import type { Outcome } from '../../book/outcome.ts';
import { useJobReading, useNow } from '../../book/use-job-reading.ts';
import { change } from '../../book/write.ts';
import { ActionButton } from '../../parts/ActionButton.tsx';
import { Answer } from '../../parts/Answer.tsx';
import { ConfirmWhy } from '../../parts/ConfirmWhy.tsx';
import { DatumDrawing } from '../../parts/DatumDrawing.tsx';
import { EmptySheet } from '../../parts/EmptySheet.tsx';
import { Fields } from '../../parts/Fields.tsx';
import { JobSheet } from '../../parts/job/JobSheet.tsx';
import { NoJob } from '../../parts/job/NoJob.tsx';
import { stageHref } from '../../parts/job/stage-words.ts';
import { LinkWord } from '../../parts/LinkWord.tsx';
import { Notice } from '../../parts/Notice.tsx';
import { YearField } from '../../parts/YearField.tsx';
import { SelectField } from '../../parts/SelectField.tsx';
import { TextButton } from '../../parts/TextButton.tsx';
import { BlockPart, SheetHeading } from '../../parts/TitleBlock.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { useSmall } from '../../parts/use-small.ts';
import { CircumstancesPart } from './CircumstancesPart.tsx';
import { Findings } from './Findings.tsx';
import { LabDialog, type LabTest } from './LabDialog.tsx';
import { LayersPart } from './LayersPart.tsx';
import { TestDialog } from './TestDialog.tsx';
import { TestsPart } from './TestsPart.tsx';
import { TEST_FORMS, TEST_KINDS, valuesOf } from './test-forms.ts';
import { testWords } from './test-words.ts';
import './assessment.css';

/** May this floor be poured, and what must be done first. */
export function AssessScreen({ jobId, roomId }: { readonly jobId: string; readonly roomId: string }) {
  const reading = useJobReading(jobId);
  if (reading === undefined) return <p className="app-opening caption">Reading the job…</p>;
  const at = reading?.rooms.find((r) => r.room.id === roomId);
  return reading === null || at === undefined ? <NoJob /> : <Assess reading={reading} at={at} />;
}

type Open = { readonly kind: 'test'; readonly test: FloorTest } | { readonly kind: 'past'; readonly finding: Finding } | null;
type Pass = { readonly reading: JobReading; readonly at: RoomReading };

function Assess({ reading, at }: Pass) {
  const { whole } = reading;
  const { room, jobRoom, assessment } = at;
  const { units, locale } = useMeasure();
  const [, go] = useLocation();
  const small = useSmall();
  const now = useNow(whole);
  const [open, setOpen] = useState<Open>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const say = (outcome: Outcome<unknown>): void => setProblem(outcome.ok ? null : outcome.message);
  const today = dayOfInstant(now, whole.property.timeZone);

  const enter = (kind: FloorTestKind, layerId: string | null = null): void => {
    const stamps = { id: newId(), takenAt: nowInstant(), by: whole.business.ownerName, at: null, note: '' };
    // A form begins with fields still open; the schema reads it when it is kept.
    setOpen({
      kind: 'test',
      test: { ...stamps, kind, ...TEST_FORMS[kind].begins, ...(kind === 'laboratory' ? { layerId } : {}) } as unknown as FloorTest,
    });
  };
  const lift = (path: string): void => {
    const [holder, what, name] = path.split('.');
    if (holder === 'room' && what === 'tests') {
      const kind = TEST_KINDS.find((k) => k === name) ?? 'surface-look';
      const layerId = path.split('.')[3] ?? null;
      const sent = kind === 'laboratory' ? room.tests.find((t) => t.kind === 'laboratory' && t.layerId === layerId) : undefined;
      if (sent !== undefined) setOpen({ kind: 'test', test: sent });
      else enter(kind, layerId);
      return;
    }
    if (holder === 'room' && (what === 'plan' || what === 'marks')) return go(`/plan/${room.id}`);
    if (holder === 'jobRoom' && what !== 'covering') return go(stageHref(whole.job.id, 'estimate', room.id));
    const id =
      what === 'layers' && name !== undefined
        ? `lift-layer-${name}`
        : what === 'circumstances'
          ? `lift-circumstance-${name ?? ''}`
          : what === 'covering'
            ? 'lift-covering'
            : 'lift-layers';
    const target = document.getElementById(id);
    target?.scrollIntoView({ block: 'center' });
    target?.querySelector<HTMLElement>('input, select')?.focus();
  };
  const keepTest = (test: FloorTest): void => {
    void changeRoom(room.id, TEST_FORMS[test.kind].title.toLowerCase(), (r) => ({
      ...r,
      tests: [...r.tests.filter((t) => t.id !== test.id), test],
    })).then(say);
    setOpen(null);
  };
  const heldIds = useMemo(
    () =>
      new Set(
        assessment.findings
          .filter((f) => f.verdict === 'hold')
          .flatMap((f) => room.layers.filter((l) => f.key.includes(l.id)).map((l) => l.id)),
      ),
    [assessment, room.layers],
  );
  const past = new Map(jobRoom.overrides.map((o) => [o.key, o.why]));
  const hold = assessment.findings.find((f) => f.verdict === 'hold' && !past.has(f.key)) ?? null;
  const survey = at.estimate?.survey ?? null;
  return (
    <JobSheet
      whole={whole}
      roomId={room.id}
      stage="assess"
      heldAt={hold === null ? null : 'assess'}
      block={
        <>
          <BlockPart heading={findingsWords(assessment.findings)}>
            <Findings findings={assessment.findings} past={past} onLift={lift} onGoPast={(finding) => setOpen({ kind: 'past', finding })} />
          </BlockPart>
          <BlockPart heading="What will go on it">
            <div id="lift-covering">
              <Fields>
                <SelectField
                  label="Covering"
                  value={jobRoom.covering}
                  none="not chosen yet"
                  options={coveringSchema.options.map((value) => ({ value, word: COVERING_NAME[value] }))}
                  onChange={(covering) =>
                    void changeJobRoom(whole.job.id, room.id, `covering of the ${room.name.toLowerCase()}`, (r) => ({
                      ...r,
                      covering,
                    })).then(say)
                  }
                />
                <YearField
                  label="House built in"
                  placeholder="not known"
                  value={whole.property.yearBuilt}
                  onChange={(yearBuilt) =>
                    void change('properties', whole.property.id, 'year built', nowInstant(), (p) => ({ ...p, yearBuilt })).then(say)
                  }
                />
              </Fields>
            </div>
          </BlockPart>
        </>
      }
      {...(room.layers.length === 0
        ? {}
        : {
            datum: (
              <DatumDrawing
                label={`Section of the ${room.name.toLowerCase()}: ${room.layers.map((l) => layerLine(l, units)).join('; ')}`}
                linePx={84 + 23 * room.layers.length}
                draw={(widthPx) =>
                  layersSection(
                    roomLayers({ room, survey, heldIds, units, widthPx, heightPx: 330 + 23 * room.layers.length, isNarrow: small }),
                  )
                }
              />
            ),
          })}
      foot={
        <Answer
          under={
            hold === null
              ? assessment.verdict === 'go-with-work'
                ? 'With the work the list at the right names.'
                : 'Nothing stands against it.'
              : hold.says
          }
        >
          {hold === null ? 'This floor may be poured.' : `Hold: ${hold.title}.`}
        </Answer>
      }
      action={<AssessAction hold={hold} reading={reading} at={at} onLift={lift} />}
    >
      <SheetHeading under={seenWords(at)}>{room.name}: what the floor is made of</SheetHeading>
      {problem !== null && (
        <Notice kind="failure" onClose={() => setProblem(null)}>
          {problem}
        </Notice>
      )}
      {assessment.questions.map((q) => (
        <Notice key={q.about + q.says}>{q.says}</Notice>
      ))}
      <p className="assess-ways">
        <LinkWord href={`/plan/${room.id}`}>{room.plan.outline.length < 3 ? 'Draw the room' : 'The plan'}</LinkWord>
        <LinkWord href={`/readings/${room.id}`}>
          {room.survey.readings.length === 0 ? 'Take the readings' : `${room.survey.readings.length} readings`}
        </LinkWord>
        {hold !== null && (
          <TextButton
            kind="plain"
            onPress={() => void moveRoomTo(whole.job.id, room.id, 'prep').then(() => go(stageHref(whole.job.id, 'estimate', room.id)))}
          >
            Estimate it meanwhile
          </TextButton>
        )}
      </p>
      {room.layers.length === 0 && (
        <EmptySheet
          what="The floor’s layers go here, from the top down to the structure."
          how="Lift a corner, look at the edge of a doorway or an opening for a pipe. What nobody knows is left open, and counts as old."
        />
      )}
      <div id="lift-layers">
        <LayersPart
          layers={room.layers}
          heldIds={heldIds}
          onChange={(label, next) => void changeRoom(room.id, label, (r) => ({ ...r, layers: next })).then(say)}
        />
      </div>
      <TestsPart
        tests={room.tests}
        needs={assessment.needs}
        says={(test) => testWords(test, units, locale)}
        timeZone={whole.property.timeZone}
        locale={locale}
        onEnter={(kind) => enter(kind)}
        onOpen={(test) => setOpen({ kind: 'test', test })}
        onRemove={(test) =>
          void changeRoom(room.id, `took out ${TEST_FORMS[test.kind].title.toLowerCase()}`, (r) => ({
            ...r,
            tests: r.tests.filter((t) => t.id !== test.id),
          })).then(say)
        }
      />
      <CircumstancesPart
        of={room.circumstances}
        onChange={(how) => void changeRoom(room.id, 'circumstances', (r) => ({ ...r, circumstances: how(r.circumstances) })).then(say)}
      />
      {open?.kind === 'test' && open.test.kind === 'laboratory' && (
        <LabDialog
          test={open.test satisfies LabTest}
          layers={room.layers.map((l) => ({ value: l.id, word: layerLine(l, units) }))}
          today={today}
          onKeep={keepTest}
          onClose={() => setOpen(null)}
        />
      )}
      {open?.kind === 'test' && open.test.kind !== 'laboratory' && (
        <TestDialog kind={open.test.kind} stamps={open.test} values={valuesOf(open.test)} onKeep={keepTest} onClose={() => setOpen(null)} />
      )}
      {open?.kind === 'past' && (
        <ConfirmWhy
          open
          hold={`Hold: ${open.finding.title}`}
          because={open.finding.says}
          source={open.finding.source}
          goOnWord="Go on all the same"
          onBack={() => setOpen(null)}
          onGoOn={(why) => {
            const key = open.finding.key;
            setOpen(null);
            void changeJobRoom(whole.job.id, room.id, `went past ${open.finding.title}`, (r) => ({
              ...r,
              overrides: [...r.overrides, { key, why, at: nowInstant(), initials: initialsOf(whole.business.ownerName) }],
            })).then(say);
          }}
        />
      )}
    </JobSheet>
  );
}

function AssessAction({ hold, reading, at, onLift }: Pass & { readonly hold: Finding | null; readonly onLift: (path: string) => void }) {
  const [, go] = useLocation();
  const { room } = at;
  if (room.plan.outline.length < 3) return <ActionButton href={`/plan/${room.id}`}>Draw the room</ActionButton>;
  if (room.survey.readings.length < 3) return <ActionButton href={`/readings/${room.id}`}>Take the readings</ActionButton>;
  if (hold !== null)
    return (
      <ActionButton onPress={() => onLift(hold.lifts)}>{hold.lifts.includes('laboratory') ? 'Enter the result' : 'Answer it'}</ActionButton>
    );
  return (
    <ActionButton
      onPress={() =>
        void moveRoomTo(reading.whole.job.id, room.id, 'prep').then(() => go(stageHref(reading.whole.job.id, 'prep', room.id)))
      }
    >
      Go on to prep
    </ActionButton>
  );
}

function findingsWords(findings: readonly Finding[]): string {
  const count = (verdict: Finding['verdict']): number => findings.filter((f) => f.verdict === verdict).length;
  const parts = [
    [count('hold'), 'hold', 'holds'],
    [count('go-with-work'), 'want work', 'wants work'],
    [count('go'), 'are clear', 'is clear'],
  ] as const;
  const [holds, works, clear] = parts.map(([n]) => n);
  const said = [
    holds === 0 ? '' : holds === 1 ? 'one holds' : `${holds ?? 0} hold`,
    works === 0 ? '' : works === 1 ? 'one wants work' : `${works ?? 0} want work`,
    clear === 0 ? '' : clear === 1 ? 'one is clear' : `${clear ?? 0} are clear`,
  ].filter((s) => s !== '');
  return `Findings: ${said.length === 0 ? 'none yet' : said.join(', ')}`;
}

function seenWords({ room }: RoomReading): string {
  const drawn = room.plan.outline.length >= 3;
  if (!drawn) return 'Not drawn yet.';
  if (room.survey.readings.length === 0) return 'Drawn, not read yet. Thicknesses are drawn to be read.';
  return `${room.survey.readings.length} readings with the laser. Thicknesses are drawn to be read.`;
}

/** `RT` of Ros Teague; a person without a name signs with a mark of their own. */
function initialsOf(name: string): string {
  const letters = name
    .split(/\s+/)
    .map((part) => part.charAt(0))
    .join('')
    .slice(0, 4);
  return letters === '' ? 'own' : letters;
}
