/** An invented room on a dry, sound, tested slab, and its job: what its assessment and its prep list are made from. */
import { type JobRoom, jobRoomSchema } from '../../../shared-core/book/job.ts';
import { type Property, propertySchema } from '../../../shared-core/book/property.ts';
import { type Room, roomSchema } from '../../../shared-core/book/room.ts';
import type { AssessInput } from '../../../shared-core/assess/assess-room.ts';
import { CALM, NOW, opening, SLAB } from '../substrate/a-floor.ts';

const stamps = { createdAt: NOW, changedAt: NOW, deletedAt: null };
export const corner = (xM: number, yM: number) => ({ xM, yM });

export const ROOM: Room = roomSchema.parse({
  ...stamps,
  id: 'room-pantry',
  propertyId: 'prop-1',
  name: 'Pantry',
  plan: {
    outline: [corner(0, 0), corner(4, 0), corner(4, 3), corner(0, 3)],
    holes: [],
    openings: [opening({ adjoiningM: 0 })],
    placedAt: { xM: 0, yM: 0, turnDeg: 0 },
    diagonals: [],
  },
  layers: SLAB.layers,
  ballpark: null,
  survey: { method: 'height', takenAt: null, readings: [], readingErrorM: 0.0015 },
  surveyRest: null,
  surveyAfter: null,
  tests: SLAB.tests,
  marks: [],
  circumstances: CALM,
  notes: '',
});

export const PROPERTY: Property = propertySchema.parse({
  ...stamps,
  id: 'prop-1',
  customerId: 'customer-1',
  secondOwner: null,
  address: { line: '3 Weir Row', city: 'Tarrow Falls', region: 'NY', zip: '', country: 'US' },
  yearBuilt: 1998,
  yearExtended: null,
  timeZone: 'America/New_York',
  access: [],
  travelKm: null,
  notes: '',
});

export const JOB_ROOM: JobRoom = jobRoomSchema.parse({
  roomId: 'room-pantry',
  flooring: 'wood-glued',
  flooringLimits: null,
  level: { mode: 'level', levelM: null, leastThicknessM: 0.003, followThicknessM: 0.006, textureM: 0.001, grindMostM: 0, rampThrough: [] },
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
});

/** What assessing that room takes, with changes. */
export const input = (change: Partial<AssessInput> = {}, room: Partial<Room> = {}): AssessInput => ({
  room: { ...ROOM, ...room },
  jobRoom: JOB_ROOM,
  property: PROPERTY,
  units: 'us',
  locale: 'en-US',
  material: null,
  hasMoistureSystem: false,
  addedLoadPa: null,
  depth: null,
  cutMostM: null,
  lifts: null,
  isPouredOver: false,
  lastPouredAt: null,
  doorSteps: {},
  now: NOW,
  asOf: NOW,
  ...change,
});
