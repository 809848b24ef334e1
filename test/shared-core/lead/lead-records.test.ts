import { describe, expect, it } from 'vitest';
import type { Customer } from '../../../shared-core/book/customer.ts';
import { newCustomer, newProperty } from '../../../shared-core/book/new-records.ts';
import { checkRow } from '../../../shared-core/book/rows.ts';
import { knownCustomer, leadRecords, withReach } from '../../../shared-core/lead/lead-records.ts';
import { changedNext } from '../../../shared-core/lead/read-step.ts';
import { FT, IN, OF, read, US } from './a-call.ts';

describe('the records of a lead', () => {
  it('are valid rows, with the rooms side by side', () => {
    const { customer, property, rooms, lead } = leadRecords(
      read('Dana Wicklow 555-0142, kitchen 12x14, hall 4x20, tile over slab, 3/8 out'),
      OF,
    );
    expect([checkRow('customers', customer), checkRow('properties', property), checkRow('leads', lead)]).toMatchObject([
      { ok: true },
      { ok: true },
      { ok: true },
    ]);
    expect(rooms.map((room) => checkRow('rooms', room).ok)).toEqual([true, true]);
    expect(rooms[1]?.plan.placedAt.xM).toBeGreaterThan(12 * FT);
    expect(rooms[0]).toMatchObject({
      ballpark: { kind: 'gap', gapM: expect.closeTo(0.375 * IN, 9), levelLengthM: expect.closeTo(6 * FT, 9) },
      survey: { readings: [] },
    });
    expect(lead).toMatchObject({ customerId: customer?.id, propertyId: property?.id, state: 'open', next: null });
  });

  // A pour over carpet, pad or floating plank cracks: common practice, no source.
  it.each<readonly [floor: string, fates: readonly string[]]>([
    ['carpet over plywood', ['remove', 'keep']],
    ['carpet over pad over felt over boards', ['remove', 'remove', 'remove', 'keep']],
    ['hardwood over felt over boards', ['keep', 'keep', 'keep']],
    ['vinyl over floating plank over slab', ['remove', 'remove', 'keep']],
    ['felt over boards', ['remove', 'keep']],
    ['carpet', ['remove']],
    ['tile over slab', ['keep', 'keep']],
  ])('remove of %s what cannot stay under a pour', (floor, fates) =>
    expect(leadRecords(read(`Dana Wicklow, kitchen 12x14, ${floor}`), OF).rooms[0]?.layers.map(({ fate }) => fate)).toEqual(fates),
  );

  it('have the property near the company unless the caller named the city', () => {
    const near = { ...OF, address: { line: '2 Elm Court', city: 'Tarrow Falls', region: 'VT', zip: '05499', country: 'US' } };
    const addressOf = (line: string) => leadRecords(read(line), near).property?.address;
    expect(addressOf('Dana Wicklow, kitchen 12x14')).toEqual({ line: '', city: 'Tarrow Falls', region: 'VT', zip: '', country: 'US' });
    expect(addressOf('Dana Wicklow, 9 Mill Lane, Lyme NH 03768')).toEqual({
      ...{ line: '9 Mill Lane', city: 'Lyme', region: 'NH', zip: '03768', country: 'US' },
    });
  });

  it('are only a customer and a lead when only a name is known', () => {
    expect(leadRecords(read('June Park'), OF)).toMatchObject({ property: null, rooms: [], customer: { name: 'June Park' } });
  });

  it('are added to a customer and a property on record', () => {
    const known: Customer = newCustomer({ id: 'customer-1', now: US.now }, 'Dana Wicklow');
    const knownProperty = newProperty(
      { id: 'property-1', now: US.now },
      known.id,
      { line: '9 Mill Race', city: '', region: '', zip: '', country: 'US' },
      US.zone,
    );
    const records = leadRecords(read('Dana Wicklow, hall 4x20'), { ...OF, known, knownProperty });
    expect(records).toMatchObject({ customer: null, property: null, lead: { customerId: known.id, propertyId: 'property-1' } });
    expect(records.rooms[0]?.propertyId).toBe('property-1');
  });

  it('have a next step for tomorrow when a step or a time was chosen without a date', () => {
    const changed = (text: string, change: Parameters<typeof changedNext>[1]) => changedNext(read(text), change, '2026-05-12');
    const tomorrow = { step: 'visit', day: '2026-05-13', clock: null };
    expect(changed('Dana Wicklow', { step: 'visit' })).toEqual(tomorrow);
    expect(changed('Dana Wicklow', { clock: '16:00' })).toEqual({ step: 'call-back', day: '2026-05-13', clock: '16:00' });
    expect(changed('Dana Wicklow, wants a site visit', { clock: '16:00' })).toEqual({ ...tomorrow, clock: '16:00' });
    expect(changed('Dana Wicklow, visit Thu 4pm', { step: 'quote-by' })).toEqual({ step: 'quote-by', day: '2026-05-14', clock: '16:00' });
    expect(changed('Dana Wicklow, visit Thu 4pm', { clock: null })).toEqual({ step: 'visit', day: '2026-05-14', clock: null });
    for (const change of [{ step: null }, { day: null }]) expect(changed('Dana Wicklow, visit Thu 4pm', change)).toBeNull();
    expect(changed('Dana Wicklow', { clock: null })).toBeNull();
  });

  it('put words that name no layer in the notes', () => {
    const records = leadRecords({ ...read('Dana, hall 4x20'), floor: 'cork over mud' }, OF);
    expect(records.rooms[0]?.layers).toEqual([]);
    expect(records.lead.notes).toBe('Floor: cork over mud');
  });

  it('find the customer by phone first, then email, then name', () => {
    const one = { ...newCustomer({ id: 'customer-1', now: US.now }, 'Dana Wicklow'), phone: '(212) 555-0142' };
    const two = { ...newCustomer({ id: 'customer-2', now: US.now }, 'Dana Wicklow'), email: 'dana@example.invalid' };
    expect(knownCustomer({ name: 'D. W.', phone: '+1 212 555 0142', email: '' }, [two, one])?.id).toBe('customer-1');
    expect(knownCustomer({ name: '', phone: '', email: 'DANA@example.invalid' }, [one, two])?.id).toBe('customer-2');
    expect(knownCustomer({ name: 'dana  wicklow', phone: '', email: '' }, [one, two])?.id).toBe('customer-1');
    expect(knownCustomer({ name: 'Dana', phone: '555', email: '' }, [one, two])).toBeNull();
    const office = { ...one, phone: '212-555-0142 x12' };
    expect(knownCustomer({ name: '', phone: '212 555 0142', email: '' }, [two, office])?.id).toBe('customer-1');
    expect(knownCustomer({ name: '', phone: '(312) 555-0142', email: '' }, [one, two])).toBeNull();
    // Without the area code, and one of two numbers in a field; a number with its area code comes first.
    expect(knownCustomer({ name: '', phone: '555-0142', email: '' }, [two, office])?.id).toBe('customer-1');
    const both = { ...two, phone: '555-0199 / 212-555-0142' };
    expect(knownCustomer({ name: '', phone: '212-555-0142', email: '' }, [{ ...one, phone: '555-0142' }, both])?.id).toBe('customer-2');
    // An extension that is not on record is added, and a known number is not added again.
    const reached = (phone: string) => withReach(office, { phone, email: '' }).more.map(({ text }) => text);
    expect([reached('(212) 555-0142'), reached('212-555-0142 ext. 12'), reached('212-555-0142 x34')]).toEqual([
      [],
      [],
      ['212-555-0142 x34'],
    ]);
    // Without the area code it is the number on record; with it, it is more than what is on record. One of two numbers in a field is known.
    expect([reached('555-0142'), reached('555-0142 x34')]).toEqual([[], ['555-0142 x34']]);
    const further = (customer: Customer, told: { phone: string; email: string }) => withReach(customer, told).more.map(({ text }) => text);
    expect(further({ ...office, phone: '555-0142' }, { phone: '212-555-0142', email: '' })).toEqual(['212-555-0142']);
    const several = { ...both, email: 'a@example.invalid; b@example.invalid' };
    for (const phone of ['212 555 0142', '555-0142', '555-0199'])
      expect(further(several, { phone, email: 'B@example.invalid' })).toEqual([]);
    // Of several that are told, only those that are not on record are added.
    const told = { phone: '555-0142 / 212-555-0188', email: 'b@example.invalid; c@example.invalid' };
    expect(further(several, told)).toEqual(['212-555-0188', 'c@example.invalid']);
    const more = { ...office, more: [{ kind: 'phone' as const, label: 'cell', text: '(212) 555-0177' }] };
    expect(further(more, { phone: '555-0177', email: '' })).toEqual(['(212) 555-0177']);
    expect(knownCustomer({ name: '', phone: '', email: 'b@example.invalid' }, [one, several])?.id).toBe('customer-2');
  });
});
