import { describe, expect, it } from 'vitest';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { draftQuote } from '../../../shared-core/documents/issue-quote-document.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { sampleJob } from './sample-job.ts';
import { textOf } from './tree-text.ts';

const NOW = '2026-05-12T15:00:00.000Z';
const quoteOf = (whole: WholeJob): string => textOf(draftQuote(readJob(whole, NOW), NOW));

describe('a quote with several options', () => {
  const whole = sampleJob('26-031', NOW);
  const parts = quoteOf(whole).split(/^Scope of work: /m);

  it('has a scope of work for each option that can be chosen', () => {
    const names = ['As recommended', ...whole.job.estimate.options.map(({ name }) => name)];
    expect(parts).toHaveLength(names.length + 1);
    for (const { name } of whole.job.estimate.options)
      expect(
        parts.filter((part) => part.startsWith(`${name}\n`)),
        name,
      ).toHaveLength(1);
  });

  it('says of each other option what differs: the pour, the material, the flatness and the heights, and what is left out', () => {
    const [first = '', ...others] = parts.slice(1);
    const follow = others.find((part) => part.startsWith('Follow the floor')) ?? '';
    expect(first).toMatch(/^Sand [\d,]+ sq ft of high spots/m);
    expect(follow).toMatch(/^Not in this option: sand [\d,]+ sq ft of high spots/m);
    expect(follow).toMatch(/^Pour an even layer that follows the floor: [\d,]+ sq ft, ³⁄₁₆″ deep$/m);
    expect(follow).toMatch(/^Material: .+, about \d+ bags$/m);
    expect(follow).toMatch(/^Hall: the flooring needs .+, over the limit\.$/m);
    expect(follow).toContain('Everything else as above.');
    // An even layer raises each doorway by its thickness. By hand.
    expect(follow.match(/^Hall: .+ \| ³⁄₁₆″ higher \| /gm)).toHaveLength(3);
    // What is the same is not printed again.
    for (const same of first.match(/^(?:Remove|Abrade|Fill|Dam|Set isolation).+$/gm) ?? []) expect(follow).not.toContain(same);
  });

  it('says so where an option changes no work, and nothing where there is one option alone', () => {
    const [option] = whole.job.estimate.options;
    if (option === undefined) throw new Error('The job has options.');
    const withOptions = (options: WholeJob['job']['estimate']['options']): string =>
      quoteOf({ ...whole, job: { ...whole.job, estimate: { ...whole.job.estimate, options, suggestedOptionId: null } } });
    expect(withOptions([{ ...option, rooms: [] }])).toContain(`Scope of work: ${option.name}\nEverything as above.`);
    expect(withOptions([])).not.toMatch(/as above|Scope of work: /);
  });
});
