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

const KINDS: Readonly<Record<keyof Costs, Omit<CostKind, 'key'>>> = {
  ownHourMinor: { label: 'Labor rate: owner', unit: 'h', goesInto: 'Your hours of prep and pour × this rate.' },
  helperHourMinor: { label: 'Labor rate: helper', unit: 'h', goesInto: 'Helper hours of prep and pour × this rate.' },
  grindM2Minor: { label: 'Grinding (area)', unit: 'm2', goesInto: 'Area to grind × this rate: machine and one pass.' },
  grindM3Minor: { label: 'Grinding (volume)', unit: 'm3', goesInto: 'Volume ground off × this rate: tool wear and disposal.' },
  abradeM2Minor: { label: 'Abrading', unit: 'm2', goesInto: 'Area to abrade × this rate.' },
  disposalKgMinor: { label: 'Disposal', unit: 'kg', goesInto: 'Weight removed × this rate.' },
  travelKmMinor: { label: 'Travel', unit: 'km', goesInto: 'Round trip for each day on site × this rate.' },
  perimeterStripMMinor: { label: 'Perimeter isolation strip', unit: 'm', goesInto: 'Length of wall with strip × this rate.' },
  damMMinor: { label: 'Dams at doorways', unit: 'm', goesInto: 'Width of dammed openings × this rate.' },
  crackFillerMMinor: { label: 'Crack filler', unit: 'm', goesInto: 'Length of cracks × this rate.' },
  reinforcementM2Minor: { label: 'Reinforcement', unit: 'm2', goesInto: 'Area to reinforce × this rate.' },
  sealerM2Minor: { label: 'Sealer', unit: 'm2', goesInto: 'Area to seal × this rate.' },
};

export const COST_KINDS: readonly CostKind[] = (Object.keys(KINDS) as (keyof Costs)[]).map((key) => ({ key, ...KINDS[key] }));
