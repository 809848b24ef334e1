import type { MadeDocument } from '../../../shared-core/book/papers.ts';
import type { Quote } from '../../../shared-core/book/quote.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { formatMoney } from '../../../shared-core/price/money.ts';
import { signQuote } from '../../book/sign-commands.ts';
import { useMeasure } from '../../parts/use-measure.ts';
import { SignDialog } from './SignDialog.tsx';

interface SignQuoteProps {
  readonly whole: WholeJob;
  readonly quote: Quote;
  readonly document: MadeDocument;
  /** What became of it; null when it was canceled. */
  readonly onDone: (outcome: { readonly ok: boolean; readonly text: string } | null) => void;
}

/** Signing the quote in force on the screen. */
export function SignQuote({ whole, quote, document, onDone }: SignQuoteProps) {
  const { locale } = useMeasure();
  const { customer, business, job } = whole;
  const total = formatMoney(quote.totalMinor, quote.currency, locale);
  return (
    <SignDialog
      options={quote.priced.options.map((o) => ({ value: o.id, word: o.name }))}
      suggested={quote.priced.suggestedId}
      names={{ customer: customer.name, 'second-owner': '', contractor: business.ownerName }}
      what={`Quote ${job.number}, revision ${quote.revision}, ${total}.`}
      onClose={() => onDone(null)}
      onSign={async (signing) => {
        const outcome = await signQuote(whole, quote, document, signing);
        if (outcome.documentId !== null) onDone(outcome);
        return outcome.documentId === null ? outcome.text : null;
      }}
    />
  );
}
