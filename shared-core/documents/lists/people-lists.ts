/** Lists of customers, their contacts, properties, rooms, readings and leads. */
import type { Address } from '../../book/business.ts';
import type { RowOf } from '../../book/rows.ts';
import { ringAreaM2, ringPerimeterM } from '../../plan/polygon.ts';
import { type ColumnOf, type DataTable, dataTable, day, madeRows, moments, number, phone, text } from './data-table.ts';
import { inUse, type ListRows, type Names } from './list-rows.ts';

const address = <Row>(addressOf: (row: Row) => Address | null): readonly ColumnOf<Row>[] => [
  text('Street address', (row) => addressOf(row)?.line),
  text('City', (row) => addressOf(row)?.city),
  text('State', (row) => addressOf(row)?.region),
  text('ZIP code', (row) => addressOf(row)?.zip),
  text('Country', (row) => addressOf(row)?.country, 'Two letters, ISO 3166-1.'),
];

type Room = RowOf<'rooms'>;
type RoomReading = {
  readonly room: Room;
  readonly survey: Room['survey'];
  readonly reading: Room['survey']['readings'][number];
  readonly which: string;
};
function* readingsOf(rooms: readonly Room[]): Generator<RoomReading, void> {
  for (const room of rooms) {
    const surveys = [
      ['before', room.survey],
      ['rest', room.surveyRest],
      ['after', room.surveyAfter],
    ] as const;
    for (const [which, survey] of surveys)
      if (survey !== null) for (const reading of survey.readings) yield { room, survey, reading, which };
  }
}

/** The lists of people and places. */
export function peopleLists(rows: ListRows, names: Names): readonly DataTable[] {
  const reach = inUse(rows.customers).flatMap((customer) => [
    ...customer.contacts.map((c) => ({
      customer,
      kind: 'contact',
      name: c.name,
      role: c.role,
      phone: c.phone,
      email: c.email,
      address: '',
    })),
    ...customer.more.map((m) => ({
      customer,
      kind: m.kind,
      name: '',
      role: m.label,
      phone: m.kind === 'phone' ? m.text : '',
      email: m.kind === 'email' ? m.text : '',
      address: m.kind === 'address' ? m.text : '',
    })),
  ]);
  const readings = madeRows(() => readingsOf(inUse(rows.rooms)));
  return [
    dataTable('customers', 'One row per customer, with the billing address.', inUse(rows.customers), [
      text('Customer ID', (c) => c.id),
      text('Customer', (c) => c.name),
      phone('Phone', (c) => c.phone),
      text('Email', (c) => c.email),
      ...address<(typeof rows.customers)[number]>((c) => c.address),
      text('Notes', (c) => c.notes),
      ...moments<(typeof rows.customers)[number]>('Created', names.ownZone, (c) => c.createdAt),
    ]),
    dataTable('contacts', 'Additional contacts, phone numbers, emails, and addresses of a customer.', reach, [
      text('Customer ID', (r) => r.customer.id),
      text('Customer', (r) => r.customer.name),
      text('Kind', (r) => r.kind),
      text('Name', (r) => r.name),
      text('Role or label', (r) => r.role),
      phone('Phone', (r) => r.phone),
      text('Email', (r) => r.email),
      text('Address', (r) => r.address),
    ]),
    dataTable('properties', 'One row per property.', inUse(rows.properties), [
      text('Property ID', (p) => p.id),
      text('Customer ID', (p) => p.customerId),
      text('Customer', (p) => names.customer(p.customerId)),
      ...address<(typeof rows.properties)[number]>((p) => p.address),
      number('Year built', 0, (p) => p.yearBuilt),
      number('Addition built', 0, (p) => p.yearExtended),
      text('Time zone', (p) => p.timeZone),
      number('One-way distance (km)', 1, (p) => p.travelKm),
      text('Second owner', (p) => p.secondOwner?.name),
      phone('Second owner phone', (p) => p.secondOwner?.phone),
      text('Second owner email', (p) => p.secondOwner?.email),
      text('Site access', (p) => p.access.map(({ letter, text: words }) => [letter, words].filter((w) => w !== '').join(': ')).join('; ')),
      text('Notes', (p) => p.notes),
    ]),
    dataTable('rooms', 'One row per room.', inUse(rows.rooms), [
      text('Room ID', (r) => r.id),
      text('Property ID', (r) => r.propertyId),
      text('Property', (r) => names.property(r.propertyId)),
      text('Room', (r) => r.name),
      number(
        'Area (m²)',
        2,
        (r) => (r.plan.outline.length < 3 ? null : ringAreaM2(r.plan.outline)),
        'Inside the walls. Cutouts are not deducted.',
      ),
      number('Perimeter (m)', 2, (r) => (r.plan.outline.length < 3 ? null : ringPerimeterM(r.plan.outline))),
      text(
        'Corners (m)',
        (r) => r.plan.outline.map(({ xM, yM }) => `${Number(xM.toFixed(4))} ${Number(yM.toFixed(4))}`).join('; '),
        'Across and down, in order.',
      ),
      text('Floor, top down', (r) => r.layers.map(({ material }) => material).join('; ')),
      text('Notes', (r) => r.notes),
    ]),
    dataTable('readings', 'One row per floor reading.', readings, [
      text('Room ID', ({ room }) => room.id),
      text('Property', ({ room }) => names.property(room.propertyId)),
      text('Room', ({ room }) => room.name),
      text('Before or after', ({ which }) => which, 'Before or after the pour, or of the rest still to be poured.'),
      ...moments<RoomReading>(
        'Taken',
        ({ room }) => names.zoneOfProperty(room.propertyId),
        ({ survey }) => survey.takenAt,
      ),
      text('Method', ({ survey }) => survey.method, '`height` rises with the floor, `distance-down` is down from the laser.'),
      // A tenth of a millimeter: finer than any rod is read.
      number('Across (m)', 4, ({ reading }) => reading.xM),
      number('Down (m)', 4, ({ reading }) => reading.yM),
      number('Reading (m)', 4, ({ reading }) => reading.valueM),
      text('Note', ({ reading }) => reading.note),
    ]),
    dataTable('leads', 'One row per lead.', inUse(rows.leads), [
      text('Lead ID', (l) => l.id),
      text('Customer ID', (l) => l.customerId),
      text('Customer', (l) => names.customer(l.customerId)),
      text('Property', (l) => names.property(l.propertyId)),
      text('Job', (l) => names.job(l.jobId)),
      text('Source', (l) => l.source),
      text('State', (l) => l.state),
      text('Next step', (l) => l.next?.step),
      day('Next day', (l) => l.next?.day),
      text('Next time', (l) => l.next?.clock),
      text('Reason', (l) => l.reason),
      text('Notes', (l) => l.notes),
      ...moments<(typeof rows.leads)[number]>('Created', names.ownZone, (l) => l.createdAt),
      ...moments<(typeof rows.leads)[number]>('Closed', names.ownZone, (l) => l.closedAt),
    ]),
  ];
}
