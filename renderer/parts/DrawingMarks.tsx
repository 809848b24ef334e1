import { memo, type MouseEvent } from 'react';
import { shapedFractions } from '../../shared-core/drawing/drawn-fraction.ts';
import { hatchLines } from '../../shared-core/drawing/hatch.ts';
import type { HatchMark, Mark, TextMark } from '../../shared-core/drawing/marks.ts';
import { dotsPath, inkColor, linePath, ringsPath, strokeOf } from './drawing-paths.ts';

/** How groups that can be pressed behave; null where the drawing is only shown. */
export interface GroupManner {
  /** The only group in the tab order; arrow keys move to the others. */
  readonly tabStop: string | null;
  readonly picked: string | null;
  readonly onPick: (name: string) => void;
  readonly onFocus: (name: string) => void;
  /** True inside a button, where a group may not be a second button. */
  readonly isWithin?: boolean;
}

interface DrawingMarksProps {
  readonly marks: readonly Mark[];
  readonly manner: GroupManner | null;
}

/** The marks of a drawing as SVG, in order. Rendered again only with other marks. */
export const DrawingMarks = memo(function DrawingMarks({ marks, manner }: DrawingMarksProps) {
  return marks.map((mark, i) => {
    switch (mark.kind) {
      case 'path':
        return (
          <path
            key={i}
            d={ringsPath(mark.rings)}
            fill={mark.fill === null ? 'none' : inkColor(mark.fill)}
            fillRule="evenodd"
            {...strokeOf(mark)}
          />
        );
      case 'hatch':
        return <HatchLinesInked key={i} mark={mark} />;
      case 'stipple':
        return (
          <path key={i} d={dotsPath(mark.xy)} fill="none" stroke={inkColor(mark.ink)} strokeWidth={mark.sizePx} strokeLinecap="round" />
        );
      case 'text':
        return <TextInked key={i} mark={mark} />;
      default:
        return <GroupInked key={mark.label === '' ? i : mark.name} mark={mark} manner={manner} />;
    }
  });
});

const HatchLinesInked = memo(function HatchLinesInked({ mark }: { readonly mark: HatchMark }) {
  const { lines, widthPx, grains, grainPx } = hatchLines(mark);
  const ink = inkColor(mark.ink);
  return (
    <>
      <path d={lines.map((xy) => linePath(xy, false)).join('')} fill="none" stroke={ink} strokeWidth={widthPx} />
      {grains.length > 0 && <path d={dotsPath(grains)} fill="none" stroke={ink} strokeWidth={grainPx} strokeLinecap="round" />}
    </>
  );
});

function TextInked({ mark }: { readonly mark: TextMark }) {
  return (
    <text
      x={mark.x}
      y={mark.y}
      textAnchor={mark.anchor}
      fontFamily={`var(--${mark.family})`}
      fontSize={mark.sizePx}
      fontWeight={mark.weight}
      fontStyle={mark.italic ? 'italic' : 'normal'}
      fill={inkColor(mark.ink)}
      {...(mark.turnDeg === 0 ? {} : { transform: `rotate(${mark.turnDeg} ${mark.x} ${mark.y})` })}
      // A wide stroke in the background color clears the space behind letters in any font.
      {...(mark.clear === null
        ? {}
        : { stroke: inkColor(mark.clear), strokeWidth: mark.sizePx * 0.5, strokeLinejoin: 'round', paintOrder: 'stroke' })}
    >
      {shapedFractions(mark.text)}
    </text>
  );
}

type GroupMark = Extract<Mark, { kind: 'group' }>;

function GroupInked({ mark, manner }: { readonly mark: GroupMark; readonly manner: GroupManner | null }) {
  if (manner === null || mark.label === '')
    return (
      <g data-name={mark.name}>
        <DrawingMarks marks={mark.marks} manner={manner} />
      </g>
    );
  const inner = <DrawingMarks marks={mark.marks} manner={{ ...manner, isWithin: true }} />;
  const press = (event: MouseEvent<SVGGElement>) => {
    event.stopPropagation();
    manner.onPick(mark.name);
  };
  if (manner.isWithin === true)
    return (
      <g data-name={mark.name} className="drawing-group" onClick={press}>
        {inner}
      </g>
    );
  return (
    <g
      data-name={mark.name}
      className="drawing-group"
      role="button"
      aria-label={mark.label}
      aria-pressed={manner.picked === mark.name ? true : undefined}
      tabIndex={manner.tabStop === mark.name ? 0 : -1}
      onClick={press}
      onFocus={() => manner.onFocus(mark.name)}
      onKeyDown={(event) => {
        if (event.key !== 'Enter' && event.key !== ' ') return;
        event.preventDefault();
        manner.onPick(mark.name);
      }}
    >
      {inner}
    </g>
  );
}
