import type { PourPlan } from '../../../shared-core/book/job.ts';
import type { Point } from '../../../shared-core/book/fields.ts';
import { formatLength, typedLength } from '../../../shared-core/measure/length-format.ts';
import { parseSignedLength } from '../../../shared-core/measure/length.ts';
import { Field } from '../../parts/Field.tsx';
import { Fields } from '../../parts/Fields.tsx';
import { TextButton } from '../../parts/TextButton.tsx';
import { BlockPart } from '../../parts/TitleBlock.tsx';
import { useMeasure } from '../../parts/use-measure.ts';

type Joint = PourPlan['joints'][number];

interface JointsProps {
  readonly joints: readonly Joint[];
  /** The joint whose ends are being pressed on the plan, and how many are. */
  readonly pointing: { readonly id: string; readonly had: number } | null;
  readonly onAdd: () => void;
  /** Changes a joint as it stands in the book by then. */
  readonly onChange: (id: string, how: (joint: Joint) => Joint) => void;
  readonly onRemove: (id: string) => void;
  /** Null ends the pointing. */
  readonly onPointing: (id: string | null) => void;
}

/** Dammed joints that split the room into bays, each by its two ends, typed or pressed on the plan. */
export function JointsPart({ joints, pointing, onAdd, onChange, onRemove, onPointing }: JointsProps) {
  return (
    <BlockPart heading="Dammed joints">
      {joints.length === 0 && <p className="small">None: the room is poured as one bay. A joint lets the edge end at a dam instead.</p>}
      {joints.map((joint, i) => (
        <div key={joint.id} className="pour-joint">
          <Fields>
            <End
              label={`Joint ${i + 1}, from`}
              at={joint.from}
              onChange={(to) => onChange(joint.id, (was) => ({ ...was, from: { ...was.from, ...to } }))}
            />
            <End
              label={`Joint ${i + 1}, to`}
              at={joint.to}
              onChange={(to) => onChange(joint.id, (was) => ({ ...was, to: { ...was.to, ...to } }))}
            />
          </Fields>
          {pointing?.id === joint.id ? (
            <p role="status" className="small">
              {pointing.had === 0 ? 'Press its first end on the plan.' : 'Now its other end.'}{' '}
              <TextButton kind="plain" onPress={() => onPointing(null)}>
                Leave it
              </TextButton>
            </p>
          ) : (
            <p className="pour-joint-words">
              <TextButton kind="plain" label={`Press the ends of joint ${i + 1} on the plan`} onPress={() => onPointing(joint.id)}>
                Press on the plan
              </TextButton>
              <TextButton kind="plain" label={`Take away joint ${i + 1}`} onPress={() => onRemove(joint.id)}>
                Take away
              </TextButton>
            </p>
          )}
        </div>
      ))}
      {joints.length < 12 && <TextButton onPress={onAdd}>Add a joint</TextButton>}
    </BlockPart>
  );
}

/** A place by its distances across and down from the plan's corner. */
function End({ label, at, onChange }: { readonly label: string; readonly at: Point; readonly onChange: (to: Partial<Point>) => void }) {
  const { units, locale } = useMeasure();
  const field = (word: string, value: number, set: (valueM: number) => void) => (
    <Field
      label={`${label} ${word}`}
      value={value}
      parse={(text) => parseSignedLength(text, units, 'length', locale)}
      format={(m) => (m < 0 ? typedLength(m, units, locale) : formatLength(m, units, locale))}
      emptyMessage="A distance is needed here."
      onChange={(m) => m !== null && set(m)}
    />
  );
  return (
    <>
      {field('across', at.xM, (xM) => onChange({ xM }))}
      {field('down', at.yM, (yM) => onChange({ yM }))}
    </>
  );
}
