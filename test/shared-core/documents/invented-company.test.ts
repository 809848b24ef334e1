/** A job of the user's own does not go out under the sample's company, nor does a sample job wait for another. */
import { expect, it } from 'vitest';
import { INVENTED_COMPANY, isSampleCompany } from '../../../shared-core/book/sample-company.ts';
import { newBusiness } from '../../../shared-core/book/typical-business.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { DOCUMENTS } from '../../../shared-core/documents/document-list.ts';
import { missingForLetterhead } from '../../../shared-core/documents/letterhead.ts';
import { issueQuote } from '../../../shared-core/price/issue-quote.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { sampleAt } from '../../sample-at.ts';

const NOW = '2026-05-12T15:00:00.000Z';
const found = wholeJobsOf(sampleAt(NOW)).find(({ job }) => job.id === 'sample-job-odell');
if (found === undefined) throw new Error('The sample has this job.');
const sample: WholeJob = found;
const own: WholeJob = { ...sample, job: { ...sample.job, id: 'own-job-0001' } };
const named = newBusiness(NOW, 'America/New_York', 'en-US');
const company = { ...named, name: 'Plumb Line Floors', ownerName: 'Ros Teague', phone: '555-0142' };

const issue = (whole: WholeJob) => issueQuote(whole, { id: 'quote-one', instant: NOW, by: 'Owner', note: '', earlier: [] });
const held = (whole: WholeJob) =>
  DOCUMENTS.filter((entry) => entry.missing(readJob(whole, NOW)) === INVENTED_COMPANY).map(({ reader }) => reader);

it('holds the quote and every document but the crew’s', () => {
  expect(issue(own)).toEqual({ ok: false, message: INVENTED_COMPANY });
  expect(held(own)).toEqual(DOCUMENTS.map(({ reader }) => reader).filter((reader) => reader !== 'crew'));
});

it('holds nothing of a sample job, and nothing under a company of the user’s own', () => {
  expect(issue(sample).ok).toBe(true);
  expect(held(sample)).toEqual([]);
  expect(issue({ ...own, business: company }).ok).toBe(true);
  expect(held({ ...own, business: company })).toEqual([]);
});

it('counts as the sample’s until the name, the address, the email, and the way to pay are the user’s', () => {
  const { name, address, email, contract } = sample.business;
  for (const part of [{ name }, { address }, { email }, { contract }]) expect(isSampleCompany({ ...company, ...part })).toBe(true);
  expect(isSampleCompany(company)).toBe(false);
});

it('asks for the name, the owner, the address, and a phone number or an email', () => {
  const full = { ...company, address: { ...company.address, line: '7 Weir Street' } };
  expect(missingForLetterhead(full)).toBeNull();
  expect(missingForLetterhead({ ...full, phone: '', email: 'office@plumb-line.invalid' })).toBeNull();
  expect(missingForLetterhead({ ...full, name: ' ' })).toBe('name');
  expect(missingForLetterhead({ ...full, ownerName: '' })).toBe('owner');
  expect(missingForLetterhead(company)).toBe('address');
  expect(missingForLetterhead({ ...full, phone: '' })).toBe('phone');
});
