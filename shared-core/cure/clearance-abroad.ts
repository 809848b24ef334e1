/** Clearance methods for businesses outside the US: the carbide method of DIN 18560-1 and the humidity hood of the British Standards. */
import type { MaterialKind } from '../book/material.ts';
import type { LimitInForce } from '../substrate/flooring-demands.ts';
import type { ClearanceMethod } from './clearance-method.ts';

export const CARBIDE_COUNTRIES: ReadonlySet<string> = new Set(['DE', 'AT', 'CH']);
export const HOOD_COUNTRIES: ReadonlySet<string> = new Set(['GB', 'IE']);

/** Carbide method, CM-%. Source: DIN 18560-1 (cement 2.0, heated 1.8; calcium sulfate 0.5 since November 2015). */
const CARBIDE_MAX = { cement: 2.0, cementHeated: 1.8, gypsum: 0.5 } as const;

/** A hood is sealed to the floor for 72 hours at least. Source: screedtesting.uk on BS 5353, BS 8203, BS 8201 and BS 8425. */
const HOOD_HOURS = 72;
/** 75 % by BS 8201 and BS 8203. */
const HOOD_MAX = 0.75;

/** The carbide test of DIN 18560-1. Sealed flooring is laid at or below the limit, in CM-%. */
export function carbideMethod(kind: MaterialKind, heated: boolean): ClearanceMethod {
  const cement = heated ? CARBIDE_MAX.cementHeated : CARBIDE_MAX.cement;
  return {
    method: 'carbide',
    limit: kind === 'calcium-sulfate' ? CARBIDE_MAX.gypsum : cement,
    unit: 'cm-percent',
    name: 'carbide test on a sample from the full depth',
    source: 'DIN 18560-1',
    typical: false,
    hoursAfterPour: 0,
  };
}

/**
 * The humidity hood of BS 8203, as a share of relative humidity.
 * @param own the flooring manufacturer's RH limit where one is entered
 */
export function hoodMethod(own: LimitInForce | null): ClearanceMethod {
  const isOwn = own?.fromManufacturer === true;
  return {
    method: 'humidity-hood',
    limit: isOwn ? own.value : HOOD_MAX,
    unit: 'share',
    name: 'surface humidity hood, sealed until the reading is stable',
    source: isOwn ? `BS 8203; limit: ${own.source}` : 'BS 8203',
    typical: !isOwn,
    hoursAfterPour: HOOD_HOURS,
  };
}
