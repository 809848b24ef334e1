/** The remaining work of a placed floor: edges, patches, readings, cost, and the message to the customer. */
import { useMemo, useState } from 'react';
import { noticeMessage } from '../../../shared-core/documents/floor-notice.ts';
import { formatArea } from '../../../shared-core/measure/area.ts';
import { formatDuration } from '../../../shared-core/measure/duration.ts';
import { formatLength } from '../../../shared-core/measure/length-format.ts';
import type { Region } from '../../../shared-core/plan/region.ts';
import type { JobReading } from '../../../shared-core/standing/read-job.ts';
import { OPEN_LEAST, TIE_LEAST } from '../../../shared-core/standing/rest-depth.ts';
import { restOfRoom, type RestOfRoom, restCost } from '../../../shared-core/standing/rest-of-room.ts';
import { reprintDocument, saveJobDocument } from '../../book/document-commands.ts';
import { usePrintedPhotos } from '../../book/use-photos.ts';
import { useNow } from '../../book/use-job-reading.ts';
import { Dialog, SaveDialog } from '../../parts/Dialog.tsx';
import { DocumentsPart } from '../../parts/job/DocumentsPart.tsx';
import { stageHref } from '../../parts/job/stage-words.ts';
import { LinkWord, TextButton } from '../../parts/Buttons.tsx';
import { MailWord } from '../../parts/MailWord.tsx';
import { BlockPart } from '../../parts/Sheet.tsx';
import { useMeasure, useMoney } from '../../parts/use-measure.ts';
import { DEFECT_WORDS } from './pour-mode-words.ts';
import { acceptedQuote } from '../../../shared-core/price/change-order.ts';
import type { CostLine } from '../../../shared-core/price/line.ts';
import { restInPrice, type RestPayer, withRestPriced, workCost } from '../../../shared-core/standing/price-rest.ts';
import { changeJob } from '../../book/job-commands.ts';
import { newId } from '../../book/command.ts';
import { ChoiceRow } from '../../parts/Choices.tsx';
import { Reason } from '../../parts/Reason.tsx';

interface RestProps {
  readonly reading: JobReading;
  readonly roomId: string;
  /** Marks suspect floor as sound, with the reason for the log; absent where the part is read-only. */
  readonly onSound?: (floor: readonly Region[], why: string) => void;
}

/** Hidden when the floor is complete and sound. */
export function RestPart({ reading, roomId, onSound }: RestProps) {
  const { units, locale } = useMeasure();
  const now = useNow(reading.whole);
  const printed = usePrintedPhotos(reading.whole.job.id);
  const [isWriting, setWriting] = useState(false);
  const found = useMemo(() => restOfRoom(reading, roomId), [reading, roomId]);
  const message = useMemo(() => (isWriting ? noticeMessage(reading, now) : null), [isWriting, reading, now]);
  if (found === null) return null;
  const { rest } = found;
  const area = (m2: number) => formatArea(m2, units, locale);
  const since = rest.sinceAt === null ? null : (Date.parse(now) - Date.parse(rest.sinceAt)) / 1000;
  return (
    <>
      <BlockPart heading={rest.openM2 > 0 ? 'Rest of the floor' : 'Repairs'}>
        <ul className="pour-rest">
          {rest.openM2 > 0 && (
            <>
              <li>{`${area(rest.openM2)} to pour.`}</li>
              <li>
                {`${formatLength(rest.jointM, units, locale)} of edge to prepare.`}
                {since !== null && ` Placed ${formatDuration(Math.max(0, since), locale)} ago.`}
              </li>
              <li>
                {readWords(found)} <LinkWord href={`/readings/${roomId}`}>Read the rest</LinkWord>
              </li>
            </>
          )}
          {rest.patches.map((patch) => (
            <li key={patch.id}>
              {`${DEFECT_WORDS[patch.defect]}, ${area(patch.areaM2)}. `}
              {onSound !== undefined && (
                <TextButton kind="plain" label={`Repaired: ${DEFECT_WORDS[patch.defect]}`} onPress={() => onSound(patch.floor, 'repaired')}>
                  Repaired
                </TextButton>
              )}
            </li>
          ))}
          {rest.toCheckM2 > 0 && (
            <li>
              {`${area(rest.toCheckM2)} suspect. Scratch and tap it once it is hard. `}
              {onSound !== undefined && (
                <TextButton kind="plain" onPress={() => onSound(rest.toCheck, 'checked, sound')}>
                  Checked, sound
                </TextButton>
              )}
            </li>
          )}
          <li>
            <RestPrice reading={reading} roomId={roomId} found={found} now={now} />
          </li>
        </ul>
        <p className="small">
          <LinkWord href={stageHref(reading.whole.job.id, 'prep', roomId)}>Go to Prep</LinkWord>
        </p>
        <TextButton onPress={() => setWriting(true)}>Message to customer…</TextButton>
      </BlockPart>
      <DocumentsPart
        reading={reading}
        stage="pour"
        photos={printed}
        onSave={(entry) => saveJobDocument(reading, entry)}
        onPrint={reprintDocument}
      />
      {isWriting && message !== null && (
        <Dialog wide title="Message to the customer" onClose={() => setWriting(false)}>
          <MailWord email={reading.whole.customer.email} message={message} />
        </Dialog>
      )}
    </>
  );
}

