/** The work that a change order proposes to the customer, over changes of the sample’s contract. */
import { expect, it } from 'vitest';
import type { Quote } from '../../../shared-core/book/quote.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { orderWork } from '../../../shared-core/documents/order-work.ts';
import { proposeOrder } from '../../../shared-core/price/change-order.ts';
import { issueQuote } from '../../../shared-core/price/issue-quote.ts';
import { base, issue, NOW, PLACE, sign, whole } from '../price/an-order.ts';
import { layer, test } from '../substrate/a-floor.ts';

const LIVING = 'sample-living';
const workOf = (quote: Quote, now: WholeJob, withdrawn: readonly string[] = []): string[] =>
  orderWork(quote, proposeOrder(quote, now, withdrawn, PLACE, NOW.slice(0, 10)));
const withLiving = (of: WholeJob, change: (room: WholeJob['rooms'][number]) => WholeJob['rooms'][number]): WholeJob => ({
  ...of,
  rooms: of.rooms.map((room) => (room.id === LIVING ? change(room) : room)),
});
const accept = (of: WholeJob): Quote => {
  const issued = issueQuote(of, { id: 'quote-00001', instant: NOW, by: 'Ros Teague', note: '', earlier: [] });
  if (!issued.ok) throw new Error(issued.message);
  return { ...issued.value.quote, state: 'accepted', acceptedOptionId: 'base' };
};
const bare = withLiving({ ...whole, quotes: [] }, (room) => ({ ...room, layers: room.layers.filter(({ fate }) => fate !== 'remove') }));
const carpeted = withLiving(bare, (room) => ({ ...room, layers: [...room.layers, layer('carpet', { fate: 'remove' })] }));

it('says which work comes into the contract and which is no longer in it, as the scope of the quote has it', () => {
  const removal = 'remove and dispose of the existing flooring';
  expect(workOf(accept(carpeted), bare)).toEqual([`Living room, no longer in our work: ${removal}.`]);
  expect(workOf(accept(bare), carpeted)).toEqual([`Living room, added: ${removal}.`]);
  const deeper: WholeJob = {
    ...bare,
    job: {
      ...bare.job,
      rooms: bare.job.rooms.map((room) =>
        room.roomId === LIVING ? { ...room, level: { ...room.level, leastThicknessM: room.level.leastThicknessM + 0.006 } } : room,
      ),
    },
  };
  // Deep enough for a second lift, which has work of its own before it.
  const [between, changed = '', ...others] = workOf(accept(bare), deeper);
  expect(between).toMatch(/^Living room, added: abrade and vacuum [\d,]+ sq ft between lifts\.$/);
  expect(others).toEqual([]);
  expect(changed).toMatch(/^Living room, changed to: .*pour the floor level: [\d,]+ sq ft, .* deep.*; material: .*about \d+ bags/);
});

it('adds a room with its area, depth, prep and bags, and takes one out, neither as if it were done', () => {
  const { rooms } = whole.job;
  const without = { ...bare, job: { ...bare.job, rooms: rooms.filter(({ roomId }) => roomId !== LIVING) } };
  const [added = '', ...others] = workOf(accept(without), bare);
  expect(others).toEqual([]);
  expect(added).toMatch(
    /^Added to the contract: the living room\. .*Prime the floor, .*\. Pour the floor level: [\d,]+ sq ft, .* deep.*\. Material: .+, about \d+ bags.*\.$/,
  );
  expect(workOf(accept(bare), bare, [LIVING])).toEqual(['No longer in the contract: the living room.']);
});

type Line = WholeJob['job']['estimate']['added'][number];
const line: Line = { id: 'added-00001', roomId: LIVING, kind: 'other', name: 'Patch the threshold', costMinor: 50_000, taxId: null };
const trash: Line = { ...line, id: 'added-00002', name: 'Haul trash', costMinor: 10_000 };
const withLines = (of: WholeJob, ...lines: readonly Line[]): WholeJob => ({
  ...of,
  job: { ...of.job, estimate: { ...of.job.estimate, added: [...of.job.estimate.added, ...lines] } },
});

it('has work added by hand beside what it was, with its price where that alone changed', () => {
  expect(workOf(accept(bare), withLines(bare, line))).toEqual(['Living room, added: patch the threshold.']);
  expect(workOf(accept(withLines(bare, line)), bare)).toEqual(['Living room, no longer in our work: patch the threshold.']);
  // The sample's markup is 35 percent: 500 and 900 are sold at 675 and 1,215.
  const dearer = { ...line, costMinor: 90_000 };
  const repriced = 'Living room, patch the threshold: $1,215.00 (was $675.00).';
  expect(workOf(accept(withLines(bare, line)), withLines(bare, dearer, trash))).toEqual(['Living room, added: haul trash.', repriced]);
  expect(workOf(accept(withLines(bare, line)), withLines(bare, dearer))).toEqual([repriced]);
});

it('says once what several lines added by hand begin with', () => {
  const rest = withLines(
    bare,
    { ...line, name: 'rest of the floor: Prepare the floor' },
    { ...trash, name: 'rest of the floor: Pour and finish' },
  );
  expect(workOf(accept(bare), rest)).toEqual(['Living room, added: rest of the floor: prepare the floor; pour and finish.']);
});

it('has the sentences of the price where a signed order changed the room before, whichever rooms it names', () => {
  const { priced } = proposeOrder(base, withLines(whole, line), [], PLACE, NOW.slice(0, 10));
  const next = withLines(whole, line, trash);
  const added = [expect.stringMatching(/^Living room, haul trash: added, /)];
  for (const roomIds of [[], [LIVING]]) expect(workOf(sign(issue({ priced, roomIds })), next)).toEqual(added);
  // An order for the room that left the job as it was.
  expect(workOf(sign(issue({})), withLines(whole, trash))).toEqual(['Living room, added: haul trash.']);
});

