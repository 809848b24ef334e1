import { formatArea, parseArea } from '../../shared-core/measure/area.ts';
import { formatCoverage, parseCoverage } from '../../shared-core/measure/coverage.ts';
import { formatDensity, parseDensity } from '../../shared-core/measure/density.ts';
import { formatDepth, formatLength, formatSignedDepth } from '../../shared-core/measure/length-format.ts';
import { parseLength, parseSignedLength } from '../../shared-core/measure/length.ts';
import { formatMass, parseMass } from '../../shared-core/measure/mass.ts';
import type { Parsed } from '../../shared-core/measure/parsed.ts';
import { formatLoad, formatStrength, parseLoad, parseStrength } from '../../shared-core/measure/pressure.ts';
import { formatSpeed, parseSpeed } from '../../shared-core/measure/speed.ts';
import {
  formatTemperature,
  formatTemperatureDifference,
  parseTemperature,
  parseTemperatureDifference,
} from '../../shared-core/measure/temperature.ts';
import type { UnitSystem } from '../../shared-core/measure/unit-system.ts';
import { formatLiquid, formatVolume, parseLiquid, parseVolume } from '../../shared-core/measure/volume.ts';

interface QuantityKind {
  readonly parse: (text: string, units: UnitSystem, locale: string) => Parsed<number>;
  readonly format: (value: number, units: UnitSystem, locale: string) => string;
}

/** How each kind of quantity is parsed and formatted in the company's units. Values are SI (liters, kilograms, pascals, °C). */
export const QUANTITY_KINDS = {
  /** A wall or the side of a room: a bare number is feet in US units. */
  wall: { parse: (t, u, l) => parseLength(t, u, 'wall', l), format: formatLength },
  /** Another distance. */
  length: { parse: (t, u, l) => parseLength(t, u, 'length', l), format: formatLength },
  /** A thickness, a reading, a step. */
  depth: { parse: (t, u, l) => parseLength(t, u, 'depth', l), format: formatDepth },
  /** A reading or a step that may be negative. */
  'signed-depth': { parse: (t, u, l) => parseSignedLength(t, u, 'depth', l), format: formatSignedDepth },
  area: { parse: parseArea, format: formatArea },
  volume: { parse: parseVolume, format: formatVolume },
  liquid: { parse: parseLiquid, format: formatLiquid },
  mass: { parse: parseMass, format: formatMass },
  temperature: { parse: parseTemperature, format: formatTemperature },
  'temperature-difference': { parse: parseTemperatureDifference, format: formatTemperatureDifference },
  coverage: { parse: parseCoverage, format: formatCoverage },
  density: { parse: parseDensity, format: formatDensity },
  strength: { parse: parseStrength, format: formatStrength },
  load: { parse: parseLoad, format: formatLoad },
  speed: { parse: parseSpeed, format: formatSpeed },
} as const satisfies Record<string, QuantityKind>;

export type QuantityKindName = keyof typeof QUANTITY_KINDS;
