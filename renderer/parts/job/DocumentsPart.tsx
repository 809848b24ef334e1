import { useState } from 'react';
import type { Stage } from '../../../shared-core/standing/stage.ts';
import { type DocumentEntry, documentsAt } from '../../../shared-core/documents/document-list.ts';
import { formatInstantDay } from '../../../shared-core/measure/moment.ts';
import type { JobReading } from '../../../shared-core/standing/read-job.ts';
import type { PaperPhoto } from '../../../shared-core/documents/paper-photos.ts';
import type { MadeDocument } from '../../../shared-core/book/papers.ts';
import { ResultNotice } from '../Dialog.tsx';
import { TextButton } from '../Buttons.tsx';
import { BlockPart } from '../Sheet.tsx';
import { changedWords, outOfDate } from './out-of-date.ts';
import { useBusy } from '../use-busy.ts';
import { useMeasure } from '../use-measure.ts';

type Message = { readonly ok: boolean; readonly text: string };

interface DocumentsPartProps {
  readonly reading: JobReading;
  readonly stage: Stage;
  /** What the documents print of the job's photos; undefined while loading. */
  readonly photos: readonly PaperPhoto[] | undefined;
  /** Kinds that the screen offers elsewhere. */
  readonly without?: readonly DocumentEntry['kind'][];
  readonly onSave: (entry: DocumentEntry) => Promise<Message>;
  readonly onPrint: (document: MadeDocument) => Promise<Message>;
}

/** Documents offered at a stage, and stored ones, which can be printed again unchanged. */
export function DocumentsPart({ reading, stage, photos, without = [], onSave, onPrint }: DocumentsPartProps) {
  const { locale } = useMeasure();
  const [message, setMessage] = useState<Message | null>(null);
  const [busy, run] = useBusy();
  const { documents, property } = reading.whole;
  const offered = documentsAt(stage).filter((entry) => !without.includes(entry.kind));
  const aged = new Map(outOfDate(reading, photos, offered).map(({ document, changes }) => [document.id, changedWords(changes)]));
  const kinds = new Set<string>(offered.map((entry) => entry.kind));
  const saved = documents.filter((document) => kinds.has(document.kind)).toSorted((a, b) => b.madeAt.localeCompare(a.madeAt));
  const save = (entry: DocumentEntry): void => {
    const missing = entry.missing(reading);
    if (missing !== null) setMessage({ ok: false, text: missing });
    else run(() => onSave(entry).then(setMessage));
  };
  return (
    <BlockPart heading="Documents">
      <ul>
        {offered.map((entry) => (
          <li key={entry.kind}>
            <TextButton kind="plain" disabled={busy} label={`Save ${entry.label} PDF`} onPress={() => save(entry)}>
              {entry.label}
            </TextButton>
          </li>
        ))}
      </ul>
      {saved.length > 0 && (
        <>
          <h3 className="caption">Saved documents</h3>
          <ul>
            {saved.map((document) => (
              <li key={document.id}>
                {document.title} <span className="caption">{formatInstantDay(document.madeAt, property.timeZone, 'short', locale)}</span>{' '}
                <TextButton label={`Print ${document.title}`} onPress={() => void onPrint(document).then(setMessage)}>
                  Print
                </TextButton>
                {aged.has(document.id) && <p className="late small">{aged.get(document.id)}</p>}
              </li>
            ))}
          </ul>
        </>
      )}
      <ResultNotice message={message} onClose={setMessage} />
    </BlockPart>
  );
}