it('takes out what is no longer scraped beside a layer that is scraped over another area', () => {
  const { outline } = bare.rooms.find(({ id }) => id === LIVING)?.plan ?? { outline: [] };
  const [from, to] = [Math.min(...outline.map(({ xM }) => xM)), Math.max(...outline.map(({ xM }) => xM))];
  const [top, foot] = [Math.min(...outline.map(({ yM }) => yM)), Math.max(...outline.map(({ yM }) => yM))];
  /** A strip of the room by shares of its length. */
  const strip = (a: number, b: number) => {
    const [left, right] = [from + (to - from) * a, from + (to - from) * b];
    return [
      { xM: left, yM: top },
      { xM: right, yM: top },
      { xM: right, yM: foot },
      { xM: left, yM: foot },
    ];
  };
  const rooms = bare.job.rooms.map((room) => (room.roomId === LIVING ? { ...room, primerId: 'sample-primer-non-porous' } : room));
  const glued = (...layers: readonly ReturnType<typeof layer>[]): WholeJob =>
    withLiving({ ...bare, job: { ...bare.job, rooms } }, (room) => ({ ...room, layers: [...layers, ...room.layers] }));
  const adhesive = (b: number) => layer('adhesive-other', { yearInstalled: 2015, area: strip(0, b) });
  const other = layer('adhesive-other', { id: 'the-loose-one', sound: 'loose', yearInstalled: 2015, area: strip(0.7, 1) });
  const work = workOf(accept(glued(adhesive(0.3), other)), glued(adhesive(0.5)));
  expect(work).toEqual([
    expect.stringMatching(/^Living room, changed to: scrape the old adhesive on [\d,]+ sq ft down to a thin film; abrade /),
    expect.stringMatching(/^Living room, no longer in our work: remove and dispose of the loose old adhesive on [^;]+\.$/),
  ]);
});

it('does not take out the removal of the flooring where only what it leaves out is another', () => {
  const tile = layer('resilient-tile', { yearInstalled: 1970 });
  const floor = (fate: 'remove' | 'keep'): WholeJob =>
    withLiving(carpeted, (room) => ({
      ...room,
      layers: [layer('carpet', { fate: 'remove' }), { ...tile, fate }, ...room.layers.filter((one) => one.fate === 'keep')],
      tests: [...room.tests, test.lab({ layerId: tile.id, state: 'found' })],
    }));
  const abated = 'a licensed abatement contractor removes the resilient tile (not in this price)';
  const quoted = accept(floor('remove'));
  const now = floor('keep');
  const left = { lineKey: `${LIVING}/disposal`, costMinor: null, priceMinor: null, leftOut: true, note: 'the owner' };
  const unpriced = { ...now, job: { ...now.job, estimate: { ...now.job.estimate, overrides: [left] } } };
  const has = (of: WholeJob, changed: string): void => {
    const work = workOf(quoted, of).join('\n');
    expect(work).toContain(`Living room, changed to: ${changed}.`);
    expect(work).toContain(`Living room, no longer in our work: ${abated}`);
    expect(work.match(/existing flooring/g)).toHaveLength(1);
  };
  has(now, 'remove and dispose of the existing flooring');
  has(unpriced, 'remove the existing flooring (disposal not in this price)');
});

/** The job with panels over the floor of the room, and a primer for wood. */
function laid(...panels: readonly ReturnType<typeof layer>[]): WholeJob {
  const primer = bare.materials.find(({ primer: uses }) => uses.some(({ substrate }) => substrate === 'wood'));
  const rooms = bare.job.rooms.map((room) => (room.roomId === LIVING ? { ...room, primerId: primer?.id ?? null } : room));
  return withLiving({ ...bare, job: { ...bare.job, rooms } }, (room) => ({ ...room, layers: [...panels, ...room.layers] }));
}

it('takes out one of two panels where the other has another thickness now', () => {
  const panel = (material: 'plywood' | 'osb', thicknessM: number) => layer(material, { thicknessM, laid: 'after-readings' });
  // An inch is 25.4 mm: 19.05 mm are ¾ in., 28.575 mm are 1⅛ in.
  const both = laid(panel('osb', 0.0127), panel('plywood', 0.01905));
  // A line of the user's own also changes what the panels' lines say of the price.
  for (const was of [both, withLines(both, line)]) {
    const work = workOf(accept(was), laid(panel('plywood', 0.028575)));
    expect(work.filter((one) => one.includes('new plywood, 1⅛″'))).toEqual([expect.stringMatching(/^Living room, changed to: /)]);
    expect(work.join('\n')).not.toContain('new plywood, ¾″');
    expect(work.find((one) => one.startsWith('Living room, no longer in our work: '))).toContain('new OSB, ½″');
  }
});

it('compares panels to be laid without what other lines say of them', () => {
  const plywood = layer('plywood', { thicknessM: 0.0127, laid: 'after-readings' });
  const panels = laid(plywood);
  const quoted = accept(panels);
  expect(
    workOf(
      quoted,
      withLiving(panels, (room) => ({ ...room, layers: room.layers.slice(1) })),
    ).join('\n'),
  ).toContain('new plywood');
  expect(workOf(quoted, withLines(panels, line))).toEqual(['Living room, added: patch the threshold.']);
  expect(workOf(accept(withLines(panels, line)), panels)).toEqual(['Living room, no longer in our work: patch the threshold.']);
});
