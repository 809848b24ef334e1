import { useMemo, useState } from 'react';
import type { JobReading } from '../../../shared-core/standing/read-job.ts';
import type { Job } from '../../../shared-core/book/job.ts';
import type { Quote } from '../../../shared-core/book/quote.ts';
import { quoteSheet } from '../../../shared-core/documents/quote-sheet.ts';
import { quoteTerms } from '../../../shared-core/documents/quote-terms.ts';
import { shoppingListSheet } from '../../../shared-core/documents/shopping-list.ts';
import { shoppingCsv } from '../../../shared-core/material/shopping-csv.ts';
import { dayOfInstant } from '../../../shared-core/measure/moment.ts';
import { estimateAsAccepted } from '../../../shared-core/price/accept-option.ts';
import { estimateOfQuote } from '../../../shared-core/price/estimate-job.ts';
import { acceptedOption } from '../../../shared-core/price/issue-quote.ts';
import { addedKey } from '../../../shared-core/price/line.ts';
import { formatMoney, parseMoney } from '../../../shared-core/price/money.ts';
import { type Estimated, quoteDifferences, type QuoteDifferences } from '../../../shared-core/price/quote-differences.ts';
import { BASE_OPTION_ID, standingAt } from '../../../shared-core/price/quote-state.ts';
import { changeBusiness } from '../../book/business-commands.ts';
import { changeJob } from '../../book/job-commands.ts';
import { newId, nowInstant } from '../../book/moment.ts';
import type { Outcome } from '../../book/outcome.ts';
import { type NotedPaper, notePaper } from '../../book/paper-commands.ts';
import { draftOf, issueNext, recordAnswer } from '../../book/quote-commands.ts';
import { useJobReading, useNow } from '../../book/use-job-reading.ts';
import { ActionButton } from '../../parts/ActionButton.tsx';
import { Answer } from '../../parts/Answer.tsx';
import { base64OfText } from '../../parts/base64.ts';
import { askDesk } from '../../parts/desk-client.ts';
import { ChoiceRow } from '../../parts/ChoiceRow.tsx';
import { Field } from '../../parts/Field.tsx';
import { Fields } from '../../parts/Fields.tsx';
import { fileName, keepAndOpen } from '../../parts/keep-file.ts';
import { JobSheet } from '../../parts/job/JobSheet.tsx';
import { NoJob } from '../../parts/job/NoJob.tsx';
import { stageHref } from '../../parts/job/stage-words.ts';
import { makePaper } from '../../parts/make-paper.ts';
import { Notice } from '../../parts/Notice.tsx';
import { RangeMark } from '../../parts/RangeMark.tsx';
import { TextButton } from '../../parts/TextButton.tsx';
import { TextField } from '../../parts/TextField.tsx';
import { BlockPart, SheetHeading } from '../../parts/TitleBlock.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { useSmall } from '../../parts/use-small.ts';
import { AddLine } from './AddLine.tsx';
import { AnswerDialog } from './AnswerDialog.tsx';
import { LinesTable } from './LinesTable.tsx';
import { PaymentsPart } from './PaymentsPart.tsx';
import { StandingPart } from './StandingPart.tsx';
import { WaysPart } from './WaysPart.tsx';
import './quote.css';

/** What to charge: lines, options, tax, payments; the quote issued and answered. */
export function QuoteScreen({ jobId, roomId }: { readonly jobId: string; readonly roomId: string }) {
  const reading = useJobReading(jobId);
  if (reading === undefined) return <p className="app-opening caption">Reading the job…</p>;
  if (reading === null || !reading.rooms.some((r) => r.room.id === roomId)) return <NoJob />;
  return <QuoteSheetScreen reading={reading} roomId={roomId} />;
}

/** What differs from the quote as it was issued; once it is accepted, from the way that was chosen. */
function differencesSince(standing: Quote, after: Estimated): QuoteDifferences {
  const issued = estimateOfQuote(standing);
  const chosen = acceptedOption(standing);
  if (chosen === null) return quoteDifferences({ records: standing.frozen, estimate: issued }, after);
  return quoteDifferences(
    { records: standing.frozen, estimate: estimateAsAccepted(issued, chosen) },
    { ...after, estimate: estimateAsAccepted(after.estimate, BASE_OPTION_ID) },
  );
}

