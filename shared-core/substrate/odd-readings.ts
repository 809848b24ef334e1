/** Readings that cannot be, or hardly can: asked about at the field, kept as typed, never repaired. */
import type { FloorTest, Layer } from '../book/layer.ts';
import { emissionLb } from './moisture-dish.ts';
import type { Wording } from './wording.ts';

/** What a reading is asked against: the moment it is, and the year of the building where known. */
export type OddContext = { readonly now: string; readonly yearBuilt: number | null };

/** Bounds a reading rarely leaves. Typical; past them a slip is likelier than the reading. */
export const UNLIKELY = {
  humidityUnder: 0.2,
  emissionOverLb: 25,
  woodUnder: 0.04,
  woodOver: 0.3,
  airUnderC: -10,
  airOverC: 45,
  phUnder: 4,
  phOver: 13,
  pullOverPa: 6e6,
  spanOverM: 9,
  joistDeeperM: 0.5,
  modulusUnderPa: 4e9,
  modulusOverPa: 20e9,
} as const;

function whenAsked(test: FloorTest, context: OddContext): readonly string[] {
  const taken = Date.parse(test.takenAt);
  if (taken > Date.parse(context.now)) return ['This reading is dated in the future. Which day was it?'];
  if (context.yearBuilt !== null && new Date(taken).getUTCFullYear() < context.yearBuilt) {
    return [`This reading is older than the house, which is of ${context.yearBuilt}. Which day was it?`];
  }
  return [];
}

function valueAsked(test: FloorTest, wording: Wording): readonly (string | false)[] {
  switch (test.kind) {
    case 'moisture-dish': {
      const emission = emissionLb(test);
      if (!emission.ok) return [emission.message];
      return [
        emission.value > UNLIKELY.emissionOverLb &&
          `${wording.emission(emission.value)} is more than slabs give off. Check the weights, in grams, and the areas.`,
      ];
    }
    case 'slab-humidity':
      return [
        test.relativeHumidity >= 1 && '100 % means water in the hole, or a wet probe. Read it again.',
        test.relativeHumidity < UNLIKELY.humidityUnder &&
          `${wording.share(test.relativeHumidity)} is drier than slabs get. Was it the air?`,
        test.slabThicknessM !== null && test.depthM >= test.slabThicknessM && 'The hole is as deep as the slab is thick. Check both.',
      ];
    case 'wood-moisture':
      return [
        test.readings.some((reading) => reading > UNLIKELY.woodOver) &&
          `Over ${wording.share(UNLIKELY.woodOver)} a meter no longer reads true. Is the wood soaked, or the decimal point slipped?`,
        test.readings.some((reading) => reading < UNLIKELY.woodUnder) &&
          `Under ${wording.share(UNLIKELY.woodUnder)} is drier than houses get. Check the reading.`,
      ];
    case 'drop-absorption':
      return [
        test.seconds !== null && test.seconds > test.watchedSeconds && 'The drop was gone after the watch was stopped. Check both times.',
      ];
    case 'surface-ph':
      return [
        (test.ph < UNLIKELY.phUnder || test.ph > UNLIKELY.phOver) &&
          `pH ${wording.number(test.ph, 1)} is rare on a floor. Dip a new strip.`,
      ];
    case 'pull-off':
      return [test.stressPa > UNLIKELY.pullOverPa && `${wording.strength(test.stressPa)} is more than floors hold. Check the unit.`];
    case 'air':
      return [test.airTempC, ...(test.surfaceTempC === null ? [] : [test.surfaceTempC])]
        .filter((tempC) => tempC < UNLIKELY.airUnderC || tempC > UNLIKELY.airOverC)
        .map((tempC) => `${wording.temp(tempC)} indoors? Check the figure and its scale, °F or °C.`)
        .concat(test.relativeHumidity === 0 ? ['0 % humidity: no air is that dry. Read it again.'] : []);
    case 'floor-bounce':
      return [
        test.spanM > UNLIKELY.spanOverM && `Joists spanning ${wording.length(test.spanM)}? Look for a wall or a beam between.`,
        (test.joistDepthM > UNLIKELY.joistDeeperM || test.joistWidthM > test.joistDepthM) &&
          'Check the joist’s size: width first, then depth.',
        test.joistWidthM >= test.spacingM && 'The joists are as wide as their spacing. Spacing runs from middle to middle.',
        (test.modulusPa < UNLIKELY.modulusUnderPa || test.modulusPa > UNLIKELY.modulusOverPa) &&
          `${wording.strength(test.modulusPa)} is no modulus of timber. Check the figure and its unit.`,
      ];
    case 'laboratory':
      return [
        test.state !== 'sent' && test.laboratory.trim() === '' && 'Write the laboratory’s name: without it the answer does not count.',
        test.state !== 'sent' && test.sample.trim() === '' && 'Write the sample’s number: without it the answer does not count.',
        test.state !== 'sent' && test.resultOn === null && 'Write the date of the answer: without it the answer does not count.',
      ];
    default:
      return [];
  }
}

/**
 * What to ask about one test, as sentences; empty when nothing is odd. The test is kept as typed either way.
 * @param wording writes the figures
 */
export function questionsAboutTest(test: FloorTest, context: OddContext, wording: Wording): readonly string[] {
  return [...whenAsked(test, context), ...valueAsked(test, wording).filter((question) => question !== false)];
}

/** What to ask about a layer's year, as sentences; empty when nothing is odd. */
export function questionsAboutLayer(layer: Layer, context: OddContext): readonly string[] {
  const year = layer.yearInstalled;
  if (year === null) return [];
  if (year > new Date(Date.parse(context.now)).getUTCFullYear()) return [`${year} has not come. Which year was it laid?`];
  if (context.yearBuilt !== null && year < context.yearBuilt) {
    return [`Laid in ${year}, before the house of ${context.yearBuilt}. Check both years: old flooring decides what may be touched.`];
  }
  return [];
}
