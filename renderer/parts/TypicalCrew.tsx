import { USUAL_HANDS } from '../../shared-core/material/crew-hours.ts';
import { LinkWord } from './Buttons.tsx';

/** Says that a figure counts the typical crew, and where to enter the company's own. */
export function TypicalCrew() {
  return (
    <p className="small">
      A typical crew of {USUAL_HANDS.helpers + 1} is counted, you included. Enter yours in <LinkWord href="/business">Settings</LinkWord>,
      under Costs.
    </p>
  );
}
