import { useMemo, useState } from 'react';
import { useLocation } from 'wouter';
import type { PourReading } from '../../../shared-core/standing/read-pour.ts';
import type { JobReading, RoomReading } from '../../../shared-core/standing/read-job.ts';
import type { Point } from '../../../shared-core/book/fields.ts';
import type { Pour } from '../../../shared-core/book/pour-record.ts';
import type { PlanDrawing } from '../../../shared-core/drawing/plan.ts';
import { toRoom } from '../../../shared-core/drawing/plan-walls.ts';
import { formatDuration } from '../../../shared-core/measure/duration.ts';
import { formatInstant, formatInstantDay, formatEntryTime } from '../../../shared-core/measure/moment.ts';
import { formatNumber } from '../../../shared-core/measure/number.ts';
import { afterPour } from '../../../shared-core/pour/after-pour.ts';
import { extentWords, liftsWords, openWords, watchWords } from '../../../shared-core/documents/floor-words.ts';
import { entryInFull, type LogWordsPlace } from '../../../shared-core/documents/log-words.ts';
import { stackWords } from '../../../shared-core/documents/pour-words.ts';
import { floorRest, pourJoints } from '../../../shared-core/pour/floor-rest.ts';
import { placedFloor, roomFloor } from '../../../shared-core/pour/placed-floor.ts';
import {
  correctedEntry,
  discardedEntry,
  type Entry,
  incidentEntry,
  lowSpotEntry,
  markedEntry,
  repairedEntry,
  resumedEntry,
  type Stamp,
  voidedEntry,
} from '../../../shared-core/pour/pour-commands.ts';
import { endEntry, liveOf } from '../../../shared-core/pour/log-time.ts';
import { NO_PLAN, pourState, type PourState } from '../../../shared-core/pour/pour-state.ts';
import { flatnessAfter } from '../../../shared-core/standing/flatness-after.ts';
import { newId, nowInstant, type Outcome } from '../../book/command.ts';
import { readPicture } from '../../book/pictures.ts';
import { logEntry } from '../../book/pour-record-commands.ts';
import { resumePour } from '../../book/pour-log.ts';
import { useTypedSetting } from '../../book/settings.ts';
import { useWhere } from '../../book/use-records.ts';
import { ActionButton, TextButton } from '../../parts/Buttons.tsx';
import { Answer } from '../../parts/Answer.tsx';
import { DrawingRoom, DrawingView } from '../../parts/DrawingView.tsx';
import { JobSheet } from '../../parts/job/JobSheet.tsx';
import { PhotoRow } from '../../parts/photo/PhotoRow.tsx';
import { stageHref } from '../../parts/job/stage-words.ts';
import { Dialog, ResultNotice, type Said } from '../../parts/Dialog.tsx';
import { BlockPart, SheetHeading } from '../../parts/Sheet.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { DoneTables } from './DoneTables.tsx';
import { CorrectPart, MarkPart } from './CorrectPart.tsx';
import { FlatPart } from '../../parts/job/FlatPart.tsx';
import { plannedPlacement, pourPicture, progressOf } from './pour-picture.ts';
import { RestPart } from './RestPart.tsx';
import { SelectField } from '../../parts/Choices.tsx';
import { TextField } from '../../parts/Fields.tsx';

interface DoneProps {
  readonly reading: JobReading;
  readonly roomReading: RoomReading;
  /** The pour to show. */
  readonly pour: Pour;
  /** The finished pours of the room, `pour` among them. */
  readonly pours: readonly Pour[];
  /** Whether it is the last one: the floor is marked, repaired and resumed there. */
  readonly isLast: boolean;
  readonly onShow: (pourId: string) => void;
  /** Null when the plan cannot be read; the log is shown anyway. */
  readonly read: PourReading | null;
  /** Plans the next pour of the room: the rest of this lift, or the next lift; absent when the room is finished. */
  readonly onNext?: () => void;
}

