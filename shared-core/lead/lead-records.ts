/** The records of a new lead: customer, property, rooms with their rectangles, and the lead itself. */
import type { Address } from '../book/business.ts';
import type { Customer } from '../book/customer.ts';
import type { Layer } from '../book/layer.ts';
import type { Lead } from '../book/lead.ts';
import { mergedCustomer } from '../book/merge-customers.ts';
import { nearCompany, newCustomer, newLead, newProperty, newRoom } from '../book/new-records.ts';
import type { Property } from '../book/property.ts';
import type { Room } from '../book/room.ts';
import { formatDepth, formatLength } from '../measure/length-format.ts';
import { emailsIn, isSamePhone, phoneParts, phonesIn } from '../measure/phone-email.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { boxCorners } from '../plan/edit-plan.ts';
import { isSoft } from '../substrate/layer-words.ts';
import type { LeadRead, RoomRead } from './read-line.ts';
import { type LayerRead, readLayers } from './trade-words.ts';

const plain = (text: string): string => text.trim().replace(/\s+/g, ' ').toLowerCase();

const more = (customer: Customer, kind: 'phone' | 'email'): string[] =>
  customer.more.flatMap((reach) => (reach.kind === kind ? [reach.text] : []));

/** The customer that a lead is most likely from: the same phone number, then the same email, then the same name; null for nobody. */
export function knownCustomer(read: Pick<LeadRead, 'name' | 'phone' | 'email'>, customers: readonly Customer[]): Customer | null {
  const { number } = phoneParts(read.phone);
  const hasPhone = (isOne: (phone: string) => boolean): Customer | undefined =>
    customers.find((c) =>
      [c.phone, ...c.contacts.map((k) => k.phone), ...more(c, 'phone')].flatMap(phonesIn).some((phone) => isOne(phoneParts(phone).number)),
    );
  // A number with its area code before one without.
  const byPhone = number.length < 7 ? undefined : (hasPhone((one) => one === number) ?? hasPhone((one) => isSamePhone(one, number)));
  const byEmail =
    read.email === ''
      ? undefined
      : customers.find((c) => [c.email, ...more(c, 'email')].flatMap(emailsIn).some((email) => plain(email) === plain(read.email)));
  const byName = read.name.trim() === '' ? undefined : customers.find((c) => plain(c.name) === plain(read.name));
  return byPhone ?? byEmail ?? byName ?? null;
}

/** Rooms are placed side by side, a wall apart, until the user moves them. Meters. */
const WALL_M = 0.15;
/** The level a caller or a first visit has at hand: 6 ft. Common practice, no source. */
const LEVEL_M = 1.8288;

export type LeadRecords = {
  /** Null when the customer is known already. */
  readonly customer: Customer | null;
  readonly property: Property | null;
  /** New rooms; those that the property has already are in `told`. */
  readonly rooms: readonly Room[];
  readonly lead: Lead;
  /** What the caller told, for a customer, a property or rooms that are known already. */
  readonly told: Told;
};

type Told = Pick<LeadRead, 'phone' | 'email' | 'yearBuilt'> & { readonly rooms: readonly Room[] };

/** The customer with a phone or an email that the record lacks: in its own field, or with the further ones where that is taken. */
export function withReach(customer: Customer, { phone, email }: Pick<Told, 'phone' | 'email'>): Customer {
  const { contacts } = customer;
  const phones = [customer.phone, ...contacts.map((contact) => contact.phone), ...more(customer, 'phone')]
    .flatMap(phonesIn)
    .map(phoneParts);
  const emails = [customer.email, ...contacts.map((contact) => contact.email), ...more(customer, 'email')].flatMap(emailsIn).map(plain);
  // New are an extension of a known number, and the area code of one on record without it.
  const newPhones = phonesIn(phone).filter((text) => {
    const told = phoneParts(text);
    return !phones.some(
      ({ number, extension }) =>
        (number === told.number || (number.length > told.number.length && isSamePhone(number, told.number))) &&
        (told.extension === '' || told.extension === extension),
    );
  });
  const newEmails = emailsIn(email).filter((told) => !emails.includes(plain(told)));
  const caller = newCustomer({ id: customer.id, now: customer.changedAt }, customer.name);
  const merged = mergedCustomer(customer, { ...caller, phone: newPhones.join(' / '), email: newEmails.join('; ') });
  return merged.phone === customer.phone && merged.email === customer.email && merged.more.length === customer.more.length
    ? customer
    : merged;
}

/** The property with the year that it was built, where the record has none. */
export function withYearBuilt(property: Property, yearBuilt: number | null): Property {
  return property.yearBuilt === null && yearBuilt !== null ? { ...property, yearBuilt } : property;
}

/** The room with the outline, the layers and the gap that the record lacks. */
export function withRoomTold(room: Room, told: Room): Room {
  const { outline } = room.plan.outline.length > 0 ? room.plan : told.plan;
  const layers = room.layers.length > 0 ? room.layers : told.layers;
  const ballpark = room.ballpark ?? told.ballpark;
  return outline === room.plan.outline && layers === room.layers && ballpark === room.ballpark
    ? room
    : { ...room, plan: { ...room.plan, outline }, layers, ballpark };
}

export type LeadContext = {
  readonly now: string;
  readonly newId: () => string;
  readonly zone: string;
  /** The company's address: a property without a city is near it. */
  readonly address: Address;
  readonly units: UnitSystem;
  readonly locale: string;
  /** A customer the lead belongs to; null to add one. */
  readonly known: Customer | null;
  /** A property of that customer where the rooms are; null to add one. */
  readonly knownProperty: Property | null;
  /** The rooms of that property. */
  readonly knownRooms: readonly Room[];
};

