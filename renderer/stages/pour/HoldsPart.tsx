import { useState } from 'react';
import type { JobRoom } from '../../../shared-core/book/job.ts';
import { formatInstantTime } from '../../../shared-core/measure/moment.ts';
import type { LastMinute } from '../../../shared-core/prep/last-minutes.ts';
import type { PourHold } from '../../../shared-core/prep/pour-held.ts';
import { CAUTIONS } from '../../../shared-core/substrate/cautions.ts';
import { CheckRow } from '../../parts/CheckRow.tsx';
import { ConfirmWhy } from '../../parts/ConfirmWhy.tsx';
import { Fields } from '../../parts/Fields.tsx';
import { LinkWord } from '../../parts/LinkWord.tsx';
import { StateShape } from '../../parts/StateShape.tsx';
import { TextButton } from '../../parts/TextButton.tsx';
import { TextField } from '../../parts/TextField.tsx';
import { BlockPart } from '../../parts/TitleBlock.tsx';
import { useMeasure } from '../../parts/use-measure.ts';

interface HoldsProps {
  /** The room's name, where several go together. */
  readonly room: string | null;
  readonly holds: readonly PourHold[];
  readonly prepHref: string;
  readonly onPast: (hold: PourHold, why: string) => void;
}

/** What the pour waits for, each with the way to lift it and the way past it in writing. */
export function HoldsPart({ room, holds, prepHref, onPast }: HoldsProps) {
  const [past, setPast] = useState<PourHold | null>(null);
  if (holds.length === 0) return null;
  return (
    <BlockPart heading={room === null ? 'The pour waits for' : `${room} waits for`}>
      <ul className="pour-holds">
        {holds.map((hold) => (
          <li key={hold.key}>
            <StateShape state={hold.overridden === null ? 'held' : 'under-way'} />
            <span>
              {hold.says}
              {hold.overridden !== null && <span className="caption"> Gone past: {hold.overridden.why}</span>}
            </span>
            {hold.overridden === null && (
              <TextButton kind="plain" label={`Go on all the same: ${hold.says}`} onPress={() => setPast(hold)}>
                Go on all the same
              </TextButton>
            )}
          </li>
        ))}
      </ul>
      <p className="small">
        <LinkWord href={prepHref}>To the checklist</LinkWord>
      </p>
      {past !== null && (
        <ConfirmWhy
          open
          hold={past.says}
          because="The pour waits for this. Going on is possible only in writing; it stands on every record of the job."
          goOnWord="Go on all the same"
          onBack={() => setPast(null)}
          onGoOn={(why) => {
            setPast(null);
            onPast(past, why);
          }}
        />
      )}
    </BlockPart>
  );
}

interface LastMinutesProps {
  readonly lines: readonly LastMinute[];
  readonly ticks: JobRoom['lastMinutes'];
  readonly initials: string;
  readonly zone: string;
  readonly onInitials: (text: string) => void;
  readonly onTick: (line: LastMinute, on: boolean) => void;
}

/** The last five minutes before the first bag, ticked aloud. */
export function LastMinutesPart({ lines, ticks, initials, zone, onInitials, onTick }: LastMinutesProps) {
  const { locale } = useMeasure();
  return (
    <section className="pour-list pour-last">
      <h2 className="speech">The last five minutes</h2>
      <Fields>
        <TextField
          label="Ticking as"
          value={initials}
          onChange={onInitials}
          check={(text) => (text.length > 8 ? 'Initials are at most eight letters.' : null)}
        />
      </Fields>
      <div>
        {lines.map((line) => {
          const tick = ticks.find((t) => t.itemKey === line.key);
          const because = line.note ?? (line.caution === null ? null : CAUTIONS[line.caution].says);
          return (
            <CheckRow
              key={line.key}
              task
              dense
              label={line.says}
              checked={tick !== undefined}
              onChange={(on) => onTick(line, on)}
              right={tick === undefined ? '' : `${tick.initials} ${formatInstantTime(tick.at, zone, locale)}`}
              {...(because === null ? {} : { because })}
            />
          );
        })}
      </div>
    </section>
  );
}
