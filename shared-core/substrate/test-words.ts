/** A test result in a line. */
import type { FloorTest } from '../book/layer.ts';
import { formatNumber } from '../measure/number.ts';
import { formatPercent } from '../measure/percent.ts';
import { formatStrength } from '../measure/pressure.ts';
import { formatTemperature } from '../measure/temperature.ts';
import { formatDepth, formatLength } from '../measure/length-format.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { emissionLb } from './moisture-dish.ts';
import { meanMoisture } from './wood-moisture.ts';

const LAB = { sent: 'pending', 'none-found': 'not detected', found: 'detected' } as const;
const PART = { boards: 'subfloor', structure: 'joists', flooring: 'new flooring' } as const;
const SCRATCH = { firm: 'firm', scores: 'scores', dusts: 'dusts', crumbles: 'crumbles' } as const;

type Look = Extract<FloorTest, { kind: 'surface-look' }>['is'][number];
const LOOKS: Readonly<Record<Look, string>> = {
  'sound-clean': 'sound and clean',
  dusty: 'dusty',
  glossy: 'glossy',
  oily: 'oil or grease',
  waxed: 'waxed',
  painted: 'painted',
  'curing-compound': 'curing compound',
  efflorescence: 'efflorescence',
  rough: 'rough',
};

/** What a visual inspection notes, in words. */
export const lookWords = (is: Look): string => LOOKS[is];

/** The result of a test, with its own arithmetic where it has one. */
export function testWords(test: FloorTest, units: UnitSystem, locale: string): string {
  switch (test.kind) {
    case 'slab-humidity':
      return `${formatPercent(test.relativeHumidity, 0)} RH at ${formatDepth(test.depthM, units)}`;
    case 'moisture-dish': {
      const emission = emissionLb(test);
      return emission.ok ? `${formatNumber(emission.value, { most: 1 }, locale)} lb per 1,000 sq ft in 24 h` : emission.message;
    }
    case 'wood-moisture':
      return `${PART[test.part]}, average ${formatPercent(meanMoisture(test.readings) ?? 0, 1)} in ${test.readings.length} ${test.readings.length === 1 ? 'place' : 'places'}`;
    case 'drop-absorption':
      return test.seconds === null ? `drop stayed ${test.watchedSeconds} s` : `absorbed in ${test.seconds} s`;
    case 'surface-ph':
      return `pH ${formatNumber(test.ph, { most: 1 }, locale)}`;
    case 'pull-off':
      return formatStrength(test.stressPa, units, locale);
    case 'scratch':
      return SCRATCH[test.result];
    case 'air':
      return `air ${formatTemperature(test.airTempC, units, locale)}, ${formatPercent(test.relativeHumidity, 0)} RH${test.surfaceTempC === null ? '' : `, floor ${formatTemperature(test.surfaceTempC, units, locale)}`}`;
    case 'floor-deflection':
      return `span ${formatLength(test.spanM, units, locale)}`;
    case 'surface-look':
      return test.is.length === 0 ? 'nothing noted' : test.is.map(lookWords).join(', ');
    case 'lab':
      return `${test.question === 'asbestos' ? 'asbestos' : 'lead'}: ${LAB[test.state]}`;
  }
}
