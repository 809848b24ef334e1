/** Shorthand for the sample's rooms: layers in inches, and tests. */
import type { Circumstances, FloorTest, Layer } from '../book/layer.ts';
import { celsiusFromFahrenheit } from '../measure/temperature.ts';
import { FOOT_M, INCH_M } from '../measure/length-units.ts';

export type LayerWords = Pick<Layer, 'material' | 'yearInstalled' | 'fate'> & {
  readonly inches: number | null;
  readonly sound?: Layer['sound'];
};
export const layers = (roomId: string, words: readonly LayerWords[]): Layer[] =>
  words.map(({ inches, ...layer }, i) => ({
    ...{ id: `${roomId}-l${i + 1}`, sound: 'sound', area: null, note: '' },
    ...layer,
    thicknessM: inches === null ? null : inches * INCH_M,
  }));

type TestBody<K extends FloorTest['kind']> = Omit<Extract<FloorTest, { kind: K }>, 'id' | 'takenAt' | 'by' | 'point' | 'note'>;
export const tested = <K extends FloorTest['kind']>(id: string, takenAt: string, body: TestBody<K>): FloorTest => {
  const stamps = { id, takenAt, by: 'RT', point: null, note: '' };
  // Rebuilds the member of the union that `body` was taken from.
  return { ...stamps, ...body } as unknown as FloorTest;
};

export const CONCRETE_GROUND: LayerWords = { material: 'concrete-on-ground', yearInstalled: 1951, inches: 4, fate: 'keep' };
export const feet = (x: number, y: number) => ({ xM: x * FOOT_M, yM: y * FOOT_M });

/** The same result at three places, the number required for a room of this size. */
export const atThreePlaces = (test: FloorTest): FloorTest[] => ['', '-b', '-c'].map((place) => ({ ...test, id: `${test.id}${place}` }));
export const drops = (id: string, instant: string, seconds: number | null): FloorTest =>
  tested<'drop-absorption'>(id, instant, { kind: 'drop-absorption', seconds, watchedSeconds: 60 });
export const scratch = (id: string, instant: string): FloorTest => tested<'scratch'>(id, instant, { kind: 'scratch', result: 'firm' });
export const air = (id: string, instant: string, airF: number, humidity: number, floorF: number): FloorTest =>
  tested<'air'>(id, instant, {
    kind: 'air',
    airTempC: celsiusFromFahrenheit(airF),
    relativeHumidity: humidity,
    surfaceTempC: celsiusFromFahrenheit(floorF),
    airSpeedMPerS: 0.2,
  });
export const alkali = (id: string, instant: string): FloorTest => tested<'surface-ph'>(id, instant, { kind: 'surface-ph', ph: 9 });
export const humid = (id: string, instant: string, share: number): FloorTest =>
  tested<'slab-humidity'>(id, instant, {
    kind: 'slab-humidity',
    relativeHumidity: share,
    depthM: 1.6 * INCH_M,
    slabThicknessM: 4 * INCH_M,
    dryingSides: 1,
    settledHours: 30,
    slabTempC: 18,
  });
/** A lab's answer that a layer has no asbestos. */
export const noAsbestos = (id: string, layerId: string, sample: string, takenAt: string, resultOn: string): FloorTest =>
  tested<'lab'>(id, takenAt, {
    ...{ kind: 'lab', question: 'asbestos', state: 'none-found', lab: 'Tarrow Falls Materials Lab', dueOn: null },
    ...{ layerId, sample, resultOn },
  });
export const wood = (id: string, instant: string, part: 'boards' | 'structure', readings: number[]): FloorTest =>
  tested<'wood-moisture'>(id, instant, { kind: 'wood-moisture', part, readings });

export const QUIET = {
  paintedTrim: 'none',
  baseboardHeightM: null,
  radiantHeat: 'none',
  belowGrade: false,
  vaporRetarder: 'present',
  slopeToDrain: false,
  outdoorsOrWet: false,
  allowedExtraLoadPa: null,
  loadStatedBy: '',
  structureSigns: [],
  gasAppliance: false,
  fixtures: [],
  texturedCoating: false,
  notes: '',
} satisfies Circumstances;

/** The joists of the sample's wood floors. */
export const joists = (id: string, instant: string): FloorTest =>
  tested<'floor-deflection'>(id, instant, {
    kind: 'floor-deflection',
    spanM: 11 * FOOT_M,
    joistWidthM: 1.5 * INCH_M,
    joistDepthM: 9.25 * INCH_M,
    spacingM: 16 * INCH_M,
    modulusPa: 11.03e9,
    liveLoadPa: 1915,
    deadLoadPa: 479,
  });
export const looked = (id: string, instant: string, ...is: ('sound-clean' | 'painted' | 'dusty')[]): FloorTest =>
  tested<'surface-look'>(id, instant, { kind: 'surface-look', is });
