import { describe, expect, it } from 'vitest';
import { documentTreeSchema } from '../../../shared-core/documents/tree.ts';
import { shoppingListSheet } from '../../../shared-core/documents/shopping-list.ts';
import { estimateAsAccepted, withOptionAccepted } from '../../../shared-core/price/accept-option.ts';
import { estimateJob } from '../../../shared-core/price/estimate-job.ts';
import { quoteDifferences } from '../../../shared-core/price/quote-differences.ts';
import { BASE_OPTION_ID } from '../../../shared-core/price/quote-state.ts';
import { sampleBook } from '../../../shared-core/sample/sample-book.ts';

const DAY = '2026-05-12';
const book = sampleBook(`${DAY}T15:00:00.000Z`);
const several = book.jobs.find((job) => job.estimate.options.length > 0);
const [business] = book.business;
const property = book.properties.find((p) => p.id === several?.propertyId);
const customer = book.customers.find((c) => c.id === several?.customerId);
if (several === undefined || business === undefined || property === undefined || customer === undefined)
  throw new Error('the sample offers no job in more than one way');
const records = { business, property, customer, job: several, rooms: book.rooms, materials: book.materials };
const quoted = several.estimate.options;

describe('a way to do it that the customer chose', () => {
  it('becomes the job’s own: the job reckons to the same total, line by line', () => {
    const before = estimateJob(records, DAY);
    for (const way of quoted) {
      const job = withOptionAccepted(several, way.id, quoted);
      expect(job.estimate.options).toEqual([]);
      const after = estimateJob({ ...records, job }, DAY);
      const chosen = estimateAsAccepted(before, way.id);
      expect(after.base.price.totalMinor).toBe(chosen.base.price.totalMinor);
      expect(after.base.price.lines.map((line) => line.key)).toEqual(chosen.base.price.lines.map((line) => line.key));
      const since = quoteDifferences(
        { records, estimate: chosen },
        { records: { ...records, job }, estimate: estimateAsAccepted(after, BASE_OPTION_ID) },
      );
      expect(since.differences).toEqual([]);
    }
  });
  it('takes the lines changed by hand along, and leaves those of the other ways', () => {
    const [way] = quoted;
    if (way === undefined) throw new Error('no way');
    const line = estimateJob(records, DAY).options.find((o) => o.id === way.id)?.price.lines[0];
    if (line === undefined) throw new Error('no line');
    const by = { costMinor: 12_345, priceMinor: null, leftOut: false, note: 'as agreed' };
    const overrides = [
      { ...by, lineKey: line.key },
      { ...by, lineKey: `other-way/${line.key}` },
    ];
    const options = [...quoted, { ...way, id: 'other-way', name: 'Another' }];
    const job = { ...several, estimate: { ...several.estimate, options, overrides } };
    const own = withOptionAccepted(job, way.id, options);
    expect(own.estimate.overrides).toEqual([{ ...by, lineKey: line.key.replace(`${way.id}/`, '') }]);
  });
  it('changes nothing when it is the job’s own way already', () => {
    expect(withOptionAccepted(several, BASE_OPTION_ID, quoted)).toBe(several);
  });
});

describe('the shopping list', () => {
  it('names every item once, bought or in the van, and reads as a paper', () => {
    const option = estimateJob(records, DAY).suggested;
    const sheet = shoppingListSheet(records, option, `${DAY}T15:00:00.000Z`);
    expect(documentTreeSchema.safeParse(sheet).success).toBe(true);
    const words = JSON.stringify(sheet);
    expect(option.takeoff.shopping.items.length).toBeGreaterThan(3);
    for (const item of option.takeoff.shopping.items) expect(words).toContain(JSON.stringify(item.name).slice(1, -1));
  });
  it('says so when there is nothing to buy', () => {
    const option = estimateJob(records, DAY).suggested;
    const none = { ...option, takeoff: { ...option.takeoff, shopping: { ...option.takeoff.shopping, items: [] } } };
    expect(JSON.stringify(shoppingListSheet(records, none, `${DAY}T15:00:00.000Z`))).toContain('Nothing: all that is needed');
  });
});
