/**
 * Federal notices a home sale may need: the right to cancel (16 CFR 429.1) and the receipt of the lead pamphlet
 * (40 CFR 745.84). Federal text; a state may ask for its own wording as well.
 */
import type { Property } from '../book/property.ts';
import { headingBlock, noteBlock, textBlock } from './blocks.ts';
import type { Block } from './tree.ts';

const bold = (text: string): Block => textBlock(text, { bold: true });

/** Printed beside the buyer's signature in bold of at least 10 points. Source: 16 CFR 429.1(a). */
export const RIGHT_TO_CANCEL =
  'You, the buyer, may cancel this transaction at any time prior to midnight of the third business day after the date of this transaction. See the attached notice of cancellation form for an explanation of this right.';

const CHECK_STATE = 'Federal form. Your state may require a different form or a longer period.';

/** What the notice names. Empty days are blanks to fill in when the contract is signed. */
export type NoticeOf = {
  readonly seller: string;
  readonly sellerAddress: string;
  readonly signedOn: string;
  readonly cancelBy: string;
};

/** The notice of cancellation, one copy on a page of its own. Text: 16 CFR 429.1(b). */
function noticeCopy({ seller, sellerAddress, signedOn, cancelBy }: NoticeOf, copy: 1 | 2): Block[] {
  const deadline = cancelBy === '' ? 'THE LAST DAY TO CANCEL WRITTEN ABOVE' : cancelBy;
  return [
    { kind: 'page' },
    headingBlock(2, `Notice of cancellation, copy ${copy} of 2`),
    {
      kind: 'fields',
      fields: [
        { label: 'Date of transaction', share: 0.5, value: signedOn },
        { label: 'Last day to cancel', share: 0.5, value: cancelBy },
      ],
    },
    bold('You may CANCEL this transaction, without any Penalty or Obligation, within THREE BUSINESS DAYS from the above date.'),
    bold(
      'If you cancel, any property traded in, any payments made by you under the contract or sale, and any negotiable instrument executed by you will be returned within TEN BUSINESS DAYS following receipt by the seller of your cancellation notice, and any security interest arising out of the transaction will be cancelled.',
    ),
    bold(
      'If you cancel, you must make available to the seller at your residence, in substantially as good condition as when received, any goods delivered to you under this contract or sale, or you may, if you wish, comply with the instructions of the seller regarding the return shipment of the goods at the seller’s expense and risk.',
    ),
    bold(
      'If you do make the goods available to the seller and the seller does not pick them up within 20 days of the date of your Notice of Cancellation, you may retain or dispose of the goods without any further obligation. If you fail to make the goods available to the seller, or if you agree to return the goods to the seller and fail to do so, then you remain liable for performance of all obligations under the contract.',
    ),
    bold(
      `To cancel this transaction, mail or deliver a signed and dated copy of this Cancellation Notice or any other written notice, or send a telegram, to ${seller}, at ${sellerAddress}, NOT LATER THAN MIDNIGHT OF ${deadline}.`,
    ),
    bold('I HEREBY CANCEL THIS TRANSACTION.'),
    {
      kind: 'fields',
      fields: [
        { label: 'Buyer’s signature', share: 0.65 },
        { label: 'Date', share: 0.35 },
      ],
    },
    noteBlock(CHECK_STATE),
  ];
}

/** The notice in duplicate, each copy on a page of its own. */
export function cancellationNotice(transaction: NoticeOf): Block[] {
  return [...noticeCopy(transaction, 1), ...noticeCopy(transaction, 2)];
}

/** Housing built before 1978 is target housing. Source: 40 CFR 745.83, 745.103. */
const LEAD_BUILT_BEFORE = 1978;

/** Whether the lead pamphlet is due: an unknown age counts as old. */
export function needsLeadPamphlet(property: Pick<Property, 'yearBuilt' | 'address'>): boolean {
  return property.address.country === 'US' && (property.yearBuilt === null || property.yearBuilt < LEAD_BUILT_BEFORE);
}

/** The receipt for the lead pamphlet of a home that needs it, to be signed before work that disturbs paint. Source: 40 CFR 745.84(a). */
export function leadReceipt(address: string, yearBuilt: number | null): Block[] {
  const age = yearBuilt === null ? 'may have been built before 1978' : `was built in ${yearBuilt}, before 1978`;
  return [
    { kind: 'page' },
    headingBlock(2, 'Receipt for the lead pamphlet'),
    textBlock(
      `The home at ${address} ${age}. Federal law requires us to give you the EPA pamphlet on lead hazards in renovation before we start work that disturbs painted surfaces.`,
    ),
    textBlock(
      'I received the pamphlet before the work began. It told me of the possible risk of lead exposure from the renovation to be done in my home.',
    ),
    {
      kind: 'fields',
      fields: [
        { label: 'Owner or occupant, signature', share: 0.4 },
        { label: 'Printed name', share: 0.35 },
        { label: 'Date', share: 0.25 },
      ],
    },
    noteBlock('Some states run their own lead program and require other wording.'),
  ];
}
