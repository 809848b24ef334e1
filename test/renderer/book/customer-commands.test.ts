// @vitest-environment node
/** Leads, and the jobs that start from them or from a property. */
import { beforeEach, describe, expect, it, vi } from 'vitest';
import {
  addCustomer,
  addCustomers,
  addProperty,
  addRoom,
  closeLead,
  saveLead,
  startJob,
  startLeadJob,
} from '../../../renderer/book/customer-commands.ts';
import type { Book } from '../../../renderer/book/database.ts';
import { fixProblem, fixWord } from '../../../renderer/book/fix-problem.ts';
import { putJob } from '../../../renderer/book/job-commands.ts';
import { addToJob } from '../../../renderer/book/job-rooms.ts';
import { undo } from '../../../renderer/book/write.ts';
import { emptyAddress } from '../../../shared-core/book/new-records.ts';
import { leadRecords } from '../../../shared-core/lead/lead-records.ts';
import { type LineContext, readLeadLine } from '../../../shared-core/lead/read-line.ts';
import { typicalId, typicalMaterials } from '../../../shared-core/material/typical-materials.ts';
import { checkBookRows } from '../../shared-core/book/check-book-rows.ts';
import { freshBook, NOW } from './fresh-book.ts';
import { made, readBookRows } from './whole-book.ts';

const ZONE = 'America/New_York';
let book: Book;
let customerId = '';
let propertyId = '';
beforeEach(async () => {
  book = await freshBook();
  customerId = made(await addCustomer('Dana Wicklow'));
  propertyId = made(await addProperty(customerId, { ...emptyAddress('US'), line: '9 Mill Race' }, ZONE));
});
const jobs = () => book.rowsOf('jobs').toArray();
const roomsOf = async (jobId: string) => (await book.rowsOf('jobs').get(jobId))?.rooms.map((r) => r.roomId);
let count = 0;
const newId = () => `lead-${(count += 1).toString().padStart(4, '0')}`;
const LINE: LineContext = { now: NOW, zone: ZONE, units: 'us', locale: 'en-US', country: 'US' };
/** A call from the customer on record. */
const called = async (line: string) => {
  const read = readLeadLine(line, LINE);
  const [known, knownProperty] = [await book.rowsOf('customers').get(customerId), await book.rowsOf('properties').get(propertyId)];
  if (known === undefined || knownProperty === undefined) throw new Error('The customer is on record.');
  const knownRooms = await book.rowsOf('rooms').where('propertyId').equals(propertyId).toArray();
  return leadRecords(read, {
    now: NOW,
    newId,
    zone: ZONE,
    address: emptyAddress('US'),
    units: 'us',
    locale: 'en-US',
    known,
    knownProperty,
    knownRooms,
  });
};
const storedLead = async (id: string) => {
  const lead = await book.rowsOf('leads').get(id);
  if (lead === undefined) throw new Error('The lead was saved.');
  return lead;
};

it('customers from a file have their contact, and an address where there is more than a country', async () => {
  const place = { line: '', city: '', region: '', zip: '', country: 'CA' };
  const row = { contact: 'Ann Rowe', phone: '', email: '', notes: '', more: [], fileRow: 2 };
  made(
    await addCustomers([
      { ...row, ...place, name: 'Rusk Floors', city: 'Akron' },
      { ...row, ...place, name: 'Bo Marsh', contact: '' },
    ]),
  );
  const stored = await book.rowsOf('customers').toArray();
  const named = (name: string) => stored.find((customer) => customer.name === name);
  expect(named('Rusk Floors')).toMatchObject({
    contacts: [{ name: 'Ann Rowe', role: '', phone: '', email: '' }],
    address: { ...place, city: 'Akron' },
  });
  expect(named('Bo Marsh')).toMatchObject({ contacts: [], address: null });
});

