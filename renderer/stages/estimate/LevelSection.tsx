import { type KeyboardEvent, type PointerEvent, useMemo, useRef } from 'react';
import type { RoomReading } from '../../../shared-core/standing/read-job.ts';
import type { Point } from '../../../shared-core/book/fields.ts';
import type { LevelChoice } from '../../../shared-core/book/job.ts';
import { roomSection } from '../../../shared-core/drawing/room-section.ts';
import { sectionDrawing, type SectionDrawing } from '../../../shared-core/drawing/section.ts';
import { formatDepth } from '../../../shared-core/measure/length-format.ts';
import { formatVolume } from '../../../shared-core/measure/volume.ts';
import type { RoomContext } from '../../../shared-core/price/estimate-room.ts';
import { levelStepsM, liftedLevel, movedLevel } from '../../../shared-core/survey/move-level.ts';
import type { SettledLevel } from '../../../shared-core/survey/settle-level.ts';
import type { SurveyedRoom } from '../../../shared-core/survey/survey-room.ts';
import { DrawingView, useSize } from '../../parts/DrawingView.tsx';
import { Pointer } from '../../parts/Pointer.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { useSmall } from '../../parts/use-small.ts';
import { useLevelEstimate } from '../../workers/use-level-estimate.ts';
import { useHeldLevel } from './use-held-level.ts';
import '../../parts/Datum.css';
import './level-section.css';
import { countWords } from '../../../shared-core/measure/count-words.ts';
import type { BagCount } from '../../../shared-core/material/bag-count.ts';
import { doorwayStep } from './doorway-words.ts';
import { theRoom } from '../../../shared-core/standing/names.ts';
import { lowerFirst } from '../../../shared-core/measure/first-letter.ts';

type Read = Extract<SurveyedRoom, { state: 'surveyed' }>;

interface LevelSectionProps {
  readonly roomReading: RoomReading;
  readonly survey: Read;
  readonly cut: readonly [Point, Point];
  readonly context: RoomContext;
  readonly onChange: (level: LevelChoice) => void;
}

/** Height, position of the line, and margins, px, on a wide and a small screen. */
const WIDE = { heightPx: 146, lineY: 52, leftPx: 150, rightPx: 110 } as const;
const SMALL = { heightPx: 54, lineY: 27, leftPx: 18, rightPx: 18 } as const;
/** Minimum share of the height above the line and below the floor. */
const OVER_PX = 30;
const UNDER_PX = 26;
/** Maximum distance of the line above its place during one drag, px. */
const RISE_PX = 150;

/**
 * The floor below its level along a section. The level is dragged or moved by keys, with its figures beside it. The floor stays in place
 * during a drag and returns under the line afterward.
 */
