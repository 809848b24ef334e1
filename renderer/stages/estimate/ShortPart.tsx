import { countWords } from '../../../shared-core/measure/count-words.ts';
import { curvesDrawing } from '../../../shared-core/drawing/curves.ts';
import type { BagCount } from '../../../shared-core/material/bag-count.ts';
import { formatNumber } from '../../../shared-core/measure/number.ts';
import { formatChance } from '../../../shared-core/measure/percent.ts';
import { DrawingView, useSize } from '../../parts/DrawingView.tsx';
import { BlockPart } from '../../parts/Sheet.tsx';
import { useMeasure } from '../../parts/use-measure.ts';

const MOST_LABELS = 7;

/** The chance of running short by number of bags, with the pointer at the quoted number. */
export function ShortPart({ bags }: { readonly bags: BagCount }) {
  const { locale } = useMeasure();
  const { ref, size } = useSize<HTMLDivElement>('short');
  const count = (n: number): string => formatNumber(n, { most: 0 }, locale);
  const chanceOf = (n: number): string | null => {
    const chance = bags.curve.find((c) => c.bags === n);
    return chance === undefined ? null : formatChance(chance.chance, locale);
  };
  const more = chanceOf(bags.quotedBags + 1);
  const step = Math.max(1, Math.ceil(bags.curve.length / MOST_LABELS));
  return (
    <BlockPart heading="Chance of running short">
      <p className="small">
        {`${countWords(bags.quotedBags, 'bag', locale)}: ${formatChance(bags.chanceShort, locale)} chance of running short.`}
        {more !== null && ` With 1 more bag: ${more}.`}
      </p>
      <div ref={ref} className="below">
        {size !== null && size.widthPx > 0 && bags.curve.length > 1 && (
          <DrawingView
            label={`Chance of running short by bags: ${bags.curve.map((c) => `${count(c.bags)}, ${formatChance(c.chance, locale)}`).join('; ')}`}
            drawing={curvesDrawing({
              widthPx: size.widthPx,
              heightPx: 112,
              curves: [
                {
                  points: bags.curve.map((c) => ({ x: c.bags, y: c.chance })),
                  pen: 'cut',
                  dash: null,
                  words: 'short',
                  isStrong: true,
                },
              ],
              xLabels: bags.curve.filter((_, i) => i % step === 0).map((c) => ({ x: c.bags, text: count(c.bags) })),
              pointerAtX: bags.quotedBags,
              fromY: 0,
            })}
          />
        )}
      </div>
    </BlockPart>
  );
}
