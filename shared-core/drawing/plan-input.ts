/** The plain data a room's plan is drawn from. The caller supplies all words. */
import type { Point } from '../book/fields.ts';
import type { Opening, Plan, Mark as FloorMark } from '../book/plan-fields.ts';
import type { FloorField } from './floor-field.ts';
import type { ContourSteps } from './plan-floor.ts';
import type { PlanArea, PlanNote, PlanPour } from './plan-layers.ts';
import type { OpeningHatch } from './plan-walls.ts';

/** The quantity or the work that a plan shows. */
export type PlanShows = 'depth' | 'height' | 'read' | 'prep' | 'lanes' | 'cure';

/** A reading and its text, which has no unit. `name` identifies its mark. */
export interface PlanSpot {
  readonly id: string;
  readonly xM: number;
  readonly yM: number;
  readonly text: string;
  /** Text for screen readers: "reading 4: seven eighths deep". */
  readonly label: string;
}

/** Everything a plan may show. Lengths in meters, the box in drawing units. Undefined parts are not drawn. */
export interface PlanInput {
  readonly plan: Pick<Plan, 'outline' | 'holes' | 'openings'>;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly shows: PlanShows;
  /** Formats a measured length with its unit: 13′ 8″. */
  readonly lengthText: (lengthM: number) => string;
  readonly spots?: readonly PlanSpot[];
  /** Places marked by other code on top of the drawing: figures stay this many pixels away from them. */
  readonly keepClear?: readonly { readonly xM: number; readonly yM: number; readonly byPx: number }[];
  /** In a narrow box, the plan may turn a quarter where that makes it larger. */
  readonly mayTurn?: boolean;
  /** Show only every other spot, for small screens. */
  readonly isSparse?: boolean;
  /** Floor heights smoothed for display (`floorField`); null while there are too few readings. */
  readonly floor?: FloorField | null;
  /** Height of the new floor, constant or by place; null until one is chosen. */
  readonly newFloor?: number | ((xM: number, yM: number) => number) | null;
  /** Floor above this height is ground down to it first; null for no grinding. */
  readonly grindToM?: number | null;
  readonly contours?: ContourSteps;
  /** The note on the leader from the grinding area: "Grind first: ⅜″ off the top, 8 sq ft". */
  readonly grindNote?: string;
  /** The section's cut and its letter. */
  readonly section?: { readonly points: readonly Point[]; readonly letter: string } | null;
  /** Lines of text at an opening. */
  readonly openingWords?: (opening: Opening) => readonly string[];
  readonly hatchBeyond?: OpeningHatch;
  /** Prep: floor areas with their hatch, marks on the floor, and notes with their number. */
  readonly areas?: readonly PlanArea[];
  readonly floorMarks?: readonly FloorMark[];
  readonly notes?: readonly PlanNote[];
  readonly hasPerimeterStrip?: boolean;
  /** Lanes and batches. */
  readonly pour?: PlanPour;
  /** Name and dates in the middle of the room; the first line is bold. */
  readonly names?: readonly string[];
  /** Gap between the dots of a floor already poured, px; null for none. */
  readonly pouredGapPx?: number | null;
  readonly hasDimensions?: boolean;
  /** Title and key in the largest empty corner. */
  readonly title?: { readonly text: string; readonly caption: string } | null;
  readonly hasKey?: boolean;
  /** Space to reserve at the top of that corner for the screen's own heading and controls. */
  readonly corner?: { readonly widthPx: number; readonly heightPx: number };
  /** Length of the scale bar and the text at its end. */
  readonly scale?: { readonly lengthM: number; readonly text: string } | null;
  /** Free space around the plan; the default leaves room for dimensions unless they are off. */
  readonly marginPx?: Partial<Record<'left' | 'top' | 'right' | 'bottom', number>>;
}

/** Width of the hatched walls, px; pour mode draws a line instead. */
export const WALL_PX = 13;
