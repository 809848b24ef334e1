import { useMemo, useState } from 'react';
import type { Point } from '../../shared-core/book/fields.ts';
import { formatArea } from '../../shared-core/measure/area.ts';
import { formatLength } from '../../shared-core/measure/length-format.ts';
import { planProblems } from '../../shared-core/plan/problems.ts';
import { roomAreaM2, roomPerimeterM } from '../../shared-core/plan/region.ts';
import { ActionButton } from '../parts/Buttons.tsx';
import { Answer } from '../parts/Answer.tsx';
import { ChoiceRow } from '../parts/Choices.tsx';
import { Datum } from '../parts/Datum.tsx';
import { DrawingRoom } from '../parts/DrawingRoom.tsx';
import { Reason } from '../parts/Reason.tsx';
import { BlockPart, SheetHeading } from '../parts/Sheet.tsx';
import { useMeasure } from '../parts/use-measure.ts';
import { useSmall } from '../parts/use-small.ts';
import { HolesPanel } from './HolesPanel.tsx';
import { type MarkKind, MarksPanel } from './MarksPanel.tsx';
import { OpeningsPanel } from './OpeningsPanel.tsx';
import { figureOf, heightRatio, roomPicture, unitOf } from './plan-picture.ts';
import { roomDatum } from './room-datum.ts';
import { type PlanTool, RoomPicture } from './RoomPicture.tsx';
import { RoomSheet, WithRoom } from './RoomSheet.tsx';
import { TapePicture, tapeFit } from './TapePicture.tsx';
import type { RoomAtHand } from './use-room.ts';
import { useTape } from './use-tape.ts';
import { WallsPanel } from './WallsPanel.tsx';

/** Draws the plan of a room from tape measurements, by corners, or by dragging. */
export function PlanScreen({ roomId }: { readonly roomId: string }) {
  return <WithRoom roomId={roomId}>{(roomAtHand) => <PlanSheet roomAtHand={roomAtHand} />}</WithRoom>;
}

const TOOLS = { walls: 'Walls', openings: 'Openings', holes: 'Cut-outs', marks: 'Marks' };

function PlanSheet({ roomAtHand }: { readonly roomAtHand: RoomAtHand }) {
  const { room } = roomAtHand;
  const { plan } = room;
  const { units, locale } = useMeasure();
  const small = useSmall();
  const tapeAtHand = useTape(room);
  const [tool, setTool] = useState<PlanTool>('walls');
  const [picked, setPicked] = useState<string | null>(null);
  const [drawn, setDrawn] = useState<{ kind: MarkKind; points: readonly Point[] }>({ kind: 'crack', points: [] });
  // The side whose field has the focus: it lights up on the plan.
  const [litSide, setLitSide] = useState<number | null>(null);
  const [size, setSize] = useState({ widthPx: 0, heightPx: 0 });
  const isDrawn = plan.outline.length > 0;
  const isTaping = tapeAtHand !== undefined && (tapeAtHand.isOpen || !isDrawn) && tool === 'walls';
  const fit = useMemo(() => {
    if (size.widthPx === 0 || tapeAtHand === undefined) return null;
    return isTaping ? tapeFit(tapeAtHand.tape, size.widthPx, size.heightPx) : roomPicture(room, { ...size, small }, units, locale).fit;
  }, [size, tapeAtHand, isTaping, room, small, units, locale]);
  if (tapeAtHand === undefined) return <p className="app-opening caption">Loading…</p>;
  const onDraw = (kind: MarkKind, points: readonly Point[]) => setDrawn({ kind, points });
  const pick = (next: PlanTool) => {
    setTool(next);
    setPicked(null);
  };
  return (
    <RoomSheet
      roomAtHand={roomAtHand}
      shows="plan"
      block={
        <>
          <BlockPart>
            <ChoiceRow label="Plan tool" options={TOOLS} value={tool} onChange={pick} />
          </BlockPart>
          {tool === 'walls' && <WallsPanel room={room} tapeAtHand={tapeAtHand} onSide={setLitSide} />}
          {tool === 'openings' && <OpeningsPanel room={room} picked={picked} onPick={setPicked} />}
          {tool === 'holes' && <HolesPanel room={room} picked={picked} onPick={setPicked} />}
          {tool === 'marks' && <MarksPanel room={room} picked={picked} onPick={setPicked} drawn={drawn} onDraw={onDraw} />}
        </>
      }
      datum={
        <Datum
          label={`The room’s width in ${units === 'us' ? 'feet' : 'meters'}, from its left wall`}
          scale={(widthPx) => roomDatum(fit, isTaping ? [tapeAtHand.tape.start] : plan.outline, units, small, widthPx)}
        />
      }
      foot={<PlanFoot roomAtHand={roomAtHand} isTaping={isTaping} />}
      action={
        <ActionButton href={`/readings/${room.id}`} held={isDrawn ? null : 'Draw the walls first.'}>
          Take readings
        </ActionButton>
      }
    >
      <SheetHeading under={underWords(isTaping, isDrawn, tool)}>{room.name}: plan</SheetHeading>
      <DrawingRoom smallRatio={heightRatio(isTaping ? [] : plan.outline)}>
        {(place) => {
          if (place.widthPx !== size.widthPx || place.heightPx !== size.heightPx) {
            queueMicrotask(() => setSize({ widthPx: place.widthPx, heightPx: place.heightPx }));
          }
          return isTaping ? (
            <TapePicture
              tape={tapeAtHand.tape}
              changeTape={tapeAtHand.changeTape}
              litSide={litSide}
              widthPx={place.widthPx}
              heightPx={place.heightPx}
            />
          ) : isDrawn ? (
            <RoomPicture
              room={room}
              {...place}
              litSide={litSide}
              tool={tool}
              picked={picked}
              onPick={setPicked}
              drawn={drawn}
              onDraw={onDraw}
            />
          ) : (
            <p>Nothing is drawn yet. Choose Walls and enter the sides first.</p>
          );
        }}
      </DrawingRoom>
    </RoomSheet>
  );
}

