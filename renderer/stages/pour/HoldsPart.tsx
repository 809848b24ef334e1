import { useState } from 'react';
import { overriddenWords } from '../../../shared-core/assess/overrides.ts';
import type { JobRoom } from '../../../shared-core/book/job.ts';
import { formatInstantsOn } from '../../../shared-core/measure/moment.ts';
import type { LastMinute } from '../../../shared-core/prep/last-minutes.ts';
import type { PourHold } from '../../../shared-core/prep/pour-held.ts';
import { capital } from '../../../shared-core/measure/first-letter.ts';
import { cautionText } from '../../../shared-core/substrate/cautions.ts';
import { wordingFor } from '../../../shared-core/substrate/wording.ts';
import { CheckRow } from '../../parts/Choices.tsx';
import { ConfirmWhy } from '../../parts/ConfirmWhy.tsx';
import { Fields, TextField } from '../../parts/Fields.tsx';
import { LinkWord, TextButton } from '../../parts/Buttons.tsx';
import { StateShape } from '../../parts/StateShape.tsx';
import { BlockPart } from '../../parts/Sheet.tsx';
import { useMeasure } from '../../parts/use-measure.ts';

interface HoldsProps {
  /** The room's name, where several are poured together. */
  readonly room: string | null;
  readonly holds: readonly PourHold[];
  readonly prepHref: string;
  readonly moneyHref: string;
  readonly isAccepted: boolean;
  /** The initials to record; empty to ask for them, undefined while loading. */
  readonly initials: string | undefined;
  readonly onPast: (hold: PourHold, why: string, initials: string) => void;
}

/** What blocks the pour, each with a link that clears it and an override. */
export function HoldsPart({ room, holds, prepHref, moneyHref, isAccepted, initials, onPast }: HoldsProps) {
  const [past, setPast] = useState<PourHold | null>(null);
  if (holds.length === 0) return null;
  return (
    <BlockPart heading={room === null ? 'On hold' : `${room}: on hold`}>
      <ul className="pour-holds">
        {holds.map((hold) => (
          <li key={hold.key}>
            <StateShape state={hold.overridden === null ? 'held' : 'under-way'} />
            <span>
              {capital(hold.text)}
              {hold.overridden !== null && <span className="caption">{` ${overriddenWords(hold.overridden, hold.text)}`}</span>}
            </span>
            {hold.overridden === null && hold.clearedBy === 'reason' && (
              <TextButton kind="plain" label={`Override hold: ${hold.text}`} onPress={() => setPast(hold)}>
                Override hold…
              </TextButton>
            )}
          </li>
        ))}
      </ul>
      <p className="words small">
        <LinkWord href={prepHref}>Go to Prep</LinkWord>
        {holds.some(({ by }) => by === 'deposit') && <LinkWord href={moneyHref}>Go to Money</LinkWord>}
      </p>
      {past !== null && (
        <ConfirmWhy
          hold={past.text}
          because="This holds the pour."
          by={past.by}
          isAccepted={isAccepted}
          onBack={() => setPast(null)}
          initials={initials}
          onGoOn={({ why, initials: by }) => {
            setPast(null);
            onPast(past, why, by);
          }}
        />
      )}
    </BlockPart>
  );
}

interface LastMinutesProps {
  readonly lines: readonly LastMinute[];
  readonly ticks: readonly JobRoom['lastMinutes'][number][];
  readonly initials: string;
  readonly zone: string;
  readonly now: string;
  readonly onInitials: (text: string) => void;
  readonly onTick: (line: LastMinute, on: boolean) => void;
}

/** The pre-pour checklist, read aloud before the first bag. */
export function LastMinutesPart({ lines, ticks, initials, zone, now, onInitials, onTick }: LastMinutesProps) {
  const { units, locale } = useMeasure();
  return (
    <section className="stack below">
      <h2 className="speech">Pre-pour checklist</h2>
      <Fields>
        <TextField
          label="Initials"
          value={initials}
          onChange={onInitials}
          check={(text) => (text.length > 8 ? 'Enter at most 8 letters.' : null)}
        />
      </Fields>
      <div>
        {lines.map((line) => {
          const tick = ticks.find((t) => t.itemKey === line.key);
          const because = line.note ?? (line.caution === null ? null : cautionText(line.caution, wordingFor(units, locale)));
          return (
            <CheckRow
              key={line.key}
              task
              dense
              label={line.text}
              checked={tick !== undefined}
              onChange={(on) => onTick(line, on)}
              right={tick === undefined ? '' : [tick.initials, ...formatInstantsOn(now, [tick.instant], zone, locale)].join(' ')}
              {...(because === null ? {} : { because })}
            />
          );
        })}
      </div>
    </section>
  );
}
