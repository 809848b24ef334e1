/** The flooring manufacturer's limits, those alone that a test names. */
import type { FlooringLimits } from '../../shared-core/book/job.ts';

export const limitsOf = (stated: Partial<FlooringLimits>): FlooringLimits => ({
  ...{ slabHumidity: null, emissionLb: null, woodMoisture: null, withoutHoles: null, flatnessGapM: null, flatnessSpanM: null },
  statedIn: 'leaflet of March',
  ...stated,
});
