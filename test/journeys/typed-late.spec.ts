/** Text typed as the page closes is there when it opens again, and undo removes it. */
import { expect, test } from './open-book.ts';

test('text typed a moment before the page is reloaded is stored, and undo reverts it', async ({ sample: book, page }) => {
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
  await page.goto(`${new URL(book.address).origin}/#/business`);
  const name = page.getByLabel('Your name', { exact: true });
  const phone = page.getByLabel('Phone', { exact: true });
  const undo = async () => {
    await page.getByRole('heading', { level: 1 }).click();
    await page.keyboard.press('Control+z');
  };
  await expect(name).not.toHaveValue('');
  const before = await name.inputValue();

  for (const typed of ['Orla', 'Orla Quill', 'Orla Quill-Vance']) {
    await name.fill(typed);
    await page.reload();
    await expect(name).toHaveValue(typed);
    await undo();
    await expect(name).toHaveValue(before);
  }

  // Two fields of one record: the first left, the second still being typed in.
  await phone.fill('555 0142');
  await name.fill('Orla Quill');
  await page.reload();
  await expect(phone).toHaveValue('555 0142');
  await expect(name).toHaveValue('Orla Quill');
  await undo();
  await expect(name).toHaveValue(before);
  await expect(phone).toHaveValue('555 0142');
});

test('text typed a moment before the window is closed is there when another opens', async ({ book, page, context }) => {
  const address = `${new URL(book.address).origin}/#/business`;
  // A browser gives a closing page half a second; one that is still loading may need longer on a slow computer.
  await page.goto(address, { waitUntil: 'networkidle' });
  await page.getByLabel('Phone', { exact: true }).fill('555 0142');
  await page.close();
  const next = await context.newPage();
  await next.goto(address);
  await expect(next.getByLabel('Phone', { exact: true })).toHaveValue('555 0142');
});
