import type { Quote } from '../../../shared-core/book/quote.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { quoteTerms } from '../../../shared-core/documents/quote-terms.ts';
import { formatMoney } from '../../../shared-core/price/money.ts';
import { formatTaxRate } from '../../../shared-core/price/tax.ts';
import type { PricedJob } from '../../../shared-core/price/price-job.ts';
import { useMeasure } from '../../parts/use-measure.ts';

interface QuoteSumsProps {
  readonly price: PricedJob;
  /** Behind the total, what it is priced at where that is not the contract; else empty. */
  readonly atToday: string;
  readonly hasTotal: boolean;
  readonly records: Pick<WholeJob, 'business' | 'rooms' | 'property' | 'job' | 'materials'>;
  /** Open holds, as the quote prints them. */
  readonly holds: Quote['holds'];
}

/** Discount, subtotal as the quote prints it, tax and total below the lines; assumptions, exclusions and open items. */
export function QuoteSums({ price, atToday, hasTotal, records, holds }: QuoteSumsProps) {
  const { locale } = useMeasure();
  const money = (minor: number): string => formatMoney(minor, price.currency, locale);
  const terms = quoteTerms(records);
  const nameOf = (id: string): string => records.rooms.find((room) => room.id === id)?.name ?? '';
  const sections = [
    { heading: 'Assumptions', items: terms.assumptions },
    { heading: 'Exclusions', items: terms.excluded },
    ...(holds.length === 0
      ? []
      : [{ heading: 'Open points printed on the quote', items: holds.map((hold) => `${nameOf(hold.roomId)}: ${hold.text}`) }]),
  ];
  return (
    <>
      {hasTotal && (
        <dl className="figures quote-sums">
          {price.discountMinor > 0 && (
            <>
              <div>
                <dt>Discount</dt>
                <dd>{money(-price.discountMinor)}</dd>
              </div>
              <div>
                <dt>Subtotal</dt>
                <dd>{money(price.netMinor)}</dd>
              </div>
            </>
          )}
          {price.taxes.map((t) => (
            <div key={t.taxId}>
              <dt>{`${t.name} ${formatTaxRate(t.rate, locale)}`}</dt>
              <dd>{money(t.taxMinor)}</dd>
            </div>
          ))}
          <div>
            <dt>{`Total${atToday}`}</dt>
            <dd>
              <b data-testid="total">{money(price.totalMinor)}</b>
            </dd>
          </div>
        </dl>
      )}
      <div className="quote-terms">
        {sections.map(({ heading, items }) => (
          <section key={heading}>
            <h2 className="caption">{heading}</h2>
            <ul>
              {items.map((text) => (
                <li key={text} className="small">
                  {text}
                </li>
              ))}
            </ul>
          </section>
        ))}
      </div>
    </>
  );
}
