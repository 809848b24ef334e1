/** Whose name is printed where a customer signs. A company signs by a person with a title: common practice, no source. */
import { expect, it } from 'vitest';
import type { Signature } from '../../../shared-core/book/papers.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { completionCertificate } from '../../../shared-core/documents/certificates.ts';
import { changeOrderSheet } from '../../../shared-core/documents/change-order-sheet.ts';
import { handoverSheet } from '../../../shared-core/documents/handover-sheet.ts';
import { issueQuoteWithDocument } from '../../../shared-core/documents/issue-quote-document.ts';
import { signedCopy } from '../../../shared-core/documents/signed-copy.ts';
import type { DocumentTree } from '../../../shared-core/documents/tree.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { issue } from '../price/an-order.ts';
import { sampleJob } from './sample-job.ts';
import { flat } from './tree-text.ts';

const NOW = '2026-05-12T15:00:00.000Z';
/** The signature lines of a paper: the label, and the printed name with the label of its field. */
const signers = (tree: DocumentTree): string[] =>
  flat(tree.blocks).flatMap((block) => {
    const [signature, name] = block.kind === 'fields' ? block.fields : [];
    return signature?.label.includes(', signature') === true ? [`${signature.label} | ${name?.label}: ${name?.value ?? ''}`] : [];
  });
/** Those of the customer’s side. */
const ofCustomer = (tree: DocumentTree): string[] => signers(tree).filter((line) => /^(?:Customer|Second owner)/.test(line));
const named = (whole: WholeJob, name: string): WholeJob => ({ ...whole, customer: { ...whole.customer, name } });
const handedTo = (whole: WholeJob, ...names: (string | undefined)[]): WholeJob => ({
  ...whole,
  job: {
    ...whole.job,
    rooms: whole.job.rooms.map(({ handedOverTo: _, ...room }, i) => {
      const to = names[i % names.length];
      return to === undefined ? room : { ...room, handedOverAt: NOW, handedOverTo: to };
    }),
  },
});

function quoteFor(name: string) {
  const whole = named(sampleJob('26-031', NOW), name);
  const issued = issueQuoteWithDocument(readJob(whole, NOW), { id: 'quote-one', instant: NOW, by: 'Owner', note: '' });
  if (!issued.ok) throw new Error(issued.message);
  return issued.value;
}

it.each([
  ['Dale Tremaine', 'Customer, signature | Printed name: Dale Tremaine'],
  ['Vivian and Tom Odell', 'Customer, signature | Printed name: '],
  ['Ida Bloom & Per Lindqvist', 'Customer, signature | Printed name: '],
  ['Calder Row Rentals', 'Customer, signature for Calder Row Rentals | Printed name and title: '],
  ['The Odell Family Trust', 'Customer, signature for The Odell Family Trust | Printed name and title: '],
  // Surnames that are words of a company too, from memory. A person signs without a title.
  ['Barbara Hall', 'Customer, signature | Printed name: '],
  ['Mary B. Church', 'Customer, signature | Printed name: '],
  ['Hall, Barbara', 'Customer, signature | Printed name: '],
  ['Barbara Ann Hall, Jr.', 'Customer, signature | Printed name: '],
  ['Ida and Per Hall', 'Customer, signature | Printed name: '],
  ['Tom Hall and Sue Hall', 'Customer, signature | Printed name: '],
  ['Maria Hall & Tom Reed', 'Customer, signature | Printed name: '],
  ['Tom Hall/Sue Reed', 'Customer, signature | Printed name: '],
  ['Dr. Robert Hall', 'Customer, signature | Printed name: '],
  ['Mr. and Mrs. Hall', 'Customer, signature | Printed name: '],
  ['JOHN HALL', 'Customer, signature | Printed name: '],
  ['john hall', 'Customer, signature | Printed name: '],
  ['Barbara Hall-Smith', 'Customer, signature | Printed name: Barbara Hall-Smith'],
  ['Ann Rowe (unit 2)', 'Customer, signature | Printed name: Ann Rowe (unit 2)'],
  ['Smith and Son', 'Customer, signature for Smith and Son | Printed name and title: '],
  ['Hall & Reed Construction', 'Customer, signature for Hall & Reed Construction | Printed name and title: '],
  ['Calder Town Hall', 'Customer, signature for Calder Town Hall | Printed name and title: '],
  ['The Calder Row Church', 'Customer, signature for The Calder Row Church | Printed name and title: '],
  ['Church of Calder', 'Customer, signature for Church of Calder | Printed name and title: '],
  ['Hall Flooring', 'Customer, signature for Hall Flooring | Printed name and title: '],
])('leaves the name on the quote to write where %s signs and it is not known who', (name, line) => {
  const second = line.includes('signature for') ? [] : ['Second owner, if any, signature | Printed name: '];
  expect(ofCustomer(quoteFor(name).tree)).toEqual([line, ...second]);
});