/** A finished pour: planned and actual, and the remaining work. */
export function PourDone({ reading, roomReading, pour, pours, isLast, onShow, read, onNext }: DoneProps) {
  const { whole } = reading;
  const { room } = roomReading;
  const { units, locale } = useMeasure();
  const [, go] = useLocation();
  const [initials, setInitials] = useTypedSetting('initials');
  const [problem, say] = useState<Said>(null);
  const [corners, setCorners] = useState<readonly Point[] | null>(null);
  const [isResuming, setResuming] = useState(false);
  const zone = whole.property.timeZone;
  const events = useMemo(() => whole.pourEvents.filter((event) => event.pourId === pour.id), [whole.pourEvents, pour.id]);
  const floor = useMemo(() => roomFloor(whole.pours, whole.pourEvents, room.id), [whole.pours, whole.pourEvents, room.id]);
  const jobPhotos = useWhere('photos', 'jobId', pour.jobId);
  const photoIds = events.flatMap((event) => (event.kind === 'note' || event.kind === 'lot' ? (event.photoIds ?? []) : []));
  const photos = jobPhotos?.filter((photo) => photoIds.includes(photo.id)) ?? [];
  const end = pour.finishedAt ?? pour.changedAt;
  const state = useMemo(() => pourState(read?.recordPlan ?? NO_PLAN, pour, events, end), [read, pour, events, end]);
  const after = useMemo(
    () => (read?.layout.ok === true ? afterPour(read.layout.value, state, read.recordPlan, plannedPlacement(read)) : null),
    [read, state],
  );
  const one = (n: number) => formatNumber(n, { most: 1 }, locale);
  const bagsNoun = one(state.bagsUsed) === one(1) ? 'bag' : 'bags';
  const onDay = pours.length > 1 ? ` on ${formatInstantDay(end, zone, 'short', locale)}` : '';
  const layout = read?.layout.ok === true ? read.layout.value : null;
  const place: LogWordsPlace = {
    units,
    locale,
    zone,
    layout,
    roomName: (id) => (pour.roomIds.length < 2 ? '' : (whole.rooms.find((r) => r.id === id)?.name ?? '')),
  };
  const startedAt = pour.startedAt ?? pour.createdAt;
  const log = state.entries.filter(({ event }) => event.kind !== 'mixed' && event.kind !== 'placed');
  const open = floor.lift === null ? [] : openWords(floor.lift, { units, locale });
  const counted = endEntry(liveOf(state).map(({ event }) => event))?.bagsLeft ?? null;
  const stack = counted === null || counted === state.bagsLeft ? '' : stackWords({ ...state, counted });
  const flat = useMemo(
    () =>
      flatnessAfter(room, roomReading.jobRoom, {
        quotes: whole.quotes,
        placedAt: end,
        units: whole.business.units,
        country: whole.business.address.country,
      }),
    [room, roomReading.jobRoom, whole.quotes, end, whole.business],
  );
  const sentences = [
    ...open,
    stack,
    liftsWords(floor),
    after === null ? 'The layout of this pour was not stored.' : watchWords(after),
  ].filter((w) => w !== '');
  const saveEntry = async (
    makes: (s: PourState, stamp: Stamp) => Entry,
    update: (entry: Entry) => Promise<Outcome<unknown>>,
  ): Promise<Outcome<unknown>> => {
    const outcome = await update(makes(state, { id: newId(), pourId: pour.id, instant: nowInstant() }));
    say(outcome);
    return outcome;
  };
  const point = (drawing: PlanDrawing, p: { readonly x: number; readonly y: number }): void => {
    if (corners === null || drawing.fit === null) return;
    setCorners([...corners, toRoom(drawing.fit, p.x, p.y)]);
  };
  const draftMarks =
    (corners ?? []).length >= 2 ? (corners ?? []).map((from, i, all) => ({ from, to: all[(i + 1) % all.length] ?? from })) : [];
  const isWhole = floor.extent === 'whole';
  const isInLift = floor.lift?.regions.some(({ pourId }) => pourId === pour.id) === true;
  const joints = isInLift ? [...(floorRest(floor)?.joints ?? []), ...pourJoints(floor)] : [];
  const regions = (isInLift ? floor.lift : placedFloor(pour, events).find((placed) => placed.roomId === room.id))?.regions;
  return (
    <JobSheet
      reading={reading}
      roomId={room.id}
      stage="pour"
      block={
        <>
          <BlockPart heading="Pour log">
            {pours.length > 1 && (
              <SelectField
                label="Pour"
                value={pour.id}
                options={pours.map((one) => ({ value: one.id, word: pourWord(one, room.id, zone, locale) }))}
                onChange={(id) => {
                  setCorners(null);
                  onShow(id);
                }}
              />
            )}
            <ul className="pour-log">
              {log.map(({ event, undone }) => (
                <li key={event.id}>
                  <span>{formatEntryTime(event.instant, pour.startedAt ?? event.instant, zone, locale)}</span>
                  <span>{undone ? <s>{entryInFull(event, events, place)}</s> : entryInFull(event, events, place)}</span>
                </li>
              ))}
            </ul>
            <PhotoRow photos={photos} read={readPicture} />
            {pour.fromPaper && <p className="small">Entered from a handwritten log. Times are estimates.</p>}
          </BlockPart>
          {isLast && (
            <RestPart
              reading={reading}
              roomId={room.id}
              onSound={(suspect, why) => {
                for (const { outline } of suspect)
                  void saveEntry((s, stamp) => repairedEntry(s, stamp, { roomId: room.id, outline, by: initials, why }), logEntry);
              }}
            />
          )}
          {isLast && isWhole && (
            <FlatPart
              flat={flat}
              roomId={room.id}
              onLowSpot={(point) =>
                void saveEntry(
                  (s, stamp) => lowSpotEntry(s, stamp, { roomId: room.id, at: point, by: initials, why: 'over the promised flatness' }),
                  logEntry,
                )
              }
            />
          )}
          <CorrectPart
            key={pour.id}
            state={state}
            zone={zone}
            initials={initials}
            startedAt={startedAt}
            onAdd={({ incident: what, batch, isRemoved, at, by, why }) => {
              setInitials(by);
              void saveEntry((s, stamp) => incidentEntry(s, stamp, { what, batch, note: why, at }), logEntry).then(() =>
                isRemoved && batch !== null
                  ? saveEntry((s, stamp) => discardedEntry(s, stamp, batch, { by, why, at }), logEntry)
                  : undefined,
              );
            }}
            onSave={({ eventId, isVoid, toAt, toBags, by, why }) => {
              setInitials(by);
              void saveEntry(
                (s, stamp) =>
                  isVoid ? voidedEntry(s, stamp, eventId, { by, why }) : correctedEntry(s, stamp, { eventId, toAt, toBags, by, why }),
                logEntry,
              );
            }}
          />
          {isLast && (
            <>
              <MarkPart
                corners={corners}
                initials={initials}
                onBegin={() => setCorners([])}
                onCancel={() => setCorners(null)}
                onSave={(draft) => {
                  setInitials(draft.by);
                  void saveEntry((s, stamp) => markedEntry(s, stamp, { roomId: room.id, outline: corners ?? [], ...draft }), logEntry).then(
                    (outcome) => outcome.ok && setCorners(null),
                  );
                }}
              />
              <BlockPart>
                <div className="words">
                  <TextButton kind="plain" onPress={() => setResuming(true)}>
                    Resume pour…
                  </TextButton>
                  {onNext !== undefined && isWhole && (
                    <TextButton kind="plain" onPress={onNext}>
                      Plan another pour
                    </TextButton>
                  )}
                </div>
              </BlockPart>
            </>
          )}
        </>
      }
      foot={
        <Answer figure={one(state.bagsUsed)} under={sentences.join(' ')}>
          {after === null || after.lastedMin === null
            ? `${bagsNoun} used${onDay}.`
            : `${bagsNoun} used${onDay} in ${formatDuration(after.lastedMin * 60, locale)}, first batch to last.`}
        </Answer>
      }
      action={
        isWhole || onNext === undefined ? (
          <ActionButton href={stageHref(whole.job.id, 'cure', room.id)}>Next: Cure</ActionButton>
        ) : (
          <ActionButton onPress={onNext}>
            {floor.lift === null ? 'Plan the pour' : floor.lift.extent === 'whole' ? 'Plan next lift' : 'Plan the rest'}
          </ActionButton>
        )
      }
    >
      <SheetHeading right={formatInstant(end, zone, 'weekday', locale)}>{`${room.name}: ${extentWords(floor.extent)}`}</SheetHeading>
      <ResultNotice message={problem} onClose={say} />
      {read !== null && read.layout.ok && (
        <div className="pour-picture">
          <DrawingRoom leastPx={260} mostPx={460} smallRatio={0.9}>
            {({ widthPx, heightPx }) => {
              const drawing = pourPicture({
                read,
                roomId: room.id,
                progress: progressOf(read, state),
                isPourMode: false,
                units,
                locale,
                widthPx,
                heightPx,
                toWatch: after?.toWatch ?? [],
                dams: [...draftMarks, ...joints].map((line) => ({ roomId: room.id, ...line, lengthM: 0 })),
                // The numbers of another pour would be taken for those of this one.
                ...(regions === undefined
                  ? {}
                  : { regions: regions.map((region) => (region.pourId === pour.id ? region : { ...region, batch: null })) }),
              });
              return drawing === null ? null : (
                <DrawingView
                  drawing={drawing}
                  label={`${room.name}: ${extentWords(floor.extent)}. ${open.join(' ')}`}
                  {...(corners === null ? {} : { onPoint: (p: { readonly x: number; readonly y: number }) => point(drawing, p) })}
                />
              );
            }}
          </DrawingRoom>
        </div>
      )}
      {after !== null && <DoneTables after={after} layout={layout} />}
      {isResuming && (
        <ResumeDialog
          initials={initials}
          onClose={() => setResuming(false)}
          onResume={(correction) => {
            setResuming(false);
            setInitials(correction.by);
            void saveEntry((s, stamp) => resumedEntry(s, stamp, correction), resumePour).then(
              (outcome) => outcome.ok && go(`/pour/${pour.id}`),
            );
          }}
        />
      )}
    </JobSheet>
  );
}

