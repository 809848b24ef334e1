import { describe, expect, it } from 'vitest';
import { openPlaceSearch } from '../../../renderer/app/search-places.ts';

const search = openPlaceSearch();
const first = (query: string, path = '/'): string | undefined => search(query, path)[0]?.href;

describe('searching for screens and commands', () => {
  it.each([
    ['backup', '/backup'],
    ['restore', '/backup'],
    ['tax', '/business/tax'],
    ['units', '/business/units'],
    ['metric', '/business/units'],
    ['labor rate', '/business/costs'],
    ['dark', '/business'],
    ['customers', '/customers'],
    ['new lead', 'command:new-lead'],
    ['undo', 'command:undo'],
    ['today', '/'],
    ['jobs', '/jobs'],
    ['materials', '/materials'],
    ['settings', '/business'],
    ['licenses', '/licenses'],
    ['export', '/backup'],
    ['invoice', '/money'],
    ['payment', '/money'],
  ])('“%s” leads to %s', (query, href) => expect(first(query)).toBe(href));

  it.each([
    ['people', '/customers'],
    ['units and ways', '/business/units'],
    ['put away', '/business'],
    ['copies', '/backup'],
    ['sample book', '/business'],
  ])('the earlier name “%s” is still found', (query, href) => expect(first(query)).toBe(href));

  it('takes a letter too many or too few', () => {
    expect(first('bakcup')).toBe('/backup');
    expect(first('settngs')).toBe('/business');
  });

  it('leads to a stage of the open job, and to the jobs when none is open', () => {
    for (const stage of ['assess', 'prep', 'estimate', 'quote', 'pour', 'cure', 'handover'])
      expect(first(stage, '/jobs/job-1/prep/room-2')).toBe(`/jobs/job-1/${stage}/room-2`);
    expect(first('ballpark')).toBe('/jobs');
  });

  it('finds nothing for a name', () => expect(search('Wicklow', '/')).toEqual([]));
});
