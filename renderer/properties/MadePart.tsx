import { useState } from 'react';
import type { MadeDocument } from '../../shared-core/book/papers.ts';
import { formatInstantDay } from '../../shared-core/measure/moment.ts';
import { reprintDocument } from '../book/document-commands.ts';
import { TextButton } from '../parts/TextButton.tsx';
import { BlockPart } from '../parts/TitleBlock.tsx';
import { useMeasure } from '../parts/use-measure.ts';

interface MadePartProps {
  readonly documents: readonly MadeDocument[];
  readonly zone: string;
}

/** Documents made for this property, newest first. Each can be opened again as it was issued. */
export function MadePart({ documents, zone }: MadePartProps) {
  const { locale } = useMeasure();
  const [result, setResult] = useState<string | null>(null);
  const again = async (made: MadeDocument): Promise<void> => {
    setResult((await reprintDocument(made)).text);
  };
  return (
    <BlockPart heading="Documents">
      <ul className="property-made">
        {[...documents]
          .sort((a, b) => b.madeAt.localeCompare(a.madeAt))
          .map((made) => (
            <li key={made.id}>
              {made.kind === 'calendar' ? (
                <span>{made.title}</span>
              ) : (
                <TextButton kind="plain" label={`Open ${made.title}`} onPress={() => void again(made)}>
                  {made.title}
                </TextButton>
              )}
              <span className="caption">{formatInstantDay(made.madeAt, zone, 'dated', locale)}</span>
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
