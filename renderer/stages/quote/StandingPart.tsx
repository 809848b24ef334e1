import type { Business } from '../../../shared-core/book/business.ts';
import type { Customer } from '../../../shared-core/book/customer.ts';
import type { Quote, QuoteState } from '../../../shared-core/book/quote.ts';
import { formatDay } from '../../../shared-core/measure/day.ts';
import { formatInstantDay } from '../../../shared-core/measure/moment.ts';
import { formatMoney } from '../../../shared-core/price/money.ts';
import type { QuoteDifferences } from '../../../shared-core/price/quote-differences.ts';
import { mailAddress } from '../../parts/mail-address.ts';
import { TextButton } from '../../parts/TextButton.tsx';
import { BlockPart } from '../../parts/TitleBlock.tsx';
import { useMeasure } from '../../parts/use-measure.ts';

interface StandingPartProps {
  readonly business: Business;
  readonly customer: Customer;
  readonly number: string;
  readonly standing: Quote | null;
  readonly state: QuoteState | null;
  readonly differences: QuoteDifferences | null;
  /** Days that the next revision will stand. */
  readonly validDays: number;
  /** Null while something is missing that a quote must hold. */
  readonly onDraft: (() => void) | null;
  readonly onPaper: (quote: Quote) => void;
  /** Opens the folder, for the attachment of a letter. */
  readonly onFolder: () => void;
  readonly onAnswer: () => void;
  readonly onLapse: (quote: Quote) => void;
}

const STATE_WORDS: Readonly<Record<QuoteState, string>> = {
  issued: 'with the customer',
  accepted: 'accepted',
  declined: 'declined',
  lapsed: 'lapsed',
  superseded: 'superseded',
};

/** How the quote stands: issued when and by whom, answered by whom, and what changed since. */
export function StandingPart(props: StandingPartProps) {
  const { business, customer, number, standing, state, differences, validDays, onDraft, onPaper, onFolder, onAnswer, onLapse } = props;
  const { locale } = useMeasure();
  if (standing === null || state === null)
    return (
      <BlockPart heading="Standing">
        <p>
          <b>Draft.</b> Nothing has been issued. The quote will stand for {validDays} days.
        </p>
        {onDraft !== null && (
          <div className="quote-ways">
            <TextButton onPress={onDraft}>Draft as PDF</TextButton>
          </div>
        )}
      </BlockPart>
    );
  const total = formatMoney(standing.totalMinor, standing.currency, locale);
  const day = (at: string): string => formatInstantDay(at, business.timeZone, 'short', locale);
  const chosen =
    standing.acceptedOptionId === null ? null : standing.frozen.job.estimate.options.find((o) => o.id === standing.acceptedOptionId);
  return (
    <BlockPart heading="Standing">
      <p>
        Revision {standing.revision}, <span data-testid="issued-total">{total}</span>, issued {day(standing.issuedAt)}:{' '}
        <b>{STATE_WORDS[state]}</b>
        {chosen === null || chosen === undefined ? '' : `, ${chosen.name}`}
        {state === 'issued' && ` until ${formatDay(standing.validUntil, 'short', locale)}`}.
      </p>
      <ul className="quote-history">
        {standing.history.map((h) => (
          <li key={h.at + h.state} className="small">
            {h.state === 'issued' ? 'issued' : STATE_WORDS[h.state]} {day(h.at)}, {h.by}
            {h.note === '' ? '' : `: ${h.note}`}
          </li>
        ))}
      </ul>
      <div className="quote-ways">
        <TextButton onPress={() => onPaper(standing)}>Make the PDF</TextButton>
        <TextButton onPress={onFolder}>Open the papers folder</TextButton>
        <a href={letter(business, customer, number, standing, total, locale)}>Write to {customer.name}</a>
        {state === 'issued' && <TextButton onPress={onAnswer}>Record the answer</TextButton>}
        {state === 'lapsed' && standing.state === 'issued' && (
          <TextButton onPress={() => onLapse(standing)}>Note that it lapsed</TextButton>
        )}
      </div>
      {differences !== null && differences.differences.length > 0 && (
        <>
          <h3 className="caption">Changed since revision {standing.revision}</h3>
          <p>{differences.words}</p>
          <ul className="quote-history">
            {differences.differences.map((d) => (
              <li key={d.optionId + d.words} className="small">
                {d.optionName}: {d.words}
              </li>
            ))}
          </ul>
          {onDraft !== null && (
            <div className="quote-ways">
              <TextButton onPress={onDraft}>Draft of revision {standing.revision + 1} as PDF</TextButton>
            </div>
          )}
        </>
      )}
    </BlockPart>
  );
}

/** The letter's subject and body; the attachment is the person's to add, and the address where none is known. */
function letter(business: Business, customer: Customer, number: string, quote: Quote, total: string, locale: string): string {
  const subject = `Quote ${number}, revision ${quote.revision}`;
  const body = `Dear ${customer.name},\n\nour quote ${number} is attached: ${total}, standing until ${formatDay(quote.validUntil, 'long', locale)}.\n\n${business.ownerName}\n${business.name}`;
  return mailAddress(customer.email, { subject, body });
}
