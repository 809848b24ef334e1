/**
 * Mean waits in line of single-server queues. Source: D. Gross, C. M. Harris, Fundamentals of Queueing Theory, Wiley: M/M/1
 * (chapter 2) and the Pollaczek-Khintchine formula for M/G/1 (chapter 5), of which M/D/1 is the case of no variance. The
 * formulas are from memory of that book.
 */

/** Mean wait in line of M/M/1: ρ / (μ − λ). */
export const waitMM1 = (arrivals: number, serviceMean: number): number => {
  const load = arrivals * serviceMean;
  return (load * serviceMean) / (1 - load);
};

/** Mean wait in line of M/D/1: ρ / (2 μ (1 − ρ)). */
export const waitMD1 = (arrivals: number, serviceMean: number): number => waitMM1(arrivals, serviceMean) / 2;

/** Mean wait in line of M/G/1 by Pollaczek-Khintchine: λ E[S²] / (2 (1 − ρ)). */
export const waitMG1 = (arrivals: number, serviceMean: number, serviceVariance: number): number =>
  (arrivals * (serviceVariance + serviceMean ** 2)) / (2 * (1 - arrivals * serviceMean));