describe('the job of a lead', () => {
  it('has the rooms saved with it, and none that was poured before', async () => {
    const poured = made(await addRoom(propertyId, 'Kitchen'));
    await putJob({ id: made(await startJob(propertyId, [poured], 'kitchen')), number: '26-001' }, 'finished');
    const records = await called('Dana Wicklow, hall 4x20');
    made(await saveLead(records, false));
    const { jobId, roomId } = made(await startLeadJob(await storedLead(records.lead.id)));
    expect(await roomsOf(jobId)).toEqual(records.rooms.map(({ id }) => id));
    expect(roomId).toBe(records.rooms[0]?.id);
    expect(await storedLead(records.lead.id)).toMatchObject({ jobId });
    // One step of undo, the lead and the next number included.
    await undo();
    expect(await storedLead(records.lead.id)).toMatchObject({ jobId: null });
    expect(await jobs()).toHaveLength(1);
    expect((await book.rowsOf('business').get('business'))?.nextJobSerial).toBe(2);
  });

  it('has the rooms measured since, when the call named none', async () => {
    const poured = made(await addRoom(propertyId, 'Kitchen'));
    await putJob({ id: made(await startJob(propertyId, [poured], 'kitchen')), number: '26-001' }, 'finished');
    const records = await called('Dana Wicklow, visit tomorrow');
    made(await saveLead(records, false));
    const measured = made(await addRoom(propertyId, 'Hall'));
    expect(await roomsOf(made(await startLeadJob(await storedLead(records.lead.id))).jobId)).toEqual([measured]);
  });

  it('has the rooms of a finished job, when the call named none and none was measured since', async () => {
    const records = await called('Dana Wicklow, visit tomorrow');
    made(await saveLead(records, false));
    const lead = await storedLead(records.lead.id);
    expect(await startLeadJob(lead)).toMatchObject({ ok: false, message: 'Add a room to the property first.' });
    const kitchen = made(await addRoom(propertyId, 'Kitchen'));
    const before = { id: made(await startJob(propertyId, [kitchen], 'kitchen')), number: '24-001' };
    const message = 'Every room of this property is in an open job. Add a room, or finish that job first.';
    expect(await startLeadJob(lead)).toMatchObject({ ok: false, message });
    await putJob(before, 'finished');
    expect(await roomsOf(made(await startLeadJob(lead)).jobId)).toEqual([kitchen]);
  });

  it('starts with the primer and the depth for the floor that the call or the record named', async () => {
    await book.rowsOf('materials').bulkPut(typicalMaterials(typicalId, NOW, 'UTC'));
    const records = await called('Dana Wicklow, kitchen 12x14, den 10x12, carpet over plywood, 3/8 out');
    const { jobId } = made(await saveLead(records, true));
    // 3/8 in. over wood is typical: common practice, no source. An inch is 25.4 mm: NIST SP 811, appendix B.8.
    const start = { primerId: typicalId('primer-wood'), level: { leastThicknessM: expect.closeTo(0.375 * 0.0254, 9) } };
    const roomsIn = async (id: string | null) => (await book.rowsOf('jobs').get(id ?? ''))?.rooms;
    expect(await roomsIn(jobId)).toMatchObject([start, start]);
    await putJob({ id: jobId ?? '', number: '26-001' }, 'finished');
    const again = await startJob(propertyId, [records.lead.roomIds[0] ?? ''], 'kitchen');
    expect(await roomsIn(made(again))).toMatchObject([start]);
  });

  it('has the room of a finished job that the call named, and keeps what its record lacked or has another value for', async () => {
    const kitchen = made(await addRoom(propertyId, 'Kitchen'));
    await putJob({ id: made(await startJob(propertyId, [kitchen], 'kitchen')), number: '24-001' }, 'finished');
    const records = await called('Dana Wicklow, hall 4x20, kitchen 12x14, tile over slab, 3/8 out');
    expect(records).toMatchObject({ rooms: [{ name: 'Hall' }], lead: { notes: '' } });
    const { jobId } = made(await saveLead(records, true));
    expect(await roomsOf(jobId ?? '')).toEqual([records.rooms[0]?.id, kitchen]);
    const room = await book.rowsOf('rooms').get(kitchen);
    // International foot of 0.3048 m: NIST SP 811, appendix B.8.
    expect(room).toMatchObject({ name: 'Kitchen', layers: [{ material: 'ceramic-tile' }, { material: 'concrete-on-ground' }] });
    expect(room?.plan.outline[2]?.xM).toBeCloseTo(12 * 0.3048, 9);
    // Another call: the record has its own size, layers and gap.
    const again = await called('Dana Wicklow, kitchen 13x14, vinyl over slab, 1/2 out, has a dog');
    made(await saveLead(again, false));
    expect(await book.rowsOf('rooms').get(kitchen)).toEqual(room);
    expect(await storedLead(again.lead.id)).toMatchObject({
      roomIds: [kitchen],
      notes: 'has a dog\nKitchen: 13′ 0″ × 14′ 0″\nFloor: vinyl over slab\nMax gap: ½″',
    });
  });

  it('is the one started at the property over a room of it, or that its room is added to', async () => {
    const kitchen = await called('Dana Wicklow, kitchen 12x14');
    const hall = await called('Dana Wicklow, hall 4x20');
    const none = await called('Dana Wicklow, call friday');
    for (const records of [kitchen, hall, none]) made(await saveLead(records, false));
    const jobOf = async ({ lead }: typeof hall) => (await storedLead(lead.id)).jobId;
    const jobId = made(await startJob(propertyId, kitchen.lead.roomIds, 'kitchen'));
    expect([await jobOf(kitchen), await jobOf(hall), await jobOf(none)]).toEqual([jobId, null, null]);
    const job = await book.rowsOf('jobs').get(jobId);
    if (job === undefined) throw new Error('The job was started.');
    made(await addToJob(job, hall.lead.roomIds, 'hall'));
    expect([await jobOf(kitchen), await jobOf(hall), await jobOf(none)]).toEqual([jobId, jobId, null]);
    // One step of undo each, the lead included.
    await undo();
    await undo();
    expect([await jobOf(kitchen), await jobOf(hall)]).toEqual([null, null]);
    // A call about the same room that is priced at once.
    const again = await called('Dana Wicklow, kitchen 12x14');
    const priced = made(await saveLead(again, true)).jobId;
    expect([await jobOf(again), await jobOf(kitchen), await jobOf(hall)]).toEqual([priced, priced, null]);
  });

  it('is not started again for a lead that was lost', async () => {
    const kitchen = await called('Dana Wicklow, kitchen 12x14');
    made(await saveLead(kitchen, false));
    made(await closeLead(kitchen.lead.id, 'lost', 'Price', 'America/New_York'));
    made(await startJob(propertyId, kitchen.lead.roomIds, 'kitchen'));
    expect(await storedLead(kitchen.lead.id)).toMatchObject({ state: 'lost', jobId: null });
  });

  it('can be started once the property is added, for a lead of a name alone', async () => {
    customerId = made(await addCustomer('June Park'));
    const { lead } = leadRecords(readLeadLine('June Park 555-0177', LINE), {
      ...{ now: NOW, newId, zone: ZONE, address: emptyAddress('US'), units: 'us', locale: 'en-US', knownProperty: null, knownRooms: [] },
      known: (await book.rowsOf('customers').get(customerId)) ?? null,
    });
    made(
      await saveLead(
        { customer: null, property: null, rooms: [], lead, told: { phone: '', email: '', yearBuilt: null, rooms: [] } },
        false,
      ),
    );
    const added = made(await addProperty(customerId, { ...emptyAddress('US'), line: '4 Fell Road' }, ZONE));
    expect(await storedLead(lead.id)).toMatchObject({ propertyId: added });
    // Another property leaves it where it is.
    made(await addProperty(customerId, { ...emptyAddress('US'), line: '6 Fell Road' }, ZONE));
    expect(await storedLead(lead.id)).toMatchObject({ propertyId: added });
    const den = made(await addRoom(added, 'Den'));
    expect(await roomsOf(made(await startLeadJob(await storedLead(lead.id))).jobId)).toEqual([den]);
  });

  it('is started once, however often it is asked for at the same time', async () => {
    const records = await called('Dana Wicklow, hall 4x20');
    made(await saveLead(records, false));
    const lead = await storedLead(records.lead.id);
    const started = await Promise.all([startLeadJob(lead), startLeadJob(lead)]);
    expect(started.filter(({ ok }) => ok)).toHaveLength(1);
    expect(started).toContainEqual({ ok: false, message: 'This lead already has a job. Open it from the customer’s jobs.', where: '' });
    expect(await jobs()).toHaveLength(1);
  });
});

