import { Pointer } from './Pointer.tsx';
import './RangeMark.css';

interface RangeMarkProps {
  /** The ends as read: `$3,240`, `$3,480`. */
  readonly leastText: string;
  readonly mostText: string;
  /** Where the chosen or likely one stands between them, 0 to 1; null when none is set. */
  readonly value: number | null;
  /** The chosen one as read, for the reader aloud. */
  readonly atText?: string;
  /** Ahead of being agreed, or typical: the line is dashed. */
  readonly dashed?: boolean;
}

/** A range: two slashes on a line, the ends in words, the pointer where it is set. */
export function RangeMark({ leastText, mostText, value, atText, dashed = false }: RangeMarkProps) {
  const words = `${leastText} to ${mostText}${atText === undefined ? '' : `, set at ${atText}`}`;
  return (
    <span className="range-mark" role="img" aria-label={words}>
      <span>{leastText}</span>
      <span className={`range-mark-line${dashed ? ' range-mark-dashed' : ''}`}>
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
