/** Many runs of a pour off the screen's thread. */
import { expose } from 'comlink';
import { judgeChange } from '../../shared-core/pour/advice.ts';
import { simulatePour } from '../../shared-core/pour/simulate.ts';

const work = { simulatePour, judgeChange };
export type PourWork = typeof work;

expose(work);
