import { type ReactNode, useState } from 'react';
import type { RoomReading } from '../../../shared-core/standing/read-job.ts';
import { layersSection } from '../../../shared-core/drawing/layers-section.ts';
import { layerLine, roomLayers } from '../../../shared-core/drawing/room-layers.ts';
import { DatumDrawing, useSize } from '../../parts/DrawingView.tsx';
import { LaterParts } from '../../parts/Sheet.tsx';
import { useMeasure, useWording } from '../../parts/use-measure.ts';
import { useSmall } from '../../parts/use-small.ts';
import { findingsWords } from './assess-words.ts';
import { liftOf, type Lift } from './clearing.ts';
import type { FloorFacts } from '../../../shared-core/substrate/floor-facts.ts';
import { needStanding, needWords } from '../../../shared-core/substrate/need-words.ts';
import type { Finding } from '../../../shared-core/substrate/rule.ts';
import type { TestNeed } from '../../../shared-core/substrate/test-needs.ts';
import { FieldSlashes } from '../../parts/Field.tsx';
import { StateShape, STATE_WORDS } from '../../parts/StateShape.tsx';
import { theRoom } from '../../../shared-core/standing/names.ts';
import { joined } from '../../../shared-core/measure/list.ts';

interface AssessHangProps {
  readonly roomReading: RoomReading;
  readonly heldIds: ReadonlySet<string>;
  readonly zone: string;
  readonly onEnter: (to: Lift) => void;
  readonly findings: ReactNode;
  /** The parts below the tests. */
  readonly children: ReactNode;
}

/** The section with the tests below it, and the findings at the right. */
export function AssessHang({ roomReading, heldIds, zone, onEnter, findings, children }: AssessHangProps) {
  const { room, assessment } = roomReading;
  const { units } = useMeasure();
  const small = useSmall();
  const { ref, size } = useSize<HTMLDivElement>('section');
  const [wide] = useState(() => window.innerWidth);
  const { needs } = assessment;
  const frame = sectionFrame(size?.widthPx ?? wide, small, needs.length);
  const input = roomLayers({
    room,
    survey: roomReading.estimate?.survey ?? null,
    heldIds,
    units,
    widthPx: size?.widthPx ?? wide,
    x0: frame.x0,
    x1: frame.x1,
    probes: needs.slice(0, frame.columns).map((need, i) => ({ id: need.id, x: frame.middles[i] ?? 0, label: need.what })),
  });
  const drawn = room.layers.length > 0;
  const linePx = drawn ? input.datumY : 0;
  return (
    <div className={`assess-hang${drawn ? '' : ' assess-hang-bare'}`} ref={ref} style={{ ['--line-px' as string]: `${linePx}px` }}>
      {drawn && (
        <div className="assess-section">
          <DatumDrawing
            label={`Section of ${theRoom(room.name)}: ${room.layers.map((l) => layerLine(l, units)).join('; ')}`}
            linePx={linePx}
            draw={(widthPx) => layersSection({ ...input, widthPx })}
          />
        </div>
      )}
      <div className="assess-left">
        <NeedFields
          facts={assessment.facts}
          findings={assessment.findings}
          zone={zone}
          columns={frame.columns}
          onEnter={(need) => onEnter(liftOf({ lifts: need.lifts, ruleId: need.id }))}
        />
        <LaterParts>{children}</LaterParts>
      </div>
      <section className="assess-findings" aria-label="Findings">
        <h2 className={small ? 'caption' : 'hidden-words'}>{findingsWords(assessment.findings)}</h2>
        {findings}
      </section>
    </div>
  );
}

/** Columns of the Assess screen, px, so that the drawing and the text line up. */

/** Bounds of the section, and of the fields below it. */
type SectionFrame = {
  readonly x0: number;
  readonly x1: number;
  readonly columns: number;
  readonly middles: readonly number[];
};

// The same values as in the CSS: frame, inset, title block, gap.
const MARGIN_PX = 16;
const INSET_PX = 36;
const SMALL_INSET_PX = 18;
const RIGHT_AIR_PX = 32;
const block = (widthPx: number): number => Math.max(400, Math.min(496, widthPx * 0.3334 - 16));

const GAP_PX = 24;
const LEAST_COLUMN_PX = 124;
const MOST_COLUMNS = 5;
/** Left of the wall, for the pointer and the word “level”. */
const WORD_PX = 96;
const WALL_PX = 15;
/** Below this the section takes the full width and drops its label. */
const TIGHT_PX = 640;

/** The frame for a window width and a number of fields. */
function sectionFrame(widthPx: number, small: boolean, fields: number): SectionFrame {
  const insetPx = small ? SMALL_INSET_PX : INSET_PX;
  const right = small ? widthPx - SMALL_INSET_PX : widthPx - MARGIN_PX - block(widthPx) - RIGHT_AIR_PX;
  const breadth = right - insetPx;
  const columns = Math.max(1, Math.min(MOST_COLUMNS, Math.max(fields, 3), Math.floor((breadth + GAP_PX) / (LEAST_COLUMN_PX + GAP_PX))));
  const column = (breadth - GAP_PX * (columns - 1)) / columns;
  const tight = breadth < TIGHT_PX;
  return {
    x0: insetPx + (tight ? WALL_PX : WORD_PX),
    x1: right - WALL_PX,
    columns,
    middles: Array.from({ length: columns }, (_, i) => insetPx + i * (column + GAP_PX) + column / 2),
  };
}

interface NeedFieldsProps {
  readonly facts: FloorFacts;
  readonly findings: readonly Finding[];
  readonly zone: string;
  readonly columns: number;
  readonly onEnter: (need: TestNeed) => void;
}

const COUNT_WORDS = { enough: '', few: 'too few', stale: 'too old, test again', missing: 'not tested' } as const;

/** The required tests with result, limit and state. A click opens the entry. */
function NeedFields({ facts, findings, zone, columns, onEnter }: NeedFieldsProps) {
  const { locale } = useMeasure();
  const wording = useWording();
  if (facts.needs.length === 0) return null;
  return (
    <ul className="need-fields" style={{ ['--columns' as string]: columns }} aria-label="Tests this floor needs">
      {facts.needs.map((need) => {
        const words = needWords(need, facts, { wording, zone, locale });
        const needState = needStanding(need, facts, findings);
        const count = need.wanted > 1 ? `${need.have} of ${need.wanted}` : '';
        const state = joined([COUNT_WORDS[need.state], need.state === 'enough' ? '' : count]);
        return (
          <li key={need.id} className="need-field">
            <span className="caption need-field-name">{need.what}</span>
            <button
              type="button"
              className="need-field-slot"
              aria-label={`${need.what}: ${words.value ?? 'not tested'}. ${needState === 'done' ? 'Add reading' : 'Enter reading'}`}
              onClick={() => onEnter(need)}
            >
              <span className="need-field-value">{words.value ?? <span className="need-field-empty">Enter</span>}</span>
              <FieldSlashes />
            </button>
            <span className="need-field-state">
              <StateShape state={needState} label={STATE_WORDS[needState]} />
              <span>
                {state === '' ? words.limit : state}
                <span className="need-field-detail">{state === '' ? words.detail : words.limit}</span>
              </span>
            </span>
          </li>
        );
      })}
    </ul>
  );
}