export function LevelSection({ roomReading, survey, cut, context, onChange }: LevelSectionProps) {
  const { room, jobRoom } = roomReading;
  // The choice that the shown figures are for; a newer one is shown when its figures are ready.
  const settledBy = roomReading.estimate?.level ?? jobRoom.level;
  const { units, locale } = useMeasure();
  const small = useSmall();
  const { ref, size } = useSize<HTMLDivElement>('level');
  const held = useHeldLevel(settledBy, onChange);
  const asked = useMemo(() => ({ room, jobRoom, context, survey }), [room, jobRoom, context, survey]);
  const estimate = useLevelEstimate(asked, held.level);
  const resting = survey.level;
  const widthPx = size?.widthPx ?? 0;
  const sheet = small ? SMALL : WIDE;
  const rest = useMemo(
    () => (widthPx === 0 ? null : sectionAt({ roomReading, survey, cut, level: settledBy, units, widthPx, sheet, small })),
    [roomReading, survey, cut, settledBy, units, widthPx, sheet, small],
  );
  const spanM = Math.hypot(cut[1].xM - cut[0].xM, cut[1].yM - cut[0].yM);
  const pxPerM = rest === null || spanM === 0 ? 1 : ((widthPx - sheet.leftPx - sheet.rightPx) / spanM) * rest.exaggeration;
  const from = useRef<{ readonly y: number; readonly choice: LevelChoice; readonly level: SettledLevel } | null>(null);

  const shownChoice = held.level ?? settledBy;
  const byM = held.level === null ? 0 : liftOf(settledBy, held.level, resting);
  const lifted = useMemo(() => (byM === 0 ? resting : liftedLevel(resting, byM)), [resting, byM]);
  const shownLevel = held.level === null ? resting : (estimate?.level ?? lifted);
  const risePx = byM * pxPerM;
  const lineY = sheet.lineY - risePx;
  const growPx = Math.max(0, OVER_PX - lineY);
  const live =
    held.level === null || rest === null
      ? rest
      : sectionAt({
          roomReading,
          survey: { ...survey, level: shownLevel },
          cut,
          level: shownChoice,
          units,
          widthPx,
          sheet: { ...sheet, heightPx: sheet.heightPx + growPx, lineY: lineY + growPx },
          small,
          exaggeration: rest.exaggeration,
        });

  const movable = shownChoice.mode !== 'ramp' || resting.ramp.length > 0;
  const move = (to: number): LevelChoice => movedLevel(settledBy, resting, survey.floor, to, units);
  const drag = (event: PointerEvent): void => {
    const start = from.current;
    if (start === null) return;
    const wanted = liftOf(settledBy, start.choice, resting) * pxPerM + start.y - event.clientY;
    const most = sheet.lineY - OVER_PX + RISE_PX;
    held.hold(move(Math.min(most, Math.max(sheet.lineY + UNDER_PX - sheet.heightPx, wanted)) / pxPerM));
  };
  const drop = (): void => {
    if (from.current === null) return;
    from.current = null;
    held.save();
  };
  const steps = levelStepsM(units);
  const press = (event: KeyboardEvent): void => {
    const ways: Readonly<Record<string, number>> = {
      ArrowUp: event.shiftKey ? steps.coarse : steps.fine,
      ArrowRight: event.shiftKey ? steps.coarse : steps.fine,
      ArrowDown: event.shiftKey ? -steps.coarse : -steps.fine,
      ArrowLeft: event.shiftKey ? -steps.coarse : -steps.fine,
      PageUp: steps.coarse,
      PageDown: -steps.coarse,
    };
    const way = ways[event.key];
    if (way !== undefined) held.step(move(byM + way));
    else if (event.key === 'Home' && shownChoice.mode === 'level') held.step({ ...settledBy, levelM: null });
    else if (event.key === 'Enter') held.save();
    else if (event.key === 'Escape' && held.level !== null) held.letGo();
    else return;
    event.preventDefault();
    event.stopPropagation();
  };
  const grip = {
    onPointerDown: (event: PointerEvent) => {
      if (event.button !== 0 || !movable) return;
      event.currentTarget.setPointerCapture(event.pointerId);
      from.current = { y: event.clientY, choice: shownChoice, level: shownLevel };
    },
    onPointerMove: drag,
    onPointerUp: drop,
    onPointerCancel: () => {
      from.current = null;
      held.letGo();
    },
  };
  const overM = shownChoice.mode === 'follow' ? shownChoice.followThicknessM : shownLevel.levelM - survey.floor.lowestM;
  const takeoff = held.level === null ? roomReading.estimate?.takeoff : estimate?.takeoff;
  const bags = takeoff?.bags ?? null;
  const text = [
    `${formatDepth(overM, units, locale)} ${shownChoice.mode === 'follow' ? 'thick' : 'above the low point'}`,
    formatVolume(shownLevel.fill.volumeM3, units, locale),
    ...(bags === null ? [] : [lowerFirst(countWords(bags.quotedBags, 'bag', locale))]),
    ...shownLevel.warnings.map((w) => w.message),
  ].join(', ');
  return (
    <div
      className={`datum-drawing level-section${held.level === null ? '' : ' level-section-held'}`}
      ref={ref}
      style={{ ['--over' as string]: `${sheet.lineY}px`, height: rest === null ? undefined : rest.height }}
    >
      {live !== null && (
        <div className="level-section-sheet" style={{ top: -growPx }}>
          <DrawingView drawing={live} label={`Section through ${theRoom(room.name)} under the new floor`} />
        </div>
      )}
      {rest !== null && movable && (
        <>
          {!small && <div className="level-section-line" style={{ top: lineY - 11, left: sheet.leftPx, right: sheet.rightPx }} {...grip} />}
          <div
            role="slider"
            tabIndex={0}
            aria-label="Finish elevation: use the arrow keys to raise or lower it"
            aria-orientation="vertical"
            aria-valuenow={Math.round(overM * 10_000) / 10}
            aria-valuemin={0}
            aria-valuemax={Math.round((overM + 0.25) * 1000)}
            aria-valuetext={text}
            title="Drag the new floor up or down, or use the arrow keys"
            className="level-section-grip"
            style={{ top: lineY - 36, left: small ? 0 : 8 }}
            onKeyDown={press}
            onBlur={held.save}
            {...grip}
          >
            <Pointer widthPx={19} />
          </div>
        </>
      )}
      {held.level !== null && (
        <LevelNote
          choice={shownChoice}
          level={shownLevel}
          overM={overM}
          bags={bags}
          isBehind={estimate === null}
          bottomPx={sheet.heightPx + growPx + 8}
        />
      )}
    </div>
  );
}

