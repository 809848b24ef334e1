import type { MadeDocument } from '../../../shared-core/book/papers.ts';
import type { Quote, QuoteState, ChangeOrder } from '../../../shared-core/book/quote.ts';
import { quoteMessage } from '../../../shared-core/documents/quote-message.ts';
import { SENT_WORDS } from '../../../shared-core/documents/sent-words.ts';
import { formatDay } from '../../../shared-core/measure/day.ts';
import { formatInstant, formatInstantDay } from '../../../shared-core/measure/moment.ts';
import { formatMoney } from '../../../shared-core/price/money.ts';
import { whyNoOrder } from '../../../shared-core/price/change-order.ts';
import { capital } from '../../../shared-core/measure/first-letter.ts';
import { stateWord } from '../../../shared-core/price/quote-state.ts';
import { standingOption } from '../../../shared-core/price/quoted-price.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import type { QuoteView } from './use-quote.ts';
import { changedWords } from '../../parts/job/out-of-date.ts';
import { mailAddress } from '../../parts/mail-address.ts';
import { TextButton } from '../../parts/Buttons.tsx';
import { BlockPart } from '../../parts/Sheet.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { signedCopyOf } from '../../../shared-core/documents/signed-copy.ts';
import { orderDocument } from './orders.ts';

interface StatusPartProps {
  readonly whole: WholeJob;
  /** Which of its prices are still typical; null where none is. */
  readonly typical: string | null;
  readonly view: Pick<QuoteView, 'quote' | 'state' | 'document' | 'signed' | 'differences' | 'aged'>;
  /** Null while the quote lacks something. */
  readonly onDraft: (() => void) | null;
  readonly onPdf: (document: MadeDocument) => void;
  readonly onFolder: () => void;
  readonly onSent: (document: MadeDocument, by: 'email' | 'text', to: string) => void;
  readonly onSign: (document: MadeDocument) => void;
  readonly onDecision: () => void;
  readonly onExpire: (quote: Quote) => void;
}

