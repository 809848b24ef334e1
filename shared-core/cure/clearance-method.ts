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
