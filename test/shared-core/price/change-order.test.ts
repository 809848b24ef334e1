/** Change orders: totals as in any contract account (base + signed orders), with the accepted quote unchanged. */
import { describe, expect, it } from 'vitest';
import type { Quote, QuotedOption } from '../../../shared-core/book/quote.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { whatBecame } from '../../../shared-core/agenda/became.ts';
import { contractOfJob } from '../../../shared-core/ledger/job-contract.ts';
import { invoicesToIssue } from '../../../shared-core/ledger/next-invoice.ts';
import { issueQuote } from '../../../shared-core/price/issue-quote.ts';
import {
  contractBasis,
  decideOrder,
  enteredPrice,
  issueOrder,
  jobAfterOrder,
  type NewOrder,
  proposeOrder,
} from '../../../shared-core/price/change-order.ts';
import { acceptedOption } from '../../../shared-core/learn/job-review.ts';
import { loggedHours } from '../../../shared-core/learn/logged-hours.ts';
import { jobRecord } from '../../../shared-core/documents/job-record.ts';
import { dataLists } from '../../../shared-core/documents/lists/data-lists.ts';
import { dataCsv } from '../../../shared-core/documents/lists/data-table.ts';
import { sampleAt } from '../../sample-at.ts';
import { textOf } from '../documents/tree-text.ts';
import { addedKey } from '../../../shared-core/price/line.ts';
import { quoteDifferences } from '../../../shared-core/price/quote-differences.ts';
import { priceOnDay } from '../../../shared-core/price/price-on-day.ts';
import { estimateJob } from '../../../shared-core/price/estimate-job.ts';
import { layer, mark, test as floorTest } from '../substrate/a-floor.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { nextStep } from '../../../shared-core/standing/next-step.ts';
import { agreed, base, draft, issue, NOW, PLACE, sign, whole } from './an-order.ts';

