import { useMemo, useState } from 'react';
import { useLocation } from 'wouter';
import type { JobReading, RoomReading } from '../../../shared-core/agenda/read-job.ts';
import { roomCure } from '../../../shared-core/agenda/room-cure.ts';
import { roomsOf } from '../../../shared-core/agenda/job-bundle.ts';
import type { LevelChoice } from '../../../shared-core/book/job.ts';
import { planDrawing } from '../../../shared-core/drawing/plan.ts';
import { roomPlan, usualSection } from '../../../shared-core/drawing/room-plan.ts';
import { formatDuration } from '../../../shared-core/measure/duration.ts';
import { formatDepth } from '../../../shared-core/measure/length-format.ts';
import { dayOfInstant, formatInstant, formatInstantDay, formatInstantTime } from '../../../shared-core/measure/moment.ts';
import { formatLiquid } from '../../../shared-core/measure/volume.ts';
import { formatArealMass } from '../../../shared-core/measure/mass.ts';
import { formatMoney } from '../../../shared-core/price/money.ts';
import { changeJobRoom, moveRoomTo } from '../../book/job-commands.ts';
import type { Outcome } from '../../book/outcome.ts';
import { useJobReading, useNow } from '../../book/use-job-reading.ts';
import { ActionButton } from '../../parts/ActionButton.tsx';
import { Answer } from '../../parts/Answer.tsx';
import { ChoiceRow } from '../../parts/ChoiceRow.tsx';
import { DrawingRoom } from '../../parts/DrawingRoom.tsx';
import { DrawingView } from '../../parts/DrawingView.tsx';
import { EmptySheet } from '../../parts/EmptySheet.tsx';
import { Fields } from '../../parts/Fields.tsx';
import { JobSheet } from '../../parts/job/JobSheet.tsx';
import { NoJob } from '../../parts/job/NoJob.tsx';
import { stageHref } from '../../parts/job/stage-words.ts';
import { LinkWord } from '../../parts/LinkWord.tsx';
import { MomentField } from '../../parts/MomentField.tsx';
import { Notice } from '../../parts/Notice.tsx';
import { RangeMark } from '../../parts/RangeMark.tsx';
import { Reason } from '../../parts/Reason.tsx';
import { SelectField } from '../../parts/SelectField.tsx';
import { BlockPart, SheetHeading } from '../../parts/TitleBlock.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { useSmall } from '../../parts/use-small.ts';
import { LevelPart } from './LevelPart.tsx';
import { LevelSection } from './LevelSection.tsx';
import { bagsWhy, priceWhy, tenths, within } from './reasons.ts';
import './estimate.css';

/** How deep the fill lies, what it takes and what it costs. */
export function EstimateScreen({ jobId, roomId }: { readonly jobId: string; readonly roomId: string }) {
  const reading = useJobReading(jobId);
  if (reading === undefined) return <p className="app-opening caption">Reading the job…</p>;
  const at = reading?.rooms.find((r) => r.room.id === roomId);
  return reading === null || at === undefined ? <NoJob /> : <Estimate reading={reading} at={at} />;
}

type Shows = 'depth' | 'height' | 'read';
const SHOWS = [
  { value: 'depth', word: 'Depth of fill' },
  { value: 'height', word: 'Floor height' },
  { value: 'read', word: 'As read' },
] as const;