function underWords(isTaping: boolean, isDrawn: boolean, tool: PlanTool): string {
  if (isTaping && !isDrawn) return 'Choose the shape, then enter each side.';
  if (isTaping) return 'These sides replace the walls as soon as they close.';
  if (tool === 'walls') return 'Drag a corner or a wall, or enter exact sides beside the plan.';
  if (tool === 'openings') return 'Click a wall to add an opening.';
  return tool === 'holes' ? 'Click where the cut-out is.' : 'Click along a crack or around an area.';
}

function PlanFoot({ roomAtHand, isTaping }: { readonly roomAtHand: RoomAtHand; readonly isTaping: boolean }) {
  const { plan } = roomAtHand.room;
  const { units, locale } = useMeasure();
  const problems = useMemo(() => planProblems(plan, units, locale), [plan, units, locale]);
  const first = problems[0];
  if (plan.outline.length === 0) return <Answer>Draw the walls. The rest of the job is measured from them.</Answer>;
  if (first !== undefined) {
    return (
      <Answer
        under={
          problems.length > 1
            ? problems.length === 2
              ? '1 more problem is marked on the plan.'
              : `${problems.length - 1} more problems are marked on the plan.`
            : undefined
        }
      >
        {first.message}
      </Answer>
    );
  }
  const area = formatArea(roomAreaM2(plan), units, locale);
  const { wallsM, holesM } = roomPerimeterM(plan);
  return (
    <>
      <Answer
        figure={
          <Reason
            why={{
              figureName: `Floor of the ${roomAtHand.room.name}`,
              inputs: [
                { name: 'Corners', value: String(plan.outline.length) },
                { name: 'Cut-outs', value: String(plan.holes.length) },
              ],
              formula: 'The area within the walls, less the cut-outs. Exact for the plan as drawn.',
              source: 'Shoelace formula over the corners',
              range: null,
            }}
          >
            {figureOf(area)}
          </Reason>
        }
        under={isTaping ? 'Current walls. The new sides do not close yet.' : undefined}
      >
        {unitOf(area)} floor area
      </Answer>
      <Answer wideOnly under={holesM > 0 ? `Plus ${formatLength(holesM, units, locale)} around cut-outs` : undefined}>
        {formatLength(wallsM, units, locale)} wall length
      </Answer>
    </>
  );
}