/** Whether each layer stays: not a soft one or what lies on it, nor felt that comes to the top. */
function fatesOf(layers: readonly LayerRead[]): Layer['fate'][] {
  const out = layers.findLastIndex(({ material }) => isSoft(material)) + 1;
  const felt = layers.slice(out).findIndex(({ material }) => material !== 'underlay-felt');
  const kept = out + (felt < 0 ? layers.length - out : felt);
  return layers.map((_, i) => (i < kept ? 'remove' : 'keep'));
}

/** What was told of a room on record that the record has another value for, as lines of notes. */
function toldAgain(read: LeadRead, room: Room, told: Room, { units, locale }: LeadContext): string[] {
  const length = (m: number): string => formatLength(m, units, locale);
  const [corner, across] = [told.plan.outline[0], told.plan.outline[2]];
  const size = corner === undefined || across === undefined ? null : [across.xM - corner.xM, across.yM - corner.yM].map(length);
  return [
    ...(size === null || room.plan.outline.length === 0 ? [] : [`${room.name}: ${size.join(' × ')}`]),
    ...(told.layers.length === 0 || room.layers.length === 0 ? [] : [`Floor: ${read.floor}`]),
    ...(read.roughGapM === null || told.ballpark === null || (room.ballpark === null && room.survey.readings.length === 0)
      ? []
      : [`Max gap: ${formatDepth(read.roughGapM, units, locale)}`]),
  ];
}

/**
 * Makes the records of a lead as read and corrected. A property is made when there is an address or a room. Layers that cannot stay under a pour are removed. A room
 * that the property has by that name is not made again. Words for the floor that cannot be read go into the notes.
 * @param read the lead; its name must not be empty unless the customer is known
 */
export function leadRecords(read: LeadRead, context: LeadContext): LeadRecords {
  const { now, newId } = context;
  const customer: Customer | null =
    context.known === null ? { ...newCustomer({ id: newId(), now }, read.name.trim()), phone: read.phone, email: read.email } : null;
  const customerId = (context.known ?? customer)?.id ?? '';
  const { city, region, zip } = read;
  const address = nearCompany({ line: read.address, city, region, zip, country: context.address.country }, context.address);
  const property: Property | null =
    context.knownProperty !== null || ([read.address, read.city, read.zip].every((part) => part === '') && read.rooms.length === 0)
      ? null
      : {
          ...newProperty({ id: newId(), now }, customerId, address, context.zone),
          yearBuilt: read.yearBuilt,
        };
  const propertyId = (context.knownProperty ?? property)?.id ?? null;
  const floor = read.floor === '' ? [] : readLayers(read.floor);
  const fates = fatesOf(floor ?? []);
  // A room that was renamed since the line was read is known by no other name, so that the gap is for all.
  const isOfGap = ({ name }: RoomRead): boolean => read.gapRoom !== null && plain(name) === plain(read.gapRoom);
  const hasGap = (room: RoomRead): boolean => isOfGap(room) || !read.rooms.some(isOfGap);
  let leftM = 0;
  const place = (room: RoomRead, i: number): Room => {
    // A millisecond apart, so that lists keep the order in which the caller named the rooms.
    const made = new Date(Date.parse(now) + i).toISOString();
    const created = newRoom({ id: newId(), now: made }, propertyId ?? '', room.name.trim() === '' ? 'Room' : room.name.trim());
    const isSized = room.widthM !== null && room.lengthM !== null && room.widthM > 0 && room.lengthM > 0;
    const outline = isSized ? boxCorners(0, 0, room.widthM, room.lengthM) : [];
    const plan = { ...created.plan, outline, placedAt: { xM: leftM, yM: 0, turnDeg: 0 } };
    if (isSized) leftM += room.widthM + WALL_M;
    return {
      ...created,
      plan,
      ballpark: read.roughGapM === null || !hasGap(room) ? null : { kind: 'gap', gapM: read.roughGapM, levelLengthM: LEVEL_M },
      layers: (floor ?? []).map(({ material, thicknessM }, i) => ({
        id: newId(),
        material,
        thicknessM,
        yearInstalled: null,
        sound: 'unknown',
        fate: fates[i] ?? 'keep',
        area: null,
        note: '',
      })),
    };
  };
  const placed = read.rooms.map(place);
  const again = context.knownRooms.flatMap((room) => {
    const told = placed.find(({ name }) => plain(name) === plain(room.name));
    return told === undefined ? [] : [{ room, told, as: { ...told, id: room.id, name: room.name } }];
  });
  const idOf = (room: Room): string => again.find(({ told }) => told === room)?.room.id ?? room.id;
  const notes = [
    read.notes,
    floor === null ? `Floor: ${read.floor}` : '',
    ...new Set(again.flatMap(({ room, told }) => toldAgain(read, room, told, context))),
  ]
    .filter((words) => words !== '')
    .join('\n');
  const lead: Lead = {
    ...newLead({ id: newId(), now }, customerId),
    propertyId,
    roomIds: placed.map(idOf),
    source: read.source,
    next: read.day === null ? null : { step: read.step ?? 'call-back', day: read.day, clock: read.clock },
    notes,
  };
  const { phone, email, yearBuilt } = read;
  const rooms = placed.filter((room) => idOf(room) === room.id);
  return { customer, property, rooms, lead, told: { phone, email, yearBuilt, rooms: again.map(({ as }) => as) } };
}
