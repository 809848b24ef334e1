import type { ClearanceTest } from '../book/cure-record.ts';

/** One test that can clear a floor for flooring. */
export type ClearanceMethod = {
  readonly method: ClearanceTest['method'];
  /** Null while the manufacturer's figure is not entered: no result can pass. */
  readonly limit: number | null;
  readonly unit: ClearanceTest['unit'];
  /** `in-slab relative humidity (RH) test`, inside a sentence. */
  readonly name: string;
  readonly source: string;
  /** A typical limit, until the flooring manufacturer's own is entered. */
  readonly typical: boolean;
  /** Hours after the pour before a result counts: the test itself takes so long on the new floor. */
  readonly hoursAfterPour: number;
};

/** The name of each method, in forms and in documents. */
export const METHOD_NAMES: Readonly<Record<ClearanceTest['method'], string>> = {
  'slab-humidity': 'In-slab RH (ASTM F2170)',
  'vapor-emission': 'Calcium chloride (ASTM F1869)',
  meter: 'Moisture meter (ASTM F2659)',
  'wood-moisture': 'Wood moisture content',
  'humidity-hood': 'Surface humidity hood',
  carbide: 'Carbide method (full depth)',
  'manufacturer-method': 'Sealer data sheet method',
};
