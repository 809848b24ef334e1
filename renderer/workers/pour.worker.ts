/** Simulates a pour many times in a worker. */
import { expose } from 'comlink';
import { simulatePour } from '../../shared-core/pour/simulate.ts';

const work = { simulatePour };
export type PourWork = typeof work;

expose(work);
