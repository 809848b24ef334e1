import type { Business } from '../../../shared-core/book/business.ts';
import type { Customer } from '../../../shared-core/book/customer.ts';
import type { MadeDocument } from '../../../shared-core/book/papers.ts';
import type { Quote, QuoteState } from '../../../shared-core/book/quote.ts';
import { quoteMessage } from '../../../shared-core/documents/quote-message.ts';
import { formatDay } from '../../../shared-core/measure/day.ts';
import { formatInstant, formatInstantDay } from '../../../shared-core/measure/moment.ts';
import { formatMoney } from '../../../shared-core/price/money.ts';
import type { QuoteDifferences } from '../../../shared-core/price/quote-differences.ts';
import { mailAddress } from '../../parts/mail-address.ts';
import { TextButton } from '../../parts/Buttons.tsx';
import { BlockPart } from '../../parts/Sheet.tsx';
import { useMeasure } from '../../parts/use-measure.ts';

interface StatusPartProps {
  readonly business: Business;
  readonly customer: Customer;
  readonly number: string;
  /** The current revision; null before the first. */
  readonly quote: Quote | null;
  readonly state: QuoteState | null;
  /** Its stored document. */
  readonly document: MadeDocument | null;
  /** Its newest signed copy. */
  readonly signed: MadeDocument | null;
  readonly differences: QuoteDifferences | null;
  /** Days that the next revision will be valid. */
  readonly validDays: number;
  /** Null while the quote lacks something. */
  readonly onDraft: (() => void) | null;
  readonly onPdf: (document: MadeDocument) => void;
  readonly onFolder: () => void;
  readonly onSent: (document: MadeDocument, by: 'email' | 'text', to: string) => void;
  readonly onSign: (document: MadeDocument) => void;
  readonly onDecision: () => void;
  readonly onExpire: (quote: Quote) => void;
}

const STATE_WORDS: Readonly<Record<QuoteState, string>> = {
  issued: 'waiting for the customer',
  accepted: 'accepted',
  declined: 'declined',
  expired: 'expired',
  superseded: 'superseded',
};
const SENT_WORDS = { email: 'by email', text: 'by text message', print: 'on paper', 'in-person': 'in person' } as const;

/** The state of the quote: issued, sent, decided, and changes since. */
export function StatusPart(props: StatusPartProps) {
  const { quote, state, validDays, onDraft } = props;
  if (quote === null || state === null)
    return (
      <BlockPart heading="Status">
        <p>
          <b>Draft.</b> {`Nothing was issued yet. The quote will be valid for ${validDays} days.`}
        </p>
        {onDraft !== null && (
          <div className="words">
            <TextButton onPress={onDraft}>Save draft PDF</TextButton>
          </div>
        )}
      </BlockPart>
    );
  return <IssuedStatus {...props} quote={quote} state={state} />;
}

function IssuedStatus(props: StatusPartProps & { readonly quote: Quote; readonly state: QuoteState }) {
  const { business, quote, state, document, signed, differences, onDraft } = props;
  const { locale } = useMeasure();
  const total = formatMoney(quote.totalMinor, quote.currency, locale);
  const day = (instant: string): string => formatInstantDay(instant, business.timeZone, 'short', locale);
  const chosen = quote.priced.options.find((o) => o.id === quote.acceptedOptionId)?.name;
  const until = state === 'issued' ? `, valid until ${formatDay(quote.validUntil, 'short', locale)}` : '';
  return (
    <BlockPart heading="Status">
      <p>
        {`Revision ${quote.revision}, `}
        <span data-testid="issued-total">{total}</span>
        {`, issued ${day(quote.issuedAt)}: `}
        <b>{STATE_WORDS[state]}</b>
        {`${chosen === undefined || quote.priced.options.length < 2 ? '' : `, ${chosen}`}${until}.`}
      </p>
      <ul className="quote-history">
        {quote.history.map((h) => (
          <li key={h.instant + h.state} className="small">
            {`${h.state === 'issued' ? 'Issued' : STATE_WORDS[h.state]} ${day(h.instant)}, ${h.by}${h.note === '' ? '' : `: ${h.note}`}`}
          </li>
        ))}
        {(signed?.signatures ?? []).map((signature) => (
          <li key={signature.role} className="small">
            {`Signed ${formatInstant(signature.instant, business.timeZone, 'short', locale)}, ${signature.name}`}
          </li>
        ))}
        {(document?.sent ?? []).map((sent) => (
          <li key={sent.instant} className="small">
            {`Sent ${SENT_WORDS[sent.by]} ${day(sent.instant)}${sent.to === '' ? '' : `, ${sent.to}`}`}
          </li>
        ))}
      </ul>
      <StatusActions {...props} total={total} />
      {differences !== null && differences.differences.length > 0 && (
        <>
          <h3 className="caption">{state === 'accepted' ? 'Changed since the contract' : `Changed since revision ${quote.revision}`}</h3>
          <p>{differences.text}</p>
          <ul className="quote-history">
            {differences.differences.map((d) => (
              <li key={d.optionId + d.text} className="small">
                {`${d.optionName}: ${d.text}`}
              </li>
            ))}
          </ul>
          {onDraft !== null && state !== 'accepted' && (
            <div className="words">
              <TextButton onPress={onDraft}>{`Save draft PDF of revision ${quote.revision + 1}`}</TextButton>
            </div>
          )}
        </>
      )}
    </BlockPart>
  );
}

function StatusActions(props: StatusPartProps & { readonly quote: Quote; readonly state: QuoteState; readonly total: string }) {
  const { business, customer, number, quote, state, document, signed, onPdf, onFolder, onSent, onSign, onDecision, onExpire } = props;
  const { locale } = useMeasure();
  const message = quoteMessage({ business, customer, number, quote, locale });
  const copyText = (): void => {
    void navigator.clipboard.writeText(message.text).then(() => {
      if (document !== null) onSent(document, 'text', customer.phone);
    });
  };
  return (
    <div className="words">
      {document !== null && <TextButton onPress={() => onPdf(document)}>Save PDF</TextButton>}
      {signed !== null && <TextButton onPress={() => onPdf(signed)}>Save signed copy</TextButton>}
      <TextButton onPress={onFolder}>Open documents folder</TextButton>
      <a
        className="link-word"
        href={mailAddress(customer.email, message)}
        onClick={() => {
          // The PDF is attached by hand, so its folder opens beside the mail program.
          onFolder();
          if (document !== null) onSent(document, 'email', customer.email);
        }}
      >
        {`Email ${customer.name}`}
      </a>
      <TextButton onPress={copyText}>Copy text message</TextButton>
      {(state === 'issued' || state === 'accepted') && document?.sha256 != null && (
        <TextButton onPress={() => onSign(document)}>Sign</TextButton>
      )}
      {state === 'issued' && <TextButton onPress={onDecision}>Record decision</TextButton>}
      {state === 'accepted' && <TextButton onPress={onDecision}>Record cancellation</TextButton>}
      {state === 'expired' && quote.state === 'issued' && <TextButton onPress={() => onExpire(quote)}>Record as expired</TextButton>}
    </div>
  );
}
