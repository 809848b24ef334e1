/** Many runs of a pour off the screen's thread. */
import { expose } from 'comlink';
import { simulatePour } from '../../shared-core/pour/simulate.ts';

const work = { simulatePour };
export type PourWork = typeof work;

expose(work);