/** The state of the quote: issued, sent, decided, and changes since. */
export function StatusPart(props: StatusPartProps) {
  const { whole, view, onDraft } = props;
  const { quote, state } = view;
  const validDays = whole.job.estimate.validDays ?? whole.business.quoteValidDays;
  if (quote === null || state === null)
    return (
      <BlockPart heading="Status">
        <p>
          <b>Draft.</b> {`Nothing was issued yet. The quote will be valid for ${validDays === 1 ? '1 day' : `${validDays} days`}.`}
        </p>
        {props.typical !== null && <p className="late small">{props.typical}</p>}
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
  const { whole, view, quote, state, onDraft } = props;
  const { document, signed, differences, aged } = view;
  const { timeZone } = whole.business;
  const { locale } = useMeasure();
  const option = standingOption(quote);
  const day = (instant: string): string => formatInstantDay(instant, timeZone, 'short', locale);
  const until = state === 'issued' ? `, valid until ${formatDay(quote.validUntil, 'short', locale)}` : '';
  return (
    <BlockPart heading="Status">
      <p>
        {`Revision ${quote.revision}, `}
        <span data-testid="issued-total">{formatMoney(option.totalMinor, quote.currency, locale)}</span>
        {`, issued ${day(quote.issuedAt)}: `}
        <b>{state === 'issued' ? 'waiting for the customer' : stateWord(quote, state)}</b>
        {`${until}.${quote.acceptedOptionId === null || quote.priced.options.length < 2 ? '' : ` Option: ${option.name}.`}`}
      </p>
      <ul className="quote-history">
        {quote.history.map((h) => (
          <li key={h.instant + h.state} className="small">
            {`${capital(stateWord(quote, h.state))} ${day(h.instant)}, ${h.by}${h.note === '' ? '' : `: ${h.note}`}`}
          </li>
        ))}
        {(signed?.signatures ?? []).map((signature) => (
          <li key={signature.role} className="small">
            {`Signed ${formatInstant(signature.instant, timeZone, 'short', locale)}, ${signature.name}`}
          </li>
        ))}
        {(document?.sent ?? []).map((sent) => (
          <li key={sent.instant} className="small">
            {`Sent ${SENT_WORDS[sent.by]} ${day(sent.instant)}${sent.to === '' ? '' : `, ${sent.to}`}`}
          </li>
        ))}
      </ul>
      <StatusActions {...props} />
      {aged.length > 0 && (
        <p className="late small">{`${changedWords(aged)} It stays as issued: issue revision ${quote.revision + 1} for the customer to sign.`}</p>
      )}
      {differences !== null && differences.differences.length > 0 && (
        <>
          <h3 className="caption">{state === 'accepted' ? 'Changed since the contract' : `Changed since revision ${quote.revision}`}</h3>
          <p>{differences.text}</p>
          <ul className="quote-history">
            {differences.differences.map((d) => (
              <li key={d.optionId + d.text} className="small">
                {quote.priced.options.length > 1 && state !== 'accepted' ? `${d.optionName}: ${d.text}` : d.text}
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

function StatusActions(props: StatusPartProps & { readonly quote: Quote; readonly state: QuoteState }) {
  const { whole, quote, state, onPdf, onFolder, onSent, onSign, onDecision, onExpire } = props;
  const { business, customer } = whole;
  const { document, signed } = props.view;
  const { locale } = useMeasure();
  const message = quoteMessage({ business, customer, number: whole.job.number, quote, locale });
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
      {/* A page that was signed while the quote was valid may be entered later. */}
      {(quote.state === 'issued' || quote.state === 'accepted') && document?.sha256 != null && (
        <TextButton onPress={() => onSign(document)}>Sign</TextButton>
      )}
      {state === 'issued' && <TextButton onPress={onDecision}>Record decision</TextButton>}
      {state === 'accepted' && <TextButton onPress={onDecision}>Record cancellation</TextButton>}
      {state === 'expired' && quote.state === 'issued' && <TextButton onPress={() => onExpire(quote)}>Record as expired</TextButton>}
    </div>
  );
}

interface OrdersPartProps {
  readonly quote: Quote;
  readonly documents: readonly MadeDocument[];
  /** The contract with all signed change orders, minor units. */
  readonly contractMinor: number;
  readonly onWrite: () => void;
  readonly onPdf: (document: MadeDocument) => void;
  readonly onSign: (order: ChangeOrder, document: MadeDocument) => void;
  readonly onDecide: (order: ChangeOrder, state: 'declined' | 'voided') => void;
}

const STATE: Readonly<Record<ChangeOrder['state'], string>> = {
  issued: 'waiting for a signature',
  signed: 'signed',
  declined: 'declined',
  voided: 'voided',
};

/** Change orders of an accepted quote, and the resulting contract. */
export function OrdersPart({ quote, documents, contractMinor, onWrite, onPdf, onSign, onDecide }: OrdersPartProps) {
  const { locale } = useMeasure();
  const money = (minor: number): string => formatMoney(minor, quote.currency, locale);
  const waits = whyNoOrder(quote);
  return (
    <BlockPart heading="Change orders">
      <p>
        {'Contract total: '}
        <b data-testid="contract-total">{money(contractMinor)}</b>
      </p>
      <ul className="quote-history">
        {quote.orders.map((order) => {
          const document = orderDocument(order, quote, documents);
          const copy = document === undefined ? null : signedCopyOf(documents, document);
          const day = formatInstantDay(order.decidedAt ?? order.issuedAt, quote.timeZone, 'short', locale);
          const by = order.decidedBy === '' ? '' : `, ${order.decidedBy}`;
          const sign = order.totalMinor > 0 ? '+' : '';
          return (
            <li key={order.id}>
              {`Change order ${order.number}, ${sign}${money(order.totalMinor)}: `}
              <b>{STATE[order.state]}</b>
              {` ${day}${by}. ${order.reason}`}
              <div className="words">
                {document !== undefined && (
                  <TextButton kind="plain" label={`Save change order ${order.number} PDF`} onPress={() => onPdf(document)}>
                    Save PDF
                  </TextButton>
                )}
                {copy !== null && (
                  <TextButton kind="plain" label={`Save signed copy of change order ${order.number}`} onPress={() => onPdf(copy)}>
                    Save signed copy
                  </TextButton>
                )}
                {/* The other signers may sign once the customer has. */}
                {(order.state === 'issued' || order.state === 'signed') && document !== undefined && (
                  <TextButton kind="plain" label={`Sign change order ${order.number}`} onPress={() => onSign(order, document)}>
                    Sign
                  </TextButton>
                )}
                {order.state === 'issued' && (
                  <>
                    <TextButton kind="plain" label={`Decline change order ${order.number}`} onPress={() => onDecide(order, 'declined')}>
                      Declined
                    </TextButton>
                    <TextButton kind="plain" label={`Void change order ${order.number}`} onPress={() => onDecide(order, 'voided')}>
                      Void
                    </TextButton>
                  </>
                )}
              </div>
            </li>
          );
        })}
      </ul>
      {waits === null ? (
        <div className="words">
          <TextButton onPress={onWrite}>Write change order</TextButton>
        </div>
      ) : (
        <p className="small">{waits}</p>
      )}
    </BlockPart>
  );
}