describe('a new job', () => {
  it('has a number of its own when two are started at the same time', async () => {
    const [hall, kitchen] = [made(await addRoom(propertyId, 'Hall')), made(await addRoom(propertyId, 'Kitchen'))];
    await Promise.all([startJob(propertyId, [hall], 'hall'), startJob(propertyId, [kitchen], 'kitchen')]);
    const year = new Date().toLocaleDateString('en-US', { timeZone: ZONE, year: '2-digit' });
    expect((await jobs()).map(({ number }) => number).sort()).toEqual([`${year}-001`, `${year}-002`]);
    expect((await book.rowsOf('business').get('business'))?.nextJobSerial).toBe(3);
  });

  it('has no room that another open job has: started, added to or reopened', async () => {
    const [hall, kitchen] = [made(await addRoom(propertyId, 'Hall')), made(await addRoom(propertyId, 'Kitchen'))];
    const first = made(await startJob(propertyId, [hall], 'hall'));
    const number = (await book.rowsOf('jobs').get(first))?.number ?? '';
    const refusal = {
      ok: false,
      message: `Hall is already in job ${number}, which is open. Finish that job first, or remove the room from it.`,
    };
    expect(await startJob(propertyId, [kitchen, hall], 'both')).toMatchObject(refusal);
    const second = await book.rowsOf('jobs').get(made(await startJob(propertyId, [kitchen], 'kitchen')));
    if (second === undefined) throw new Error('The job was started.');
    expect(await addToJob(second, [hall], 'hall')).toMatchObject(refusal);
    await putJob({ id: first, number }, 'finished');
    expect(await addToJob(second, [hall], 'hall')).toMatchObject({ ok: true });
    expect(await putJob({ id: first, number }, 'open')).toMatchObject({
      ok: false,
      message: `Hall is already in job ${second.number}, which is open. Finish that job first, or remove the room from it.`,
    });
  });

  it('is numbered in the year of the company’s own calendar, with the serials of that year', async () => {
    const started = async (name: string): Promise<string> =>
      made(await startJob(propertyId, [made(await addRoom(propertyId, name))], name));
    vi.useFakeTimers({ toFake: ['Date'] });
    try {
      // 7 pm in New York on December 31, midnight in Greenwich; then the new year in both.
      vi.setSystemTime('2027-01-01T00:00:00.000Z');
      const last = await started('Hall');
      vi.setSystemTime('2027-01-01T06:00:00.000Z');
      const first = await started('Kitchen');
      expect((await book.rowsOf('jobs').bulkGet([last, first])).map((job) => job?.number.slice(0, 3))).toEqual(['26-', '27-']);
    } finally {
      vi.useRealTimers();
    }
  });

  it('that has another’s number is given the next one', async () => {
    const [hall, kitchen] = [made(await addRoom(propertyId, 'Hall')), made(await addRoom(propertyId, 'Kitchen'))];
    const first = await book.rowsOf('jobs').get(made(await startJob(propertyId, [hall], 'hall')));
    const second = made(await startJob(propertyId, [kitchen], 'kitchen'));
    await book.rowsOf('jobs').update(second, { number: first?.number ?? '' });
    const problems = async () => checkBookRows(await readBookRows(), []);
    const [problem, ...others] = await problems();
    if (problem === undefined) throw new Error('Two jobs have one number.');
    expect([problem.kind, others, fixWord(problem)]).toEqual(['number', [], 'Use the next number']);
    made(await fixProblem(problem, new Date().toISOString()));
    expect(await problems()).toEqual([]);
    expect(new Set((await jobs()).map(({ number }) => number.slice(3)))).toEqual(new Set(['001', '003']));
    expect(fixWord({ ...problem, kind: 'number-issued' })).toBeNull();
  });

  it('has a number that no other job has, though the counter lags', async () => {
    const [hall, kitchen] = [made(await addRoom(propertyId, 'Hall')), made(await addRoom(propertyId, 'Kitchen'))];
    const numberOf = async (id: string) => (await book.rowsOf('jobs').get(id))?.number.slice(3);
    const first = made(await startJob(propertyId, [hall], 'hall'));
    await book.rowsOf('business').update('business', { nextJobSerial: 1 });
    const second = made(await startJob(propertyId, [kitchen], 'kitchen'));
    expect([await numberOf(first), await numberOf(second)]).toEqual(['001', '002']);
    await book.rowsOf('business').update('business', { nextJobSerial: 1 });
    made(await fixProblem({ table: 'jobs', id: second, kind: 'number', message: '' }, new Date().toISOString()));
    expect(await numberOf(second)).toBe('003');
    expect((await book.rowsOf('business').get('business'))?.nextJobSerial).toBe(4);
    // Numbers start again each year.
    await book.rowsOf('business').update('business', { nextJobSerial: 1 });
    made(await fixProblem({ table: 'jobs', id: second, kind: 'number', message: '' }, '2099-01-05T12:00:00.000Z'));
    expect((await book.rowsOf('jobs').get(second))?.number).toBe('99-001');
  });
});

