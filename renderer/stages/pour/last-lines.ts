import { hasNothingStuckIn, isOverHeat, pourAggregateKg, type PourReading } from '../../../shared-core/standing/read-pour.ts';
import { deepFills } from '../../../shared-core/standing/lift-cover.ts';
import { bucketsAhead } from '../../../shared-core/documents/staging.ts';
import { formatDepth } from '../../../shared-core/measure/length-format.ts';
import type { UnitSystem } from '../../../shared-core/measure/unit-system.ts';
import { helpersIn } from '../../../shared-core/pour/crew-names.ts';
import { isDammed } from '../../../shared-core/plan/dammed-openings.ts';
import { isHeated, roomHeat } from '../../../shared-core/substrate/radiant.ts';
import { lastMinutes, type LastMinute } from '../../../shared-core/prep/last-minutes.ts';

/** Height of a dam above the deepest pour: typical, common practice, no source. */
const DAM_MARGIN_M = 0.012;

/** The pre-pour checklist, with counts from the plan. */
export function lastLines(read: PourReading, units: UnitSystem, locale: string): readonly LastMinute[] {
  const { crew } = read.first;
  const layout = read.layout.ok ? read.layout.value : null;
  // An opening that the wet edge passes has no dam on either side.
  const open = new Set((read.first.openDoorways ?? []).flatMap((d) => [d.openingId, d.toOpeningId]));
  const dams = read.rooms.reduce((sum, r) => sum + r.room.plan.openings.filter((o) => isDammed(o) && !open.has(o.id)).length, 0);
  const deepestM = Math.max(0, ...read.rooms.map((r) => r.estimate?.takeoff.room.depths?.mostM ?? 0));
  return lastMinutes({
    damHeight: deepestM > 0 ? formatDepth(deepestM + DAM_MARGIN_M, units, locale) : null,
    bagsPlanned: layout === null ? null : read.bagsToBring,
    buckets: layout === null ? null : bucketsAhead(layout, crew),
    mixers: crew.mixers,
    helpers: helpersIn(read.first),
    lanes: layout?.lanes.length ?? null,
    dams: dams + read.plans.reduce((sum, p) => sum + p.joints.length, 0),
    carry: crew.carry,
    outlet: crew.outlet,
    heatedFloor: read.rooms.some((r) => isHeated(roomHeat(r.room))),
    overHeat: isOverHeat(read),
    nothingStuckIn: hasNothingStuckIn(read),
    deepOnly: deepFills(read).length === read.rooms.length,
    withAggregate: pourAggregateKg(read) > 0,
  });
}
