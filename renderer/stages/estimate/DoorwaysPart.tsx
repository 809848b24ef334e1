import type { JobRoom } from '../../../shared-core/book/job.ts';
import { formatDepth } from '../../../shared-core/measure/length-format.ts';
import type { SettledLevel } from '../../../shared-core/survey/settle-level.ts';
import { Fields, QuantityField } from '../../parts/Fields.tsx';
import { BlockPart } from '../../parts/Sheet.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { doorwayStep } from './doorway-words.ts';

interface DoorwaysPartProps {
  readonly jobRoom: JobRoom;
  readonly level: SettledLevel;
  readonly onThickness: (flooringThicknessM: number | null) => void;
}

/** Each doorway with the new floor and its flooring: fill at the threshold, and the step to the floor beyond. */
export function DoorwaysPart({ jobRoom, level, onThickness }: DoorwaysPartProps) {
  const { units, locale } = useMeasure();
  if (level.doorways.length === 0) return null;
  const thicknessM = jobRoom.flooringThicknessM ?? null;
  return (
    <BlockPart heading="Doorways">
      <ul className="estimate-doorways">
        {level.doorways.map((d) => (
          <li key={d.openingId}>
            <span>{d.name}</span>
            <span>{formatDepth(d.depthM, units, locale)} deep</span>
            <span className="caption">{doorwayStep(d, units, locale)}</span>
          </li>
        ))}
      </ul>
      <Fields>
        <QuantityField
          kind="depth"
          label="New flooring with adhesive or mortar"
          value={thicknessM}
          hint={thicknessM === null ? 'Leave empty to show steps to the bare new floor.' : 'Included in the steps.'}
          onChange={onThickness}
        />
      </Fields>
    </BlockPart>
  );
}
