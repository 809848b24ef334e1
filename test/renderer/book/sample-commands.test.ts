// @vitest-environment node
/** Opening and removing the sample data around the user's own records. */
import { beforeEach, describe, expect, it } from 'vitest';
import { changeBusiness } from '../../../renderer/book/business-commands.ts';
import { addVisit } from '../../../renderer/book/cure-commands.ts';
import { addCustomer, addProperty, addRoom, saveLead, startJob } from '../../../renderer/book/customer-commands.ts';
import type { Book } from '../../../renderer/book/database.ts';
import { changeJob, chooseMaterial } from '../../../renderer/book/job-commands.ts';
import { recordEntry } from '../../../renderer/book/ledger-commands.ts';
import { logPourEvent, storePour } from '../../../renderer/book/pour-log.ts';
import { addSample, enterOwnCompany, removeSample } from '../../../renderer/book/sample-commands.ts';
import { undo } from '../../../renderer/book/write.ts';
import { emptyAddress } from '../../../shared-core/book/new-records.ts';
import { isSampleCompany, SAMPLE_PREFIX } from '../../../shared-core/book/sample-company.ts';
import { TABLE_NAMES } from '../../../shared-core/book/tables.ts';
import { leadRecords } from '../../../shared-core/lead/lead-records.ts';
import { readLeadLine } from '../../../shared-core/lead/read-line.ts';
import { sampleAt } from '../../sample-at.ts';
import { checkBookRows } from '../../shared-core/book/check-book-rows.ts';
import { freshBook, NOW } from './fresh-book.ts';
import { made, readBookRows } from './whole-book.ts';

const SAMPLE = sampleAt(NOW);
const JOB = 'sample-job-lindqvist';
const YEAR = new Date().toLocaleDateString('en-US', { timeZone: 'America/New_York', year: '2-digit' });

let book: Book;
beforeEach(async () => {
  book = await freshBook();
});
const business = async () => {
  const row = await book.rowsOf('business').get('business');
  if (row === undefined) throw new Error('There is a company record.');
  return row;
};
const ownJob = async () => {
  const customerId = made(await addCustomer('Bo Marsh'));
  const propertyId = made(await addProperty(customerId, { ...emptyAddress('US'), line: '4 Ford Street' }, 'America/New_York'));
  const roomId = made(await addRoom(propertyId, 'Kitchen'));
  return { propertyId, roomId, jobId: made(await startJob(propertyId, [roomId], 'kitchen')) };
};
const numberOf = async (jobId: string) => (await book.rowsOf('jobs').get(jobId))?.number;
const problems = async () => checkBookRows(await readBookRows(), []);

