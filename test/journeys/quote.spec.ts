/** From the minimum thickness to an accepted quote: document, screen and stored data agree. */
import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { jobSchema } from '../../shared-core/book/job.ts';
import { type Quote, quoteSchema } from '../../shared-core/book/quote.ts';
import { expect, test } from './open-book.ts';
import { storedRows } from './stored-rows.ts';
import { toSheet } from './open-sample.ts';

/** A stand-in for the system's way to open a folder, which records its arguments. */
test.use({ tools: { 'xdg-open': `printf '%s' "$1" > "$STRAIGHTEDGE_DATA/../opened"` } });
const opened = (folder: string): string => {
  const noted = join(folder, 'opened');
  return existsSync(noted) ? readFileSync(noted, 'utf8') : '';
};

const JOB = 'sample-job-odell';
const ROOM = 'sample-hall';

const open = async (page: Page, stage: 'estimate' | 'quote'): Promise<void> => {
  await toSheet(page, `/jobs/${JOB}/${stage}/${ROOM}`);
  await expect(page.getByRole('heading', { level: 1 })).toContainText(stage === 'estimate' ? 'pour depth' : 'Price');
};

const quotesOf = async (page: Page): Promise<Quote[]> =>
  (await storedRows(page, 'quotes')).map((row) => quoteSchema.parse(row)).filter((quote) => quote.jobId === JOB);

const hallOf = async (page: Page) =>
  (await storedRows(page, 'jobs'))
    .map((row) => jobSchema.parse(row))
    .find((job) => job.id === JOB)
    ?.rooms.find((room) => room.roomId === ROOM);

/** Formatted here independently of the program. */
const dollars = (minor: number): string =>
  `$${(minor / 100).toLocaleString('en-US', { minimumFractionDigits: 2, maximumFractionDigits: 2 })}`;
const bare = (minor: number): string => dollars(minor).slice(1);

const paperText = (papers: string, name: RegExp, ...more: string[]): string => {
  const file = readdirSync(papers).find((entry) => name.test(entry));
  if (file === undefined) throw new Error(`no such paper among ${readdirSync(papers).join(', ')}`);
  return execFileSync('pdftotext', [...more, '-layout', join(papers, file), '-'], { encoding: 'utf8' });
};

test('a larger minimum thickness needs more bags, and undo reverts both', async ({ sample: _book, page }) => {
  await open(page, 'estimate');
  const bags = page.locator('.answer-figure').first();
  await expect(bags).toHaveText(/^\d+$/);
  const before = Number(await bags.innerText());
  const least = page.getByLabel('Minimum thickness');
  const typed = await least.inputValue();
  await least.fill('3/8');
  await least.press('Enter');
  await expect(bags).not.toHaveText(String(before));
  const after = Number(await bags.innerText());
  // A quarter of an inch more over 168 square feet is 3.5 cubic feet: about eight bags of 0.42 to 0.45 cubic feet (common practice, no
  // source), plus waste.
  expect(after - before).toBeGreaterThanOrEqual(7);
  expect(after - before).toBeLessThanOrEqual(10);
  await expect(page.getByRole('button', { name: 'Next: Quote' })).toBeVisible();
  await page.getByRole('heading', { level: 1 }).click();
  await page.keyboard.press('Control+z');
  await expect(bags).toHaveText(String(before));
  await expect(least).toHaveValue(typed);
});

test('a what-if of depth and crew is shown beside the current job; nothing is stored until it is applied, and undo reverts it', async ({
  sample: _book,
  page,
}) => {
  await open(page, 'estimate');
  const bags = page.locator('.answer-figure').first();
  await expect(bags).toHaveText(/^\d+$/);
  const before = await bags.innerText();
  const asKept = await hallOf(page);
  await page.getByText('What if', { exact: true }).click();
  await page.getByLabel('Minimum thickness').fill('3/8');
  await page.getByLabel('Minimum thickness').press('Enter');
  await expect(bags).not.toHaveText(before);
  const tried = await bags.innerText();
  await expect(page.getByTestId('tried-bags')).toHaveText(tried);
  await expect(page.getByRole('row', { name: /^Bags / })).toContainText(before);
  await page.getByLabel('Mixing').fill('4');
  await page.getByLabel('Mixing').press('Enter');
  expect(await hallOf(page)).toEqual(asKept);

  // After leaving and returning, the what-if is still there and the job unchanged.
  await page.getByText('Current', { exact: true }).first().click();
  await expect(bags).toHaveText(before);
  await page.getByText('What if', { exact: true }).click();
  await expect(bags).toHaveText(tried);
  await page.getByRole('button', { name: 'Save what-if' }).click();
  await expect(page.getByRole('button', { name: 'Next: Quote' })).toBeVisible();
  await expect(bags).toHaveText(tried);
  expect((await hallOf(page))?.level.leastThicknessM).toBeCloseTo(0.009_525, 5);
  expect((await hallOf(page))?.pourPlan?.crew.mixers).toBe(4);
  await page.getByRole('heading', { level: 1 }).click();
  await page.keyboard.press('Control+z');
  await expect(bags).toHaveText(before);
  expect(await hallOf(page)).toEqual(asKept);
});