function QuoteSheetScreen({ reading, roomId }: { readonly reading: JobReading; readonly roomId: string }) {
  const { whole, estimate } = reading;
  const { business, job } = whole;
  const { locale } = useMeasure();
  const small = useSmall();
  const now = useNow(whole);
  const [said, setSaid] = useState<{ ok: boolean; says: string } | null>(null);
  const [answering, setAnswering] = useState(false);
  const [adding, setAdding] = useState(false);
  const [shown, setShown] = useState(estimate.suggested.id);
  const option = estimate.options.find((o) => o.id === shown) ?? estimate.suggested;
  const { price } = option;
  const money = (minor: number): string => formatMoney(minor, price.currency, locale);
  const about = (minor: number): string => formatMoney(minor, price.currency, locale, 'about');
  const say = (outcome: Outcome<unknown>): void => setSaid(outcome.ok ? null : { ok: false, says: outcome.message });
  const edit = (label: string, how: (e: Job['estimate']) => Job['estimate']): void =>
    void changeJob(job.id, label, (j) => ({ ...j, estimate: how(j.estimate) })).then(say);
  const standing = whole.quotes.findLast((q) => q.state !== 'superseded') ?? null;
  const state = standing === null ? null : standingAt(standing, now);
  const differences = useMemo(
    () => (standing === null ? null : differencesSince(standing, { records: whole, estimate })),
    [standing, whole, estimate],
  );
  // Asked for once and left in reach while the sheet is open: it must not go while it is typed in.
  const [nameless] = useState(business.name.trim() === '' && business.ownerName.trim() === '');
  const stops = estimate.options.flatMap((o) => o.problems).filter((p) => p.stops);
  const makeAndNote = async (of: Omit<NotedPaper, 'sha256'>): Promise<void> => {
    const paper = await makePaper(of.tree);
    setSaid(paper);
    if (!paper.ok) return;
    const noted = await notePaper(whole, { ...of, sha256: paper.sha256 });
    if (!noted.ok) setSaid({ ok: false, says: `${paper.says} It could not be noted in the job: ${noted.message}` });
  };
  const make = (quote: Quote): Promise<void> =>
    makeAndNote({ kind: 'quote', tree: quoteSheet(quote), quote: { id: quote.id, revision: quote.revision } });
  const openFolder = (): void =>
    void askDesk('folder.open', {}).then((answer) => {
      if (!answer.ok) setSaid({ ok: false, says: answer.error.message });
    });
  /** To look over, or to show at the kitchen table; nothing of it is recorded. */
  const draft = async (): Promise<void> => {
    const at = nowInstant();
    setSaid(await makePaper(quoteSheet({ ...draftOf(whole, at), isDraft: true })));
  };
  const issue = async (): Promise<void> => {
    const issued = await issueNext(whole);
    if (issued.ok) await make(issued.value);
    else say(issued);
  };
  const shoppingPaper = (): Promise<void> => makeAndNote({ kind: 'shopping-list', tree: shoppingListSheet(whole, option, nowInstant()) });
  const shoppingTable = async (): Promise<void> =>
    setSaid(await keepAndOpen(fileName(`Shopping list ${job.number}`, 'csv'), base64OfText(shoppingCsv(option.takeoff.shopping)), true));
  const offer = (what: 'skim' | 'fill'): void =>
    edit('another way to do it', (e) => ({
      ...e,
      options: [
        ...e.options,
        {
          id: newId(),
          name: what === 'skim' ? 'Skim' : 'Fill alone',
          rooms: job.rooms.map((r) => ({
            roomId: r.roomId,
            level:
              what === 'skim'
                ? { ...r.level, mode: 'follow' as const }
                : { ...r.level, mode: 'level' as const, grindMostM: 0, levelM: null },
            materialId: null,
          })),
        },
      ],
    }));
  const terms = quoteTerms(whole);
  const changed = differences !== null && differences.differences.length > 0;
  return (
    <JobSheet
      reading={reading}
      roomId={roomId}
      stage="quote"
      block={
        <>
          <StandingPart
            business={business}
            customer={whole.customer}
            number={job.number}
            standing={standing}
            state={state}
            differences={differences}
            validDays={job.estimate.validDays ?? business.quoteValidDays}
            onDraft={stops.length > 0 ? null : () => void draft()}
            onPaper={(quote) => void make(quote)}
            onFolder={openFolder}
            onAnswer={() => setAnswering(true)}
            onLapse={(quote) =>
              void recordAnswer(whole, quote, { state: 'lapsed', by: business.ownerName || business.name, note: '', optionId: null }).then(
                say,
              )
            }
          />
          {state === 'accepted' && changed && standing !== null && (
            <BlockPart>
              <TextButton onPress={() => void issue()}>Issue revision {standing.revision + 1}</TextButton>
            </BlockPart>
          )}
          <WaysPart
            estimate={estimate}
            shown={option}
            onSuggest={(id) => {
              setShown(id);
              edit('the way suggested', (e) => ({ ...e, suggestedOptionId: id }));
            }}
            onName={(id, name) =>
              edit(`called a way ${name}`, (e) => ({ ...e, options: e.options.map((o) => (o.id === id ? { ...o, name } : o)) }))
            }
            onOffer={offer}
            onDelete={(o) =>
              edit(`took out ${o.name}`, (e) => ({
                ...e,
                options: e.options.filter((other) => other.id !== o.id),
                suggestedOptionId: e.suggestedOptionId === o.id ? null : e.suggestedOptionId,
              }))
            }
          />
          <BlockPart>
            <Fields>
              <Field
                label="Discount"
                value={job.estimate.discountMinor}
                parse={(text) => parseMoney(text, business.currency, locale)}
                format={(minor) => formatMoney(minor, business.currency, locale, 'bare')}
                emptyMessage="Type 0 for none."
                onChange={(minor) => minor !== null && edit('discount', (e) => ({ ...e, discountMinor: minor }))}
              />
              <TextField
                label="For"
                value={job.estimate.discountNote}
                onChange={(discountNote) => edit('why the discount', (e) => ({ ...e, discountNote }))}
              />
            </Fields>
            <p className="small">{price.methodWords}</p>
            {price.perArea !== null && <p className="small">{price.perArea.message}</p>}
          </BlockPart>
          <PaymentsPart
            price={price}
            own={job.estimate.stages}
            validDays={job.estimate.validDays ?? null}
            usualDays={business.quoteValidDays}
            days={{ own: job.estimate.daysOnSite, calculated: option.days }}
            onDays={(daysOnSite) => edit('days on site', (e) => ({ ...e, daysOnSite }))}
            onStages={(stages) => edit('the payments', (e) => ({ ...e, stages }))}
            onValidDays={(validDays) => edit('how long the quote stands', (e) => ({ ...e, validDays }))}
          />
          <BlockPart>
            <div className="quote-ways">
              <TextButton onPress={() => void shoppingPaper()}>Shopping list as PDF</TextButton>
              <TextButton onPress={() => void shoppingTable()}>as a table</TextButton>
            </div>
          </BlockPart>
        </>
      }
      foot={
        <>
          {small ? (
            <Answer>{money(price.totalMinor)} in all</Answer>
          ) : (
            <Answer figure={money(price.totalMinor)} note={option.name}>
              in all
            </Answer>
          )}
          <Answer
            wideOnly
            under={<RangeMark leastText={about(price.range.leastMinor)} mostText={about(price.range.mostMinor)} at={null} />}
          >
            {money(price.netMinor)} and {money(price.taxMinor)} tax
          </Answer>
        </>
      }
      action={
        state === 'accepted' ? (
          <ActionButton href={stageHref(job.id, 'pour', roomId)}>Plan the pour</ActionButton>
        ) : state === 'issued' && !changed ? (
          <ActionButton onPress={() => setAnswering(true)}>Record the answer</ActionButton>
        ) : (
          <ActionButton held={stops[0]?.message ?? null} onPress={() => void issue()}>
            {standing === null ? 'Issue the quote' : `Issue revision ${standing.revision + 1}`}
          </ActionButton>
        )
      }
    >
      <SheetHeading under={`${option.name}: every line opens to its reason.`}>What it costs</SheetHeading>
      {said !== null && (
        <Notice
          kind={said.ok ? 'told' : 'failure'}
          onClose={() => setSaid(null)}
          {...(said.ok ? { action: { word: 'Open the folder', run: openFolder } } : {})}
        >
          {said.says}
        </Notice>
      )}
      {nameless && (
        <TextField
          label="Who issues it"
          hint="The name stands at the head of the quote; address and the rest are under Business."
          value={business.name}
          onChange={(name) => void changeBusiness('the business’s name', (b) => ({ ...b, name }))}
        />
      )}
      {stops.map((p) => (
        <Notice key={p.key + (p.roomId ?? '')}>{p.message}</Notice>
      ))}
      {estimate.options.length > 1 && (
        <div className="quote-shown">
          <ChoiceRow
            label="Lines of"
            options={estimate.options.map((o) => ({ value: o.id, word: o.name }))}
            value={option.id}
            onChange={setShown}
          />
        </div>
      )}
      <LinesTable
        price={price}
        roomNames={new Map(whole.rooms.map((r) => [r.id, r.name]))}
        onDelete={(lineKey) =>
          edit('a line of one’s own taken out', (e) => ({ ...e, added: e.added.filter((line) => addedKey(line.id) !== lineKey) }))
        }
        onOverride={(lineKey, override) =>
          edit(override === null ? 'a line as reckoned' : 'a line by hand', (e) => ({
            ...e,
            overrides: [...e.overrides.filter((o) => o.lineKey !== lineKey), ...(override === null ? [] : [override])],
          }))
        }
      />
      <div className="quote-ways">
        <TextButton onPress={() => setAdding(true)}>Add a line</TextButton>
      </div>
      <dl className="quote-sums">
        {price.discountMinor > 0 && (
          <div>
            <dt>Discount</dt>
            <dd>{money(-price.discountMinor)}</dd>
          </div>
        )}
        {price.taxes.map((t) => (
          <div key={t.taxId}>
            <dt>{t.name}</dt>
            <dd>{money(t.taxMinor)}</dd>
          </div>
        ))}
        <div>
          <dt>In all</dt>
          <dd>
            <b data-testid="total">{money(price.totalMinor)}</b>
          </dd>
        </div>
      </dl>
      <div className="quote-terms">
        <section>
          <h2 className="caption">What it rests on</h2>
          <ul>
            {terms.assumptions.map((words) => (
              <li key={words} className="small">
                {words}
              </li>
            ))}
          </ul>
        </section>
        <section>
          <h2 className="caption">Not in the price</h2>
          <ul>
            {terms.excluded.map((words) => (
              <li key={words} className="small">
                {words}
              </li>
            ))}
          </ul>
        </section>
      </div>
      {adding && (
        <AddLine
          currency={business.currency}
          rooms={whole.rooms}
          taxes={business.taxRates}
          materials={whole.materials}
          today={dayOfInstant(now, business.timeZone)}
          onClose={() => setAdding(false)}
          onAdd={(line) => {
            setAdding(false);
            edit(`the line ${line.name}`, (e) => ({ ...e, added: [...e.added, { ...line, id: newId() }] }));
          }}
        />
      )}
      {answering && standing !== null && (
        <AnswerDialog
          options={[
            { value: BASE_OPTION_ID, word: estimateOfQuote(standing).base.name },
            ...standing.frozen.job.estimate.options.map((o) => ({ value: o.id, word: o.name })),
          ]}
          suggested={standing.frozen.job.estimate.suggestedOptionId ?? BASE_OPTION_ID}
          by={whole.customer.name}
          onClose={() => setAnswering(false)}
          onKeep={async (answer) => {
            const outcome = await recordAnswer(whole, standing, answer);
            if (outcome.ok) setAnswering(false);
            return outcome.ok ? null : outcome.message;
          }}
        />
      )}
    </JobSheet>
  );
}
