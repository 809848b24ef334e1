import type { PourMove } from '../../../shared-core/agenda/move-pour.ts';
import { middleJoint, type PourReading } from '../../../shared-core/standing/read-pour.ts';
import type { JobReading, RoomReading } from '../../../shared-core/standing/read-job.ts';
import type { Job, JobRoom, PourPlan } from '../../../shared-core/book/job.ts';
import type { PourHold } from '../../../shared-core/prep/pour-held.ts';
import { formatArea } from '../../../shared-core/measure/area.ts';
import { regionAreaM2 } from '../../../shared-core/plan/region.ts';
import { sectionsOf } from '../../../shared-core/pour/room-bays.ts';
import { newId, nowInstant } from '../../book/now-instant.ts';
import { stageHref } from '../../parts/job/stage-words.ts';
import { SelectField } from '../../parts/Choices.tsx';
import { TextButton } from '../../parts/Buttons.tsx';
import { BlockPart } from '../../parts/Sheet.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { HoldsPart } from './HoldsPart.tsx';
import { JointsPart } from './JointsPart.tsx';
import { PlanFields } from './PlanFields.tsx';
import { RestPart } from './RestPart.tsx';
import { TogetherPart } from './TogetherPart.tsx';

interface BlockProps {
  readonly reading: JobReading;
  readonly roomReading: RoomReading;
  readonly read: PourReading;
  readonly plan: PourPlan;
  /** Why the chosen rooms cannot be poured together; null when they can. */
  readonly together: string | null;
  readonly initials: string;
  /** The joint whose ends are being set on the plan, and how many are set. */
  readonly pointing: { readonly id: string; readonly ends: number } | null;
  readonly onPointing: (id: string | null) => void;
  readonly onPlan: (label: string, update: (plan: PourPlan) => PourPlan) => void;
  readonly onAir: (tempC: number) => void;
  readonly onRoom: (roomId: string, label: string, update: (room: JobRoom) => JobRoom) => void;
  readonly onMove: (move: PourMove) => void;
  readonly onNames: (label: string, update: (names: Job['crewNames']) => Job['crewNames']) => void;
  /** Null during the pour or without a layout. */
  readonly onPaper: (() => void) | null;
}

/** Beside the pour plan: date, lanes, crew, joints, rooms poured together, and holds. */
export function PlannedBlock(props: BlockProps) {
  const { reading, roomReading, read, plan, initials, pointing, onPointing, onPlan, onRoom, onMove } = props;
  const { job, property } = reading.whole;
  const { units, locale } = useMeasure();
  const several = read.rooms.length > 1;
  const sections = plan.joints.length === 0 ? [] : sectionsOf({ plan: roomReading.room.plan, pourPlan: plan });
  const overrideHold = (roomId: string, hold: PourHold, why: string) =>
    onRoom(roomId, 'Override a hold', (r) => ({
      ...r,
      overrides: [
        ...r.overrides,
        { key: hold.key, why, instant: nowInstant(), initials: initials.trim() === '' ? 'own' : initials.trim() },
      ],
    }));
  return (
    <>
      <RestPart reading={reading} roomId={roomReading.room.id} />
      <PlanFields
        jobId={job.id}
        roomReading={roomReading}
        read={read}
        plan={plan}
        zone={property.timeZone}
        ownTimes={reading.whole.business.ownTimes}
        onPlan={onPlan}
        onAir={props.onAir}
        onRoom={(label, update) => onRoom(roomReading.room.id, label, update)}
        onMove={onMove}
        names={job.crewNames}
        onNames={props.onNames}
      />
      <JointsPart
        joints={plan.joints}
        pointing={pointing}
        onAdd={() => {
          const joint = middleJoint(roomReading, plan, newId());
          if (joint !== null) onPlan('Add a dammed joint', (stored) => ({ ...stored, joints: [...stored.joints, joint] }));
        }}
        onChange={(id, update) =>
          onPlan('Move a joint', (stored) => ({ ...stored, joints: stored.joints.map((j) => (j.id === id ? update(j) : j)) }))
        }
        onRemove={(id) => onPlan('Delete a joint', (stored) => ({ ...stored, joints: stored.joints.filter((j) => j.id !== id) }))}
        onPointing={onPointing}
      />
      {sections.length > 1 && (
        <BlockPart heading="Sections">
          <SelectField
            label="Pour next"
            value={String(plan.section ?? 'all')}
            options={[
              { value: 'all', word: 'all sections' },
              ...sections.map((section, i) => ({
                value: String(i + 1),
                word: `section ${i + 1}, ${formatArea(regionAreaM2(section), units, locale)}`,
              })),
            ]}
            onChange={(to) =>
              onPlan('Section to pour', (stored) => ({ ...stored, section: to === null || to === 'all' ? null : Number(to) }))
            }
          />
          <p className="small">Section 1 is farthest from the exit. The others stay open for another day.</p>
        </BlockPart>
      )}
      <TogetherPart reading={reading} roomReading={roomReading} onPlan={onPlan} problem={props.together} />
      {read.rooms.map((one) => (
        <HoldsPart
          key={one.room.id}
          room={several ? one.room.name : null}
          holds={one.preparation.holds}
          prepHref={stageHref(job.id, 'prep', one.room.id)}
          moneyHref={`/jobs/${job.id}/money`}
          onPast={(hold, why) => overrideHold(one.room.id, hold, why)}
        />
      ))}
      {props.onPaper !== null && (
        <BlockPart heading="Already poured">
          <TextButton onPress={props.onPaper}>Enter handwritten log…</TextButton>
        </BlockPart>
      )}
    </>
  );
}