describe('the company record', () => {
  it('is as it was after the sample is opened and removed', async () => {
    await changeBusiness('costs', (b) => ({ ...b, costs: { ...b.costs, ownHourMinor: 7100 } }));
    const before = await business();
    made(await addSample(SAMPLE));
    expect((await business()).name).toBe(SAMPLE.business[0]?.name);
    expect(await removeSample()).toEqual({ ok: true, value: 0 });
    expect(await business()).toEqual(before);
  });

  it('keeps what the user entered over the sample’s, and gives back the rest', async () => {
    made(await addSample(SAMPLE));
    await changeBusiness('name', { name: 'True Plane Floors', mark: 'data:image/png;base64,AA==' });
    await changeBusiness('address', (b) => ({ ...b, address: { ...b.address, line: '9 Mill Race' } }));
    await changeBusiness('license', (b) => ({ ...b, contract: { ...b.contract, license: 'C-8841' } }));
    await changeBusiness('rate', (b) => ({ ...b, taxRates: b.taxRates.map((rate) => ({ ...rate, rate: 0.07 })) }));
    made(await removeSample());
    expect(await business()).toMatchObject({
      name: 'True Plane Floors',
      mark: 'data:image/png;base64,AA==',
      address: { line: '9 Mill Race', city: '', region: '' },
      contract: { license: 'C-8841', paymentCode: '' },
      taxRates: [{ id: 'sales', name: 'Sales tax', rate: 0.07 }],
      ownerName: '',
      phone: '',
      lienRules: [],
    });
  });

  it('becomes the user’s own again while the sample stays, with what they entered', async () => {
    await changeBusiness('costs', (b) => ({ ...b, costs: { ...b.costs, ownHourMinor: 7100 } }));
    made(await addSample(SAMPLE));
    await changeBusiness('name', { name: 'True Plane Floors' });
    // The address and the way to pay are still the sample's.
    expect(isSampleCompany(await business())).toBe(true);
    made(await enterOwnCompany());
    const own = await business();
    expect(own).toMatchObject({ name: 'True Plane Floors', phone: '', costs: { ownHourMinor: 7100 }, contract: { warrantyMonths: null } });
    expect(own.nextJobSerial).toBe(Math.max(...SAMPLE.jobs.map(({ number }) => Number(number.slice(3)))) + 1);
    expect(isSampleCompany(own)).toBe(false);
    // What is entered now is the user's, even where the sample had the same.
    await changeBusiness('phone', { phone: SAMPLE.business[0]?.phone ?? '' });
    made(await removeSample());
    expect(await business()).toMatchObject({ name: 'True Plane Floors', phone: SAMPLE.business[0]?.phone });
  });

  it('gives its time zone to the properties that were entered under the sample’s, where nothing is planned', async () => {
    await changeBusiness('time zone', { timeZone: 'America/Chicago' });
    made(await addSample(SAMPLE));
    const { timeZone } = await business();
    expect(timeZone).not.toBe('America/Chicago');
    const customerId = made(await addCustomer('Bo Marsh'));
    const enter = async (zone: string) => made(await addProperty(customerId, emptyAddress('US'), zone));
    const planned = await enter(timeZone);
    const jobId = made(await startJob(planned, [made(await addRoom(planned, 'Hall'))], 'hall'));
    await changeJob(jobId, 'planned the handover', { handoverAt: '2999-06-01T12:00:00.000Z' });
    const ids = [planned, await enter('America/Denver'), await enter(timeZone)];
    made(await enterOwnCompany());
    const zones = (await book.rowsOf('properties').bulkGet(ids)).map((property) => property?.timeZone);
    // The handover stays at the hour that was entered.
    expect(zones).toEqual([timeZone, 'America/Denver', 'America/Chicago']);
    expect((await book.rowsOf('properties').get('sample-pennant-hill'))?.timeZone).toBe(timeZone);
    // Undo still finds the property as it was left.
    expect(await undo()).toMatchObject({ ok: true });
    expect(await book.rowsOf('properties').get(ids[2] ?? '')).toBeUndefined();
  });

  it('becomes a new one where a restored backup has the sample’s without what it replaced', async () => {
    made(await addSample(SAMPLE));
    await book.meta.clear();
    await changeBusiness('license', (b) => ({ ...b, contract: { ...b.contract, license: 'C-8841' } }));
    made(await removeSample());
    expect(await business()).toMatchObject({
      name: '',
      phone: '',
      address: { line: '' },
      contract: { license: 'C-8841', paymentCode: '' },
    });
  });

  it('counts on after the user’s own jobs, so that no number is given twice', async () => {
    made(await addSample(SAMPLE));
    const first = await ownJob();
    expect(await numberOf(first.jobId)).toBe(`${YEAR}-034`);
    made(await removeSample());
    const next = made(await addRoom(first.propertyId, 'Hall'));
    expect(await numberOf(made(await startJob(first.propertyId, [next], 'hall')))).toBe(`${YEAR}-035`);
    expect(await problems()).toEqual([]);
  });

  it('with a name counts past the sample’s jobs while they are there, and goes back to its own count after', async () => {
    await changeBusiness('name', { name: 'True Plane Floors' });
    await ownJob();
    made(await addSample(SAMPLE));
    expect((await business()).nextJobSerial).toBe(SAMPLE.business[0]?.nextJobSerial);
    made(await removeSample());
    expect(await business()).toMatchObject({ name: 'True Plane Floors', nextJobSerial: 2 });
  });

  it('does not start new rooms with a sample material that is gone', async () => {
    made(await addSample(SAMPLE));
    const [material] = SAMPLE.materials;
    const [room] = SAMPLE.jobs.find((job) => job.id === JOB)?.rooms ?? [];
    if (material === undefined || room === undefined) throw new Error('The sample has materials.');
    expect(material.id.startsWith(SAMPLE_PREFIX)).toBe(true);
    await chooseMaterial(JOB, room.roomId, { usual: 'usualMaterialId', id: material.id }, { materialId: material.id });
    expect((await business()).usualMaterialId).toBe(material.id);
    made(await removeSample());
    expect((await business()).usualMaterialId).toBeNull();
    // Also after the user entered their own company, with the sample still open.
    made(await addSample(SAMPLE));
    made(await enterOwnCompany());
    await chooseMaterial(JOB, room.roomId, { usual: 'usualMaterialId', id: material.id }, { materialId: material.id });
    expect((await business()).usualMaterialId).toBe(material.id);
    made(await removeSample());
    expect((await business()).usualMaterialId).toBeNull();
  });
});

