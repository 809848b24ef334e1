/** A reading taken, in a line. */
import type { FloorTest } from '../book/layer.ts';
import { formatNumber } from '../measure/number.ts';
import { formatPercent } from '../measure/percent.ts';
import { formatStrength } from '../measure/pressure.ts';
import { formatTemperature } from '../measure/temperature.ts';
import { formatDepth, formatLength } from '../measure/length-format.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { emissionLb } from './moisture-dish.ts';
import { meanMoisture } from './wood-moisture.ts';

const LAB = { sent: 'not back yet', 'none-found': 'none found', found: 'found' } as const;

/** What the test says, with its own arithmetic where it has one. */
export function testWords(test: FloorTest, units: UnitSystem, locale: string): string {
  switch (test.kind) {
    case 'slab-humidity':
      return `${formatPercent(test.relativeHumidity, 0)} at ${formatDepth(test.depthM, units)}`;
    case 'moisture-dish': {
      const emission = emissionLb(test);
      return emission.ok ? `${formatNumber(emission.value, { most: 1 }, locale)} lb per 1,000 sq ft in 24 h` : emission.message;
    }
    case 'wood-moisture':
      return `${test.part}, ${formatPercent(meanMoisture(test.readings) ?? 0, 1)} in ${test.readings.length} places`;
    case 'drop-absorption':
      return test.seconds === null ? `still there after ${test.watchedSeconds} s` : `gone in ${test.seconds} s`;
    case 'surface-ph':
      return `pH ${formatNumber(test.ph, { most: 1 }, locale)}`;
    case 'pull-off':
      return formatStrength(test.stressPa, units, locale);
    case 'scratch':
      return test.result === 'firm' ? 'stays firm' : test.result;
    case 'air':
      return `air ${formatTemperature(test.airTempC, units, locale)}, ${formatPercent(test.relativeHumidity, 0)}${test.surfaceTempC === null ? '' : `, floor ${formatTemperature(test.surfaceTempC, units, locale)}`}`;
    case 'floor-bounce':
      return `span ${formatLength(test.spanM, units, locale)}`;
    case 'surface-look':
      return test.is.length === 0 ? 'nothing noted' : test.is.join(', ').replaceAll('-', ' ');
    case 'laboratory':
      return `${test.question === 'asbestos' ? 'asbestos' : 'lead'}: ${LAB[test.state]}`;
  }
}
