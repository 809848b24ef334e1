/**
 * A quote of each shape, inked and read back with pdftotext: page numbers, and sums by page, room, option and stage calculated again with
 * big.js. `STRAIGHTEDGE_KEEP_PDFS` names a folder for the PDFs.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Big from 'big.js';
import { afterAll, describe, expect, it } from 'vitest';
import { inkDocument } from '../../../main/desk/ink/ink-document.ts';
import type { Job, Override } from '../../../shared-core/book/job.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { issueQuoteWithDocument } from '../../../shared-core/documents/issue-quote-document.ts';
import { formatMoney } from '../../../shared-core/price/money.ts';
import { formatPercent } from '../../../shared-core/measure/percent.ts';
import { statedDateWords } from '../../../shared-core/standing/time-words.ts';
import { workCalendar } from '../../../shared-core/cure/stated-date.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { testFonts } from '../../main/desk/working-desk.ts';
import { sampleAt } from '../../sample-at.ts';
import { removeFolder } from '../../../build/remove-folder.mjs';

const NOW = '2026-05-12T15:00:00.000Z';
const folder = process.env['STRAIGHTEDGE_KEEP_PDFS'] ?? mkdtempSync(join(tmpdir(), 'straightedge-shapes-'));
afterAll(() => {
  if (process.env['STRAIGHTEDGE_KEEP_PDFS'] === undefined) removeFolder(folder);
});

const found = wholeJobsOf(sampleAt(NOW)).find(({ job }) => job.number === '26-031');
if (found === undefined) throw new Error('The sample has this job.');
const base: WholeJob = found;
const withJob = (change: (job: Job) => Job): WholeJob => ({ ...base, job: change(base.job) });
const withoutOptions = (job: Job): Job => ({ ...job, estimate: { ...job.estimate, options: [], suggestedOptionId: null } });

/** The same two rooms twice, so that there are four. */
const fourRooms = (): WholeJob => {
  const upper = base.rooms.map((room) => ({ ...room, id: `${room.id}-2`, name: `Upper ${room.name.toLowerCase()}` }));
  const whole = withJob((job) =>
    withoutOptions({ ...job, rooms: [...job.rooms, ...job.rooms.map((r) => ({ ...r, roomId: `${r.roomId}-2` }))] }),
  );
  return { ...whole, rooms: [...base.rooms, ...upper], houseRooms: [...base.houseRooms, ...upper] };
};
const WHY = 'The owner wants the old adhesive left in place and signs for it.';
const overridden = (): WholeJob => {
  const reading = readJob(base, NOW);
  const overrides = (roomId: string): Override[] =>
    (reading.rooms.find(({ room }) => room.id === roomId)?.assessment.holdsPour ?? []).map(({ key }) => ({
      key,
      why: WHY,
      instant: NOW,
      initials: 'RT',
    }));
  return withJob((job) => withoutOptions({ ...job, rooms: job.rooms.map((room) => ({ ...room, overrides: overrides(room.roomId) })) }));
};
/** Poured on a set day, one option deep enough to dry a day longer. */
const dated = (): WholeJob =>
  withJob((job) => ({
    ...job,
    rooms: job.rooms.map((room) => ({ ...room, pourAt: '2026-05-27T13:40:00.000Z' })),
    estimate: {
      ...job.estimate,
      options: job.estimate.options.map((option, i) =>
        i > 0
          ? option
          : {
              ...option,
              rooms: option.rooms.map((room) => ({ ...room, level: { ...room.level, mode: 'follow' as const, followThicknessM: 0.05 } })),
            },
      ),
    },
  }));
const SHAPES: Readonly<Record<string, WholeJob>> = {
  'one room': withJob((job) => withoutOptions({ ...job, rooms: job.rooms.slice(0, 1) })),
  'four rooms': fourRooms(),
  'three options': base,
  'three options that open on days of their own': dated(),
  'an overridden hold': overridden(),
  metric: { ...base, business: { ...base.business, units: 'metric', locale: 'en-GB', currency: 'EUR' } },
  A4: { ...base, business: { ...base.business, paper: 'a4' } },
};

