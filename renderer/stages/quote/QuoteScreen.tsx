import { useMemo, useState } from 'react';
import type { JobReading } from '../../../shared-core/agenda/read-job.ts';
import type { Job } from '../../../shared-core/book/job.ts';
import type { Quote } from '../../../shared-core/book/quote.ts';
import { quoteSheet } from '../../../shared-core/documents/quote-sheet.ts';
import { shoppingCsv } from '../../../shared-core/material/shopping-csv.ts';
import { formatDay } from '../../../shared-core/measure/day.ts';
import { formatDepth } from '../../../shared-core/measure/length-format.ts';
import { formatInstantDay } from '../../../shared-core/measure/moment.ts';
import { estimateOfQuote } from '../../../shared-core/price/estimate-job.ts';
import { formatMoney, parseMoney } from '../../../shared-core/price/money.ts';
import { quoteDifferences } from '../../../shared-core/price/quote-differences.ts';
import { BASE_OPTION_ID, standingAt } from '../../../shared-core/price/quote-state.ts';
import { changeJob } from '../../book/job-commands.ts';
import { newId, nowInstant } from '../../book/moment.ts';
import type { Outcome } from '../../book/outcome.ts';
import { issueNext, noteDocument, recordAnswer } from '../../book/quote-commands.ts';
import { useJobReading, useNow } from '../../book/use-job-reading.ts';
import { ActionButton } from '../../parts/ActionButton.tsx';
import { Answer } from '../../parts/Answer.tsx';
import { base64OfText } from '../../parts/base64.ts';
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
import { Table } from '../../parts/Table.tsx';
import { TextButton } from '../../parts/TextButton.tsx';
import { TextField } from '../../parts/TextField.tsx';
import { BlockPart, SheetHeading } from '../../parts/TitleBlock.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { AnswerDialog } from './AnswerDialog.tsx';
import { LinesTable } from './LinesTable.tsx';
import './quote.css';

/** What to charge: lines, options, tax, payments; the quote issued and answered. */
export function QuoteScreen({ jobId, roomId }: { readonly jobId: string; readonly roomId: string }) {
  const reading = useJobReading(jobId);
  if (reading === undefined) return <p className="app-opening caption">Reading the job…</p>;
  if (reading === null || !reading.rooms.some((r) => r.room.id === roomId)) return <NoJob />;
  return <QuoteSheetScreen reading={reading} roomId={roomId} />;
}

const STATE_WORDS = {
  issued: 'with the customer',
  accepted: 'accepted',
  declined: 'declined',
  lapsed: 'lapsed',
  superseded: 'superseded',
} as const;