function readWords({ readings }: RestOfRoom): string {
  const { tied = 0, open = 0, groundAt = null } = readings ?? {};
  if (groundAt !== null) return `Read again: ${open} points, tied to ${tied} on the placed floor.`;
  return tied + open === 0
    ? 'Not read again yet. The depth is from the first survey.'
    : `${open} of ${OPEN_LEAST} points on open floor and ${tied} of ${TIE_LEAST} on placed floor read.`;
}

/** What the rest of a poured floor costs, how much of it the price does not hold, and putting that in the price. */
interface RestPriceProps {
  readonly reading: JobReading;
  readonly roomId: string;
  readonly found: RestOfRoom;
  readonly now: string;
}

/** The cost with its lines, what of it is in the price, and the button that prices it. */
function RestPrice({ reading, roomId, found, now }: RestPriceProps) {
  const money = useMoney();
  const [isPricing, setPricing] = useState(false);
  const { quotes, job } = reading.whole;
  const { lines, totalMinor } = restCost(reading, found.left, now);
  const extra = restCost(reading, found.extra, now);
  const priced = restInPrice(reading, roomId);
  if (lines.length === 0) return <>No cost: prices are missing.</>;
  const isOpen = found.rest.openM2 > 0;
  return (
    <>
      <Reason
        why={{
          figureName: isOpen ? 'Cost of the rest' : 'Cost of the repairs',
          inputs: lines.map((line) => ({ name: `${line.name}, ${line.quantityWords}`, value: money(line.costMinor) })),
          formula:
            'Bags from the plan for the rest, with spare bags as in the estimate. Primer and hours from the area. Plus edges, patches, and 1 trip.',
          source: 'The job’s estimate',
          range: null,
        }}
      >
        {money(totalMinor)}
      </Reason>{' '}
      {`cost to you. ${inPriceWords(priced, priced === null ? extra.totalMinor : workCost(extra.lines), money)} `}
      {priced?.payer === 'customer' && (
        <LinkWord href={stageHref(job.id, 'quote', roomId)}>
          {acceptedQuote(quotes) === null ? 'Go to Quote to issue a revision' : 'Go to Quote to write the change order'}
        </LinkWord>
      )}{' '}
      {extra.totalMinor > 0 && (
        <TextButton kind="plain" onPress={() => setPricing(true)}>
          {`${priced === null ? 'Price' : 'Update price of'} the ${isOpen ? 'rest' : 'repairs'}…`}
        </TextButton>
      )}
      {isPricing && (
        <PriceDialog
          lines={extra.lines}
          totalMinor={extra.totalMinor}
          isOpen={isOpen}
          payer={priced?.payer ?? 'customer'}
          money={money}
          onClose={() => setPricing(false)}
          onSave={(payer) =>
            changeJob(job.id, isOpen ? 'Price the rest of a floor' : 'Price repairs', {
              estimate: withRestPriced(reading, {
                ...{ roomId, rest: found, payer, now, newId },
                nameOf: (line) => lineName(line, isOpen),
                freeNote: isOpen ? 'Rest of the floor, no charge' : 'Repair, no charge',
              }),
            })
          }
        />
      )}
    </>
  );
}

function inPriceWords(priced: ReturnType<typeof restInPrice>, extraMinor: number, money: (minor: number) => string): string {
  if (priced === null) return extraMinor === 0 ? 'All of it is in the price.' : `${money(extraMinor)} of it is not in the price.`;
  const changed = priced.costMinor === extraMinor ? '' : ` It is ${money(extraMinor)} now.`;
  return priced.payer === 'business'
    ? `${money(priced.heldMinor)} of it is in the estimate at no charge.${changed}`
    : `${money(priced.costMinor)} of it is priced at ${money(priced.netMinor)} before tax.${changed}`;
}

/** What the customer reads on a change order: bags and containers are named, hours are not. */
function lineName({ kind, name, quantityWords }: CostLine, isOpen: boolean): string {
  const description = `${name}${kind === 'material' ? `, ${quantityWords}` : ''}`;
  return `${isOpen ? 'Rest of the floor' : 'Repair'}: ${description}`.slice(0, 200);
}

interface PriceDialogProps {
  readonly lines: readonly CostLine[];
  readonly totalMinor: number;
  readonly isOpen: boolean;
  readonly payer: RestPayer;
  readonly money: (minor: number) => string;
  readonly onClose: () => void;
  readonly onSave: (payer: RestPayer) => ReturnType<typeof changeJob>;
}

const PAYER_WORDS: Readonly<Record<RestPayer, string>> = {
  customer:
    'The lines are added to the price with the job’s markup, plus 1 day on site if the work takes one. Issue a change order or a revision to charge the customer.',
  business: 'The cost is added to the estimate. The price does not change.',
};

function PriceDialog({ lines, totalMinor, isOpen, payer: savedPayer, money, onClose, onSave }: PriceDialogProps) {
  const [payer, setPayer] = useState(savedPayer);
  return (
    <SaveDialog title={isOpen ? 'Price the rest' : 'Price the repairs'} save={() => onSave(payer)} onClose={onClose}>
      <ul className="pour-rest">
        {lines.map((line) => (
          <li key={line.key}>{`${line.name}, ${line.quantityWords}: ${money(line.costMinor)}`}</li>
        ))}
      </ul>
      <p>{`${money(totalMinor)} cost to you, beyond the price of the floor.`}</p>
      <ChoiceRow
        label="Who pays"
        captioned
        options={{ customer: 'Customer pays', business: 'No charge' }}
        value={payer}
        onChange={setPayer}
      />
      <p className="small">{PAYER_WORDS[payer]}</p>
    </SaveDialog>
  );
}
