import type { Quote } from '../../../shared-core/book/quote.ts';
import { contractOfJob } from '../../../shared-core/ledger/job-contract.ts';
import { acceptedQuote } from '../../../shared-core/price/change-order.ts';
import { formatMoney } from '../../../shared-core/price/money.ts';
import type { PricedJob } from '../../../shared-core/price/price-job.ts';
import { standingOption } from '../../../shared-core/price/quoted-price.ts';
import { Answer } from '../../parts/Answer.tsx';
import { RangeMark } from '../../parts/RangeMark.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { useSmall } from '../../parts/use-small.ts';

interface QuoteFootProps {
  readonly price: PricedJob;
  /** The option that is priced. */
  readonly name: string;
  readonly hasTotal: boolean;
  readonly quotes: readonly Quote[];
}

/** The total in the foot: of the contract and its option once there is one, whatever today's prices are and whatever is shown. */
export function QuoteFoot({ price, name, hasTotal, quotes }: QuoteFootProps) {
  const { locale } = useMeasure();
  const small = useSmall();
  const contract = contractOfJob(quotes);
  const accepted = acceptedQuote(quotes);
  if (contract === null && !hasTotal) return <Answer>No total yet</Answer>;
  const { currency, totalMinor, netMinor } = contract ?? price;
  const money = (minor: number): string => formatMoney(minor, currency, locale);
  const about = (minor: number): string => formatMoney(minor, currency, locale, 'about');
  const word = contract === null ? 'total' : 'contract total';
  const range = <RangeMark leastText={about(price.range.leastMinor)} mostText={about(price.range.mostMinor)} value={null} />;
  return (
    <>
      {small ? (
        <Answer>{`${money(totalMinor)} ${word}`}</Answer>
      ) : (
        <Answer figure={money(totalMinor)} note={accepted === null ? name : standingOption(accepted).name}>
          {word}
        </Answer>
      )}
      <Answer wideOnly {...(contract === null ? { under: range } : {})}>
        {`${money(netMinor)} plus ${money(totalMinor - netMinor)} tax`}
      </Answer>
    </>
  );
}
