import type { Update } from '../../book/write.ts';
import type { BallparkGuess } from '../../../shared-core/book/ballpark-guess.ts';
import type { Room } from '../../../shared-core/book/room.ts';
import { changeRoom } from '../../book/job-commands.ts';
import { withPlan } from '../../book/plan-commands.ts';
import { ChoiceRow } from '../../parts/Choices.tsx';
import { Fields, QuantityField } from '../../parts/Fields.tsx';
import { BlockPart } from '../../parts/Sheet.tsx';
import type { Outcome } from '../../book/command.ts';
import { useState } from 'react';
import { theRoom } from '../../../shared-core/standing/names.ts';

interface BallparkPartProps {
  readonly room: Room;
  readonly onOutcome: (outcome: Outcome<unknown>) => void;
}

/** 6 ft, the most common level. */
const USUAL_LEVEL_M = 1.8288;
const WAYS = { gap: 'Max gap', depth: 'Average depth' };

/** A price before the floor is measured, from two sides and a guessed depth. */
export function BallparkPart({ room, onOutcome }: BallparkPartProps) {
  const guess = room.ballpark;
  const [kind, setKind] = useState<BallparkGuess['kind']>(guess?.kind ?? 'gap');
  const isDrawn = room.plan.outline.length >= 3;
  const [sides, setSides] = useState<{ readonly widthM: number | null; readonly lengthM: number | null }>({ widthM: null, lengthM: null });
  const [depths, setDepths] = useState<{ readonly leastM: number | null; readonly mostM: number | null }>(
    guess?.kind === 'depth' ? guess : { leastM: null, mostM: null },
  );
  const [chosenLevelM, setLevel] = useState(USUAL_LEVEL_M);
  const levelM = guess?.kind === 'gap' ? guess.levelLengthM : chosenLevelM;
  const write = (label: string, edit: Update<Room>): void => void changeRoom(room.id, label, edit).then(onOutcome);
  const guessed = (change: (was: BallparkGuess | null) => BallparkGuess | null): void =>
    write(`ballpark of ${theRoom(room.name)}`, (stored) => {
      const ballpark = change(stored.ballpark);
      return ballpark === stored.ballpark ? stored : { ...stored, ballpark };
    });
  const draw = (next: typeof sides): void => {
    setSides(next);
    const { widthM, lengthM } = next;
    if (widthM === null || lengthM === null) return;
    const outline = [
      { xM: 0, yM: 0 },
      { xM: lengthM, yM: 0 },
      { xM: lengthM, yM: widthM },
      { xM: 0, yM: widthM },
    ];
    write(`walls of ${theRoom(room.name)}`, withPlan({ outline }));
  };
  const range = (next: typeof depths): void => {
    setDepths(next);
    const { leastM, mostM } = next;
    if (leastM !== null && mostM !== null)
      guessed(() => ({ kind: 'depth', leastM: Math.min(leastM, mostM), mostM: Math.max(leastM, mostM) }));
  };
  const isPositive = (m: number): string | null => (m > 0 ? null : 'Enter a value greater than 0.');
  return (
    <BlockPart heading="Ballpark">
      {!isDrawn && (
        <Fields>
          <QuantityField
            kind="wall"
            label="Length"
            waits
            value={sides.lengthM}
            check={isPositive}
            onChange={(lengthM) => draw({ ...sides, lengthM })}
          />
          <QuantityField
            kind="wall"
            label="Width"
            waits
            value={sides.widthM}
            check={isPositive}
            onChange={(widthM) => draw({ ...sides, widthM })}
          />
        </Fields>
      )}
      <ChoiceRow label="Ballpark basis" options={WAYS} value={kind} onChange={setKind} />
      {kind === 'gap' ? (
        <Fields>
          <QuantityField
            kind="depth"
            label="Max gap"
            value={guess?.kind === 'gap' ? guess.gapM : null}
            check={isPositive}
            onChange={(gapM) =>
              guessed((was) =>
                gapM === null ? null : { kind: 'gap', gapM, levelLengthM: was?.kind === 'gap' ? was.levelLengthM : levelM },
              )
            }
          />
          <QuantityField
            kind="wall"
            label="Level length"
            value={levelM}
            check={isPositive}
            emptyMessage="Enter the length of the level."
            onChange={(levelLengthM) => {
              setLevel(levelLengthM);
              guessed((was) => (was?.kind === 'gap' ? { ...was, levelLengthM } : was));
            }}
          />
        </Fields>
      ) : (
        <Fields>
          <QuantityField
            kind="depth"
            label="From"
            value={depths.leastM}
            check={isPositive}
            onChange={(leastM) => range({ ...depths, leastM })}
          />
          <QuantityField
            kind="depth"
            label="To"
            value={depths.mostM}
            check={isPositive}
            onChange={(mostM) => range({ ...depths, mostM })}
          />
        </Fields>
      )}
      <p className="small">
        {kind === 'gap'
          ? 'Hold the level with its bubble centered and measure the largest gap under it. Readings replace this ballpark.'
          : 'Enter the range of the average pour depth. Readings replace this ballpark.'}
      </p>
    </BlockPart>
  );
}