function QuoteSheetScreen({ reading, roomId }: { readonly reading: JobReading; readonly roomId: string }) {
  const { whole, estimate } = reading;
  const { business, job } = whole;
  const { units, locale } = useMeasure();
  const now = useNow();
  const [said, setSaid] = useState<{ ok: boolean; says: string } | null>(null);
  const [answering, setAnswering] = useState(false);
  const [shown, setShown] = useState(estimate.suggested.id);
  const option = estimate.options.find((o) => o.id === shown) ?? estimate.suggested;
  const { price } = option;
  const money = (minor: number): string => formatMoney(minor, price.currency, locale);
  const say = (outcome: Outcome<unknown>): void => setSaid(outcome.ok ? null : { ok: false, says: outcome.message });
  const edit = (label: string, how: (e: Job['estimate']) => Job['estimate']): void =>
    void changeJob(job.id, label, (j) => ({ ...j, estimate: how(j.estimate) })).then(say);
  const standing = whole.quotes.findLast((q) => q.state !== 'superseded') ?? null;
  const state = standing === null ? null : standingAt(standing, now);
  const differences = useMemo(
    () =>
      standing === null || state === 'accepted'
        ? null
        : quoteDifferences(
            { records: standing.frozen, estimate: estimateOfQuote(standing) },
            { records: { ...whole, materials: whole.materials }, estimate },
          ),
    [standing, state, whole, estimate],
  );
  const stops = estimate.options.flatMap((o) => o.problems).filter((p) => p.stops);
  const make = async (quote: Quote): Promise<void> => {
    const tree = quoteSheet(quote);
    const paper = await makePaper(tree);
    setSaid(paper);
    if (!paper.ok) return;
    await noteDocument({
      jobId: job.id,
      kind: 'quote',
      revision: quote.revision,
      title: tree.title,
      madeAt: nowInstant(),
      changes: [],
      content: JSON.stringify(tree),
      quoteId: quote.id,
      sha256: paper.sha256,
    });
  };
  const issue = async (): Promise<void> => {
    const issued = await issueNext(whole);
    if (issued.ok) await make(issued.value);
    else say(issued);
  };
  const shopping = async (): Promise<void> =>
    setSaid(await keepAndOpen(fileName(`Shopping list ${job.number}`, 'csv'), base64OfText(shoppingCsv(option.takeoff.shopping)), true));
  const addOption = (): void => {
    const follow = job.estimate.options.length === 0;
    edit('another way to do it', (e) => ({
      ...e,
      options: [
        ...e.options,
        {
          id: newId(),
          name: follow ? 'Skim' : 'Fill alone',
          rooms: job.rooms.map((r) => ({
            roomId: r.roomId,
            level: follow ? { ...r.level, mode: 'follow' as const } : { ...r.level, grindMostM: 0, levelM: null },
            materialId: null,
          })),
        },
      ],
    }));
  };
  const changed = differences !== null && differences.differences.length > 0;
  return (
    <JobSheet
      whole={whole}
      roomId={roomId}
      stage="quote"
      block={
        <>
          <BlockPart heading="Standing">
            {standing === null || state === null ? (
              <p>Nothing has been issued. The quote will stand for {business.quoteValidDays} days.</p>
            ) : (
              <>
                <p>
                  Revision {standing.revision}, {money(standing.totalMinor)}, issued{' '}
                  {formatInstantDay(standing.issuedAt, business.timeZone, 'short', locale)}: <b>{STATE_WORDS[state]}</b>
                  {state === 'issued' && ` until ${formatDay(standing.validUntil, 'short', locale)}`}.
                </p>
                <ul className="quote-history">
                  {standing.history.map((h) => (
                    <li key={h.at + h.state} className="small">
                      {STATE_WORDS[h.state]} {formatInstantDay(h.at, business.timeZone, 'short', locale)}, {h.by}
                      {h.note === '' ? '' : `: ${h.note}`}
                    </li>
                  ))}
                </ul>
                <div className="quote-ways">
                  <TextButton onPress={() => void make(standing)}>Make the PDF</TextButton>
                  {whole.client.email !== '' && (
                    <a
                      href={`mailto:${whole.client.email}?subject=${encodeURIComponent(`Quote ${job.number}, revision ${standing.revision}`)}&body=${encodeURIComponent(`Dear ${whole.client.name},\n\nour quote ${job.number} is attached: ${money(standing.totalMinor)}, standing until ${formatDay(standing.validUntil, 'long', locale)}.\n\n${business.ownerName}\n${business.name}`)}`}
                    >
                      Write to {whole.client.name}
                    </a>
                  )}
                  {state === 'issued' && <TextButton onPress={() => setAnswering(true)}>Record the answer</TextButton>}
                </div>
              </>
            )}
            {changed && (
              <>
                <h3 className="caption">Changed since</h3>
                <ul className="quote-history">
                  {differences.differences.map((d) => (
                    <li key={d.optionId + d.words}>{d.words}</li>
                  ))}
                </ul>
              </>
            )}
          </BlockPart>
          <BlockPart heading="Ways to do it">
            <Table
              label="Ways to do it"
              dense
              rows={estimate.options}
              rowKey={(o) => o.id}
              isBold={(o) => o.id === estimate.suggested.id}
              columns={[
                { key: 'name', caption: 'Way', heads: true, cell: (o) => o.name },
                {
                  key: 'depth',
                  caption: 'Deepest',
                  align: 'right',
                  cell: (o) => (o.mostDepthM === null ? '' : formatDepth(o.mostDepthM, units)),
                },
                { key: 'bags', caption: 'Bags', align: 'right', cell: (o) => o.takeoff.bags },
                { key: 'price', caption: 'In all', align: 'right', cell: (o) => money(o.price.totalMinor) },
              ]}
            />
            {estimate.options.length > 1 && (
              <ChoiceRow
                label="Suggested"
                captioned
                options={estimate.options.map((o) => ({ value: o.id, word: o.name }))}
                value={estimate.suggested.id}
                onChange={(id) => {
                  setShown(id);
                  edit('the way suggested', (e) => ({ ...e, suggestedOptionId: id }));
                }}
              />
            )}
            <div className="quote-ways">
              {job.estimate.options.length < 2 && (
                <TextButton onPress={addOption}>
                  {job.estimate.options.length === 0 ? 'Offer a skim beside it' : 'Offer filling alone beside it'}
                </TextButton>
              )}
              {job.estimate.options.map((o) => (
                <TextButton
                  key={o.id}
                  kind="plain"
                  onPress={() =>
                    edit(`took out ${o.name}`, (e) => ({
                      ...e,
                      options: e.options.filter((other) => other.id !== o.id),
                      suggestedOptionId: e.suggestedOptionId === o.id ? null : e.suggestedOptionId,
                    }))
                  }
                >
                  Take out {o.name}
                </TextButton>
              ))}
            </div>
          </BlockPart>
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
            <dl className="quote-payments">
              {price.stages.map((s) => (
                <div key={s.name}>
                  <dt>{s.name}</dt>
                  <dd>{money(s.amountMinor)}</dd>
                </div>
              ))}
            </dl>
            <p className="small">{price.methodWords}</p>
            {price.perArea !== null && <p className="small">{price.perArea.message}</p>}
          </BlockPart>
          <BlockPart>
            <TextButton onPress={() => void shopping()}>Save the shopping list</TextButton>
          </BlockPart>
        </>
      }
      foot={
        <>
          <Answer figure={money(price.totalMinor)} note={option.name}>
            in all
          </Answer>
          <Answer
            wideOnly
            under={<RangeMark leastText={money(price.range.leastMinor)} mostText={money(price.range.mostMinor)} at={null} />}
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
        <Notice kind={said.ok ? 'told' : 'failure'} onClose={() => setSaid(null)}>
          {said.says}
        </Notice>
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
        onOverride={(lineKey, override) =>
          edit(override === null ? 'a line as reckoned' : 'a line by hand', (e) => ({
            ...e,
            overrides: [...e.overrides.filter((o) => o.lineKey !== lineKey), ...(override === null ? [] : [override])],
          }))
        }
      />
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
      {answering && standing !== null && (
        <AnswerDialog
          options={[
            { value: BASE_OPTION_ID, word: estimateOfQuote(standing).base.name },
            ...standing.frozen.job.estimate.options.map((o) => ({ value: o.id, word: o.name })),
          ]}
          suggested={standing.frozen.job.estimate.suggestedOptionId ?? BASE_OPTION_ID}
          by={whole.client.name}
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
