import type { RoomReading } from '../../../shared-core/standing/read-job.ts';
import type { PourHold } from '../../../shared-core/prep/pour-held.ts';
import { CAUTIONS, type CautionId } from '../../../shared-core/substrate/cautions.ts';
import { Fields } from '../../parts/Fields.tsx';
import { MomentField } from '../../parts/MomentField.tsx';
import { NumberField } from '../../parts/NumberField.tsx';
import { StateShape } from '../../parts/StateShape.tsx';
import { TextButton } from '../../parts/TextButton.tsx';
import { TextField } from '../../parts/TextField.tsx';
import { BlockPart } from '../../parts/TitleBlock.tsx';
import { clockWords } from './prep-words.ts';

interface PrepBlockProps {
  readonly at: RoomReading;
  readonly zone: string;
  readonly locale: string;
  readonly now: string;
  readonly initials: string;
  readonly cautions: readonly CautionId[];
  readonly openCount: number;
  readonly onInitials: (text: string) => void;
  readonly onPrimed: (at: string | null) => void;
  readonly onCoats: (coats: number) => void;
  readonly onPast: (hold: PourHold) => void;
}

/** Who signs, the primer's clock, what the pour waits for, and what to mind. */
export function PrepBlock(props: PrepBlockProps) {
  const { at, zone, locale, now, initials, cautions, openCount, onInitials, onPrimed, onCoats, onPast } = props;
  const { jobRoom, preparation } = at;
  return (
    <>
      <BlockPart>
        <Fields>
          <TextField
            label="Signing as"
            value={initials}
            onChange={onInitials}
            check={(text) => (text.length > 8 ? 'Initials are at most eight letters.' : null)}
          />
          <MomentField label="Primed at" zone={zone} now={now} value={jobRoom.primedAt} onChange={onPrimed} />
          <NumberField
            label="Coats down"
            whole
            least={0}
            most={5}
            value={jobRoom.primerCoatsDone}
            onChange={(coats) => onCoats(coats ?? 0)}
          />
        </Fields>
        <p className="small prep-clock">{clockWords(at, zone, locale)}</p>
      </BlockPart>
      {preparation.holds.length > 0 && (
        <BlockPart heading="The pour waits for">
          <ul className="prep-holds">
            {preparation.holds
              .filter((hold) => hold.by !== 'line' || hold.overridden !== null)
              .map((hold) => (
                <li key={hold.key}>
                  <StateShape state={hold.overridden === null ? 'held' : 'under-way'} />
                  <span>
                    {hold.says.charAt(0).toUpperCase() + hold.says.slice(1)}
                    {hold.overridden !== null && <span className="caption"> Gone past: {hold.overridden.why}</span>}
                    {hold.overridden === null && (
                      <span className="prep-past">
                        <TextButton kind="plain" label={`Go on all the same: ${hold.says}`} onPress={() => onPast(hold)}>
                          Go on all the same
                        </TextButton>
                      </span>
                    )}
                  </span>
                </li>
              ))}
            {openCount > 0 && (
              <li>
                <StateShape state="waiting" />
                <span>{openCount === 1 ? 'One line of the list is open.' : `${openCount} lines of the list are open.`}</span>
              </li>
            )}
          </ul>
        </BlockPart>
      )}
      {cautions.length > 0 && (
        <BlockPart heading="Mind">
          <ul className="prep-cautions small">
            {cautions.map((id) => (
              <li key={id}>
                {CAUTIONS[id].says} <cite>{CAUTIONS[id].source}</cite>
              </li>
            ))}
          </ul>
        </BlockPart>
      )}
    </>
  );
}