describe.each(Object.entries(SHAPES))('a quote with %s', (name, whole) => {
  const issued = issueQuoteWithDocument(readJob(whole, NOW), { id: 'quote-one', instant: NOW, by: 'Ros Teague', note: '' });
  if (!issued.ok) throw new Error(issued.message);
  const { quote, tree } = issued.value;
  const { locale } = whole.business;
  const money = (minor: number): string => formatMoney(minor, quote.currency, locale);
  const sum = (amounts: readonly number[]): string => amounts.reduce((total, one) => total.plus(one), new Big(0)).toString();

  it('adds up to the cent by room, option and stage, with every tax rate', () => {
    for (const option of quote.priced.options) {
      expect(sum(option.rooms.map((room) => room.priceMinor)), option.name).toBe(String(option.netMinor));
      expect(sum([option.netMinor, ...option.taxes.map((tax) => tax.taxMinor)]), option.name).toBe(String(option.totalMinor));
      expect(sum(option.stages.map((stage) => stage.amountMinor)), option.name).toBe(String(option.totalMinor));
      expect(sum(option.stages.filter((stage) => stage.due === 'on-acceptance').map((stage) => stage.amountMinor))).toBe(
        String(option.depositMinor),
      );
    }
  });

  it('has the same amounts on its pages, numbers each and is signed on one', async () => {
    const { pdf } = await inkDocument(tree, testFonts());
    const file = join(folder, `${name}.pdf`);
    writeFileSync(file, pdf);
    const pages = execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' }).split('\f').slice(0, -1);
    const count = pages.length;
    pages.forEach((page, i) => expect(page).toContain(`page ${i + 1} of ${count}`));
    const [first = ''] = pages;
    for (const option of quote.priced.options) {
      for (const amount of [option.netMinor, option.totalMinor, ...option.rooms.map((room) => room.priceMinor)])
        expect(first, option.name).toContain(money(amount));
      for (const tax of option.taxes) expect(first).toContain(`${tax.name} ${formatPercent(tax.rate, 3, locale)}`);
    }
    const suggested = quote.priced.options.find(({ id }) => id === quote.priced.suggestedId);
    for (const { stages } of quote.priced.options) for (const stage of stages) expect(first).toContain(money(stage.amountMinor));
    // What is promised on acceptance of any option stands on the paper: its foot traffic.
    const place = workCalendar(whole.business, whole.property.timeZone);
    const flowed = first.replace(/\s+/g, ' ');
    const lasts = new Map(quote.dates.map((date) => [date.optionId, date.promisedFor]));
    for (const date of quote.dates) if (date.promisedFor > (lasts.get(date.optionId) ?? '')) lasts.set(date.optionId, date.promisedFor);
    for (const promisedFor of lasts.values()) expect(flowed).toContain(statedDateWords('walk-on', promisedFor, place, 'short', locale));
    // The flatness is beside the price.
    expect(first.replace(/\s+/g, ' ')).toContain('We promise no gap larger than');
    expect(pages[1]).not.toContain('We promise no gap');
    const all = pages.join('\n');
    for (const room of suggested?.rooms ?? []) expect(all).toContain(`${room.name}: ${money(room.priceMinor)} before tax`);
    expect(all).toContain(`I accept pages 1 to ${count} of quote 26-031, revision 1.`);
    expect(pages.filter((page) => page.includes('Customer, signature'))).toHaveLength(1);
    for (const hold of quote.holds) expect(all.replaceAll(/\s+/g, ' ')).toContain(hold.text.replaceAll(/\s+/g, ' ').slice(0, 40));
    const size = execFileSync('pdfinfo', [file], { encoding: 'utf8' });
    expect(size).toMatch(tree.paper === 'a4' ? /595.* x 841/ : /612 x 792/);
  });
});

it('prints the reason of an overridden hold, and claims no consent of the customer', () => {
  const issued = issueQuoteWithDocument(readJob(overridden(), NOW), { id: 'quote-one', instant: NOW, by: 'Ros', note: '' });
  if (!issued.ok) throw new Error(issued.message);
  expect(issued.value.quote.holds.length).toBeGreaterThan(0);
  const texts = issued.value.quote.holds.map(({ text }) => text).filter((text) => text.includes(WHY));
  expect(texts.length).toBeGreaterThan(0);
  for (const text of texts) expect(text).toMatch(/^We go ahead despite this: [^.]+\. Our reason: /);
});