function Estimate({ reading, at }: { readonly reading: JobReading; readonly at: RoomReading }) {
  const { whole } = reading;
  const { room, jobRoom } = at;
  const { units, locale } = useMeasure();
  const small = useSmall();
  const now = useNow();
  const [, go] = useLocation();
  const [shows, setShows] = useState<Shows>('depth');
  const [problem, setProblem] = useState<string | null>(null);
  const zone = whole.property.timeZone;
  const say = (outcome: Outcome<unknown>): void => setProblem(outcome.ok ? null : outcome.message);
  const edit = (label: string, how: Parameters<typeof changeJobRoom>[3]): void =>
    void changeJobRoom(whole.job.id, room.id, label, how).then(say);
  const editLevel = (label: string, how: (level: LevelChoice) => LevelChoice): void => edit(label, (r) => ({ ...r, level: how(r.level) }));
  const survey = at.estimate?.survey ?? null;
  const cut = useMemo(() => (survey === null ? null : usualSection(room, survey)), [room, survey]);
  const day = dayOfInstant(now, whole.business.timeZone);
  const context = useMemo(
    () => ({ business: whole.business, job: whole.job, materials: whole.materials.filter((m) => m.deletedAt === null), day }),
    [whole, day],
  );
  const taken = at.estimate?.takeoff ?? null;
  const { base } = reading.estimate;
  const why = bagsWhy(at, units, locale);
  const problems = (at.estimate?.problems ?? []).filter((p) => p.key !== 'survey');
  const powders = whole.materials.filter((m) => m.powder !== null && m.deletedAt === null);
  const primers = whole.materials.filter((m) => (m.kind === 'primer' || m.kind === 'moisture-barrier') && m.deletedAt === null);
  return (
    <JobSheet
      whole={whole}
      roomId={room.id}
      stage="estimate"
      block={
        <>
          <BlockPart>
            <Fields>
              <SelectField
                label="Material"
                value={jobRoom.materialId}
                none="choose its data sheet"
                options={powders.map((m) => ({ value: m.id, word: m.name }))}
                onChange={(materialId) => edit('material', (r) => ({ ...r, materialId }))}
              />
              <SelectField
                label="Primer"
                value={jobRoom.primerId}
                none="choose its data sheet"
                options={primers.map((m) => ({ value: m.id, word: m.name }))}
                onChange={(primerId) => edit('primer', (r) => ({ ...r, primerId }))}
              />
            </Fields>
          </BlockPart>
          <LevelPart at={at} currency={whole.business.currency} onChange={editLevel} />
          <BlockPart>
            <MomentField
              label="We mean to pour"
              zone={zone}
              now={now}
              value={jobRoom.pourAt}
              placeholder="a day and a time"
              onChange={(pourAt) => edit('day of the pour', (r) => ({ ...r, pourAt }))}
            />
          </BlockPart>
          {taken !== null && <TakeoffPart at={at} />}
          {problems.length > 0 && (
            <BlockPart heading="To mind">
              <ul className="estimate-problems">
                {problems.map((p) => (
                  <li key={p.key}>{p.message}</li>
                ))}
              </ul>
            </BlockPart>
          )}
        </>
      }
      datumSticks
      {...(survey?.state === 'surveyed' && cut !== null
        ? {
            datum: (
              <LevelSection
                key={room.id}
                at={at}
                survey={survey}
                cut={cut}
                context={context}
                onChange={(level) => editLevel('the level', () => level)}
              />
            ),
          }
        : {})}
      footOpen={survey?.state === 'surveyed'}
      foot={
        taken?.bags == null || why === null ? (
          <Answer under={problems[0]?.message ?? (survey?.state === 'waiting' ? survey.message : '')}>
            The bags cannot be counted yet.
          </Answer>
        ) : (
          <>
            <Answer
              figure={<Reason why={why}>{taken.bags.quotedBags}</Reason>}
              note={`enough ${tenths(taken.bags.percentile)}`}
              under={
                <RangeMark
                  leastText={String(taken.bags.leastBags)}
                  mostText={String(taken.bags.mostBags)}
                  at={within(taken.bags.quotedBags, taken.bags.leastBags, taken.bags.mostBags)}
                  atText={String(taken.bags.quotedBags)}
                />
              }
            >
              {taken.bags.quotedBags === 1 ? 'bag' : 'bags'}
            </Answer>
            <Answer
              wideOnly
              under={
                <RangeMark
                  leastText={formatMoney(base.price.range.leastMinor, base.price.currency, locale, 'whole')}
                  mostText={formatMoney(base.price.range.mostMinor, base.price.currency, locale, 'whole')}
                  at={within(base.price.netMinor, base.price.range.leastMinor, base.price.range.mostMinor)}
                />
              }
            >
              <Reason why={priceWhy(base, locale)}>{formatMoney(base.price.netMinor, base.price.currency, locale, 'whole')}</Reason> before
              tax, {reading.rooms.length === 1 ? 'the room' : 'all rooms'}
            </Answer>
            <Answer
              wideOnly
              under={`${taken.lifts === null || taken.lifts.count === 1 ? 'one lift' : `${taken.lifts.count} lifts`}, ${formatDuration(taken.pourMinutes * 60)}`}
            >
              {pourWords(reading, at, zone, locale)}
            </Answer>
          </>
        )
      }
      action={
        <ActionButton
          held={taken?.bags == null ? 'The bags cannot be counted yet: see what is missing at the right.' : null}
          onPress={() => void moveRoomTo(whole.job.id, room.id, 'quote').then(() => go(stageHref(whole.job.id, 'quote', room.id)))}
        >
          Put it in the quote
        </ActionButton>
      }
    >
      <SheetHeading under={underWords(at, units)}>{room.name}: how deep the fill lies</SheetHeading>
      {problem !== null && (
        <Notice kind="failure" onClose={() => setProblem(null)}>
          {problem}
        </Notice>
      )}
      {survey?.state !== 'surveyed' ? (
        <EmptySheet
          what={room.plan.outline.length < 3 ? 'The room is not drawn yet.' : 'The floor is not read yet.'}
          how={survey?.state === 'waiting' ? survey.message : 'Nobody can price a floor that was not measured.'}
          first={
            <LinkWord href={room.plan.outline.length < 3 ? `/plan/${room.id}` : `/readings/${room.id}`}>
              {room.plan.outline.length < 3 ? 'Draw the room' : 'Take the readings'}
            </LinkWord>
          }
        />
      ) : (
        <>
          <div className="estimate-shows">
            <ChoiceRow label="What the plan shows" options={SHOWS} value={shows} onChange={setShows} />
          </div>
          <DrawingRoom leastPx={360} mostPx={420}>
            {({ widthPx, heightPx }) => (
              <DrawingView
                drawing={planDrawing(
                  roomPlan({
                    room,
                    survey,
                    level: jobRoom.level,
                    shows,
                    widthPx,
                    heightPx,
                    section: cut === null ? null : [...cut],
                    isSparse: small,
                    units,
                    locale,
                  }),
                )}
                label={`Plan of the ${room.name.toLowerCase()}: ${SHOWS.find((s) => s.value === shows)?.word ?? ''}`}
              />
            )}
          </DrawingRoom>
        </>
      )}
    </JobSheet>
  );
}

