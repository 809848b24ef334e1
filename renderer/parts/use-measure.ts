import { createContext, useContext, useMemo } from 'react';
import type { UnitSystem } from '../../shared-core/measure/unit-system.ts';
import { formatMoney, type MoneyStyle } from '../../shared-core/price/money.ts';
import { type Wording, wordingFor } from '../../shared-core/substrate/wording.ts';

/** How quantities and amounts are parsed and formatted for the company. */
export interface MeasureSetting {
  readonly units: UnitSystem;
  /** BCP 47. */
  readonly locale: string;
  /** ISO 3166 code of the company's country, which decides which standards apply. */
  readonly country: string;
  /** ISO 4217 code. */
  readonly currency: string;
}

export const MeasureContext = createContext<MeasureSetting>({ units: 'us', locale: 'en-US', country: 'US', currency: 'USD' });

export function useMeasure(): MeasureSetting {
  return useContext(MeasureContext);
}

/** Formats minor units in the company's currency. A document that was issued has its own currency. */
export function useMoney(): (minor: number, style?: MoneyStyle) => string {
  const { currency, locale } = useMeasure();
  return (minor, style) => formatMoney(minor, currency, locale, style);
}

/** How findings and prep lines write their quantities. */
export function useWording(): Wording {
  const { units, locale } = useMeasure();
  return useMemo(() => wordingFor(units, locale), [units, locale]);
}
