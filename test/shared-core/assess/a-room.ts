/** An invented room on a dry, sound, tested slab, and its job: what its assessment and its prep list are made from. */
import type { Address } from '../../../shared-core/book/business.ts';
import type { JobRoom } from '../../../shared-core/book/job.ts';
import { newJobRoom, newLevelChoice, newProperty, newRoom } from '../../../shared-core/book/new-records.ts';
import type { Property } from '../../../shared-core/book/property.ts';
import type { Room } from '../../../shared-core/book/room.ts';
import type { AssessInput } from '../../../shared-core/assess/assess-room.ts';
import { CALM, NOW, opening, SLAB } from '../substrate/a-floor.ts';

const birth = (id: string) => ({ id, now: NOW });
export const corner = (xM: number, yM: number) => ({ xM, yM });

const bare = newRoom(birth('room-pantry'), 'prop-1', 'Pantry');
export const ROOM: Room = {
  ...bare,
  plan: {
    ...bare.plan,
    outline: [corner(0, 0), corner(4, 0), corner(4, 3), corner(0, 3)],
    openings: [opening({ adjoiningM: 0 })],
  },
  layers: [...SLAB.layers],
  survey: { ...bare.survey, method: 'height' },
  tests: [...SLAB.tests],
  circumstances: CALM,
};

const ADDRESS: Address = { line: '3 Weir Row', city: 'Tarrow Falls', region: 'NY', zip: '', country: 'US' };
export const PROPERTY: Property = { ...newProperty(birth('prop-1'), 'customer-1', ADDRESS, 'America/New_York'), yearBuilt: 1998 };

export const JOB_ROOM: JobRoom = {
  ...newJobRoom('room-pantry'),
  flooring: 'wood-glued',
  level: { ...newLevelChoice(), leastThicknessM: 0.003, followThicknessM: 0.006 },
};

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
