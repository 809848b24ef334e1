/**
 * A pour by hand written for a general-purpose discrete-event library (simjs) to compare with: entities, buffers and timers, independent of
 * the program's simulation. Times are drawn from the same distributions in another order.
 */
import { createRequire } from 'node:module';
import type { PourModel } from '../../shared-core/pour/crew-model.ts';
import { TASK } from '../../shared-core/pour/crew-model.ts';
import { newRandom, seedRandom } from '../../shared-core/pour/random.ts';
import { sampleMin } from '../../shared-core/pour/task-time.ts';

type Pending = { done(next: () => void): Pending };
type Tokens = { readonly tokens: true };
type EntityLike = {
  setTimer(minutes: number): Pending;
  getBuffer(from: Tokens, amount: number): Pending;
  putBuffer(to: Tokens, amount: number): Pending;
  time(): number;
};
type Simulation = { addEntity(kind: new (...args: never[]) => EntityLike): EntityLike; simulate(until: number): boolean };
type Library = {
  readonly Sim: new () => Simulation;
  readonly Entity: new (sim: Simulation, name?: string) => EntityLike;
  readonly Buffer: new (name: string, capacity: number, initial: number) => Tokens;
};

/** The library expects a page and stores its parts on `window`, so it gets one while it loads. */
function load(): Library {
  const page: { Sim?: Library } = {};
  const previous = Reflect.get(globalThis, 'window') as unknown;
  Reflect.set(globalThis, 'window', page);
  createRequire(import.meta.url)('simjs');
  if (previous === undefined) Reflect.deleteProperty(globalThis, 'window');
  else Reflect.set(globalThis, 'window', previous);
  if (!page.Sim) throw new Error('simjs left nothing on the page it was lent.');
  return page.Sim;
}
const library = load();

/** Finishing times of a pour carried by hand without stoppages, and minutes waited at the edge over all runs. */
export function generalPour(
  model: PourModel,
  runs: number,
  seed: number,
): { readonly finishMin: Float64Array; readonly waitedMin: number } {
  const finishMin = new Float64Array(runs);
  const random = newRandom();
  let waitedMin = 0;
  const time = (task: number) => sampleMin(model.rows, task, random);
  for (let run = 0; run < runs; run++) {
    seedRandom(random, seed, run);
    const sim = new library.Sim();
    const carriers = new library.Buffer('carriers', model.shape.carriers, model.shape.carriers);
    const spreaders = new library.Buffer('spreaders', model.shape.spreaders, model.shape.spreaders);
    let begun = 0;
    let last = 0;
    class Trip extends library.Entity {
      start() {
        const half = time(TASK.carry) / 2;
        this.setTimer(half).done(() => {
          const arrivedAt = this.time();
          this.getBuffer(spreaders, 1).done(() => {
            waitedMin += this.time() - arrivedAt;
            this.setTimer(time(TASK.spread)).done(() => {
              last = this.time();
              this.putBuffer(spreaders, 1);
            });
            this.setTimer(half).done(() => this.putBuffer(carriers, 1));
          });
        });
      }
    }
    class Mixer extends library.Entity {
      start() {
        if (begun >= model.batches) return;
        begun += 1;
        this.setTimer(time(TASK.measure)).done(() => {
          this.setTimer(time(TASK.mix)).done(() => {
            this.getBuffer(carriers, 1).done(() => {
              sim.addEntity(Trip);
              this.setTimer(time(TASK.scrape)).done(() => {
                this.start();
              });
            });
          });
        });
      }
    }
    for (let m = 0; m < model.shape.mixers; m++) sim.addEntity(Mixer);
    sim.simulate(1e9);
    finishMin[run] = last;
  }
  return { finishMin, waitedMin };
}
