import { Pointer } from './Pointer.tsx';
import './RangeMark.css';

interface RangeMarkProps {
  /** Both ends as text: `$3,240`, `$3,480`. */
  readonly leastText: string;
  readonly mostText: string;
  /** Position of the chosen or likely value, 0 to 1; null for none. */
  readonly value: number | null;
  /** That value as text, for screen readers. */
  readonly atText?: string;
}

/** A range: two slashes on a line, the ends as text, the pointer at the chosen value. One text where the ends read the same. */
export function RangeMark({ leastText, mostText, value, atText }: RangeMarkProps) {
  if (leastText === mostText) return <span className="range-mark">{leastText}</span>;
  const words = `${leastText} to ${mostText}${atText === undefined ? '' : `, set at ${atText}`}`;
  return (
    <span className="range-mark" role="img" aria-label={words}>
      <span>{leastText}</span>
      <span className="range-mark-line">
        <Slash />
        {value !== null && (
          <span className="range-mark-pointer" style={{ left: `${Math.min(1, Math.max(0, value)) * 100}%` }}>
            <Pointer widthPx={12} />
          </span>
        )}
        <Slash />
      </span>
      <span>{mostText}</span>
    </span>
  );
}

function Slash() {
  return (
    <svg className="range-mark-slash" width="12" height="12" viewBox="0 0 12 12" focusable="false">
      <path d="M1 11L11 1" stroke="var(--ink)" strokeWidth="2" />
    </svg>
  );
}
