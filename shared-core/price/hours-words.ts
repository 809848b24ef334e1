/** The calculation of a task's hours in words, for cost lines and the screens of an estimate. */
import { type TaskAmount, type TaskHours, type TaskKey, type TaskReason, typicalBatchMinutes } from '../material/crew-hours.ts';
import { formatArea } from '../measure/area.ts';
import { formatWork } from '../measure/duration.ts';
import { formatLength } from '../measure/length-format.ts';
import { formatNumber } from '../measure/number.ts';
import { timedBatchWords } from './batch-words.ts';
import { primingWords } from './takeoff-words.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { LAYER_WORDS } from '../substrate/layer-words.ts';

/** The tasks by name, as hours are recorded by them. */
export const TASK_NAMES: Readonly<Record<TaskKey, string>> = {
  protect: 'Protect and clear',
  'lead-safe': 'Lead-safe containment and cleaning',
  tests: 'Moisture tests and the return visit',
  remove: 'Remove old flooring',
  fasten: 'Fasten the subfloor',
  vacuum: 'Vacuum',
  edges: 'Isolation strip and dams',
  cracks: 'Fill cracks',
  reinforce: 'Lay reinforcement',
  mitigate: 'Moisture mitigation system',
  prime: 'Prime',
  stage: 'Carry in and stack',
  'set-up': 'Set up and clean up',
  pour: 'Pour',
  seal: 'Seal',
};

/** The name of a task of an estimate; what is left at the edges of a poured floor has its own. */
export const taskName = ({ key, why }: TaskHours): string => (why.kind === 'edges-after-pour' ? 'Edges and patches' : TASK_NAMES[key]);

/** What is done and in how long: `374 bags in 11 h 13 min, typical`. */
export function taskReasonWords(why: TaskReason, units: UnitSystem, locale?: string): string {
  const min = (value: number) => formatWork(value / 60, locale);
  const count = (value: number, singular: string, plural = `${singular}s`) =>
    `${formatNumber(value, { most: 0 }, locale)} ${value === 1 ? singular : plural}`;
  const crew = (helpers: number) => (helpers === 0 ? 'owner alone' : `owner and ${count(helpers, 'helper')}`);
  const area = (value: number) => formatArea(value, units, locale);
  const length = (value: number) => formatLength(value, units, locale);
  const amountWords = (amount: TaskAmount): string => {
    switch (amount.of) {
      case 'room':
        return 'the room and the way in';
      case 'lead-safe':
        return 'set-up, cleaning and its check';
      case 'tests':
        return count(amount.count, 'test');
      case 'bags':
        return count(amount.count, 'bag');
      case 'removed':
        return amount.layers.map((layer) => `${LAYER_WORDS[layer.material]} ${area(layer.areaM2)}`).join(', ');
      case 'area':
        return area(amount.areaM2);
      case 'length':
        return length(amount.lengthM);
      case 'edges':
        return `${length(amount.lengthM)} of strip and ${count(amount.dams, 'dam')}`;
      case 'coats':
        return `${area(amount.areaM2)}, ${primingWords(amount.coats)}`;
    }
  };
  const basis = (factor: number | null): string =>
    factor === null ? 'typical' : `${formatNumber(factor, { most: 2 }, locale)} times typical, from your own jobs`;
  switch (why.kind) {
    case 'by-amount':
      return `${amountWords(why.amount)} in ${min(why.hours * 60)}, ${basis(why.factor)}`;
    case 'set-ups':
      return `${min(why.minutesEach)} for ${why.pours === 1 ? '' : 'each of '}${count(why.pours, 'pour')}, ${crew(why.helpers)}, ${basis(why.factor)}`;
    case 'planned': {
      const basis = why.planned.source === 'simulated' ? 'from the pour simulation' : 'from the pour plan';
      const batches = timedBatchWords(why.batches, why.planned.source === 'simulated' ? 'likely' : 'all', locale);
      return `${batches} in ${min(why.planned.minutes)} ${basis}, ${crew(why.helpers)}`;
    }
    case 'typical-pour': {
      const batchMin = formatNumber(typicalBatchMinutes(why.helpers), { most: 2 }, locale);
      return `${timedBatchWords(why.batches, 'all', locale)} at ${batchMin} min, ${count(why.mixers, 'mixer')}, ${crew(why.helpers)}, typical`;
    }
    case 'edges-after-pour':
      return 'edges, patches, and checks after the first pour, typical';
  }
}
