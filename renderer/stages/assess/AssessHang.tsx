import { type ReactNode, useState } from 'react';
import type { RoomReading } from '../../../shared-core/standing/read-job.ts';
import { layersSection } from '../../../shared-core/drawing/layers-section.ts';
import { layerLine, roomLayers } from '../../../shared-core/drawing/room-layers.ts';
import type { Wording } from '../../../shared-core/substrate/wording.ts';
import { DatumDrawing } from '../../parts/DatumDrawing.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { useSize } from '../../parts/use-size.ts';
import { useSmall } from '../../parts/use-small.ts';
import { findingsWords } from './assess-words.ts';
import { liftOf, type Lift } from './clearing.ts';
import { NeedFields } from './NeedFields.tsx';
import { sectionFrame } from './section-frame.ts';

interface AssessHangProps {
  readonly roomReading: RoomReading;
  readonly heldIds: ReadonlySet<string>;
  readonly wording: Wording;
  readonly zone: string;
  readonly onEnter: (to: Lift) => void;
  readonly findings: ReactNode;
  /** The parts below the tests. */
  readonly children: ReactNode;
}

/** The section with the tests below it, and the findings at the right. */
export function AssessHang({ roomReading, heldIds, wording, zone, onEnter, findings, children }: AssessHangProps) {
  const { room, assessment } = roomReading;
  const { units, locale } = useMeasure();
  const small = useSmall();
  const { ref, size } = useSize<HTMLDivElement>();
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
            label={`Section of the ${room.name.toLowerCase()}: ${room.layers.map((l) => layerLine(l, units)).join('; ')}`}
            linePx={linePx}
            draw={(widthPx) => layersSection({ ...input, widthPx })}
          />
        </div>
      )}
      <div className="assess-left">
        <NeedFields
          facts={assessment.facts}
          findings={assessment.findings}
          wording={wording}
          zone={zone}
          locale={locale}
          columns={frame.columns}
          onEnter={(need) => onEnter(liftOf({ lifts: need.lifts, ruleId: need.id }))}
        />
        {children}
      </div>
      <section className="assess-findings" aria-label="Findings">
        <h2 className={small ? 'caption' : 'hidden-words'}>{findingsWords(assessment.findings)}</h2>
        {findings}
      </section>
    </div>
  );
}
