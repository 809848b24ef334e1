import { useMemo, useState } from 'react';
import type { Job } from '../../../shared-core/book/job.ts';
import { nearCompany } from '../../../shared-core/book/new-records.ts';
import { inventedCompany, ownAddress } from '../../../shared-core/book/sample-company.ts';
import { hasCancellationNotice } from '../../../shared-core/standing/right-to-cancel.ts';
import { asQuoted, draftQuote } from '../../../shared-core/documents/issue-quote-document.ts';
import { shoppingFor } from '../../../shared-core/standing/shopping-for.ts';
import { shoppingCsv } from '../../../shared-core/documents/lists/shopping-csv.ts';
import { dayOfInstant } from '../../../shared-core/measure/moment.ts';
import { contractOfJob } from '../../../shared-core/ledger/job-contract.ts';
import { stagesNow } from '../../../shared-core/ledger/next-invoice.ts';
import { joined } from '../../../shared-core/measure/list.ts';
import { formatMoney, parseMoney } from '../../../shared-core/price/money.ts';
import { whyNoOrder } from '../../../shared-core/price/change-order.ts';
import { BASE_OPTION_ID } from '../../../shared-core/price/quote-state.ts';
import { standingOption, suggestedOption } from '../../../shared-core/price/quoted-price.ts';
import { changeBusiness } from '../../book/business-commands.ts';
import { recordSent, reprintDocument, saveJobDocument } from '../../book/document-commands.ts';
import { changeJob } from '../../book/job-commands.ts';
import { newId, nowInstant, type Outcome } from '../../book/command.ts';
import { recordOrder, issueNext, recordAnswer } from '../../book/quote-commands.ts';
import { enterOwnCompany } from '../../book/sample-commands.ts';
import type { Signed } from '../../book/sign-commands.ts';
import { usePrintedPhotos } from '../../book/use-photos.ts';
import { useNow } from '../../book/use-job-reading.ts';
import { change } from '../../book/write.ts';
import { quotedDates } from '../../../shared-core/documents/quote-dates.ts';
import { datesDrawing, datesInWords, planBlock } from '../../../shared-core/documents/quote-drawings.ts';
import { DatumDrawing, DrawingRoom, DrawingView } from '../../parts/DrawingView.tsx';
import { ActionButton, TextButton } from '../../parts/Buttons.tsx';
import { AskCompany } from '../../parts/AskCompany.tsx';
import { base64OfText } from '../../desk/base64.ts';
import { ChoiceRow } from '../../parts/Choices.tsx';
import { askDesk } from '../../desk/desk-client.ts';
import { Field } from '../../parts/Field.tsx';
import { AddressFields } from '../../parts/AddressFields.tsx';
import { Fields, TextField } from '../../parts/Fields.tsx';
import { DocumentsPart } from '../../parts/job/DocumentsPart.tsx';
import { JobSheet, type StageProps } from '../../parts/job/JobSheet.tsx';
import { STAGE_NAMES, stageHref } from '../../parts/job/stage-words.ts';
import { fileName, saveAndOpen } from '../../desk/save-file.ts';
import { saveTree } from '../../desk/save-document.ts';
import { Notice } from '../../parts/Dialog.tsx';
import { BlockPart, LaterParts, SheetHeading } from '../../parts/Sheet.tsx';
import { calculatedFor } from '../../parts/calculated-for.ts';
import { useBusy } from '../../parts/use-busy.ts';
import { useMeasure } from '../../parts/use-measure.ts';
import { useSmall } from '../../parts/use-small.ts';
import { ChangeOrderDialog, AddLine } from './AddLine.tsx';
import { DecisionDialog } from './DecisionDialog.tsx';
import { LinesTable } from './LinesTable.tsx';
import { OptionsPart } from './OptionsPart.tsx';
import { orderToSign, stageAfterQuote } from './orders.ts';
import { PaymentsPart } from './PaymentsPart.tsx';
import { cutWords } from '../../../shared-core/substrate/exposed-layers.ts';
import { sharedCutWords } from '../../../shared-core/survey/cut-words.ts';
import { withOption, withOptionName, withOverride, withoutLine, withoutOption } from './quote-edits.ts';
import { QuoteFoot } from './QuoteFoot.tsx';
import { QuoteSums } from './QuoteSums.tsx';
import { OrdersPart, StatusPart } from './StatusPart.tsx';
import { SignDialog } from './SignDialog.tsx';
import { useQuote } from './use-quote.ts';
import { typicalPriceWords } from '../../../shared-core/price/typical-prices.ts';
import type { MadeDocument } from '../../../shared-core/book/papers.ts';
import type { ChangeOrder, Frozen } from '../../../shared-core/book/quote.ts';
import type { RoomEstimate } from '../../../shared-core/price/estimate-room.ts';
import './quote.css';

