import { useState } from 'react';
import type { MadeDocument } from '../../shared-core/book/papers.ts';
import { formatInstantDay } from '../../shared-core/measure/moment.ts';
import { reprintDocument } from '../book/document-commands.ts';
import { TextButton } from '../parts/Buttons.tsx';
import { BlockPart } from '../parts/Sheet.tsx';
import { useMeasure } from '../parts/use-measure.ts';

interface PropertyDocumentsProps {
  readonly documents: readonly MadeDocument[];
  readonly zone: string;
}

/** Documents of this property, newest first, each opened as it was issued. */
export function PropertyDocuments({ documents, zone }: PropertyDocumentsProps) {
  const { locale } = useMeasure();
  const [result, setResult] = useState<string | null>(null);
  const again = async (document: MadeDocument): Promise<void> => {
    setResult((await reprintDocument(document)).text);
  };
  return (
    <BlockPart heading="Documents">
      <ul className="ends">
        {[...documents]
          .sort((a, b) => b.madeAt.localeCompare(a.madeAt))
          .map((document) => (
            <li key={document.id}>
              {document.kind === 'calendar' ? (
                <span>{document.title}</span>
              ) : (
                <TextButton kind="plain" label={`Open ${document.title}`} onPress={() => void again(document)}>
                  {document.title}
                </TextButton>
              )}
              <span className="caption">{formatInstantDay(document.madeAt, zone, 'dated', locale)}</span>
            </li>
          ))}
      </ul>
      {result !== null && (
        <p className="small" role="status">
          {result}
        </p>
      )}
    </BlockPart>
  );
}
