import type { RoomTakeoff } from '../../../shared-core/material/takeoff.ts';
import { Reason } from '../../parts/Reason.tsx';
import { BlockPart } from '../../parts/Sheet.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { takeoffRows } from './takeoff-reasons.ts';

/** Materials of the room other than bags, each with its reason. */
export function TakeoffPart({ takeoff }: { readonly takeoff: RoomTakeoff }) {
  const { units, locale } = useMeasure();
  const rows = takeoffRows(takeoff, { units, locale });
  if (rows.length === 0) return null;
  return (
    <BlockPart heading="Quantities">
      <dl className="figures">
        {rows.map(({ name, value, why }) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>
              <Reason why={why}>{value}</Reason>
            </dd>
          </div>
        ))}
      </dl>
      {takeoff.weight !== null && <p className="small">{takeoff.weight.message}</p>}
    </BlockPart>
  );
}
