/** Readings that are impossible or unlikely: asked about at the field, saved as entered, never repaired. */
import type { FloorTest, Layer } from '../book/layer.ts';
import { emissionLb } from './moisture-dish.ts';
import type { Wording } from './wording.ts';

/** The present time, and the year the house was built where known. */
export type OddContext = { readonly now: string; readonly yearBuilt: number | null };

/** Bounds a reading rarely leaves. Typical; past them a typo is likelier than the reading. */
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
  if (taken > Date.parse(context.now)) return ['This test is dated in the future. Check the date.'];
  if (context.yearBuilt !== null && new Date(taken).getUTCFullYear() < context.yearBuilt) {
    return [`This test is older than the house, built in ${context.yearBuilt}. Check the date.`];
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
          `${wording.emission(emission.value)} is more than slabs emit. Check the weights, in grams, and the areas.`,
      ];
    }
    case 'slab-humidity':
      return [
        test.relativeHumidity >= 1 && '100% means water in the hole or a wet probe. Test again.',
        test.relativeHumidity < UNLIKELY.humidityUnder &&
          `${wording.share(test.relativeHumidity)} is drier than a slab gets. Is it the room humidity?`,
        test.slabThicknessM !== null &&
          test.depthM >= test.slabThicknessM &&
          'The probe depth equals the slab thickness. Check both values.',
      ];
    case 'wood-moisture':
      return [
        test.readings.some((reading) => reading > UNLIKELY.woodOver) &&
          `Over ${wording.share(UNLIKELY.woodOver)} a meter is no longer accurate. Check the decimal point.`,
        test.readings.some((reading) => reading < UNLIKELY.woodUnder) &&
          `Under ${wording.share(UNLIKELY.woodUnder)} is drier than wood gets in a house. Check the value.`,
      ];
    case 'drop-absorption':
      return [
        test.seconds !== null && test.seconds > test.watchedSeconds && 'The drop was absorbed after the time watched. Check both times.',
      ];
    case 'surface-ph':
      return [
        (test.ph < UNLIKELY.phUnder || test.ph > UNLIKELY.phOver) &&
          `pH ${wording.number(test.ph, 1)} is rare on a floor. Test with a new strip.`,
      ];
    case 'pull-off':
      return [test.stressPa > UNLIKELY.pullOverPa && `${wording.strength(test.stressPa)} is more than a floor holds. Check the unit.`];
    case 'air':
      return [test.airTempC, ...(test.surfaceTempC === null ? [] : [test.surfaceTempC])]
        .filter((tempC) => tempC < UNLIKELY.airUnderC || tempC > UNLIKELY.airOverC)
        .map((tempC) => `${wording.temp(tempC)} is unlikely indoors. Check the value and its unit.`)
        .concat(test.relativeHumidity === 0 ? ['0% humidity is impossible. Measure again.'] : []);
    case 'floor-deflection':
      return [
        test.spanM > UNLIKELY.spanOverM && `A joist span of ${wording.length(test.spanM)} is unlikely. Look for a wall or a beam between.`,
        (test.joistDepthM > UNLIKELY.joistDeeperM || test.joistWidthM > test.joistDepthM) &&
          'Check the joist size: width and depth may be swapped.',
        test.joistWidthM >= test.spacingM && 'The joists are as wide as their spacing. Enter the spacing on center.',
        (test.modulusPa < UNLIKELY.modulusUnderPa || test.modulusPa > UNLIKELY.modulusOverPa) &&
          `${wording.strength(test.modulusPa)} is no modulus of wood. Check the value and its unit.`,
      ];
    case 'lab':
      return [
        test.state !== 'sent' && test.lab.trim() === '' && 'Enter the lab. The result does not count without it.',
        test.state !== 'sent' && test.sample.trim() === '' && 'Enter the sample number. The result does not count without it.',
        test.state !== 'sent' && test.resultOn === null && 'Enter the date of the result. It does not count without one.',
      ];
    default:
      return [];
  }
}

/**
 * Questions about one test; empty when nothing is unlikely. The test is saved as entered either way.
 * @param wording writes the figures
 */
export function questionsAboutTest(test: FloorTest, context: OddContext, wording: Wording): readonly string[] {
  return [...whenAsked(test, context), ...valueAsked(test, wording).filter((question) => question !== false)];
}

/** Questions about a layer's year; empty when nothing is unlikely. */
export function questionsAboutLayer(layer: Layer, context: OddContext): readonly string[] {
  const year = layer.yearInstalled;
  if (year === null) return [];
  if (year > new Date(Date.parse(context.now)).getUTCFullYear()) return [`${year} is in the future. Check the year installed.`];
  if (context.yearBuilt !== null && year < context.yearBuilt) {
    return [
      `Installed in ${year}, before the house was built in ${context.yearBuilt}. Check both years: age decides what may be disturbed.`,
    ];
  }
  return [];
}
