/** The remaining work of a placed floor: edges, patches, readings, cost, and the message to the customer. */
import { useMemo, useState } from 'react';
import type { Defect } from '../../../shared-core/book/pour-record.ts';
import { noticeMessage } from '../../../shared-core/documents/floor-notice.ts';
import { formatArea } from '../../../shared-core/measure/area.ts';
import { formatDuration } from '../../../shared-core/measure/duration.ts';
import { formatLength } from '../../../shared-core/measure/length-format.ts';
import type { Patch } from '../../../shared-core/pour/floor-rest.ts';
import type { JobReading } from '../../../shared-core/standing/read-job.ts';
import { OPEN_LEAST, TIE_LEAST } from '../../../shared-core/standing/rest-depth.ts';
import { restOfRoom, type RestOfRoom } from '../../../shared-core/standing/rest-of-room.ts';
import { reprintDocument, saveJobDocument } from '../../book/document-commands.ts';
import { useNow } from '../../book/use-job-reading.ts';
import { Dialog } from '../../parts/Dialog.tsx';
import { DocumentsPart } from '../../parts/job/DocumentsPart.tsx';
import { stageHref } from '../../parts/job/stage-words.ts';
import { LinkWord, TextButton } from '../../parts/Buttons.tsx';
import { MailWord } from '../../parts/MailWord.tsx';
import { BlockPart } from '../../parts/Sheet.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { DEFECT_WORDS } from './pour-words.ts';
import { RestPrice } from './RestPrice.tsx';

interface RestProps {
  readonly reading: JobReading;
  readonly roomId: string;
  /** Marks a patch as repaired; absent where the part is read-only. */
  readonly onRepaired?: (patch: Patch) => void;
}

/** Hidden when the floor is complete and sound. */
export function RestPart({ reading, roomId, onRepaired }: RestProps) {
  const { units, locale } = useMeasure();
  const now = useNow(reading.whole);
  const [isWriting, setWriting] = useState(false);
  const found = useMemo(() => restOfRoom(reading, roomId), [reading, roomId]);
  const message = useMemo(() => (isWriting ? noticeMessage(reading, now) : null), [isWriting, reading, now]);
  if (found === null) return null;
  const { rest } = found;
  const area = (m2: number) => formatArea(m2, units, locale);
  const since = rest.sinceAt === null ? null : (Date.parse(now) - Date.parse(rest.sinceAt)) / 1000;
  return (
    <>
      <BlockPart heading={rest.openM2 > 0 ? 'Rest of the floor' : 'Repairs'}>
        <ul className="pour-rest">
          {rest.openM2 > 0 && (
            <>
              <li>{`${area(rest.openM2)} to pour.`}</li>
              <li>
                {`${formatLength(rest.jointM, units, locale)} of edge to cut back, clean, and prime.`}
                {since !== null && ` Placed ${formatDuration(Math.max(0, since), locale)} ago.`}
              </li>
              <li>
                {readWords(found)} <LinkWord href={`/readings/${roomId}`}>Read the rest</LinkWord>
              </li>
            </>
          )}
          {rest.patches.map((patch) => (
            <li key={patch.id}>
              {`${DEFECT_WORDS[patch.defect]}, ${area(patch.areaM2)}. ${PATCH_WORDS[patch.defect]} `}
              {onRepaired !== undefined && (
                <TextButton kind="plain" label={`Repaired: ${DEFECT_WORDS[patch.defect]}`} onPress={() => onRepaired(patch)}>
                  Repaired
                </TextButton>
              )}
            </li>
          ))}
          {rest.toCheckM2 > 0 && <li>{`${area(rest.toCheckM2)} suspect. Scratch and tap it once it is hard.`}</li>}
          <li>
            <RestPrice reading={reading} roomId={roomId} found={found} now={now} />
          </li>
        </ul>
        <p className="small">
          <LinkWord href={stageHref(reading.whole.job.id, 'prep', roomId)}>Go to Prep</LinkWord>
        </p>
        <TextButton onPress={() => setWriting(true)}>Message to customer…</TextButton>
      </BlockPart>
      <DocumentsPart reading={reading} stage="pour" onSave={(entry) => saveJobDocument(reading, entry)} onPrint={reprintDocument} />
      {isWriting && message !== null && (
        <Dialog wide title="Message to the customer" onClose={() => setWriting(false)}>
          <MailWord email={reading.whole.customer.email} message={message} />
        </Dialog>
      )}
    </>
  );
}

/** The repair of each defect in short; the Prep checklist has it in full. */
const PATCH_WORDS: Readonly<Record<Defect, string>> = {
  pinholes: 'Abrade, prime, and skim.',
  ridge: 'Grind flush.',
  hollow: 'Cut out and refill.',
  'low-spot': 'Abrade, prime, and fill.',
};

function readWords({ readings }: RestOfRoom): string {
  const { tied = 0, open = 0, groundAt = null } = readings ?? {};
  if (groundAt !== null) return `Read again: ${open} points, tied to ${tied} on the placed floor.`;
  return tied + open === 0
    ? 'Not read again yet. The depth is from the first survey.'
    : `${open} of ${OPEN_LEAST} points on open floor and ${tied} of ${TIE_LEAST} on placed floor read.`;
}
