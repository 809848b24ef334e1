import { formatArea, parseArea } from './area.ts';
import { formatCoverage, parseCoverage } from './coverage.ts';
import { formatDensity, parseDensity } from './density.ts';
import { formatDepth, formatLength, formatSignedDepth } from './length-format.ts';
import { parseLength, parseSignedLength } from './length.ts';
import { parseJoist } from './lumber.ts';
import { formatMass, parseMass } from './mass.ts';
import type { Parsed } from './parsed.ts';
import { formatLoad, formatStrength, parseLoad, parseStrength } from './pressure.ts';
import { formatSpeed, parseSpeed } from './speed.ts';
import { formatTemperature, formatTemperatureDifference, parseTemperature, parseTemperatureDifference } from './temperature.ts';
import type { UnitSystem } from './unit-system.ts';
import { formatLiquid, formatVolume, parseLiquid, parseVolume } from './volume.ts';

interface QuantityKind {
  readonly parse: (text: string, units: UnitSystem, locale: string) => Parsed<number>;
  readonly format: (value: number, units: UnitSystem, locale: string) => string;
}

/** How each kind of quantity is parsed and formatted in the company's units. Values are SI (liters, kilograms, pascals, °C). */
export const QUANTITY_KINDS = {
  /** A wall, the side of a room, or a place in it: a bare number is feet in US units. */
  wall: { parse: (t, u, l) => parseLength(t, u, 'wall', l), format: formatLength },
  /** A width of a door, a lane, or a joist spacing: a bare number is inches in US units. */
  length: { parse: (t, u, l) => parseLength(t, u, 'length', l), format: formatLength },
  /** A thickness, a reading, or a step. */
  depth: { parse: (t, u, l) => parseLength(t, u, 'depth', l), format: formatDepth },
  /** A side of a joist, as measured or from its nominal size. */
  'joist-depth': { parse: (t, u, l) => parseJoist(t, u, 'depth', l), format: formatDepth },
  'joist-width': { parse: (t, u, l) => parseJoist(t, u, 'width', l), format: formatDepth },
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
