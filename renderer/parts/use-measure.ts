import { createContext, useContext } from 'react';
import type { UnitSystem } from '../../shared-core/measure/unit-system.ts';

/** How the business reads and writes quantities. */
export interface MeasureSetting {
  readonly units: UnitSystem;
  /** BCP 47. */
  readonly locale: string;
  /** ISO 3166 code of the business's country: decides which standards apply. */
  readonly country: string;
}

export const MeasureContext = createContext<MeasureSetting>({ units: 'us', locale: 'en-US', country: 'US' });

/** The units and the locale to read and write quantities in, as the business has chosen. */
export function useMeasure(): MeasureSetting {
  return useContext(MeasureContext);
}