type Message = { readonly ok: boolean; readonly text: string };

/** Quote: lines, options, tax and payments; issuing, and the customer's decision. */
export function QuoteScreen({ reading, roomReading }: StageProps) {
  const roomId = roomReading.room.id;
  const { whole, estimate } = reading;
  const { business, job } = whole;
  const { locale } = useMeasure();
  const small = useSmall();
  const now = useNow(whole);
  const printed = usePrintedPhotos(job.id);
  const [result, setResult] = useState<Message | null>(null);
  const [deciding, setDeciding] = useState(false);
  const [signing, setSigning] = useState<(Pick<Signed, 'orderId' | 'document'> & { readonly subject: string }) | null>(null);
  const [ordering, setOrdering] = useState(false);
  const [adding, setAdding] = useState(false);
  const [shownId, setShownId] = useState(estimate.suggested.id);
  const view = useQuote(reading, now);
  const { priced, missing, stops, holds, quote, state, differences, aged } = view;
  const option = estimate.options.find((o) => o.id === shownId) ?? estimate.suggested;
  const shown = priced.options.find((o) => o.id === option.id) ?? suggestedOption(priced);
  const { price } = option;
  const contract = contractOfJob(whole.quotes);
  const next = stageAfterQuote(reading, roomId, now);
  // What is calculated for an accepted job is not its contract.
  const atToday = contract === null ? '' : ', at today’s prices';
  const cut = sharedCutWords(reading.rooms.map(({ room }) => cutWords(room)));
  const frozen = calculatedFor(reading, 'as quoted', () => asQuoted(reading));
  const dates = useMemo(() => quotedDates(frozen, option, now), [frozen, option, now]);
  const drawn = option.rooms.find((r) => r.roomId === roomId && r.survey.state === 'surveyed') ?? null;
  const hasTotal = missing.length === 0;
  const invented = inventedCompany(business, job.id);
  const money = (minor: number): string => formatMoney(minor, price.currency, locale);
  const say = (outcome: Outcome<unknown>): void => setResult(outcome.ok ? null : { ok: false, text: outcome.message });
  const edit = (label: string, update: (e: Job['estimate']) => Job['estimate']): void =>
    void changeJob(job.id, label, (j) => ({ ...j, estimate: update(j.estimate) })).then(say);
  // Stays open until the screen closes, so that the field does not vanish while it is being filled in.
  const { line, city, region } = whole.property.address;
  const [placeless] = useState(line.trim() === '' || `${city}${region}`.trim() === '');
  const changed = differences !== null && differences.differences.length > 0;
  const isOver = job.rooms.every(({ handedOverAt }) => handedOverAt !== null);
  const waiting = quote === null ? null : orderToSign(quote, whole.documents);
  const signOrder = (order: ChangeOrder, document: MadeDocument): void =>
    setSigning({ orderId: order.id, document, subject: `Change order ${order.number}, ${money(order.totalMinor)}.` });
  const openFolder = (): void =>
    void askDesk('folder.open', {}).then((answer) => {
      if (!answer.ok) setResult({ ok: false, text: answer.error.message });
    });
  const [issuing, run] = useBusy();
  const issue = (): void => {
    setResult(null);
    run(() => issueNext(reading).then(setResult));
  };
  const exportShoppingList = (): void => {
    const csv = shoppingCsv(shoppingFor(reading, option).list, business);
    void saveAndOpen(fileName(`Shopping list ${job.number}, ${whole.customer.name}`, 'csv'), base64OfText(csv), true).then(setResult);
  };
  return (
    <JobSheet
      reading={reading}
      roomId={roomId}
      stage="quote"
      block={
        <>
          <StatusPart
            whole={whole}
            typical={typicalPriceWords(
              business,
              whole.materials,
              price.lines.map(({ name }) => name),
              dayOfInstant(now, business.timeZone),
            )}
            view={view}
            onDraft={stops.length > 0 || invented !== null ? null : () => void saveTree(draftQuote(reading, nowInstant())).then(setResult)}
            onPdf={(document) => void reprintDocument(document).then(setResult)}
            onFolder={openFolder}
            onSent={(document, by, to) => void recordSent(document.id, { by, to }).then(say)}
            onSign={(document) =>
              setSigning({
                orderId: null,
                document,
                subject: `Quote ${job.number}, revision ${quote?.revision ?? 1}, ${money(quote === null ? 0 : standingOption(quote).totalMinor)}.`,
              })
            }
            onDecision={() => setDeciding(true)}
            onExpire={(q) =>
              void recordAnswer(whole, q, { state: 'expired', by: business.ownerName || business.name, note: '', optionId: null }).then(say)
            }
          />
          {state === 'accepted' && quote !== null && (
            <OrdersPart
              quote={quote}
              documents={whole.documents}
              contractMinor={(contract ?? standingOption(quote)).totalMinor}
              onWrite={() => setOrdering(true)}
              onPdf={(document) => void reprintDocument(document).then(setResult)}
              onSign={signOrder}
              onDecide={(order, decided) => void recordOrder(whole, quote, order.id, { state: decided, by: whole.customer.name }).then(say)}
            />
          )}
          <LaterParts>
            <OptionsPart
              priced={priced}
              currency={price.currency}
              heading={`Options${atToday}`}
              hasTotal={hasTotal}
              shown={shown}
              cut={cut}
              onSuggest={(id) => {
                setShownId(id);
                edit('recommend another option', (e) => ({ ...e, suggestedOptionId: id }));
              }}
              onName={(id, name) => edit(`name an option ${name}`, withOptionName(id, name))}
              onAdd={(mode) => edit('add an option', withOption(whole, newId(), mode, cut))}
              onDelete={(o) => edit(`delete ${o.name}`, withoutOption(o.id))}
            />
            <BlockPart>
              <Fields>
                <Field
                  label="Discount"
                  value={job.estimate.discountMinor}
                  parse={(text) => parseMoney(text, business.currency, locale)}
                  format={(minor) => formatMoney(minor, business.currency, locale, 'bare')}
                  emptyMessage="Enter 0 for none."
                  onChange={(minor) => edit('change the discount', (e) => ({ ...e, discountMinor: minor }))}
                />
                <TextField
                  label="Discount reason"
                  value={job.estimate.discountNote}
                  onChange={(discountNote) => edit('change the discount reason', (e) => ({ ...e, discountNote }))}
                />
              </Fields>
              <p className="small">{hasTotal ? joined([price.methodWords, price.marginWords], ' ') : price.methodWords}</p>
              {hasTotal && price.perArea !== null && <p className="small">{price.perArea.message}</p>}
            </BlockPart>
            <PaymentsPart
              price={price}
              agreed={contract === null ? null : stagesNow(contract, whole.ledger)}
              own={job.estimate.stages}
              validDays={job.estimate.validDays ?? null}
              usualDays={business.quoteValidDays}
              days={{ own: job.estimate.daysOnSite, calculated: option.days }}
              onDays={(daysOnSite) => edit('change the days on site', (e) => ({ ...e, daysOnSite }))}
              onStages={(stages) => edit('change the payments', (e) => ({ ...e, stages }))}
              hasNotice={business.address.country === 'US' ? hasCancellationNotice(whole) : null}
              onNotice={(cancellationNotice) => edit('change the notice of right to cancel', (e) => ({ ...e, cancellationNotice }))}
              onValidDays={(validDays) => edit('change how long the quote is valid', (e) => ({ ...e, validDays }))}
            />
            <DocumentsPart
              reading={reading}
              stage="quote"
              photos={printed}
              onSave={(entry) => saveJobDocument(reading, entry)}
              onPrint={reprintDocument}
            />
            <BlockPart>
              <div className="words">
                <TextButton onPress={exportShoppingList}>Export shopping list</TextButton>
              </div>
            </BlockPart>
          </LaterParts>
        </>
      }
      datumSticks="on a desk"
      datum={
        dates.length === 0 ? undefined : (
          <DatumDrawing
            label={datesInWords(dates)}
            linePx={30}
            draw={(widthPx) => datesDrawing(frozen, dates, widthPx, small ? 18 : 36) ?? { width: widthPx, height: 1, marks: [] }}
          />
        )
      }
      foot={<QuoteFoot price={price} name={shown.name} hasTotal={hasTotal} quotes={whole.quotes} />}
      action={
        state === 'accepted' ? (
          waiting !== null ? (
            <ActionButton onPress={() => signOrder(waiting.order, waiting.document)}>Sign change order</ActionButton>
          ) : changed && !isOver && quote !== null && whyNoOrder(quote) === null ? (
            <ActionButton onPress={() => setOrdering(true)}>Write change order</ActionButton>
          ) : (
            <ActionButton href={stageHref(job.id, next, roomId)}>{`Go to ${STAGE_NAMES[next]}`}</ActionButton>
          )
        ) : state === 'issued' && !changed && aged.length === 0 ? (
          <ActionButton onPress={() => setDeciding(true)}>Record decision</ActionButton>
        ) : (
          <ActionButton held={invented ?? stops[0] ?? null} busy={issuing} onPress={issue}>
            {quote === null ? 'Issue quote' : `Issue revision ${quote.revision + 1}`}
          </ActionButton>
        )
      }
    >
      <SheetHeading under={`${option.name}${atToday}. Select a line to see how it is calculated.`}>Price</SheetHeading>
      {result !== null && (
        <Notice
          kind={result.ok ? 'success' : 'failure'}
          onClose={() => setResult(null)}
          {...(result.ok ? { action: { word: 'Open documents folder', run: openFolder } } : {})}
        >
          {result.text}
        </Notice>
      )}
      {placeless && (
        <AddressFields
          lineLabel="Address of the work"
          address={whole.property.address}
          onChange={(changed) =>
            void change('properties', whole.property.id, 'address', nowInstant(), (p) => ({
              ...p,
              address: nearCompany({ ...p.address, ...changed }, ownAddress(business)),
            })).then(say)
          }
        />
      )}
      <AskCompany
        business={business}
        jobId={job.id}
        onEdit={(label, update) => void changeBusiness(label, update).then(say)}
        onDone={() => void changeBusiness('company details', { companyAskedAt: nowInstant() }).then(say)}
        onOwn={() => void enterOwnCompany().then(say)}
      />
      {[...new Set([...missing, ...stops])].map((message) => (
        <Notice key={message}>{message}</Notice>
      ))}
      {estimate.options.length > 1 && (
        <div className="quote-shown">
          <ChoiceRow
            label="Option shown"
            options={estimate.options.map((o) => ({ value: o.id, word: o.name }))}
            value={option.id}
            onChange={setShownId}
          />
        </div>
      )}
      <div className={drawn === null ? undefined : 'quote-page'}>
        {drawn !== null && <CustomerPlan frozen={frozen} room={drawn} />}
        <div>
          <LinesTable
            price={price}
            hasTotal={hasTotal}
            roomNames={new Map(whole.rooms.map((r) => [r.id, r.name]))}
            onDelete={(lineKey) => edit('delete a line', withoutLine(lineKey))}
            onOverride={(lineKey, override) =>
              edit(override === null ? 'use the calculated line' : 'override a line', withOverride(lineKey, override))
            }
          />
          <div className="words">
            <TextButton onPress={() => setAdding(true)}>Add line</TextButton>
          </div>
        </div>
      </div>
      <QuoteSums price={price} atToday={atToday} hasTotal={hasTotal} records={whole} holds={holds} />
      {adding && (
        <AddLine
          rooms={whole.rooms}
          taxes={business.taxRates}
          materials={whole.materials}
          today={dayOfInstant(now, business.timeZone)}
          onClose={() => setAdding(false)}
          onAdd={(line) => edit(`add ${line.name}`, (e) => ({ ...e, added: [...e.added, { ...line, id: newId() }] }))}
        />
      )}
      {signing !== null && quote !== null && (
        <SignDialog
          signed={{ whole, quote, orderId: signing.orderId, document: signing.document }}
          subject={signing.subject}
          onDone={(outcome) => {
            setSigning(null);
            if (outcome !== null) setResult(outcome);
          }}
        />
      )}
      {ordering && quote !== null && (
        <ChangeOrderDialog
          whole={whole}
          quote={quote}
          roomId={roomId}
          today={dayOfInstant(now, business.timeZone)}
          onDone={(outcome) => {
            setOrdering(false);
            if (outcome !== null) setResult(outcome);
          }}
        />
      )}
      {deciding && quote !== null && (
        <DecisionDialog
          options={quote.priced.options.map((o) => ({ value: o.id, word: o.name }))}
          suggested={quote.priced.options.some((o) => o.id === quote.priced.suggestedId) ? quote.priced.suggestedId : BASE_OPTION_ID}
          isCanceling={quote.state === 'accepted'}
          by={whole.customer.name}
          onClose={() => setDeciding(false)}
          onSave={(answer) => recordAnswer(whole, quote, answer)}
        />
      )}
    </JobSheet>
  );
}

/** The room as the customer's page of the quote shows it, with a key, because the page's words are not beside it. */
function CustomerPlan({ frozen, room }: { readonly frozen: Frozen; readonly room: RoomEstimate }) {
  return (
    <DrawingRoom leastPx={420} mostPx={420} smallRatio={1.3}>
      {({ widthPx, heightPx, small }) => {
        const block = calculatedFor(room, `customer’s plan of ${[widthPx, heightPx, small].join(' ')}`, () =>
          planBlock(frozen, room, { widthPx, heightPx, mayTurn: small, hasKey: true }),
        );
        return block?.kind === 'drawing' ? <DrawingView drawing={block.drawing} label={block.alt} /> : null;
      }}
    </DrawingRoom>
  );
}
