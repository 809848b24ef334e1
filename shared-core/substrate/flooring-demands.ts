/**
 * What each flooring requires of the floor under it: moisture, strength, stiffness (flatness is in `survey/tolerances.ts`).
 * Where the flooring's own manufacturer states a figure, it replaces the published one and the finding says so.
 */
import type { Flooring } from '../book/flooring.ts';
import type { FlooringLimits } from '../book/job.ts';
import { PSI_PA } from '../measure/pressure.ts';
import { DEFLECTION_SPAN_OVER, STONE_SPAN_OVER } from './floor-deflection.ts';
import { WOOD_MOST_SHARE } from './measured-tests.ts';

/** A published limit with its source. */
export type Limit = { readonly value: number; readonly source: string };

/** Requirements of one flooring. Null means no published figure, so the manufacturer's applies. */
export type FlooringDemand = {
  readonly name: string;
  /** Maximum in-slab relative humidity, a share. */
  readonly slabHumidity: Limit | null;
  /** Maximum moisture vapor emission, pounds per 1,000 sq ft in 24 h. */
  readonly emissionLb: Limit | null;
  /** Minimum compressive strength of the underlayment, pascals. */
  readonly strengthPa: Limit | null;
  /** Whether an adhesive touches the surface, so that the surface pH matters. */
  readonly glued: boolean;
  /** Joist deflection under live load may be no more than the span divided by this. */
  readonly spanOver: number;
};

const F710_RH: Limit = { value: 0.75, source: 'ASTM F710 default' };
const WOOD_RH: Limit = { value: 0.75, source: 'NWFA practice' };
const CARPET_RH: Limit = { value: 0.75, source: 'CRI 104/105 practice' };
const EMISSION_3: Limit = { value: 3, source: 'ASTM F710 default; 3 or 5 on data sheets' };
const EMISSION_5: Limit = { value: 5, source: 'the higher figure of most data sheets' };
/** Maximum moisture content of a wood subfloor, by mass, under any flooring. */
const WOOD_12: Limit = { value: WOOD_MOST_SHARE, source: 'NWFA installation guidelines' };
const PSI_3000: Limit = { value: 3000 * PSI_PA, source: 'ASTM F710; figure as given in a flooring guide' };
const PSI_3000_WOOD: Limit = { value: 3000 * PSI_PA, source: 'typical of glue-down wood data sheets' };

const demand = (name: string, more: Partial<FlooringDemand>): FlooringDemand => ({
  name,
  slabHumidity: null,
  emissionLb: null,
  strengthPa: null,
  glued: true,
  spanOver: DEFLECTION_SPAN_OVER,
  ...more,
});

/** Every flooring, once. */
export const FLOORING_DEMANDS: Readonly<Record<Flooring, FlooringDemand>> = {
  'bare-sealed': demand('a sealed floor', { glued: false }),
  resilient: demand('resilient flooring', { slabHumidity: F710_RH, emissionLb: EMISSION_3, strengthPa: PSI_3000 }),
  'tile-small': demand('small tile', {}),
  'tile-large': demand('large tile', {}),
  'stone-tile': demand('stone tile', { spanOver: STONE_SPAN_OVER }),
  'wood-glued': demand('glued wood', { slabHumidity: WOOD_RH, emissionLb: EMISSION_3, strengthPa: PSI_3000_WOOD }),
  'wood-nailed': demand('nailed wood', { slabHumidity: WOOD_RH, emissionLb: EMISSION_3, glued: false }),
  floating: demand('a floating floor', { slabHumidity: WOOD_RH, emissionLb: EMISSION_3, glued: false }),
  carpet: demand('carpet', { slabHumidity: CARPET_RH, emissionLb: EMISSION_5 }),
};

/** A limit that applies: its value, its source, and whether the source is the flooring's manufacturer. */
export type LimitInForce = { readonly value: number; readonly source: string; readonly fromManufacturer: boolean };

/** The limits that apply to one floor; null where neither the manufacturer nor a standard states one. */
export type LimitsInForce = {
  readonly slabHumidity: LimitInForce | null;
  readonly emissionLb: LimitInForce | null;
  readonly woodMoisture: LimitInForce | null;
  /** The manufacturer's limit of its own test without holes; no standard states one. */
  readonly withoutHoles: LimitInForce | null;
};

function inForce(published: Limit | null, ownLimit: number | null, statedIn: string): LimitInForce | null {
  if (ownLimit !== null)
    return { value: ownLimit, source: statedIn.trim() === '' ? 'the flooring manufacturer' : statedIn.trim(), fromManufacturer: true };
  return published === null ? null : { value: published.value, source: published.source, fromManufacturer: false };
}

/**
 * The limits that apply: the manufacturer's where entered, the published ones otherwise.
 * @param flooring null while none is selected: wood keeps its limit, slabs have none
 */
export function limitsInForce(flooring: Flooring | null, manufacturers: FlooringLimits | null): LimitsInForce {
  const own = flooring === null ? null : FLOORING_DEMANDS[flooring];
  const statedIn = manufacturers?.statedIn ?? '';
  return {
    slabHumidity: inForce(own?.slabHumidity ?? null, manufacturers?.slabHumidity ?? null, statedIn),
    emissionLb: inForce(own?.emissionLb ?? null, manufacturers?.emissionLb ?? null, statedIn),
    woodMoisture: inForce(WOOD_12, manufacturers?.woodMoisture ?? null, statedIn),
    withoutHoles: inForce(null, manufacturers?.withoutHoles ?? null, statedIn),
  };
}
