import { updated, type Update } from '../../book/write.ts';
import type { PourMove } from '../../../shared-core/agenda/move-pour.ts';
import { middleJoint } from '../../../shared-core/standing/edit-pour-plan.ts';
import type { PourReading } from '../../../shared-core/standing/read-pour.ts';
import type { JobReading, RoomReading } from '../../../shared-core/standing/read-job.ts';
import type { Job, JobRoom, PourPlan } from '../../../shared-core/book/job.ts';
import { overrideOf } from '../../../shared-core/assess/overrides.ts';
import type { PourHold } from '../../../shared-core/prep/pour-held.ts';
import { formatArea } from '../../../shared-core/measure/area.ts';
import { regionAreaM2 } from '../../../shared-core/plan/region.ts';
import { sectionsOf } from '../../../shared-core/pour/room-bays.ts';
import { newId, nowInstant } from '../../book/command.ts';
import { useInitials } from '../../book/settings.ts';
import { stageHref } from '../../parts/job/stage-words.ts';
import { SelectField } from '../../parts/Choices.tsx';
import { TextButton } from '../../parts/Buttons.tsx';
import { BlockPart } from '../../parts/Sheet.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { acceptedQuote } from '../../../shared-core/price/change-order.ts';
import { HoldsPart } from './HoldsPart.tsx';
import { PlanFields } from './PlanFields.tsx';
import { RestPart } from './RestPart.tsx';
import { TogetherPart } from './TogetherPart.tsx';
import type { Point } from '../../../shared-core/book/fields.ts';
import { Fields } from '../../parts/Fields.tsx';
import { LengthEitherWay } from '../../parts/PointFields.tsx';

interface BlockProps {
  readonly reading: JobReading;
  readonly roomReading: RoomReading;
  readonly read: PourReading;
  readonly plan: PourPlan;
  /** Why the chosen rooms cannot be poured together; null when they can. */
  readonly together: string | null;
  /** The joint whose ends are being set on the plan, and how many are set. */
  readonly pointing: { readonly id: string; readonly ends: number } | null;
  readonly onPointing: (id: string | null) => void;
  readonly onPlan: (label: string, update: Update<PourPlan>) => void;
  readonly onAir: (tempC: number) => void;
  readonly onRoom: (roomId: string, label: string, update: Update<JobRoom>) => void;
  readonly onMove: (move: PourMove) => void;
  readonly onNames: (label: string, update: (names: Job['crewNames']) => Job['crewNames']) => void;
  /** Null during the pour or without a layout. */
  readonly onPaper: (() => void) | null;
}

/** Beside the pour plan: date, lanes, crew, joints, rooms poured together, and holds. */
export function PlannedBlock(props: BlockProps) {
  const { reading, roomReading, read, plan, pointing, onPointing, onPlan, onRoom, onMove } = props;
  const { job } = reading.whole;
  const { units, locale } = useMeasure();
  const several = read.rooms.length > 1;
  const sections = plan.joints.length === 0 ? [] : sectionsOf({ plan: roomReading.room.plan, pourPlan: plan });
  const signer = useInitials(reading.whole.business.ownerName);
  const overrideHold = (roomId: string, hold: PourHold, why: string, by: string) => {
    signer.keep(by);
    const override = overrideOf(hold, { why, document: null, initials: by }, nowInstant());
    onRoom(roomId, 'Override a hold', (r) => ({ ...r, overrides: [...r.overrides, override] }));
  };
  return (
    <>
      <RestPart reading={reading} roomId={roomReading.room.id} />
      <PlanFields
        whole={reading.whole}
        roomReading={roomReading}
        read={read}
        plan={plan}
        onPlan={onPlan}
        onAir={props.onAir}
        onRoom={(label, update) => onRoom(roomReading.room.id, label, update)}
        onMove={onMove}
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
          onPlan('Move a joint', (stored) => ({ ...stored, joints: stored.joints.map((j) => (j.id === id ? updated(j, update) : j)) }))
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
            onChange={(to) => onPlan('Section to pour', { section: to === 'all' ? null : Number(to) })}
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
          isAccepted={acceptedQuote(reading.whole.quotes) !== null}
          initials={signer.known}
          onPast={(hold, why, by) => overrideHold(one.room.id, hold, why, by)}
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

type Joint = PourPlan['joints'][number];

interface JointsProps {
  readonly joints: readonly Joint[];
  /** The joint whose ends are being set on the plan, and how many are set. */
  readonly pointing: { readonly id: string; readonly ends: number } | null;
  readonly onAdd: () => void;
  readonly onChange: (id: string, update: Update<Joint>) => void;
  readonly onRemove: (id: string) => void;
  /** Called with null when both ends are set. */
  readonly onPointing: (id: string | null) => void;
}

/** Dammed joints that divide the room into sections, each by two ends, entered or set on the plan. */
function JointsPart({ joints, pointing, onAdd, onChange, onRemove, onPointing }: JointsProps) {
  return (
    <BlockPart heading="Dammed joints">
      {joints.length === 0 && <p className="small">None. The room is poured as one section.</p>}
      {joints.map((joint, i) => (
        <div key={joint.id} className="pour-joint">
          <Fields>
            <End
              label={`Joint ${i + 1}, from`}
              point={joint.from}
              onChange={(to) => onChange(joint.id, (stored) => ({ ...stored, from: { ...stored.from, ...to } }))}
            />
            <End
              label={`Joint ${i + 1}, to`}
              point={joint.to}
              onChange={(to) => onChange(joint.id, (stored) => ({ ...stored, to: { ...stored.to, ...to } }))}
            />
          </Fields>
          {pointing?.id === joint.id ? (
            <p role="status" className="small">
              {pointing.ends === 0 ? 'Click or tap the first end on the plan.' : 'Click or tap the other end.'}{' '}
              <TextButton kind="plain" onPress={() => onPointing(null)}>
                Cancel
              </TextButton>
            </p>
          ) : (
            <p className="words">
              <TextButton kind="plain" label={`Set the ends of joint ${i + 1} on the plan`} onPress={() => onPointing(joint.id)}>
                Set on plan
              </TextButton>
              <TextButton kind="plain" label={`Delete joint ${i + 1}`} onPress={() => onRemove(joint.id)}>
                Delete
              </TextButton>
            </p>
          )}
        </div>
      ))}
      {joints.length < 12 && <TextButton onPress={onAdd}>Add joint</TextButton>}
    </BlockPart>
  );
}

function End({
  label,
  point,
  onChange,
}: {
  readonly label: string;
  readonly point: Point;
  readonly onChange: (to: Partial<Point>) => void;
}) {
  return (
    <>
      <LengthEitherWay bare={false} label={`${label} across`} value={point.xM} onChange={(xM) => onChange({ xM })} />
      <LengthEitherWay bare={false} label={`${label} down`} value={point.yM} onChange={(yM) => onChange({ yM })} />
    </>
  );
}
