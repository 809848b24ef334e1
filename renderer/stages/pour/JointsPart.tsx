import type { PourPlan } from '../../../shared-core/book/job.ts';
import type { Point } from '../../../shared-core/book/fields.ts';
import { formatLength, typedLength } from '../../../shared-core/measure/length-format.ts';
import { parseSignedLength } from '../../../shared-core/measure/length.ts';
import { Field } from '../../parts/Field.tsx';
import { Fields } from '../../parts/Fields.tsx';
import { TextButton } from '../../parts/Buttons.tsx';
import { BlockPart } from '../../parts/Sheet.tsx';
import { useMeasure } from '../../parts/use-measure.ts';

type Joint = PourPlan['joints'][number];

interface JointsProps {
  readonly joints: readonly Joint[];
  /** The joint whose ends are being set on the plan, and how many are set. */
  readonly pointing: { readonly id: string; readonly ends: number } | null;
  readonly onAdd: () => void;
  /** Changes the stored joint. */
  readonly onChange: (id: string, update: (joint: Joint) => Joint) => void;
  readonly onRemove: (id: string) => void;
  /** Called with null when both ends are set. */
  readonly onPointing: (id: string | null) => void;
}

/** Dammed joints that divide the room into sections, each by two ends, entered or set on the plan. */
export function JointsPart({ joints, pointing, onAdd, onChange, onRemove, onPointing }: JointsProps) {
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
              {pointing.ends === 0 ? 'Tap the first end on the plan.' : 'Tap the other end.'}{' '}
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

/** A point by its distances across and down from the plan's corner. */
function End({
  label,
  point,
  onChange,
}: {
  readonly label: string;
  readonly point: Point;
  readonly onChange: (to: Partial<Point>) => void;
}) {
  const { units, locale } = useMeasure();
  const field = (word: string, value: number, set: (valueM: number) => void) => (
    <Field
      label={`${label} ${word}`}
      value={value}
      parse={(text) => parseSignedLength(text, units, 'length', locale)}
      format={(m) => (m < 0 ? typedLength(m, units, locale) : formatLength(m, units, locale))}
      emptyMessage="Enter a distance."
      onChange={(m) => set(m)}
    />
  );
  return (
    <>
      {field('across', point.xM, (xM) => onChange({ xM }))}
      {field('down', point.yM, (yM) => onChange({ yM }))}
    </>
  );
}