/** Height of a moved level above the level it was moved from, m. */
function liftOf(from: LevelChoice, to: LevelChoice, settled: SettledLevel): number {
  if (to.mode === 'follow') return to.followThicknessM - from.followThicknessM;
  if (to.mode === 'ramp') {
    // A moved ramp has heights; one that still meets a doorway has not moved.
    const [end] = to.rampThrough;
    return end === undefined || 'openingId' in end ? 0 : end.heightM - (settled.ramp[0]?.heightM ?? end.heightM);
  }
  return (to.levelM ?? settled.lowestWithGrindingM ?? settled.levelM) - settled.levelM;
}

interface SectionAt extends Pick<LevelSectionProps, 'roomReading' | 'survey' | 'cut'> {
  readonly level: LevelChoice;
  readonly units: 'us' | 'metric';
  readonly widthPx: number;
  readonly sheet: { readonly heightPx: number; readonly lineY: number; readonly leftPx: number; readonly rightPx: number };
  readonly small: boolean;
  readonly exaggeration?: number;
}

function sectionAt({ roomReading, survey, cut, level, units, widthPx, sheet, small, exaggeration }: SectionAt): SectionDrawing | null {
  const input = roomSection({
    room: roomReading.room,
    survey,
    level,
    cut,
    units,
    widthPx,
    heightPx: sheet.heightPx,
    datumY: sheet.lineY,
    x0: sheet.leftPx,
    x1: widthPx - sheet.rightPx,
  });
  if (input === null) return null;
  return sectionDrawing({
    ...input,
    exaggeration: exaggeration ?? null,
    ...(small
      ? {
          lineWords: '',
          floorWords: '',
          grindWords: '',
          start: { ...input.start, words: '', hatch: null },
          end: { ...input.end, words: '', hatch: null },
        }
      : {}),
  });
}

interface LevelNoteProps {
  readonly choice: LevelChoice;
  readonly level: SettledLevel;
  /** Elevation above the low point, or thickness, m. */
  readonly overM: number;
  readonly bags: BagCount | null;
  readonly isBehind: boolean;
  /** Distance of its foot from the foot of the section, px. */
  readonly bottomPx: number;
}

/** Shows the figures of a level while it is dragged. */
function LevelNote({ choice, level, overM, bags, isBehind, bottomPx }: LevelNoteProps) {
  const { units, locale } = useMeasure();
  const depth = (m: number) => formatDepth(m, units, locale);
  const { fill, doorways, warnings } = level;
  const isLowest = choice.mode === 'level' && choice.levelM === null;
  return (
    <div className="level-note" style={{ bottom: bottomPx }} aria-hidden="true">
      <p className="level-note-head">
        <b>{depth(overM)}</b> {choice.mode === 'follow' ? 'thick' : 'above the low point'}
        {isLowest && <i>, the lowest possible</i>}
      </p>
      {isBehind ? (
        <p className="caption">Calculating…</p>
      ) : (
        <>
          <p>
            {bags !== null && (
              <>
                <b>{countWords(bags.quotedBags, 'bag', locale)}</b> ({bags.leastBags} to {bags.mostBags}),{' '}
              </>
            )}
            {formatVolume(fill.volumeM3, units, locale)}, {depth(fill.leastDepthM)} to {depth(fill.greatestDepthM)} deep
          </p>
          {doorways.map((d) => (
            <p key={d.openingId}>
              {d.name}: {doorwayStep(d, units, locale)}
            </p>
          ))}
          {warnings.map((w) => (
            <p key={w.kind} className="level-note-warning">
              {w.message}
            </p>
          ))}
        </>
      )}
    </div>
  );
}
