import type { Material } from '../../shared-core/book/material.ts';
import { quotesMovedBy } from '../../shared-core/ledger/purchase-prices.ts';
import { formatDay } from '../../shared-core/measure/day.ts';
import { formatMoney } from '../../shared-core/price/money.ts';
import { useWhere } from '../book/use-records.ts';
import { LinkWord } from '../parts/Buttons.tsx';
import { stageHref } from '../parts/job/stage-words.ts';
import { useMeasure } from '../parts/use-measure.ts';

/** Open quotes made with another price of this material. They keep that price; this shows the difference in cost. */
export function MovedQuotesPart({ material, today }: { readonly material: Material; readonly today: string }) {
  const { locale } = useMeasure();
  const issued = useWhere('quotes', 'state', 'issued') ?? [];
  const moved = quotesMovedBy(material, issued, today);
  if (moved.length === 0) return null;
  return (
    <section className="materials-part" aria-labelledby="materials-moved">
      <h2 className="materials-part-head" id="materials-moved">
        Open quotes with another price
      </h2>
      <ul className="price-list">
        {moved.map((quote) => {
          const { currency, frozen } = issued.find(({ id }) => id === quote.quoteId) ?? {};
          const money = (minor: number): string => formatMoney(minor, currency ?? 'USD', locale);
          const more =
            quote.moreMinor === null
              ? ''
              : ` The material costs ${money(Math.abs(quote.moreMinor))} ${quote.moreMinor > 0 ? 'more' : 'less'} now.`;
          return (
            <li key={quote.quoteId}>
              <span>
                <LinkWord href={stageHref(quote.jobId, 'quote', frozen?.job.rooms[0]?.roomId ?? '')}>{quote.number}</LinkWord>
                {` counts ${money(quote.quotedMinor)} and is valid until ${formatDay(quote.validUntil, 'dated', locale)}.${more}`}
              </span>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
