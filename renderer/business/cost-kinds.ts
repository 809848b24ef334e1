/** The company's costs: label, unit, and the estimate lines that use each. */
import type { Costs } from '../../shared-core/book/business.ts';
import type { LineUnit } from '../../shared-core/price/line.ts';

export interface CostKind {
  readonly key: keyof Costs;
  readonly label: string;
  readonly unit: LineUnit;
  /** How estimate lines use it. */
  readonly goesInto: string;
}

export const COST_KINDS: readonly CostKind[] = [
  { key: 'ownHourMinor', label: 'Labor rate: owner', unit: 'h', goesInto: 'Your hours of prep and pour × this rate.' },
  { key: 'helperHourMinor', label: 'Labor rate: helper', unit: 'h', goesInto: 'Helper hours of prep and pour × this rate.' },
  {
    key: 'grindM2Minor',
    label: 'Grinding (area)',
    unit: 'm2',
    goesInto: 'Area to grind × this rate: machine and one pass.',
  },
  {
    key: 'grindM3Minor',
    label: 'Grinding (volume)',
    unit: 'm3',
    goesInto: 'Volume ground off × this rate: tool wear and disposal.',
  },
  { key: 'abradeM2Minor', label: 'Abrading', unit: 'm2', goesInto: 'Area to abrade × this rate.' },
  { key: 'disposalKgMinor', label: 'Disposal', unit: 'kg', goesInto: 'Weight removed × this rate.' },
  { key: 'travelKmMinor', label: 'Travel', unit: 'km', goesInto: 'Round trip for each day on site × this rate.' },
  { key: 'perimeterStripMMinor', label: 'Perimeter isolation strip', unit: 'm', goesInto: 'Length of wall with strip × this rate.' },
  { key: 'damMMinor', label: 'Dams at doorways', unit: 'm', goesInto: 'Width of dammed openings × this rate.' },
  { key: 'crackFillerMMinor', label: 'Crack filler', unit: 'm', goesInto: 'Length of cracks × this rate.' },
  { key: 'reinforcementM2Minor', label: 'Reinforcement', unit: 'm2', goesInto: 'Area to reinforce × this rate.' },
  { key: 'sealerM2Minor', label: 'Sealer', unit: 'm2', goesInto: 'Area to seal × this rate.' },
];
