import { useState } from 'react';
import { calendarFeed } from '../../shared-core/agenda/calendar-feed.ts';
import { noteCalendarSent } from '../book/calendar-commands.ts';
import { nowInstant } from '../book/moment.ts';
import type { BookAgenda } from '../book/use-agenda.ts';
import { base64OfText } from '../parts/base64.ts';
import { askDesk } from '../parts/desk-client.ts';
import { keepAndOpen } from '../parts/keep-file.ts';
import { Notice } from '../parts/Notice.tsx';
import { TextButton } from '../parts/TextButton.tsx';
import { BlockPart } from '../parts/TitleBlock.tsx';

const NAME = 'Straightedge calendar.ics';

/** The whole book as a calendar file. */
export function CalendarPart({ all }: { readonly all: BookAgenda }) {
  const [said, setSaid] = useState<{ ok: boolean; says: string } | null>(null);
  const write = async (): Promise<void> => {
    const sentAt = nowInstant();
    const feed = calendarFeed(
      all.agenda.entries,
      all.readings.flatMap((r) => [...r.whole.calendarEntries]),
      sentAt,
    );
    const written = await askDesk('calendar.write', {
      name: all.business.name === '' ? 'Straightedge' : all.business.name,
      events: [...feed.events],
      sentAt,
    });
    if (!written.ok) {
      setSaid({ ok: false, says: written.error.message });
      return;
    }
    const kept = await keepAndOpen(NAME, base64OfText(written.value.text), false);
    if (kept.ok) await noteCalendarSent(feed);
    setSaid(kept);
  };
  return (
    <BlockPart>
      <TextButton onPress={() => void write()}>Save every date as a calendar file</TextButton>
      {said !== null && (
        <Notice kind={said.ok ? 'told' : 'failure'} onClose={() => setSaid(null)}>
          {said.says}
        </Notice>
      )}
    </BlockPart>
  );
}
