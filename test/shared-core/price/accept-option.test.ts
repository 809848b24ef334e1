import { describe, expect, it } from 'vitest';
import { withOptionAccepted } from '../../../shared-core/price/accept-option.ts';
import { estimateJob } from '../../../shared-core/price/estimate-job.ts';
import { freeze } from '../../../shared-core/price/issue-quote.ts';
import { quoteDifferences } from '../../../shared-core/price/quote-differences.ts';
import { priceAsAccepted, quotedPrice, suggestedOption } from '../../../shared-core/price/quoted-price.ts';
import { BASE_OPTION_ID } from '../../../shared-core/price/quote-state.ts';
import { sampleAt } from '../../sample-at.ts';

const DAY = '2026-05-12';
const book = sampleAt(`${DAY}T15:00:00.000Z`);
const several = book.jobs.find((job) => job.estimate.options.length > 0);
const [business] = book.business;
const property = book.properties.find((p) => p.id === several?.propertyId);
if (several === undefined || business === undefined || property === undefined) throw new Error('the sample has no job with options');
const records = { business, property, job: several, rooms: book.rooms, materials: book.materials };
const quoted = several.estimate.options;

it('a quote keeps the data sheets that its rooms and options use, and of no other powder or primer', () => {
  const customer = book.customers.find(({ id }) => id === several.customerId);
  if (customer === undefined) throw new Error('the job has no customer');
  const kept = freeze({ ...records, customer }).materials.filter((sheet) => sheet.powder !== null || sheet.primer.length > 0);
  const rooms = several.rooms.flatMap((room) => [room.materialId, room.primerId, room.moistureSystemId ?? null]);
  const used = new Set([...rooms, ...quoted.flatMap((option) => option.rooms.map((room) => room.materialId))].filter((id) => id !== null));
  const all = book.materials.filter((sheet) => sheet.powder !== null || sheet.primer.length > 0);
  expect(kept.length).toBeLessThan(all.length);
  expect(new Set(kept.map(({ id }) => id))).toEqual(new Set(all.map(({ id }) => id).filter((id) => used.has(id))));
});

describe('an option the customer accepted', () => {
  it('becomes the job’s own, with the same total, line by line', () => {
    const before = estimateJob(records, DAY);
    for (const way of quoted) {
      const job = withOptionAccepted(several, way.id, quoted);
      expect(job.estimate.options).toEqual([]);
      const after = estimateJob({ ...records, job }, DAY);
      const chosen = priceAsAccepted(quotedPrice(before, records.materials), way.id);
      const own = priceAsAccepted(quotedPrice(after, records.materials), BASE_OPTION_ID);
      expect(suggestedOption(own).totalMinor).toBe(suggestedOption(chosen).totalMinor);
      expect(suggestedOption(own).lines.map((line) => line.key)).toEqual(suggestedOption(chosen).lines.map((line) => line.key));
      expect(quoteDifferences(chosen, own, records.business).differences).toEqual([]);
    }
  });
  it('brings its overridden lines, and leaves those of other options', () => {
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
  it('is the only one left where it is the job’s own and another is recommended', () => {
    const [recommended] = quoted;
    const [line] = estimateJob(records, DAY).base.price.lines;
    if (recommended === undefined || line === undefined) throw new Error('no way or no line');
    const ofOwn = { costMinor: 12_345, priceMinor: null, leftOut: false, note: 'as agreed', lineKey: line.key };
    const overrides = [ofOwn, { ...ofOwn, lineKey: `${recommended.id}/${line.key}` }];
    const estimate = { ...several.estimate, suggestedOptionId: recommended.id, overrides };
    const job = withOptionAccepted({ ...several, estimate }, BASE_OPTION_ID, quoted);
    expect(job.rooms).toEqual(several.rooms);
    expect(job.estimate).toEqual({ ...estimate, options: [], suggestedOptionId: BASE_OPTION_ID, overrides: [ofOwn] });
    // The list to buy from, the holds and the price that is shown all read the recommended option.
    const after = estimateJob({ ...records, job }, DAY);
    expect(after.suggested.takeoff.bags).toBe(after.base.takeoff.bags);
    expect(estimateJob({ ...records, job: { ...several, estimate } }, DAY).suggested.takeoff.bags).not.toBe(after.base.takeoff.bags);
  });
});
