// @vitest-environment node
/** A quote signed on paper while it was valid, entered after its last day. */
import { afterEach, expect, test, vi } from 'vitest';
import { book } from '../../../renderer/book/database.ts';
import { addSample } from '../../../renderer/book/sample-commands.ts';
import { type Signing, signDocument } from '../../../renderer/book/sign-commands.ts';
import { readWholeJob } from '../../../renderer/book/use-whole-job.ts';
import { sampleAt } from '../../sample-at.ts';
import { pageDesk } from '../page-desk.ts';
import { freshBook, NOW } from './fresh-book.ts';

const JOB = 'sample-job-tremaine';
const PIXEL = 'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==';
const wholeOf = async () => {
  const whole = await readWholeJob(JOB);
  const quote = whole?.quotes.at(-1);
  const document = whole?.documents.find(({ quoteId, kind }) => quoteId === quote?.id && kind === 'quote');
  if (whole === null || quote === undefined || document === undefined) throw new Error('The sample has a quote there.');
  return { whole, quote, document: { ...document, sha256: 'a'.repeat(64) } };
};
const by = (role: Signing['role']) => ({ role, name: 'Dale Tremaine', optionId: null });
const page = { bytes: new Uint8Array(Buffer.from(PIXEL, 'base64')), mediaType: 'image/png' as const, widthPx: 1, heightPx: 1 };
const signedOn = (day: string): Signing => ({ ...by('customer'), paper: page, signedAt: `2020-01-${day}T17:00:00.000Z` });

afterEach(() => vi.unstubAllGlobals());

test('a page counts by the date it was signed, and what is signed after the last valid day is refused', async () => {
  const pdf = { pdfBase64: btoa('%PDF-'), pages: 1, sha256: 'b'.repeat(64), version: '0.1.0' };
  pageDesk((name) => (name === 'document.ink' ? { ok: true, value: pdf } : undefined));
  await freshBook();
  await addSample(sampleAt(NOW));
  const { quote: stored } = await wholeOf();
  const issuedAt = '2020-01-10T15:00:00.000Z';
  await book()
    .rowsOf('quotes')
    .put({ ...stored, issuedAt, validUntil: '2020-01-20' });
  const open = { ...(await wholeOf()), orderId: null };
  for (const signing of [
    signedOn('21'),
    { ...by('customer'), picture: `data:image/png;base64,${PIXEL}` },
    { ...by('contractor'), picture: `data:image/png;base64,${PIXEL}` },
  ])
    expect(await signDocument(open, signing)).toEqual({
      ok: false,
      text: 'Revision 1 expired on Jan 20. Issue the next revision at today’s prices, then record the decision on that one.',
      documentId: null,
    });
  expect((await wholeOf()).quote.state).toBe('issued');
  expect(await signDocument(open, signedOn('20'))).toMatchObject({ ok: true, documentId: expect.any(String) });
  const { quote, whole } = await wholeOf();
  expect([quote.state, quote.history.at(-1)?.instant]).toEqual(['accepted', '2020-01-20T17:00:00.000Z']);
  expect(whole.documents.find(({ kind }) => kind === 'signed-copy')?.signatures).toMatchObject([
    { role: 'customer', instant: '2020-01-20T17:00:00.000Z' },
  ]);
});
