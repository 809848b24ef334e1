/** What the business's own work costs it: each cost with its words, what it is told for, and which lines it goes into. */
import type { Costs } from '../../shared-core/book/business.ts';
import type { LineUnit } from '../../shared-core/price/line.ts';

export interface CostKind {
  readonly key: keyof Costs;
  readonly label: string;
  readonly unit: LineUnit;
  /** What it covers and which lines it makes. */
  readonly goesInto: string;
}

export const COST_KINDS: readonly CostKind[] = [
  { key: 'ownHourMinor', label: 'Your own hour', unit: 'h', goesInto: 'Your hours of preparation and of the pour, times this.' },
  { key: 'helperHourMinor', label: 'A helper’s hour', unit: 'h', goesInto: 'Helpers’ hours of preparation and of the pour, times this.' },
  {
    key: 'grindM2Minor',
    label: 'Grinding, by area',
    unit: 'm2',
    goesInto: 'The area to be ground, times this: the machine and going over it once.',
  },
  {
    key: 'grindM3Minor',
    label: 'Grinding, by what comes off',
    unit: 'm3',
    goesInto: 'The volume ground off, times this: wear of the tools and disposal.',
  },
  { key: 'abradeM2Minor', label: 'Abrading', unit: 'm2', goesInto: 'The area to be roughened, times this.' },
  { key: 'disposalKgMinor', label: 'Disposal', unit: 'kg', goesInto: 'The mass of what is taken out and away, times this.' },
  { key: 'travelKmMinor', label: 'Driving', unit: 'km', goesInto: 'The way there and back on each day on site, times this.' },
  { key: 'perimeterStripMMinor', label: 'Perimeter strip', unit: 'm', goesInto: 'The length of the walls that get a strip, times this.' },
  { key: 'damMMinor', label: 'Dams at doorways', unit: 'm', goesInto: 'The width of the openings to be dammed, times this.' },
  { key: 'crackFillerMMinor', label: 'Crack filler', unit: 'm', goesInto: 'The length of the cracks, times this.' },
  { key: 'reinforcementM2Minor', label: 'Reinforcement', unit: 'm2', goesInto: 'The area to be reinforced, times this.' },
  { key: 'sealerM2Minor', label: 'Sealer', unit: 'm2', goesInto: 'The area to be sealed, times this.' },
];