describe('a lead of a customer on record', () => {
  const customer = () => book.rowsOf('customers').get(customerId);

  it('fills in the phone, the email and the year built that were not known', async () => {
    made(await saveLead(await called('Dana Wicklow 555-0142, dana@example.invalid, hall 4x20, built 1951'), false));
    expect(await customer()).toMatchObject({ phone: '555-0142', email: 'dana@example.invalid', more: [] });
    expect(await book.rowsOf('properties').get(propertyId)).toMatchObject({ yearBuilt: 1951 });
    await undo();
    expect(await customer()).toMatchObject({ phone: '', email: '' });
    expect(await book.rowsOf('leads').count()).toBe(0);
  });

  it('adds another phone and email to those known, each once, and leaves a known year', async () => {
    await book.rowsOf('customers').update(customerId, { phone: '(212) 555-0142', email: 'dana@example.invalid' });
    await book.rowsOf('properties').update(propertyId, { yearBuilt: 1951 });
    made(await saveLead(await called('Dana Wicklow, 212 555 0142, DANA@example.invalid'), false));
    expect(await customer()).toMatchObject({ phone: '(212) 555-0142', email: 'dana@example.invalid', more: [] });
    for (const line of ['Dana Wicklow 212 555 0177, w@example.invalid, built 1960', 'Dana Wicklow 212-555-0177, hall 4x20'])
      made(await saveLead(await called(line), false));
    expect(await customer()).toMatchObject({
      phone: '(212) 555-0142',
      email: 'dana@example.invalid',
      more: [
        { kind: 'phone', label: '', text: expect.stringMatching(/0177$/) },
        { kind: 'email', label: '', text: 'w@example.invalid' },
      ],
    });
    expect(await book.rowsOf('properties').get(propertyId)).toMatchObject({ yearBuilt: 1951 });
  });
});
