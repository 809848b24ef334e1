/** New records: unknown values stay unknown. */
import type { Address } from './business.ts';
import type { Customer } from './customer.ts';
import type { Lead } from './lead.ts';
import type { Job, JobRoom, LevelChoice } from './job.ts';
import type { Survey } from './plan-fields.ts';
import type { Property } from './property.ts';
import type { Room } from './room.ts';

type Birth = { readonly id: string; readonly now: string };
const stamps = ({ id, now }: Birth) => ({ id, createdAt: now, changedAt: now, deletedAt: null });

/** An address with nothing in it yet. */
export function emptyAddress(country: string): Address {
  return { line: '', city: '', region: '', zip: '', country };
}

/** An address with neither city, state nor ZIP code, in the company's own city and state, where most properties are. */
export function nearCompany(address: Address, { city, region }: Address): Address {
  return [address.city, address.region, address.zip].every((part) => part.trim() === '') ? { ...address, city, region } : address;
}

/** A customer by name. */
export function newCustomer(birth: Birth, name: string): Customer {
  return { ...stamps(birth), name, phone: '', email: '', more: [], address: null, contacts: [], notes: '' };
}

/** A property of a customer, with an unknown year built. */
export function newProperty(birth: Birth, customerId: string, address: Address, timeZone: string): Property {
  return {
    ...stamps(birth),
    customerId,
    secondOwner: null,
    address,
    yearBuilt: null,
    yearExtended: null,
    timeZone,
    access: [],
    travelKm: null,
    notes: '',
  };
}

/** An open lead of a customer, with no next step yet. */
export function newLead(birth: Birth, customerId: string): Lead {
  return {
    ...stamps(birth),
    customerId,
    propertyId: null,
    roomIds: [],
    jobId: null,
    source: '',
    next: null,
    state: 'open',
    closedAt: null,
    reason: '',
    notes: '',
  };
}

/** A survey before its first reading: down from a laser. */
export const newSurvey = (): Survey => ({ method: 'distance-down', takenAt: null, readings: [], readingErrorM: 0.0015 });

/** A room without plan, readings or tests. Typical reading error: 1.5 mm. */
export function newRoom(birth: Birth, propertyId: string, name: string): Room {
  return {
    ...stamps(birth),
    propertyId,
    name,
    plan: { outline: [], holes: [], openings: [], placedAt: { xM: 0, yM: 0, turnDeg: 0 }, diagonals: [] },
    layers: [],
    ballpark: null,
    survey: newSurvey(),
    surveyRest: null,
    surveyAfter: null,
    tests: [],
    marks: [],
    circumstances: {
      paintedTrim: null,
      baseboardHeightM: null,
      radiantHeat: null,
      belowGrade: null,
      vaporRetarder: null,
      slopeToDrain: null,
      outdoorsOrWet: null,
      allowedExtraLoadPa: null,
      loadStatedBy: '',
      texturedCoating: null,
      structureSigns: null,
      gasAppliance: null,
      fixtures: [],
      notes: '',
    },
    notes: '',
  };
}

/** Level at the lowest permitted plane over a typical least thickness of 3 mm. */
export function newLevelChoice(): LevelChoice {
  return {
    mode: 'level',
    levelM: null,
    leastThicknessM: 0.003175,
    followThicknessM: 0.00635,
    textureM: 0.001,
    grindMostM: 0,
    rampThrough: [],
  };
}

/** A room of a new job, at a typical 68 °F and 50% humidity until measured. */
export function newJobRoom(roomId: string): JobRoom {
  return {
    roomId,
    flooring: null,
    flooringLimits: null,
    level: newLevelChoice(),
    materialId: null,
    primerId: null,
    primedAt: null,
    primerCoatsDone: 0,
    signed: [],
    lastMinutes: [],
    overrides: [],
    pourPlan: null,
    pourAt: null,
    expectedAir: null,
    handedOverAt: null,
  };
}

/** A job for some rooms of one property, with two payments by default. */
export function newJob(
  birth: Birth,
  fields: { number: string; title: string; customerId: string; propertyId: string; roomIds: readonly string[]; depositShare: number },
): Job {
  return {
    ...stamps(birth),
    customerId: fields.customerId,
    propertyId: fields.propertyId,
    number: fields.number,
    title: fields.title,
    state: 'open',
    rooms: fields.roomIds.map((roomId) => newJobRoom(roomId)),
    estimate: {
      overrides: [],
      added: [],
      discountMinor: 0,
      discountNote: '',
      options: [],
      suggestedOptionId: null,
      daysOnSite: null,
      stages: [
        { name: 'Deposit', share: fields.depositShare, due: 'on-acceptance' },
        { name: 'Balance due', share: 1 - fields.depositShare, due: 'on-handover' },
      ],
    },
    crewNames: [],
    prepVisitAt: null,
    quotePromisedOn: null,
    handoverAt: null,
    defectsUntil: null,
    lienDone: [],
    notes: '',
  };
}

/** The number the customer sees: two digits of the year and a serial, `26-031`. */
export function jobNumber(year: number, serial: number): string {
  return `${String(year % 100).padStart(2, '0')}-${String(serial).padStart(3, '0')}`;
}
