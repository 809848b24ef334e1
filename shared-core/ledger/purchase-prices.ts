/** Effects of a purchase or a new price on data sheet prices and on quotes with a customer. */
import type { PurchaseLine } from '../book/ledger.ts';
import type { Material } from '../book/material.ts';
import type { Quote } from '../book/quote.ts';
import { dayOfInstant } from '../measure/moment.ts';
import { priceOnDay } from '../price/price-on-day.ts';
import { suggestedOption } from '../price/quoted-price.ts';

/** A price paid that differs from the one in use. */
export type PricePaid = { readonly material: Material; readonly minor: number; readonly from: string };

/** Prices per container that differ from those in use on the day; the tax is not in them. */
export function changedPrices(lines: readonly PurchaseLine[], materials: readonly Material[], day: string): PricePaid[] {
  return materials.flatMap((material) => {
    const own = lines.filter((line) => line.materialId === material.id);
    const quantity = own.reduce((sum, line) => sum + line.quantity, 0);
    if (quantity <= 0) return [];
    const minor = Math.round(own.reduce((sum, line) => sum + line.amountMinor, 0) / quantity);
    return minor === priceOnDay(material, day)?.minor ? [] : [{ material, minor, from: day }];
  });
}

/** A quote with the customer that was made with another price of a material. */
export type MovedQuote = {
  readonly quoteId: string;
  readonly jobId: string;
  readonly number: string;
  readonly validUntil: string;
  /** Price per container in the quote. */
  readonly quotedMinor: number;
  /** How much more the material costs now than the quote counts, whole minor units; null where the quote does not count it in bags. */
  readonly moreMinor: number | null;
};

/**
 * Quotes that are issued and not decided, and were made with another price than the one in use on a day. They keep their price;
 * this is the added cost.
 */
export function quotesMovedBy(material: Material, quotes: readonly Quote[], day: string): MovedQuote[] {
  const now = priceOnDay(material, day)?.minor;
  return quotes.flatMap((quote) => {
    if (quote.state !== 'issued' || quote.deletedAt !== null || quote.validUntil < day || now === undefined) return [];
    const { business, job, materials } = quote.frozen;
    const quoted = materials.find((m) => m.id === material.id);
    const quotedMinor = quoted === undefined ? undefined : priceOnDay(quoted, dayOfInstant(quote.issuedAt, business.timeZone))?.minor;
    const isUsed = job.rooms.some((room) => room.materialId === material.id || room.primerId === material.id);
    if (quoted === undefined || quotedMinor === undefined || quotedMinor === now || !isUsed) return [];
    const rooms = suggestedOption(quote.priced).rooms.filter((room) => room.material === quoted.name);
    const bags = rooms.reduce((sum, room) => sum + room.bags, 0);
    return [
      {
        ...{ quoteId: quote.id, jobId: quote.jobId, number: job.number, validUntil: quote.validUntil, quotedMinor },
        moreMinor: material.powder === null ? null : bags * (now - quotedMinor),
      },
    ];
  });
}
