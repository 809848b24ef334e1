/** The options of a quote side by side: what is known of their flatness, and which others can be added. */
import { createElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { expect, it } from 'vitest';
import { OptionsPart } from '../../../renderer/stages/quote/OptionsPart.tsx';
import type { QuotedOption } from '../../../shared-core/book/quote.ts';
import { quotedPrice } from '../../../shared-core/price/quoted-price.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { GROUND } from '../../../shared-core/survey/cut-words.ts';
import { NOW, wholeOf } from '../../shared-core/job-variants.ts';

const whole = wholeOf('26-031');
const [sample] = quotedPrice(readJob(whole, NOW).estimate, whole.materials).options;
if (sample === undefined) throw new Error('The sample has an option.');
const nothing = (): void => {};
const markupOf = (options: readonly QuotedOption[]): string => {
  const [shown = sample] = options;
  const calls = { onSuggest: nothing, onName: nothing, onAdd: nothing, onDelete: nothing };
  const priced = { suggestedId: shown.id, options: [...options] };
  return renderToStaticMarkup(
    createElement(OptionsPart, { priced, currency: 'USD', heading: 'Options', hasTotal: true, shown, cut: GROUND, ...calls }),
  );
};
const withRooms = (change: Partial<QuotedOption['rooms'][number]>): QuotedOption => ({
  ...sample,
  rooms: sample.rooms.map((room) => ({ ...room, ...change })),
});

it('says that readings are missing where no flatness is known, and that no flooring is chosen only where none is', () => {
  const rows = (gapM: number | null, meetsFlooring: boolean | null) =>
    [...markupOf([{ ...sample, gapM, meetsFlooring }]).matchAll(/>(Too few readings|No flooring|Yes|No)</g)].map(([, word]) => word);
  expect(rows(null, null)).toEqual(['Too few readings', 'Too few readings']);
  expect(rows(0.003, null)).toEqual(['No flooring']);
  expect(rows(0.003, true)).toEqual(['Yes']);
});

it('offers no option that would be the same as one there is', () => {
  const offered = (...options: QuotedOption[]) => [...markupOf(options).matchAll(/Add option: ([a-z ]+)</g)].map(([, word]) => word);
  const ground = withRooms({ mode: 'level', grindMaxM: 0.003 });
  const filled = withRooms({ mode: 'level', grindMaxM: 0 });
  const following = { ...withRooms({ mode: 'follow', grindMaxM: 0 }), id: 'option-1' };
  expect(offered(ground)).toEqual(['follow the floor', 'level without grinding']);
  expect(offered(filled)).toEqual(['follow the floor']);
  expect(offered(ground, following)).toEqual(['level without grinding']);
  expect(offered(filled, following)).toEqual([]);
});
