/** An invented L-shaped hall with thirty readings, for tests and for looking. */
import { floorField, type FloorField } from '../../../shared-core/drawing/floor-field.ts';
import { formatParts } from '../../../shared-core/measure/fraction.ts';
import type { PlanInput, PlanSpot } from '../../../shared-core/drawing/plan-input.ts';
import type { Opening, Plan } from '../../../shared-core/book/plan-fields.ts';
import { xy } from '../../outlines.ts';

export const FT = 0.3048;
export const IN = 0.0254;

const sixteenthsText = (inches: number): string => formatParts(Math.max(0, Math.round(inches * 16)), 16);

export const lengthText = (m: number): string => {
  const inches = Math.round(m / IN);
  return `${String(Math.floor(inches / 12))}′ ${String(inches % 12)}″`;
};

const opening = (o: Partial<Opening> & Pick<Opening, 'id' | 'wall' | 'fromM' | 'widthM' | 'name'>): Opening => ({
  kind: 'doorway',
  adjoiningM: 0,
  adjoiningFlooring: '',
  edge: 'dam',
  isWayOut: false,
  ...o,
});

export const hall: Pick<Plan, 'outline' | 'holes' | 'openings'> = {
  outline: xy('0,0 6.5,0 6.5,8 20.5,8 20.5,13.667 0,13.667').map(([x, y]) => ({ xM: x * FT, yM: y * FT })),
  holes: [],
  openings: [
    opening({ id: 'front', name: 'Front door', wall: 0, fromM: 1.6 * FT, widthM: 3 * FT }),
    opening({ id: 'dining', name: 'Dining room', wall: 3, fromM: 1.3 * FT, widthM: 2.7 * FT }),
    opening({ id: 'kitchen', name: 'Kitchen', wall: 4, fromM: 7.4 * FT, widthM: 2.7 * FT, edge: 'feather' }),
  ],
};

/** Distance of the old floor below the level, m, smooth and invented. */
export function hallHeight(xM: number, yM: number): number {
  const x = xM / FT;
  const y = yM / FT;
  const dip = 1.05 * Math.exp(-(((x - 2.6) / 3.4) ** 2) - ((y - 10) / 3.2) ** 2);
  const hump = 1.15 * Math.exp(-(((x - 9.4) / 1.9) ** 2) - ((y - 10.6) / 1.7) ** 2);
  const slope =
    0.55 +
    0.02 * (10 - x) +
    0.28 * Math.exp(-(((x - 15.2) / 1.8) ** 2) - ((y - 13) / 1.8) ** 2) -
    0.25 * Math.exp(-(((x - 6) / 2) ** 2) - (y / 3) ** 2);
  return -(slope + dip - hump) * IN;
}

export const hallField = (): FloorField | null => floorField(hall.outline, hallHeight);

export function hallSpots(level: number, cap: number): PlanSpot[] {
  const spots = xy(
    '0.6,0.8 3.1,0.5 5.9,0.9 0.6,3.6 3.2,3.4 5.9,3.7 0.6,6.6 3.2,6.4 5.9,6.7 0.6,9.8 3.1,9.6 6.1,9.3 0.6,13 3.2,12.7 6.2,12.9 8.9,8.6 9.1,10.5 9,13 11.9,8.7 12.1,10.8 12,13.1 14.9,8.6 15.2,10.7 15,13 17.8,8.7 17.9,10.9 17.8,13 19.9,8.7 19.9,10.7 19.9,13',
  );
  return spots.map(([x, y], i) => {
    const h = Math.min(cap, hallHeight(x * FT, y * FT));
    const text = sixteenthsText((level - h) / IN);
    return { id: `r${String(i)}`, xM: x * FT, yM: y * FT, text, label: `reading ${String(i + 1)}: ${text} inches deep` };
  });
}

export function hallInput(level = 0, cap = -0.125 * IN): PlanInput {
  return {
    plan: hall,
    widthPx: 940,
    heightPx: 590,
    shows: 'depth',
    lengthText,
    floor: hallField(),
    newFloor: level,
    grindToM: cap,
    spots: hallSpots(level, cap),
    contours: { everyM: 0.25 * IN, heavyEveryM: IN, text: (m) => sixteenthsText(m / IN) },
    grindNote: 'Grind first: ⅜″ off the top, 8 sq ft',
    section: {
      letter: 'A',
      points: xy('3.1,0 3.1,10.6 20.5,10.6').map(([x, y]) => ({ xM: x * FT, yM: y * FT })),
    },
    openingWords: (o) =>
      ({
        front: ['Front door sill,', '⅞″ up: dam'],
        dining: ['Dining room', 'oak, level:', 'dam'],
        kitchen: ['Kitchen, tile, ⅜″ down: feather'],
      })[o.id] ?? [],
    hatchBeyond: (o) => (o.id === 'front' ? 'stone' : o.id === 'dining' ? 'panel' : 'tile'),
    title: {
      text: 'Hall: pour depth',
      caption: '30 readings with the laser on May 6. High to low as it lies, 1¾″. Contours every ¼″.',
    },
    hasKey: true,
    scale: { lengthM: 5 * FT, text: '5 ft' },
  };
}
