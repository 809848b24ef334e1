import { boxMark } from '../../shared-core/drawing/ink.ts';
import type { Drawing, Mark } from '../../shared-core/drawing/marks.ts';
import { dryingBar, hatchedBar, notAgreedBar, slashedLine } from '../../shared-core/drawing/shapes.ts';
import { DrawingView } from '../parts/DrawingView.tsx';
import { STATE_WORDS, type StateName, StateShape } from '../parts/StateShape.tsx';

const BOX = { x: 1, y: 1, width: 54, height: 18 };
const swatch = (marks: readonly Mark[]): Drawing => ({ width: 56, height: 20, marks: [...marks] });

const INKS: readonly { readonly name: string; readonly drawing: Drawing }[] = [
  { name: 'prep', drawing: swatch(hatchedBar(BOX, 'prep')) },
  { name: 'pour', drawing: swatch([boxMark(BOX, { fill: 'ink' })]) },
  { name: 'drying', drawing: swatch(dryingBar(BOX)) },
  { name: 'likely ready', drawing: swatch(slashedLine(8, 10, 48)) },
  { name: 'quote not accepted', drawing: swatch(notAgreedBar(BOX, 20, 34)) },
];
const STATES: readonly StateName[] = ['waiting', 'under-way', 'done', 'held'];

export function InkKey() {
  return (
    <div className="ink-key">
      <ul>
        {INKS.map(({ name, drawing }) => (
          <li key={name}>
            <span className="ink-key-swatch">
              <DrawingView drawing={drawing} label="" sizing="natural" />
            </span>
            {name}
          </li>
        ))}
      </ul>
      <ul>
        {STATES.map((state) => (
          <li key={state}>
            <StateShape state={state} />
            {STATE_WORDS[state]}
          </li>
        ))}
      </ul>
    </div>
  );
}
