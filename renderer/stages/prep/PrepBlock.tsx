import type { RoomReading } from '../../../shared-core/standing/read-job.ts';
import type { PourHold } from '../../../shared-core/prep/pour-held.ts';
import { DOCUMENT_WORDS, isDocument, overriddenWords } from '../../../shared-core/assess/overrides.ts';
import { CAUTIONS, cautionText, type CautionId } from '../../../shared-core/substrate/cautions.ts';
import { useMeasure, useWording } from '../../parts/use-measure.ts';
import { capital } from '../../../shared-core/measure/first-letter.ts';
import { Fields, MomentField, NumberField, TextField } from '../../parts/Fields.tsx';
import { StateShape } from '../../parts/StateShape.tsx';
import { TextButton } from '../../parts/Buttons.tsx';
import { BlockPart } from '../../parts/Sheet.tsx';
import { clockWords } from './prep-words.ts';

const clearWord = ({ clearedBy }: PourHold): string => (isDocument(clearedBy) ? `Record ${DOCUMENT_WORDS[clearedBy]}…` : 'Override hold…');

interface PrepBlockProps {
  readonly roomReading: RoomReading;
  readonly zone: string;
  readonly now: string;
  readonly initials: string;
  readonly cautions: readonly CautionId[];
  readonly openCount: number;
  readonly onInitials: (text: string) => void;
  readonly onPrimed: (instant: string | null) => void;
  readonly onCoats: (coats: number) => void;
  readonly onPast: (hold: PourHold) => void;
  readonly onAmbient: () => void;
  readonly ambient: string | null;
}

/** Signer, priming time, ambient conditions, holds on the pour, and cautions. */
export function PrepBlock(props: PrepBlockProps) {
  const { roomReading, zone, now, initials, cautions, openCount, onInitials, onPrimed, onCoats, onPast, onAmbient, ambient } = props;
  const { preparation } = roomReading;
  const { locale } = useMeasure();
  const wording = useWording();
  return (
    <>
      <BlockPart>
        <Fields>
          <TextField
            label="Your initials"
            value={initials}
            onChange={onInitials}
            check={(text) => (text.length > 8 ? 'Enter at most 8 letters.' : null)}
          />
          <MomentField label="Last coat time" zone={zone} now={now} past value={preparation.primed.primedAt} onChange={onPrimed} />
          <NumberField
            label="Coats applied"
            whole
            least={0}
            most={5}
            value={preparation.primed.primerCoatsDone}
            onChange={(coats) => onCoats(coats ?? 0)}
          />
        </Fields>
        <p className="small below">{clockWords(roomReading, { now, zone, locale })}</p>
        <p className="small below">
          {ambient === null ? 'Ambient conditions: not measured today.' : `Ambient conditions: ${ambient}.`}{' '}
          <TextButton kind="plain" onPress={onAmbient}>
            {ambient === null ? 'Enter reading' : 'Add reading'}
          </TextButton>
        </p>
      </BlockPart>
      {preparation.holds.length > 0 && (
        <BlockPart heading="Holds on the pour">
          <ul className="prep-holds">
            {preparation.holds
              .filter((hold) => hold.by !== 'line' || hold.overridden !== null)
              .map((hold) => (
                <li key={hold.key}>
                  <StateShape state={hold.overridden === null ? 'held' : 'under-way'} />
                  <span>
                    {capital(hold.text)}
                    {hold.overridden !== null && <span className="caption"> {overriddenWords(hold.overridden, hold.text)}</span>}
                    {hold.overridden === null && hold.clearedBy !== 'lab-result' && hold.clearedBy !== 'signature' && (
                      <span className="prep-late">
                        <TextButton kind="plain" label={`${clearWord(hold)} ${hold.text}`} onPress={() => onPast(hold)}>
                          {clearWord(hold)}
                        </TextButton>
                      </span>
                    )}
                  </span>
                </li>
              ))}
            {openCount > 0 && (
              <li>
                <StateShape state="waiting" />
                <span>{openCount === 1 ? '1 line not signed.' : `${openCount} lines not signed.`}</span>
              </li>
            )}
          </ul>
        </BlockPart>
      )}
      {cautions.length > 0 && (
        <BlockPart heading="Safety">
          <ul className="prep-cautions small">
            {cautions.map((id) => (
              <li key={id}>
                {cautionText(id, wording)} <cite>{CAUTIONS[id].source}</cite>
              </li>
            ))}
          </ul>
        </BlockPart>
      )}
    </>
  );
}
