/** What a room's plan is drawn from: plain data; what the words say is the caller's. */
import type { Point } from '../book/fields.ts';
import type { Opening, Plan, Mark as FloorMark } from '../book/plan-fields.ts';
import type { FloorField } from './floor-field.ts';
import type { Hatch } from './marks.ts';
import type { ContourSteps } from './plan-floor.ts';
import type { PlanArea, PlanNote, PlanPour } from './plan-layers.ts';
import type { OpeningHatch } from './plan-walls.ts';

/** What the plan shows. */
export type PlanShows = 'depth' | 'height' | 'read' | 'prep' | 'lanes' | 'cure';

/** A reading as it is to be written; the text is the caller's, without its unit. `name` is its handle. */
export interface PlanSpot {
  readonly id: string;
  readonly xM: number;
  readonly yM: number;
  readonly text: string;
  /** Read aloud: "reading 4: seven eighths deep". */
  readonly label: string;
}

/** Everything a plan may show. Lengths in meters, the box in sheet units. Parts left out are not drawn. */
export interface PlanInput {
  readonly plan: Pick<Plan, 'outline' | 'holes' | 'openings'>;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly shows: PlanShows;
  /** Writes a measured length with its unit: 13′ 8″. */
  readonly lengthText: (lengthM: number) => string;
  readonly spots?: readonly PlanSpot[];
  /** Places marked by others over the drawing: figures keep clear of them, by so many pixels. */
  readonly keepClear?: readonly { readonly xM: number; readonly yM: number; readonly byPx: number }[];
  /** On a narrow sheet the plan may stand upright, a quarter turned, where that makes it larger. */
  readonly mayTurn?: boolean;
  /** Show every other spot only, for small screens. */
  readonly isSparse?: boolean;
  /** The floor's heights softened for display (`floorField`); null while there are too few readings. */
  readonly floor?: FloorField | null;
  /** Height of the new floor, one for all or by place; null while none is chosen. */
  readonly newFloor?: number | ((xM: number, yM: number) => number) | null;
  /** Higher floor is ground down to this height first; null for no grinding. */
  readonly grindToM?: number | null;
  readonly contours?: ContourSteps;
  /** The note at the leader from the ground area: "Grind first: ⅜″ off the top, 8 sq ft". */
  readonly grindNote?: string;
  /** Where the section is cut, and its letter. */
  readonly section?: { readonly points: readonly Point[]; readonly letter: string } | null;
  /** Lines of words at an opening. */
  readonly openingWords?: (opening: Opening) => readonly string[];
  readonly hatchBeyond?: OpeningHatch;
  readonly hatchHole?: (kind: string) => Hatch;
  /** Prep: parts of the floor with their hatch, marks found on it, notes with their number. */
  readonly areas?: readonly PlanArea[];
  readonly floorMarks?: readonly FloorMark[];
  readonly notes?: readonly PlanNote[];
  readonly hasPerimeterStrip?: boolean;
  /** Strips and batches. */
  readonly pour?: PlanPour;
  /** Name and dates in the middle of the room; the first line bold. */
  readonly names?: readonly string[];
  /** Clear distance of the dots of a floor already poured; null for none. */
  readonly pouredGapPx?: number | null;
  readonly hasDimensions?: boolean;
  /** Title and key in the largest empty corner. */
  readonly title?: { readonly text: string; readonly caption: string } | null;
  readonly hasKey?: boolean;
  /** What that corner must hold at its top, for a heading and controls of the screen's own. */
  readonly corner?: { readonly widthPx: number; readonly heightPx: number };
  /** The length of the scale bar and what stands at its end. */
  readonly scale?: { readonly lengthM: number; readonly text: string } | null;
  /** Space left free round the plan; wide enough for dimensions unless they are off. */
  readonly marginPx?: Partial<Record<'left' | 'top' | 'right' | 'bottom', number>>;
}

/** Breadth of the walls' cut; pour mode draws a line instead. */
export const WALL_PX = 13;
