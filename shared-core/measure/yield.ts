/** The yield of a bag, as typed. */
import { parseArea } from './area.ts';
import { parseLength } from './length.ts';
import type { Parsed } from './parsed.ts';
import { unitsIn } from './quantity.ts';
import type { UnitSystem } from './unit-system.ts';
import { parseVolume } from './volume.ts';

/** A figure without a label's words after a yield or an amount of water: `/bag`, `per bag`. */
export const withoutPerBag = (text: string): string => text.trim().replace(/\s*(?:\/|\bper)\s*bag\.?$/i, '');

/**
 * A yield as bags print it, m³: a volume, or an area at a depth, `45 sq ft at 1/8"`. Refused in words where it is neither, and where only
 * one of the two figures has a unit.
 */
export function parseYield(text: string, units: UnitSystem, locale: string): Parsed<number> {
  const typed = withoutPerBag(text);
  const [, covered, thick] = /^(.*?)\s*(?:\bper\s+bag\s+|\/\s*bag\s+)?(?:\bat\b|@)\s*(.+)$/i.exec(typed) ?? [];
  if (covered === undefined || thick === undefined) return parseVolume(typed, units, locale);
  if ((unitsIn(covered).length === 0) !== (unitsIn(thick).length === 0)) {
    const example = units === 'us' ? '45 sq ft at 1/8"' : '4.2 m² at 3 mm';
    return { ok: false, message: `“${text.trim()}”: only one figure has a unit. Enter both units, such as ${example}.` };
  }
  const area = parseArea(covered, units, locale);
  if (!area.ok) return area;
  const depth = parseLength(thick, units, 'depth', locale);
  return depth.ok ? { ok: true, value: area.value * depth.value } : depth;
}
