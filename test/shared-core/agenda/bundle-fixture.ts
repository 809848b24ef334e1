/** Invented jobs that match the schemas, for the tests and the benchmark of the agenda. */
import { checkRow } from '../../../shared-core/book/rows.ts';
import type { Promised, Visit } from '../../../shared-core/book/cure-record.ts';
import type { Job, JobRoom } from '../../../shared-core/book/job.ts';
import type { Material } from '../../../shared-core/book/material.ts';
import { newCustomer, newJob, newJobRoom, newLevelChoice, newProperty, newRoom } from '../../../shared-core/book/new-records.ts';
import type { Pour } from '../../../shared-core/book/pour-record.ts';
import { newContractTerms } from '../../../shared-core/book/contract-terms.ts';
import type { Quote } from '../../../shared-core/book/quote.ts';
import { newBusiness } from '../../../shared-core/book/typical-business.ts';
import type { Room } from '../../../shared-core/book/room.ts';
import type { AgendaBusiness, JobBundle, RoomSummary } from '../../../shared-core/standing/job-bundle.ts';
import { SHEET } from '../cure/sheet-fixture.ts';
import { barePlan } from '../pour/bare-plan.ts';

const AT = '2026-05-01T12:00:00.000Z';
const birth = (id: string) => ({ id, now: AT });
const stamps = (id: string) => ({ id, createdAt: AT, changedAt: AT, deletedAt: null });

export const BUSINESS: AgendaBusiness = {
  lienRules: [],
  ownerName: 'Ada Quill',
  address: { line: '', city: '', region: '', zip: '', country: 'US' },
  units: 'us',
  locale: 'en-US',
  timeZone: 'America/New_York',
  hours: { from: '07:00', to: '18:00', days: [1, 2, 3, 4, 5] },
};

export const POWDER: Material = {
  ...stamps('mat-powder'),
  kind: 'cement-underlayment',
  name: 'cement underlayment',
  typical: true,
  sheetFrom: '',
  container: null,
  supplier: '',
  prices: [],
  powder: SHEET,
  primer: [],
  goes: null,
  silica: true,
  cautions: '',
  notes: '',
};

export const PRIMER: Material = {
  ...POWDER,
  ...stamps('mat-primer'),
  kind: 'primer',
  name: 'acrylic primer',
  container: { name: 'jug', unit: 'L', holds: 5 },
  powder: null,
  silica: false,
  primer: [{ substrate: 'porous', coats: 1, coverageM2PerL: 8, waterParts: 1, dryHoursLeast: 2, dryHoursMost: 24 }],
};

export const jobRoom = (over: Partial<JobRoom> & Pick<JobRoom, 'roomId'>): JobRoom => ({
  ...newJobRoom(over.roomId),
  flooring: 'wood-glued',
  level: { ...newLevelChoice(), leastThicknessM: 0.003, followThicknessM: 0.006 },
  materialId: POWDER.id,
  primerId: PRIMER.id,
  ...over,
});

export function room(id: string, propertyId: string, name: string): Room {
  const bare = newRoom(birth(id), propertyId, name);
  return {
    ...bare,
    layers: [
      {
        id: `lay-${id}`,
        material: 'concrete-on-ground',
        thicknessM: 0.1,
        yearInstalled: null,
        sound: 'sound',
        fate: 'keep',
        area: null,
        note: '',
      },
    ],
    survey: { ...bare.survey, method: 'height' },
    circumstances: { ...bare.circumstances, structureSigns: [], gasAppliance: false },
  };
}

export function summary(roomId: string, over: Partial<RoomSummary> = {}): RoomSummary {
  return {
    roomId,
    planDrawn: true,
    readingsTaken: 12,
    testsWanting: 0,
    holds: [],
    overridden: 0,
    prepOpen: 0,
    prepTotal: 8,
    prepNext: null,
    unsettled: null,
    bags: 50,
    nextBags: 50,
    lifts: 1,
    pourMinutes: 275,
    fillShares: [],
    liftBreak: null,
    depth: { meanM: 0.01, deepestM: 0.015 },
    ...over,
  };
}

export type Sketch = {
  readonly id: string;
  readonly customer?: string;
  readonly line?: string;
  readonly timeZone?: string;
  readonly rooms?: readonly (Partial<JobRoom> & { readonly roomId: string; readonly name: string })[];
  readonly job?: Partial<Job>;
  readonly quotes?: readonly Quote[];
  readonly pours?: readonly Pour[];
  readonly promises?: readonly Promised[];
  readonly visits?: readonly Visit[];
  readonly summaries?: readonly RoomSummary[];
};