describe('a change order', () => {
  it('proposes nothing while the job is as accepted', () => {
    const proposal = proposeOrder(base, whole, [], PLACE, NOW.slice(0, 10));
    expect(proposal).toMatchObject({ netMinor: 0, totalMinor: 0, taxes: [], addedDays: 0, roomIds: [], differences: [] });
  });

  it('keeps the rounding the contract was priced with, whatever Settings has now', () => {
    const rounded = <T extends { readonly business: WholeJob['business'] }>(of: T, rounding: 'line' | 'rate' | 'total'): T => ({
      ...of,
      business: { ...of.business, pricing: { ...of.business.pricing, rounding } },
    });
    for (const agreedTo of ['line', 'rate', 'total'] as const) {
      const quote = { ...base, frozen: rounded(base.frozen, agreedTo) };
      const priced = (['line', 'rate', 'total'] as const).map(
        (now) => proposeOrder(quote, rounded(whole, now), [], PLACE, NOW.slice(0, 10)).priced,
      );
      expect(priced[1]).toEqual(priced[0]);
      expect(priced[2]).toEqual(priced[0]);
    }
  });

  it('proposes nothing for another crew, which is how the work is done and not what was bought', () => {
    const alone = (room: WholeJob['job']['rooms'][number]) => ({
      ...room,
      pourPlan: room.pourPlan && { ...room.pourPlan, crew: { ...room.pourPlan.crew, mixers: 1, carriers: 0, spreaders: 1 } },
    });
    const job = { ...whole.job, crewNames: ['Ros Teague', 'Bea Lorne', 'Sam Pike', 'Lee Oda'], rooms: whole.job.rooms.map(alone) };
    expect(estimateJob({ ...whole, job }, NOW.slice(0, 10), NOW.slice(0, 10)).base.price.netMinor).not.toBe(
      estimateJob(whole, NOW.slice(0, 10), NOW.slice(0, 10)).base.price.netMinor,
    );
    expect(proposeOrder(base, { ...whole, job }, [], PLACE, NOW.slice(0, 10))).toMatchObject({ netMinor: 0, differences: [] });
  });

  it('says what is added or taken off for the whole job, which touches no room', () => {
    const line = { id: 'added-00001', roomId: null, kind: 'other' as const, name: 'Haul away debris', costMinor: 50_000, taxId: null };
    const estimate = { ...whole.job.estimate, added: [...whole.job.estimate.added, line] };
    const propose = (of: WholeJob['job']['estimate']) =>
      proposeOrder(base, { ...whole, job: { ...whole.job, estimate: of } }, [], PLACE, NOW.slice(0, 10));
    const { differences, roomIds, netMinor } = propose(estimate);
    expect(netMinor).toBeGreaterThan(0);
    expect(roomIds).toEqual([]);
    expect(differences).toMatchObject([{ roomId: null, text: expect.stringMatching(/^Haul away debris: added, \$[\d,.]+\.$/) }]);
    const discounted = propose({ ...estimate, discountMinor: whole.job.estimate.discountMinor + 10_000 });
    expect(discounted.netMinor).toBe(netMinor - 10_000);
    expect(discounted.differences).toMatchObject([...differences, { roomId: null, text: expect.stringMatching(/^Discount: /) }]);
  });

  it('does not change the payments: they are those of the accepted quote', () => {
    const stages = [0.3, 0.4, 0.3].map((share, i) => ({ name: `Payment ${i + 1}`, share, due: 'on-handover' as const }));
    const job = { ...whole.job, estimate: { ...whole.job.estimate, stages } };
    const proposal = proposeOrder(base, { ...whole, job }, [], PLACE, NOW.slice(0, 10));
    expect(proposal).toMatchObject({ totalMinor: 0, differences: [], priced: { stages: contractBasis(base).stages } });
    // What the Quote screen compares.
    const only = (option: QuotedOption) => ({ suggestedId: option.id, options: [option] });
    expect(quoteDifferences(only(contractBasis(base)), only(proposal.priced), PLACE).differences).toEqual([]);
  });

  it('is priced from what changed, at the contract’s rates whatever the rates are now', () => {
    const deeper = (job: WholeJob['job']) => ({
      ...job,
      rooms: job.rooms.map((room) =>
        room.roomId === 'sample-living' ? { ...room, level: { ...room.level, leastThicknessM: room.level.leastThicknessM + 0.006 } } : room,
      ),
    });
    const changed = { ...whole, job: deeper(whole.job) };
    const dear = { ...changed, business: { ...whole.business, pricing: { ...whole.business.pricing, share: 3 } } };
    const proposal = proposeOrder(base, changed, [], PLACE, NOW.slice(0, 10));
    expect(proposal.netMinor).toBeGreaterThan(0);
    // A second lift is primed from jugs that the rooms share: their prices move too, and their work does not.
    const primerIn = ({ lines }: QuotedOption) => lines.find(({ key }) => key === 'sample-dining/primer')?.priceMinor;
    expect(primerIn(proposal.priced)).not.toBe(primerIn(contractBasis(base)));
    expect(proposal.roomIds).toEqual(['sample-living']);
    expect(proposal.totalMinor).toBe(proposal.netMinor + proposal.taxes.reduce((sum, tax) => sum + tax.taxMinor, 0));
    expect(proposeOrder(base, dear, [], PLACE, NOW.slice(0, 10)).netMinor).toBe(proposal.netMinor);
    // After it is signed, nothing is left to propose.
    const signed = sign(issue({ ...proposal, roomIds: [...proposal.roomIds] }));
    expect(proposeOrder(signed, changed, [], PLACE, NOW.slice(0, 10)).netMinor).toBe(0);
  });

  /** The same job, its living room with these tests, on a slab, or with another floor. */
  const withRoom = (of: WholeJob, change: Partial<WholeJob['rooms'][number]>): WholeJob => ({
    ...of,
    rooms: of.rooms.map((room) => (room.id === 'sample-living' ? { ...room, ...change } : room)),
  });
  const accept = (of: WholeJob): Quote => {
    const issued = issueQuote(of, { id: 'quote-00001', instant: NOW, by: 'Ros Teague', note: '', earlier: [] });
    if (!issued.ok) throw new Error(issued.message);
    return { ...issued.value.quote, state: 'accepted', acceptedOptionId: 'base' };
  };
  const LATER = '2026-07-20';
  const slab = layer('concrete-on-ground', { yearInstalled: 2001 });
  const RH = (id: string, takenAt = NOW) => floorTest.humidity({ id: `humidity-${id}`, takenAt });
  const onSlab = (tests: WholeJob['rooms'][number]['tests']): WholeJob => {
    const job = { ...whole.job, rooms: whole.job.rooms.map((room) => ({ ...room, flooring: 'wood-glued' as const })) };
    return withRoom({ ...whole, job, quotes: [] }, { layers: [slab], tests });
  };

  it('is not for the moisture tests that are in the price, whether they are made or grow old', () => {
    const taken = ['a', 'b', 'c'].map((id) => RH(id));
    const [none, made] = [onSlab([]), onSlab(taken)];
    const quote = accept(none);
    expect(quote.priced.options[0]?.lines.length).toBeGreaterThan(0);
    expect(accept(made).priced.options[0]?.netMinor).toBeLessThan(quote.priced.options[0]?.netMinor ?? 0);
    for (const [of, now] of [
      [quote, made],
      [accept(made), made],
      [accept(made), none],
    ] as const)
      expect(proposeOrder(of, now, [], PLACE, LATER)).toMatchObject({ netMinor: 0, differences: [] });
    // A real change has the same price beside them.
    const wider = (of: WholeJob) =>
      withRoom(of, {
        marks: [
          mark('crack', {
            points: [
              { xM: 0, yM: 0 },
              { xM: 3, yM: 0 },
            ],
          }),
        ],
      });
    const { netMinor: net, differences } = proposeOrder(quote, wider(none), [], PLACE, LATER);
    expect(net).toBeGreaterThan(0);
    // No figure of a room tells a crack to the customer, so the lines that changed do.
    expect(differences.map(({ text }) => text)).toEqual(['Living room, added: crack filler.', 'Living room, changed: prepare the floor.']);
    expect(proposeOrder(quote, wider(made), [], PLACE, LATER).netMinor).toBe(net);
  });

  // 29 CFR 1926.1101(k)(1): flooring installed no later than 1980 counts as asbestos until a lab has not detected any.
  it('has a lab result that is later than the quote, and its job costs what its own estimate does', () => {
    const glue = layer('adhesive-other', { yearInstalled: 1970, fate: 'remove', thicknessM: 0.001 });
    const grinding = onSlab([RH('a'), RH('b'), RH('c')]);
    const job = {
      ...grinding.job,
      rooms: grinding.job.rooms.map((room) => ({ ...room, level: { ...room.level, mode: 'level' as const, grindMostM: 0.006 } })),
    };
    const before = withRoom({ ...grinding, job }, { layers: [glue, slab] });
    const quote = accept(before);
    const result = floorTest.lab({ id: 'result', layerId: glue.id, takenAt: '2026-05-20T15:00:00.000Z', resultOn: '2026-05-20' });
    const after = withRoom({ ...grinding, job }, { layers: [glue, slab], tests: [RH('a'), RH('b'), RH('c'), result] });
    const ground = (day: string) =>
      proposeOrder(quote, after, [], PLACE, day).priced.lines.filter(({ key }) => /^sample-living\/.*grind/.test(key)).length;
    expect([ground('2026-05-19'), ground('2026-05-20') > 0]).toEqual([0, true]);
    expect(proposeOrder(quote, after, [], PLACE, '2026-05-19').netMinor).toBe(0);
    const order = proposeOrder(quote, after, [], PLACE, '2026-05-20');
    expect(order.priced.bags).toBe(estimateJob(after, '2026-05-20').base.takeoff.bags);
    expect(order.priced.bags).toBeLessThan(contractBasis(quote).bags);
    expect(order.differences).not.toEqual([]);
  });

  /** A data sheet that the contract does not have: the living room's underlayment at its price of the quote, first priced today. */
  const laterSheet = (): WholeJob['materials'][number] => {
    const own = whole.job.rooms.find(({ roomId }) => roomId === 'sample-living')?.materialId;
    const sheet = base.frozen.materials.find(({ id }) => id === own);
    const price = sheet === undefined ? null : priceOnDay(sheet, base.issuedAt.slice(0, 10));
    if (sheet === undefined || price === null) throw new Error('The room has a priced data sheet.');
    return { ...sheet, id: 'later-sheet', prices: [{ from: '2026-05-12', minor: price.minor, note: '' }] };
  };
  const choosing = (of: Partial<WholeJob['job']['rooms'][number]>, materials: WholeJob['materials']): WholeJob => ({
    ...whole,
    materials: [...whole.materials, ...materials],
    job: { ...whole.job, rooms: whole.job.rooms.map((room) => (room.roomId === 'sample-living' ? { ...room, ...of } : room)) },
  });

  it('prices a data sheet that was first priced after the quote at its first price', () => {
    const sheet = laterSheet();
    // The same bags at the same price under another id: nothing to charge.
    expect(proposeOrder(base, choosing({ materialId: sheet.id }, [sheet]), [], PLACE, NOW.slice(0, 10))).toMatchObject({
      netMinor: 0,
      stops: [],
    });
    // Twice the price for each bag; a later rise does not count. The markup, the contingency, and the tax come on top.
    const [first] = sheet.prices;
    const dear = { ...sheet, prices: [...sheet.prices, { from: '2026-05-20', minor: 9_999_00, note: '' }] };
    const twice = {
      ...dear,
      prices: dear.prices.map((price) => (price.from === first?.from ? { ...price, minor: price.minor * 2 } : price)),
    };
    const bags = contractBasis(base).rooms.find(({ roomId }) => roomId === 'sample-living')?.bags ?? 0;
    const { method, share, contingencyShare } = base.frozen.business.pricing;
    const factor = (method === 'markup' ? 1 + share : 1 / (1 - share)) * (1 + contingencyShare);
    const { netMinor } = proposeOrder(base, choosing({ materialId: sheet.id }, [twice]), [], PLACE, NOW.slice(0, 10));
    expect(Math.abs(netMinor - bags * (first?.minor ?? 0) * factor)).toBeLessThanOrEqual(2);
  });

  it('prices a moisture mitigation system whose data sheet the quote froze without a price', () => {
    const system = base.frozen.materials.find(({ kind }) => kind === 'moisture-barrier');
    if (system === undefined) throw new Error('The quote froze a moisture mitigation system.');
    const sheet = { ...system, prices: [{ from: '2026-05-12', minor: 40_000, note: '' }] };
    const unpriced: Quote = {
      ...base,
      frozen: { ...base.frozen, materials: base.frozen.materials.map((one) => (one.id === sheet.id ? { ...one, prices: [] } : one)) },
    };
    // The system is not porous, so it takes another primer.
    const primer = whole.materials.find(({ primer: sheets }) => sheets.some(({ substrate }) => substrate === 'non-porous'));
    const changed = choosing({ moistureSystemId: sheet.id, primerId: primer?.id ?? null }, []);
    const now = { ...changed, materials: whole.materials.map((one) => (one.id === sheet.id ? sheet : one)) };
    const withIt = proposeOrder(unpriced, now, [], PLACE, NOW.slice(0, 10));
    const bare = { ...now, materials: now.materials.map((one) => (one.id === sheet.id ? { ...one, prices: [] } : one)) };
    const without = proposeOrder(unpriced, bare, [], PLACE, NOW.slice(0, 10));
    expect(withIt.stops).toEqual([]);
    // At least one kit at cost is in the one and not in the other, which therefore may not be issued.
    expect(withIt.netMinor - without.netMinor).toBeGreaterThan(40_000);
    expect(without.stops).toEqual([`${sheet.name} has no price. Enter the price of one kit in Materials.`]);
  });

  it('takes the hand-added lines of a room with it when the room leaves', () => {
    const ids = ['line-of-room', 'line-of-job'] as const;
    const line = (id: string, roomId: string | null) => ({
      id,
      roomId,
      kind: 'other' as const,
      name: 'Haul away',
      costMinor: 50_000,
      taxId: null,
    });
    const estimate = {
      ...whole.job.estimate,
      added: [line(ids[0], 'sample-living'), line(ids[1], null)],
      overrides: [
        { lineKey: addedKey(ids[0]), note: 'Agreed', priceMinor: 60_000, costMinor: null, leftOut: false },
        { lineKey: 'sample-living/bags', note: 'Agreed', priceMinor: 60_000, costMinor: null, leftOut: false },
        { lineKey: addedKey(ids[1]), note: 'Agreed', priceMinor: 70_000, costMinor: null, leftOut: false },
      ],
    };
    const withLines = { ...whole, job: { ...whole.job, estimate } };
    const gone = proposeOrder(base, withLines, ['sample-living'], PLACE, NOW.slice(0, 10)).priced.lines.map(({ key }) => key);
    expect(gone).toContain(addedKey(ids[1]));
    expect(gone).not.toContain(addedKey(ids[0]));
    const order = sign(issue({ withdrawnIds: ['sample-living'] })).orders[0];
    if (order === undefined) throw new Error('no order');
    const after = jobAfterOrder(withLines.job, order, 'America/New_York', () => true);
    expect(after.estimate.added.map(({ id }) => id)).toEqual([ids[1]]);
    expect(after.estimate.overrides.map(({ lineKey }) => lineKey)).toEqual([addedKey(ids[1])]);
    expect(proposeOrder(base, { ...withLines, job: after }, [], PLACE, NOW.slice(0, 10)).priced.lines.map(({ key }) => key)).toEqual(gone);
  });

  it('names the room of a line whose price was changed by hand, and the line', () => {
    const overrides = [{ lineKey: 'sample-living/bags', note: 'Agreed', priceMinor: 600_000, costMinor: null, leftOut: false }];
    const changed = { ...whole, job: { ...whole.job, estimate: { ...whole.job.estimate, overrides } } };
    const proposal = proposeOrder(base, changed, [], PLACE, NOW.slice(0, 10));
    expect(proposal.roomIds).toEqual(['sample-living']);
    expect(proposal.differences.map(({ text }) => text)).toEqual([expect.stringMatching(/^Living room, at a new price: .*underlayment/)]);
  });

  it('waits for the one before it, and counts from what was signed', () => {
    const waiting = issue({
      ...enteredPrice(50_000, null),
      priced: { ...contractBasis(base), netMinor: contractBasis(base).netMinor + 50_000 },
    });
    expect(issueOrder(waiting, draft({ id: 'order-00002' }), { quotes: [waiting] }, whole.job)).toEqual({
      ok: false,
      message: 'Change order 1 is not signed yet. Record that it was signed, declined or voided, then write the next one.',
    });
    const declined = decideOrder(waiting, 'order-00001', { state: 'declined', instant: NOW, by: 'Adaeze Abara' });
    if (!declined.ok) throw new Error(declined.message);
    // The declined work was never charged, so nothing is deducted for it.
    expect(proposeOrder(declined.value, whole, [], PLACE, NOW.slice(0, 10)).netMinor).toBe(0);
    expect(issueOrder(declined.value, draft({ id: 'order-00002' }), { quotes: [declined.value] }, whole.job)).toMatchObject({ ok: true });
    // Number 3 is on a quote that cannot be read.
    const after = issueOrder(declined.value, draft({ id: 'order-00002' }), { quotes: [declined.value], least: 4 }, whole.job);
    expect(after.ok && after.value.orders.at(-1)?.number).toBe(4);
    // Signing the second leaves the first declined.
    if (!after.ok) throw new Error(after.message);
    const signed = decideOrder(after.value, 'order-00002', { state: 'signed', instant: NOW, by: ' Adaeze Abara ' });
    expect(signed.ok && signed.value.orders.map(({ id, state, decidedBy }) => [id, state, decidedBy])).toEqual([
      ['order-00001', 'declined', 'Adaeze Abara'],
      ['order-00002', 'signed', 'Adaeze Abara'],
    ]);
    // Nor is it in the review of the job while it waits.
    expect(acceptedOption([waiting])?.netMinor).toBe(contractBasis(base).netMinor);
  });

  it('leaves the contract unchanged until it is signed, then adds to it, its tax and its last payment', () => {
    const tax = { id: 'tax', name: 'Sales tax', rate: 0.08 };
    const waiting = issue(enteredPrice(18_500, tax));
    expect(contractOfJob([waiting])).toEqual(agreed);
    const after = contractOfJob([sign(waiting)]);
    // 185.00 at 8% is 14.80 of tax, by hand.
    expect(after?.totalMinor).toBe(agreed.totalMinor + 18_500 + 1_480);
    expect(after?.taxes.find(({ taxId }) => taxId === 'tax')).toMatchObject({ baseMinor: 18_500, taxMinor: 1_480 });
    expect(after?.stages.reduce((sum, stage) => sum + stage.amountMinor, 0)).toBe(after?.totalMinor);
    expect(after?.stages.at(-1)?.amountMinor).toBe((agreed.stages.at(-1)?.amountMinor ?? 0) + 19_980);
    expect(after?.stages[0]).toEqual(agreed.stages[0]);
    const done = { accepted: true, poured: true, handedOver: true, thirtyDaysPast: true };
    const drafts = after === null ? [] : invoicesToIssue(after, [], done);
    expect(drafts.map((one) => one.totalMinor)).toEqual(after?.stages.map((stage) => stage.amountMinor));
    // The quote stays as accepted.
    expect({ ...sign(waiting), orders: [] }).toEqual(base);
  });

  it('subtracts a deduction from the last payments first', () => {
    const last = agreed.stages.at(-1)?.amountMinor ?? 0;
    const after = contractOfJob([sign(issue(enteredPrice(-last - 1_000, null)))]);
    expect(after?.stages.at(-1)?.amountMinor).toBe(0);
    expect(after?.stages.reduce((sum, stage) => sum + stage.amountMinor, 0)).toBe(agreed.totalMinor - last - 1_000);
  });

  it('holds the rooms it affects until it is signed, and no others', () => {
    const holds = (quote: Quote) =>
      readJob({ ...whole, quotes: [quote] }, NOW).bundle.summaries.filter((s) => s.holds.some((h) => h.key === 'change-order-1'));
    const waiting = issue({});
    expect(holds(waiting).map((summary) => summary.roomId)).toEqual(['sample-living']);
    expect(holds(sign(waiting))).toEqual([]);
    expect(nextStep(readJob({ ...whole, quotes: [waiting] }, NOW).bundle, 'sample-living', whole.business, NOW)).toMatchObject({
      sentence: 'On hold: change order 1 is not signed.',
      action: { opens: 'quote' },
    });
  });

  it('withdraws a room: its price is removed, and its records stay', () => {
    const proposal = proposeOrder(base, whole, ['sample-living'], PLACE, NOW.slice(0, 10));
    expect(proposal.netMinor).toBeLessThan(0);
    expect(proposal.differences).toContainEqual(expect.objectContaining({ roomId: 'sample-living', text: 'Living room was removed.' }));
    const order = sign(issue({ ...proposal, roomIds: [...proposal.roomIds], withdrawnIds: ['sample-living'] })).orders[0];
    if (order === undefined) throw new Error('no order');
    const job = jobAfterOrder(whole.job, order, 'America/New_York', () => true);
    expect(job.rooms.map((room) => room.roomId)).not.toContain('sample-living');
    expect(job.withdrawn).toEqual(whole.job.rooms.filter((room) => room.roomId === 'sample-living'));
    const after = contractOfJob([sign(issue({ ...proposal, roomIds: [...proposal.roomIds], withdrawnIds: ['sample-living'] }))]);
    expect(after?.totalMinor).toBe(proposal.priced.totalMinor);
    // The work that was signed in it stays worked.
    const workOf = (records: WholeJob) => {
      const list = dataLists({ ...sampleAt(NOW), jobs: [records.job] }).find(({ name }) => name === 'prep lines');
      const { bundle } = readJob({ ...records, job: { ...records.job, prepVisitAt: NOW } }, NOW);
      return {
        visit: whatBecame(bundle, records.business, { key: 'sample-job-abara:prep-visit:1', startAt: NOW }, NOW),
        hours: loggedHours(records),
        timeline: textOf(jobRecord(readJob(records, NOW), [], NOW, 1)).match(/^.*prep lines? signed.*$/gm),
        lines: list === undefined ? [] : dataCsv(list).split('\n').toSorted(),
      };
    };
    const before = workOf(whole);
    expect(before.hours.length).toBeGreaterThan(0);
    expect(before.visit.kind).toBe('done');
    expect(before.timeline?.join()).toContain('Living room');
    expect(workOf({ ...whole, job, rooms: whole.rooms.filter(({ id }) => id !== 'sample-living') })).toEqual(before);
  });

  it('moves future dates by the days it adds', () => {
    const pourAt = '2026-05-20T13:00:00.000Z';
    const job = { ...whole.job, handoverAt: '2026-05-30T13:00:00.000Z', rooms: whole.job.rooms.map((room) => ({ ...room, pourAt })) };
    const order = sign(issue({ addedDays: 2 })).orders[0];
    if (order === undefined) throw new Error('no order');
    const after = jobAfterOrder(job, order, 'America/New_York', () => true);
    expect(after.rooms.map((room) => [room.roomId, room.pourAt])).toEqual(
      job.rooms.map(({ roomId }) => [roomId, roomId === 'sample-living' ? '2026-05-22T13:00:00.000Z' : pourAt]),
    );
    expect(after.handoverAt).toBe('2026-06-01T13:00:00.000Z');
  });

  it('is refused without a reason, without a change, or twice; and an accepted quote has no further revision', () => {
    const say = (of: Partial<NewOrder>) => issueOrder(base, draft(of), { quotes: [base] }, whole.job);
    expect(say({ reason: ' ' })).toMatchObject({ ok: false });
    expect(say({ roomIds: [], ...enteredPrice(0, null) })).toMatchObject({ ok: false });
    expect(say({ withdrawnIds: whole.job.rooms.map((room) => room.roomId) })).toEqual({
      ok: false,
      message: expect.stringMatching(/record the cancellation of the contract under Quote\.$/),
    });
    expect(decideOrder(sign(issue({})), 'order-00001', { state: 'declined', instant: NOW, by: 'A' })).toMatchObject({ ok: false });
    expect(issueQuote(whole, { id: 'quote-00002', instant: NOW, by: 'Ros', note: '', earlier: [base] })).toMatchObject({ ok: false });
  });
});