describe('removing the sample', () => {
  it('deletes what was added to its jobs, and undo does not stop at it', async () => {
    await changeBusiness('name', { name: 'True Plane Floors' });
    made(await addSample(SAMPLE));
    const pour = SAMPLE.pours[0];
    if (pour === undefined) throw new Error('The sample has pours.');
    const own = {
      kind: 'payment',
      onDay: '2026-05-12',
      note: '',
      amountMinor: 5000,
      method: 'check',
      reference: '',
      invoiceId: null,
    } as const;
    for (const jobId of [JOB, pour.jobId]) made(await recordEntry({ ...own, jobId }));
    made(await addVisit({ jobId: JOB, roomIds: [], kind: 'own', title: 'Look', instant: NOW, minutes: 30 }));
    made(await storePour({ ...pour, id: 'own-pour-1' }, []));
    made(await logPourEvent({ id: 'own-event-1', pourId: 'own-pour-1', instant: NOW, estimated: false, kind: 'bags-added', bags: 1 }));
    made(await removeSample());
    const rows = await readBookRows();
    expect(TABLE_NAMES.filter((table) => rows[table].length > 0)).toEqual(['business']);
    // The last edit left is the one before the sample.
    expect(await undo()).toEqual({ ok: true, value: 'name' });
  });

  it('keeps the sample records that the user’s own name, and their own records', async () => {
    made(await addSample(SAMPLE));
    const known = SAMPLE.customers[0];
    const knownProperty = SAMPLE.properties.find((one) => one.customerId === known?.id);
    const material = SAMPLE.materials[0]?.id ?? '';
    if (known === undefined || knownProperty === undefined) throw new Error('The sample has customers.');
    const read = readLeadLine('Ann, porch 8x10', { now: NOW, zone: 'America/New_York', units: 'us', locale: 'en-US', country: 'US' });
    let count = 0;
    const newId = () => `own-${(count += 1).toString().padStart(4, '0')}`;
    const records = leadRecords(read, {
      ...{ now: NOW, newId, zone: 'America/New_York', address: emptyAddress('US'), units: 'us', locale: 'en-US' },
      known,
      knownProperty,
      knownRooms: [],
    });
    const { jobId } = made(await saveLead(records, true));
    await book.rowsOf('jobs').update(jobId ?? '', (job) => {
      job.rooms = job.rooms.map((room) => ({ ...room, moistureSystemId: material }));
    });
    expect(await removeSample()).toEqual({ ok: true, value: 3 });
    expect((await book.rowsOf('materials').toArray()).map(({ id }) => id)).toEqual([material]);
    expect((await book.rowsOf('customers').toArray()).map(({ id }) => id)).toEqual([known.id]);
    expect((await book.rowsOf('properties').toArray()).map(({ id }) => id)).toEqual([knownProperty.id]);
    expect((await problems()).filter(({ kind }) => kind !== 'no-picture')).toEqual([]);
  });
});