const ADDRESS = { line: '8 Cooper’s Wharf', city: 'Tarrow Falls', region: 'NY', zip: '', country: 'US' };

/** A job with all its records, validated. */
export function bundle(sketch: Sketch): JobBundle {
  const id = sketch.id;
  const customer = newCustomer(birth(`cli-${id}`), sketch.customer ?? 'Ida and Per Lindqvist');
  const address = { ...ADDRESS, line: sketch.line ?? ADDRESS.line };
  const property = newProperty(birth(`prop-${id}`), customer.id, address, sketch.timeZone ?? 'America/New_York');
  const sketched = sketch.rooms ?? [{ roomId: `room-${id}`, name: 'Family room' }];
  const rooms = sketched.map((r) => room(r.roomId, property.id, r.name));
  const ids = { customerId: customer.id, propertyId: property.id, roomIds: [] };
  const bare = newJob(birth(`job-${id}`), { ...ids, number: `26-${id}`, title: '', depositShare: 0 });
  const job: Job = {
    ...bare,
    rooms: sketched.map(({ name: _, ...over }) => jobRoom(over)),
    estimate: { ...bare.estimate, stages: [] },
    crewNames: ['Jo', 'Sam'],
    ...sketch.job,
  };
  for (const [table, row] of [
    ['customers', customer],
    ['properties', property],
    ['jobs', job],
    ...rooms.map((r) => ['rooms', r] as const),
  ] as const) {
    const checked = checkRow(table, row);
    if (!checked.ok) throw new Error(`${table} ${checked.where}: ${checked.message}`);
  }
  return {
    job,
    customer,
    property,
    rooms,
    materials: [POWDER, PRIMER],
    quotes: sketch.quotes ?? [],
    pours: sketch.pours ?? [],
    pourEvents: [],
    cureLogs: [],
    promises: sketch.promises ?? [],
    clearanceTests: [],
    ledger: [],
    visits: sketch.visits ?? [],
    summaries: sketch.summaries ?? rooms.map((r) => summary(r.id)),
  };
}

export function pour(id: string, roomIds: string[], startedAt: string | null, finishedAt: string | null, lift = 1, lifts = lift): Pour {
  return {
    ...stamps(id),
    jobId: 'job-a',
    roomIds,
    lift,
    materialId: POWDER.id,
    startedAt,
    finishedAt,
    bagsOnSite: 50,
    bagsPlanned: 50,
    asPoured: barePlan(roomIds, lift, lifts, POWDER),
    fromPaper: false,
    notes: '',
  };
}

export function promised(id: string, roomId: string, promisedFor: string): Promised {
  return {
    ...stamps(id),
    jobId: 'job-a',
    roomId,
    milestone: 'cover',
    flooring: 'wood-glued',
    promisedFor,
    madeAt: AT,
    documentId: null,
    to: 'the customer',
  };
}

export function visit(id: string, kind: Visit['kind'], instant: string, roomIds: string[]): Visit {
  return {
    ...stamps(id),
    jobId: 'job-a',
    roomIds,
    kind,
    title: 'A loose edge',
    instant,
    minutes: 30,
    doneAt: null,
    cause: '',
    fix: '',
    notes: '',
    photoIds: [],
    sequence: 0,
    cancelledAt: null,
  };
}

/** A quote in a state, without the buyer's right to cancel; of its frozen records, the agenda reads no more. */
export function quote(of: JobBundle, state: Quote['state'], validUntil: string): Quote {
  return {
    ...stamps(`quote-${of.job.id}`),
    jobId: of.job.id,
    revision: 1,
    issuedAt: AT,
    validUntil,
    state,
    history: [],
    acceptedOptionId: null,
    totalMinor: 618_000,
    currency: 'USD',
    timeZone: 'America/New_York',
    priced: { suggestedId: 'base', options: [] },
    dates: [],
    holds: [],
    orders: [],
    frozen: {
      customer: of.customer,
      property: of.property,
      rooms: [...of.rooms],
      job: of.job,
      materials: [],
      business: { ...newBusiness(AT, 'America/New_York', 'en-US'), contract: { ...newContractTerms(), cancellationNotice: false } },
    } as unknown as Quote['frozen'],
  };
}
