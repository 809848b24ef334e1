/** Input of a job's cost lines. */
import type { Business } from '../book/business.ts';
import type { EstimateChoices } from '../book/job.ts';
import type { Material } from '../book/material.ts';
import type { RoomTakeoff } from '../material/takeoff.ts';

/** Input of the lines. */
export type CostInput = {
  readonly business: Business;
  readonly materials: readonly Material[];
  readonly rooms: readonly RoomTakeoff[];
  /** The first part of a room's line keys: the room's id, with the option's when the option changes that room. */
  readonly roomKey: (roomId: string) => string;
  readonly added: EstimateChoices['added'];
  /** One way, kilometers; null when not entered. */
  readonly travelKm: number | null;
  readonly days: number;
  /** The day of the prices used. */
  readonly day: string;
};