/** A pour among those of its room: when it was over, and its lift where there are several. */
function pourWord({ finishedAt, changedAt, asPoured }: Pour, roomId: string, zone: string, locale: string): string {
  const stored = asPoured.rooms.find((one) => one.roomId === roomId);
  const lift = stored !== undefined && stored.liftsPlanned > 1 ? `Lift ${stored.lift}: ` : '';
  return `${lift}${formatInstant(finishedAt ?? changedAt, zone, 'weekday', locale)}`;
}

interface ResumeProps {
  readonly initials: string;
  readonly onResume: (correction: { readonly by: string; readonly why: string }) => void;
  readonly onClose: () => void;
}

/** Asks who resumes a finished pour and why, for the log. */
function ResumeDialog({ initials, onResume, onClose }: ResumeProps) {
  const [by, setBy] = useState(initials);
  const [why, setWhy] = useState('');
  const isReady = by.trim() !== '' && why.trim() !== '';
  return (
    <Dialog
      title="Resume pour"
      onClose={onClose}
      actions={
        <>
          <TextButton onPress={onClose}>Cancel</TextButton>
          <ActionButton
            saves
            held={isReady ? null : 'Enter your initials and a reason.'}
            onPress={() => isReady && onResume({ by: by.trim(), why: why.trim() })}
          >
            Resume pour
          </ActionButton>
        </>
      }
    >
      <p className="small">Use this if the pour was finished by mistake. The log keeps both entries.</p>
      <TextField label="Reason" value={why} onChange={setWhy} autoFocus />
      <TextField label="Initials" value={by} onChange={setBy} />
    </Dialog>
  );
}