// Two trustees often sign for their trust. Common practice, no source.
it('keeps the line of a second owner for a trust with two names', () => {
  const name = 'The Vivian and Tom Odell Trust';
  expect(ofCustomer(quoteFor(name).tree)).toEqual([
    `Customer, signature for ${name} | Printed name and title: `,
    'Second owner, if any, signature | Printed name: ',
  ]);
});

it('has a second owner sign for a company only where one is entered', () => {
  const whole = named(sampleJob('26-031', NOW), 'Calder Row Rentals');
  const property = { ...whole.property, secondOwner: { name: 'Dale Tremaine', phone: '', email: '' } };
  const of = (given: WholeJob) => {
    const issued = issueQuoteWithDocument(readJob(given, NOW), { id: 'quote-one', instant: NOW, by: 'Owner', note: '' });
    if (!issued.ok) throw new Error(issued.message);
    const changed = issue({});
    const quote = { ...changed, frozen: { ...changed.frozen, customer: given.customer, property: given.property } };
    const orders = quote.orders.map((order) => changeOrderSheet({ quote, order, photos: [], ledger: [] }));
    return [issued.value.tree, ...orders].map(ofCustomer).map((all) => all.slice(1));
  };
  const line = 'Second owner, signature | Printed name: Dale Tremaine';
  expect(of({ ...whole, property })).toEqual([[line], [line]]);
  expect(of({ ...whole, property: { ...property, secondOwner: null } })).toEqual([[], []]);
});

it('has the name that was signed with in the copy, also for a company', () => {
  const { tree, quote } = quoteFor('Calder Row Rentals');
  const signature: Signature = {
    ...{ role: 'customer', name: 'Nell Castor, manager', instant: NOW, optionId: null, signedSha256: 'c'.repeat(64) },
    ...{ picture: null, photoId: null },
  };
  const copy = signedCopy(tree, [signature], { zone: 'America/New_York', locale: 'en-US', business: tree.head.name, quote });
  expect(signers(copy)[0]).toBe('Customer, signature for Calder Row Rentals | Printed name and title: Nell Castor, manager');
});

it('prints on the handover papers who received the floors, where that is one person', () => {
  const last = (whole: WholeJob): string[] => {
    const reading = readJob(whole, NOW);
    const input = { reading, photos: [], now: NOW, revision: 1, changes: [] };
    const [received] = signers(handoverSheet(reading, input)).slice(-1);
    const [accepted] = signers(completionCertificate(input));
    return [received ?? '', accepted ?? ''];
  };
  const firm = sampleJob('26-011', NOW);
  expect(firm.customer.name).toBe('Calder Row Rentals');
  const blank = [
    'Received by, signature for Calder Row Rentals | Printed name and title: ',
    'Customer, signature for Calder Row Rentals | Printed name and title: ',
  ];
  expect(last(handedTo(firm, 'Nell Castor'))).toEqual(blank.map((line) => `${line}Nell Castor`));
  expect(last(handedTo(firm, undefined))).toEqual(blank);
  expect(last(handedTo(firm, 'Calder Row Rentals'))).toEqual(blank);
  const family = sampleJob('26-024', NOW);
  expect(last(handedTo(family, 'Jonas Finch'))[0]).toBe('Received by, signature | Printed name: Jonas Finch');
  expect(last(handedTo(family, 'Jonas Finch', 'Adaeze Abara'))[0]).toBe('Received by, signature | Printed name: ');
});
