import { createContext, useContext } from 'react';
import type { UnitSystem } from '../../shared-core/measure/unit-system.ts';

/** How quantities are parsed and formatted for the company. */
export interface MeasureSetting {
  readonly units: UnitSystem;
  /** BCP 47. */
  readonly locale: string;
  /** ISO 3166 code of the company's country, which decides which standards apply. */
  readonly country: string;
}

export const MeasureContext = createContext<MeasureSetting>({ units: 'us', locale: 'en-US', country: 'US' });

export function useMeasure(): MeasureSetting {
  return useContext(MeasureContext);
}