test('document, screen and stored data show the same figures', async ({ sample: book, page }) => {
  await open(page, 'quote');
  const onScreen = await page.getByTestId('total').innerText();
  const rows = await page.getByRole('table', { name: 'Line items' }).getByRole('row').allInnerTexts();
  await page.getByRole('button', { name: 'Issue quote' }).click();
  await expect(page.getByText(/^Quote \d\d-031 revision 1, Vivian and Tom Odell\.pdf was saved to /)).toBeVisible();
  await expect(page.getByTestId('issued-total')).toHaveText(onScreen);

  // An email is started in the mail program, and the folder opens for the attachment.
  const letter = await page.getByRole('link', { name: 'Email Vivian and Tom Odell' }).getAttribute('href');
  expect(letter).toMatch(/^mailto:/);
  const fields = new URLSearchParams(letter?.split('?')[1]);
  expect(fields.get('subject')).toMatch(/^Quote \d\d-031, revision 1$/);
  expect(fields.get('body')).toContain(onScreen);
  await page.getByRole('main').getByRole('button', { name: 'Open documents folder' }).first().click();
  await expect.poll(() => opened(book.folder)).toBe(book.papers);

  const [quote] = await quotesOf(page);
  if (quote === undefined) throw new Error('the book holds no quote');
  expect(dollars(quote.totalMinor)).toBe(onScreen);

  const first = paperText(book.papers, /^Quote \d\d-031 revision 1, /, '-l', '1');
  const whole = paperText(book.papers, /^Quote \d\d-031 revision 1, /);
  expect(first).toContain(onScreen);
  expect(whole).toContain('Customer, signature');
  for (const option of quote.priced.options) {
    expect(first).toContain(dollars(option.totalMinor));
    for (const room of option.rooms) expect(first).toContain(dollars(room.priceMinor));
    for (const tax of option.taxes) expect(first).toContain(dollars(tax.taxMinor));
  }
  const suggested = quote.priced.options.find((option) => option.id === quote.priced.suggestedId);
  for (const stage of suggested?.stages ?? []) expect(first).toContain(dollars(stage.amountMinor));
  for (const line of suggested?.lines ?? [])
    expect(rows.some((row) => row.includes(line.name) && row.includes(bare(line.priceMinor)))).toBe(true);
});

test('a changed job lists the differences in words and money, and is issued as the next revision', async ({ sample: book, page }) => {
  await open(page, 'quote');
  await page.getByRole('button', { name: 'Issue quote' }).click();
  await expect(page.getByText(/^Quote \d\d-031 revision 1, Vivian and Tom Odell\.pdf was saved to /)).toBeVisible();
  const issued = await page.getByTestId('issued-total').innerText();
  await page.getByLabel('Discount', { exact: true }).fill('100');
  await page.getByLabel('Discount', { exact: true }).press('Enter');
  await expect(page.getByText(/Discount: \$100\.00 \(was \$0\.00\)\./).first()).toBeVisible();
  await expect(page.getByText(/^The total is .* less\.$/)).toContainText(issued);
  await page.getByRole('button', { name: 'Issue revision 2' }).click();
  await expect(page.getByText(/^Quote \d\d-031 revision 2, Vivian and Tom Odell\.pdf was saved to /)).toBeVisible();
  const quotes = await quotesOf(page);
  expect(quotes.map((quote) => [quote.revision, quote.state]).sort()).toEqual([
    [1, 'superseded'],
    [2, 'issued'],
  ]);
  // The first document stays as it was sent.
  expect(paperText(book.papers, /revision 1, /)).toContain(issued);
  expect(paperText(book.papers, /revision 2, /)).toContain('Discount: $100.00 (was $0.00).');
});

test('an accepted option becomes the job’s own, the next step follows, and one undo reverts all of it', async ({ sample: _book, page }) => {
  await open(page, 'quote');
  await page.getByRole('button', { name: 'Issue quote' }).click();
  await expect(page.getByText(/^Quote \d\d-031 revision 1, Vivian and Tom Odell\.pdf was saved to /)).toBeVisible();
  await page.getByRole('button', { name: 'Record decision' }).first().click();
  const dialog = page.getByRole('dialog');
  await dialog.getByLabel('Decided by').fill('');
  await dialog.getByText('Follow the floor', { exact: true }).click();
  await dialog.getByRole('button', { name: 'Save' }).click();
  await expect(dialog.getByText('Enter who accepted the quote. The name stays on the record.')).toBeVisible();
  await dialog.getByLabel('Decided by').fill('Vivian Odell');
  await dialog.getByRole('button', { name: 'Save' }).click();
  await expect(dialog).toBeHidden();
  // A finding holds the pour of the hall: its next step is on Assess.
  await expect(page.getByRole('link', { name: 'Go to Assess' })).toBeVisible();
  await expect(page.getByText(/^Accepted .*, Vivian Odell$/)).toBeVisible();
  expect(await hallOf(page)).toMatchObject({ level: { mode: 'follow' } });
  await expect(page.getByText(/Changed since/)).toBeHidden();

  await page.getByRole('heading', { level: 1 }).click();
  await page.keyboard.press('Control+z');
  await expect(page.getByRole('link', { name: 'Go to Assess' })).toBeHidden();
  expect(await hallOf(page)).toMatchObject({ level: { mode: 'level' } });
  expect((await quotesOf(page)).map((quote) => quote.state)).toEqual(['issued']);
});
