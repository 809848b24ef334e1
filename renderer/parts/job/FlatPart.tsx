import type { Point } from '../../../shared-core/book/fields.ts';
import { flatnessWords } from '../../../shared-core/documents/quote-table.ts';
import type { FlatnessAfter } from '../../../shared-core/standing/flatness-after.ts';
import { LinkWord, TextButton } from '../Buttons.tsx';
import { BlockPart } from '../Sheet.tsx';
import { useMeasure } from '../use-measure.ts';

interface FlatProps {
  readonly flat: FlatnessAfter;
  readonly roomId: string;
  /** Marks a low spot at the widest gap; absent where the part is read-only. */
  readonly onLowSpot?: (at: Point) => void;
}

/** Flatness after the pour: requested until it is measured, then compared with the quote. */
export function FlatPart({ flat, roomId, onLowSpot }: FlatProps) {
  const { units, locale } = useMeasure();
  const { promisedM, worst, verdict } = flat;
  const gap = (m: number) => flatnessWords(m, { units, locale });
  const promised = promisedM === null ? '' : ` The quote promises ${gap(promisedM)}.`;
  return (
    <BlockPart heading="Flatness after the pour">
      {worst === null ? (
        <p>
          {`Not measured.${promised} `}
          <LinkWord href={`/readings/${roomId}`}>Take readings at the suggested points</LinkWord>
        </p>
      ) : (
        <>
          <p>
            {`Max gap ${gap(worst.gapM)}.${promised} `}
            <strong>{VERDICTS[verdict]}</strong>
          </p>
          {(verdict === 'over-promise' || verdict === 'over-limit') && worst.point !== null && onLowSpot !== undefined && (
            <TextButton onPress={() => worst.point !== null && onLowSpot(worst.point)}>Mark low spot</TextButton>
          )}
        </>
      )}
    </BlockPart>
  );
}

const VERDICTS: Readonly<Record<FlatnessAfter['verdict'], string>> = {
  'not-measured': '',
  kept: 'Within the promise.',
  'over-promise': 'Over the promise.',
  'over-limit': 'Over the flooring’s limit.',
};
