/**
 * Floors of known shape for calibration: smooth, wavy and spiky. Invented, with sizes as in flatness rules for floors to be leveled (a few
 * mm to 20 mm in a room). Everything follows from one seed.
 */
import type { Plan, Survey } from '../../../shared-core/book/plan-fields.ts';
import { readingGrid } from '../../../shared-core/survey/reading-grid.ts';
import { numbers, planOf, rectangle, surveyOf } from './floors.ts';

export type FloorKind = 'smooth' | 'wavy' | 'spiky';
export const FLOOR_KINDS: readonly FloorKind[] = ['smooth', 'wavy', 'spiky'];

export type SimulatedFloor = {
  readonly plan: Plan;
  readonly widthM: number;
  readonly depthM: number;
  readonly areaM2: number;
  readonly heightM: (xM: number, yM: number) => number;
  /** Volume below a plane by a fine sum, its highest point, and its lowest. */
  readonly truth: (cellM?: number) => {
    readonly highestM: number;
    readonly lowestM: number;
    readonly volumeTo: (levelM: number) => number;
  };
  readonly survey: (spacings: number, errorM: number) => Survey;
  readonly random: () => number;
};

/** Two independent standard normal numbers, by Box and Muller. */
export function normalOf(random: () => number): () => number {
  return () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

type Height = (xM: number, yM: number) => number;

function tilted(random: () => number, mostPerM: number): Height {
  const [gx, gy] = [(2 * random() - 1) * mostPerM, (2 * random() - 1) * mostPerM];
  return (x, y) => gx * x + gy * y;
}

/** A bowl, crown, saddle or twist: a second-degree surface 4 to 15 mm high or deep over the room. */
function bent(random: () => number, widthM: number, depthM: number): Height {
  const size = 0.004 + 0.011 * random();
  const [a, b, c] = [2 * random() - 1, 2 * random() - 1, 2 * random() - 1];
  return (x, y) => {
    const [u, v] = [(2 * x) / widthM - 1, (2 * y) / depthM - 1];
    return size * (a * u * u + b * v * v + c * u * v);
  };
}

/** Three plane waves 1.2 to 4 m long, 1.5 to 4 mm high. */
function waves(random: () => number): Height {
  const parts = Array.from({ length: 3 }, () => {
    const angle = Math.PI * random();
    const k = (2 * Math.PI) / (1.2 + 2.8 * random());
    return { kx: k * Math.cos(angle), ky: k * Math.sin(angle), phase: 2 * Math.PI * random(), size: 0.0015 + 0.0025 * random() };
  });
  return (x, y) => parts.reduce((sum, p) => sum + p.size * Math.cos(p.kx * x + p.ky * y + p.phase), 0);
}

/**
 * A random field with exponential correlation exp(-r / length), as a sum of cosines whose wave numbers follow its spectrum
 * in two dimensions, 1 / (1 + (length k)^2)^(3/2).
 */
function spikes(random: () => number, sdM: number, lengthM: number, terms = 240): Height {
  const kx = new Float64Array(terms);
  const ky = new Float64Array(terms);
  const phase = new Float64Array(terms);
  for (let i = 0; i < terms; i += 1) {
    const k = Math.sqrt(1 / (1 - random()) ** 2 - 1) / lengthM;
    const angle = 2 * Math.PI * random();
    kx[i] = k * Math.cos(angle);
    ky[i] = k * Math.sin(angle);
    phase[i] = 2 * Math.PI * random();
  }
  const size = sdM * Math.sqrt(2 / terms);
  return (x, y) => {
    let sum = 0;
    for (let i = 0; i < terms; i += 1) sum += Math.cos((kx[i] ?? 0) * x + (ky[i] ?? 0) * y + (phase[i] ?? 0));
    return size * sum;
  };
}

/** A rectangular room of 6 to 60 m² with a floor of this kind. */
export function simulatedFloor(kind: FloorKind, seed: number): SimulatedFloor {
  const random = numbers(seed);
  const areaM2 = 6 * 10 ** random();
  const aspect = 1 + 0.8 * random();
  const widthM = Math.sqrt(areaM2 * aspect);
  const depthM = areaM2 / widthM;
  const tilt = tilted(random, kind === 'spiky' ? 0.001 : 0.003);
  const shape =
    kind === 'smooth'
      ? bent(random, widthM, depthM)
      : kind === 'wavy'
        ? waves(random)
        : spikes(random, 0.002 + 0.002 * random(), 0.3 + 0.7 * random());
  const heightM: Height = (x, y) => tilt(x, y) + shape(x, y);
  const plan = planOf(rectangle(widthM, depthM));
  return {
    plan,
    widthM,
    depthM,
    areaM2,
    heightM,
    truth: (cellM = 0.15) => truthOf(heightM, widthM, depthM, cellM),
    survey: (spacings, errorM) => {
      const suggested = readingGrid(plan);
      const { points } = spacings === 1 ? suggested : readingGrid(plan, suggested.spacingM * spacings);
      const normal = normalOf(random);
      const survey = surveyOf(points.map(({ xM, yM }) => [xM, yM, heightM(xM, yM) + errorM * normal()]));
      return { ...survey, readingErrorM: errorM };
    },
    random,
  };
}

function truthOf(heightM: Height, widthM: number, depthM: number, cellM: number): ReturnType<SimulatedFloor['truth']> {
  const [columns, rows] = [Math.ceil(widthM / cellM), Math.ceil(depthM / cellM)];
  const z = new Float64Array(columns * rows);
  for (let j = 0; j < rows; j += 1) {
    for (let i = 0; i < columns; i += 1) z[j * columns + i] = heightM(((i + 0.5) * widthM) / columns, ((j + 0.5) * depthM) / rows);
  }
  const each = (widthM * depthM) / z.length;
  return {
    highestM: z.reduce((most, h) => Math.max(most, h), Number.NEGATIVE_INFINITY),
    lowestM: z.reduce((least, h) => Math.min(least, h), Number.POSITIVE_INFINITY),
    volumeTo: (levelM) => z.reduce((sum, h) => sum + Math.max(0, levelM - h), 0) * each,
  };
}
