/**
 * What each covering asks of the floor under it: dryness and strength (flatness stands in `survey/tolerances.ts`). Published figures; where the
 * covering's own maker states one, that one stands instead and the finding says so.
 */
import type { Flooring } from '../book/flooring.ts';
import type { FlooringLimits } from '../book/job.ts';
import { PSI_PA } from '../measure/pressure.ts';
import { WOOD_MOST_SHARE } from './wood-moisture.ts';

/** A published limit with where it is published. */
export type Limit = { readonly value: number; readonly source: string };

/** What one covering asks. Null: no published figure, the maker's applies. */
export type FlooringDemand = {
  readonly flooring: Flooring;
  readonly name: string;
  /** Most relative humidity in the slab, a share. */
  readonly slabHumidity: Limit | null;
  /** Most moisture emission, pounds a 1000 ft² in 24 h. */
  readonly emissionLb: Limit | null;
  /** Most moisture of a timber subfloor, by mass. */
  readonly woodMoisture: Limit | null;
  /** Least compressive strength of the leveling layer, pascals. */
  readonly strengthPa: Limit | null;
  /** Whether an adhesive touches the surface, so that alkalinity matters. */
  readonly glued: boolean;
};

const F710_RH: Limit = { value: 0.75, source: 'ASTM F710 default, from memory; BS 8203' };
const WOOD_RH: Limit = { value: 0.75, source: 'BS 8201, BS 8203; some timbers 65 %' };
const TEXTILE_RH: Limit = { value: 0.75, source: 'British Standard practice, hygrometer box' };
const EMISSION_3: Limit = { value: 3, source: 'ASTM F710 default, from memory; “3 or 5” by most makers' };
const EMISSION_5: Limit = { value: 5, source: 'the higher figure of most makers (Suprenant and Malisch)' };
const WOOD_12: Limit = { value: WOOD_MOST_SHARE, source: 'NWFA, from memory' };
const C20: Limit = { value: 20e6, source: 'DIN 18560-3, bonded with covering: C20 / F3' };
const PSI_3000: Limit = { value: 3000 * PSI_PA, source: 'ASTM F710 section 4, commercial work; figure from memory' };

/** Every covering, once. */
export const FLOORING_DEMANDS: Readonly<Record<Flooring, FlooringDemand>> = {
  'bare-sealed': {
    flooring: 'bare-sealed',
    name: 'left bare and sealed',
    slabHumidity: null,
    emissionLb: null,
    woodMoisture: WOOD_12,
    strengthPa: null,
    glued: false,
  },
  resilient: {
    flooring: 'resilient',
    name: 'resilient flooring',
    slabHumidity: F710_RH,
    emissionLb: EMISSION_3,
    woodMoisture: WOOD_12,
    strengthPa: PSI_3000,
    glued: true,
  },
  'tile-small': {
    flooring: 'tile-small',
    name: 'small tile',
    slabHumidity: null,
    emissionLb: null,
    woodMoisture: WOOD_12,
    strengthPa: C20,
    glued: true,
  },
  'tile-large': {
    flooring: 'tile-large',
    name: 'large tile',
    slabHumidity: null,
    emissionLb: null,
    woodMoisture: WOOD_12,
    strengthPa: C20,
    glued: true,
  },
  'wood-glued': {
    flooring: 'wood-glued',
    name: 'glued wood',
    slabHumidity: WOOD_RH,
    emissionLb: EMISSION_3,
    woodMoisture: WOOD_12,
    strengthPa: C20,
    glued: true,
  },
  'wood-nailed': {
    flooring: 'wood-nailed',
    name: 'nailed wood',
    slabHumidity: WOOD_RH,
    emissionLb: EMISSION_3,
    woodMoisture: WOOD_12,
    strengthPa: null,
    glued: false,
  },
  floating: {
    flooring: 'floating',
    name: 'a floating floor',
    slabHumidity: WOOD_RH,
    emissionLb: EMISSION_3,
    woodMoisture: WOOD_12,
    strengthPa: null,
    glued: false,
  },
  carpet: {
    flooring: 'carpet',
    name: 'carpet',
    slabHumidity: TEXTILE_RH,
    emissionLb: EMISSION_5,
    woodMoisture: WOOD_12,
    strengthPa: null,
    glued: true,
  },
};

/** A limit in force: its value, who says so, and whether that is the covering's maker. */
export type LimitInForce = { readonly value: number; readonly source: string; readonly fromManufacturer: boolean };

/** The limits in force for one floor; null where neither maker nor standard states one. */
export type LimitsInForce = {
  readonly slabHumidity: LimitInForce | null;
  readonly emissionLb: LimitInForce | null;
  readonly woodMoisture: LimitInForce | null;
};

function inForce(published: Limit | null, own: number | null, statedIn: string): LimitInForce | null {
  if (own !== null)
    return { value: own, source: statedIn.trim() === '' ? 'the covering’s maker' : statedIn.trim(), fromManufacturer: true };
  return published === null ? null : { value: published.value, source: published.source, fromManufacturer: false };
}

/**
 * The limits in force: the maker's own where written, the published ones otherwise.
 * @param covering null while none is chosen: timber keeps its limit, slabs have none
 */
export function limitsInForce(flooring: Flooring | null, manufacturers: FlooringLimits | null): LimitsInForce {
  const demand = flooring === null ? null : FLOORING_DEMANDS[flooring];
  const statedIn = manufacturers?.statedIn ?? '';
  return {
    slabHumidity: inForce(demand?.slabHumidity ?? null, manufacturers?.slabHumidity ?? null, statedIn),
    emissionLb: inForce(demand?.emissionLb ?? null, manufacturers?.emissionLb ?? null, statedIn),
    woodMoisture: inForce(demand === null ? WOOD_12 : demand.woodMoisture, manufacturers?.woodMoisture ?? null, statedIn),
  };
}