function TakeoffPart({ at }: { readonly at: RoomReading }) {
  const { units, locale } = useMeasure();
  const taken = at.estimate?.takeoff;
  if (taken === undefined) return null;
  const rows: [string, string][] = [];
  if (taken.water !== null)
    rows.push(
      [
        'Water in all',
        `${formatLiquid(taken.water.totalL.least, units, locale)} to ${formatLiquid(taken.water.totalL.most, units, locale)}`,
      ],
      [
        'Water a batch',
        `${formatLiquid(taken.water.perBatchL.least, units, locale)} to ${formatLiquid(taken.water.perBatchL.most, units, locale)}`,
      ],
    );
  if (taken.primer !== null)
    rows.push([
      'Primer',
      `${formatLiquid(taken.primer.neatL, units, locale)}, ${taken.primer.coats === 1 ? 'one coat' : `${taken.primer.coats} coats`}`,
    ]);
  if (taken.weight !== null) rows.push(['Weight added', formatArealMass(taken.weight.meanKgM2, units, locale)]);
  if (taken.aggregate !== null) rows.push(['Aggregate', `${Math.round(taken.aggregate.totalKg)} kg`]);
  if (rows.length === 0) return null;
  return (
    <BlockPart heading="It takes">
      <dl className="estimate-takes">
        {rows.map(([name, value]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
      {taken.weight !== null && <p className="small">{taken.weight.message}</p>}
    </BlockPart>
  );
}

function pourWords(reading: JobReading, at: RoomReading, zone: string, locale: string): string {
  const { pourAt } = at.jobRoom;
  if (pourAt === null) return 'No day is set for the pour';
  const facts = roomsOf(reading.bundle).find((r) => r.room.id === at.room.id);
  const walk =
    facts === undefined
      ? null
      : (roomCure(reading.bundle, facts, reading.whole.business)?.schedule.milestones.find((m) => m.kind === 'walk-on') ?? null);
  const sameDay =
    walk?.likelyAt != null && formatInstantDay(walk.likelyAt, zone, 'short', locale) === formatInstantDay(pourAt, zone, 'short', locale);
  const when =
    walk?.likelyAt == null
      ? ''
      : `, walk on by ${sameDay ? formatInstantTime(walk.likelyAt, zone, locale) : formatInstant(walk.likelyAt, zone, 'short', locale)}`;
  return `Pour ${formatInstantDay(pourAt, zone, 'weekday', locale)}${when}`;
}

function underWords({ room, estimate }: RoomReading, units: 'us' | 'metric'): string {
  const survey = estimate?.survey;
  if (survey?.state !== 'surveyed') return '';
  const step = formatDepth(survey.level.contourStepM, units);
  const beyond =
    survey.floor.extrapolatedShare > 0.02 ? ` ${Math.round(survey.floor.extrapolatedShare * 100)} % lies beyond the readings.` : '';
  return `${room.survey.readings.length} readings. High to low as it lies, ${formatDepth(survey.floor.highestM - survey.floor.lowestM, units)}. Contours every ${step}.${beyond}`;
}
