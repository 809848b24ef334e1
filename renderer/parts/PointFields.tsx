import type { ReactNode } from 'react';
import type { Point } from '../../shared-core/book/fields.ts';
import { formatLength, typedLength } from '../../shared-core/measure/length-format.ts';
import { parseSignedLength } from '../../shared-core/measure/length.ts';
import { Field } from './Field.tsx';
import { useMeasure } from './use-measure.ts';
import './PointFields.css';

interface PointFieldsProps {
  readonly figure?: string;
  /** Prefix of the field names: `Corner 3`. */
  readonly label: string;
  readonly point: Point;
  readonly onChange: (point: Point) => void;
  readonly children?: ReactNode;
}

/** A point by its distances across and down. */
function PointFields({ figure, label, point, onChange, children }: PointFieldsProps) {
  return (
    <div className="plan-point">
      {figure !== undefined && (
        <span className="plan-side-figure" aria-hidden="true">
          {figure}
        </span>
      )}
      <LengthEitherWay label={`${label}, across`} value={point.xM} onChange={(xM) => onChange({ ...point, xM })} />
      <LengthEitherWay label={`${label}, down`} value={point.yM} onChange={(yM) => onChange({ ...point, yM })} />
      {children}
    </div>
  );
}

interface PointListProps {
  readonly points: readonly Point[];
  /** The point that distances start from, such as corner 1. */
  readonly origin: Point;
  readonly label: (number: number) => string;
  readonly onPoint: (index: number, point: Point) => void;
  readonly after?: (index: number) => ReactNode;
}

/** Points in their order, each by its distances from the origin. */
export function PointList({ points, origin, label, onPoint, after }: PointListProps) {
  return points.map((point, i) => (
    <PointFields
      // Points have no id; after one is deleted, none has the place of another.
      key={`${i}/${points.length}`}
      figure={String(i + 1)}
      label={label(i + 1)}
      point={{ xM: point.xM - origin.xM, yM: point.yM - origin.yM }}
      onChange={(to) => onPoint(i, { xM: to.xM + origin.xM, yM: to.yM + origin.yM })}
    >
      {after?.(i)}
    </PointFields>
  ));
}

interface LengthEitherWayProps {
  readonly label: string;
  readonly value: number;
  readonly onChange: (valueM: number) => void;
  readonly bare?: boolean;
}

export function LengthEitherWay({ label, value, onChange, bare = true }: LengthEitherWayProps) {
  const { units, locale } = useMeasure();
  return (
    <Field
      bare={bare}
      label={label}
      value={value}
      parse={(text) => parseSignedLength(text, units, 'wall', locale)}
      format={(valueM) => (valueM < 0 ? typedLength(valueM, units, locale) : formatLength(valueM, units, locale))}
      emptyMessage="Enter a distance."
      onChange={onChange}
    />
  );
}
