import type { MadeDocument } from '../../../shared-core/book/papers.ts';
import type { ChangeOrder, Quote } from '../../../shared-core/book/quote.ts';
import { formatInstantDay } from '../../../shared-core/measure/moment.ts';
import { formatMoney } from '../../../shared-core/price/money.ts';
import { signedCopyOf } from '../../../shared-core/documents/signed-copy.ts';
import { TextButton } from '../../parts/Buttons.tsx';
import { BlockPart } from '../../parts/Sheet.tsx';
import { useMeasure } from '../../parts/use-measure.ts';

interface OrdersPartProps {
  /** The accepted quote. */
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
  return (
    <BlockPart heading="Change orders">
      <p>
        {'Contract total: '}
        <b data-testid="contract-total">{money(contractMinor)}</b>
      </p>
      <ul className="quote-history">
        {quote.orders.map((order) => {
          const document = documents.find(
            (one) => one.kind === 'change-order' && one.quoteId === quote.id && one.revision === order.number,
          );
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
                {order.state === 'issued' && document !== undefined && (
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
      <div className="words">
        <TextButton onPress={onWrite}>Write change order</TextButton>
      </div>
    </BlockPart>
  );
}
