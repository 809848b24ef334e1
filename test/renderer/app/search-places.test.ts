import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { openPlaceSearch, searchAll } from '../../../renderer/app/search-places.ts';

const places = openPlaceSearch();
const search = (query: string, path: string) => places(query, path, 'exact');
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

  it('finds a word with one letter too many or too few where nothing is named so', async () => {
    const nobody = () => Promise.resolve([]);
    expect((await searchAll('bakcup', '/', places, nobody))[0]?.href).toBe('/backup');
    expect((await searchAll('settngs', '/', places, nobody))[0]?.href).toBe('/business');
  });

  it.each(['Abara', 'rusk', 'Finch', 'Dale', 'Calder', 'hall'])(
    'a record named “%s” comes before screens with a similar name',
    async (name) => {
      const record = { id: 'customers/1', kind: 'customer', title: name, href: '/customers/1' };
      expect(places(name, '/', 'near')).not.toEqual([]);
      expect(await searchAll(name, '/', places, () => Promise.resolve([record]))).toEqual([record]);
    },
  );

  it('leads to a stage of the open job, and to the jobs when none is open', () => {
    for (const stage of ['assess', 'prep', 'estimate', 'quote', 'pour', 'cure', 'handover'])
      expect(first(stage, '/jobs/job-1/prep/room-2')).toBe(`/jobs/job-1/${stage}/room-2`);
    expect(first('ballpark')).toBe('/jobs');
  });

  it.each([
    ['mileage', '/jobs/job-1/money'],
    ['change order', '/jobs/job-1/quote/room-2'],
    ['moisture test', '/jobs/job-1/assess/room-2'],
    ['relative humidity', '/jobs/job-1/assess/room-2'],
    ['telephone', '/business/company'],
    ['skirting', '/jobs/job-1/prep/room-2'],
    ['seam', '/jobs/job-1/pour/room-2'],
    ['laser', '/readings/room-2'],
    ['floor plan', '/plan/room-2'],
    ['data sheet', '/materials'],
    ['lot number', '/stock'],
    ['lien deadline', '/business/money'],
    ['warranty', '/jobs/job-1/handover/room-2'],
  ])('inside a job “%s” leads to %s', (query, href) =>
    expect(search(query, '/jobs/job-1/prep/room-2').map((result) => result.href)).toContain(href),
  );

  it('knows every screen of the router by its ordinary name, as the first result', () => {
    // The ordinary name of each route. Records with an address are found among the records.
    const names: Record<string, string | null> = {
      '/': 'Today',
      '/jobs': 'Jobs',
      '/jobs/:job/money': 'Job money',
      '/jobs/:job/:stage/:room': 'Assess',
      '/pour/:pour': 'Pour mode',
      '/customers': 'Customers',
      '/customers/:customer': null,
      '/properties/:property': null,
      '/plan/:room/:part?': 'Plan',
      '/readings/:room': 'Readings',
      '/money': 'Money',
      '/stock': 'Stock',
      '/materials': 'Materials',
      '/materials/:material': null,
      '/business/:part?': 'Settings',
      '/licenses': 'Licenses',
      '/backup': 'Backups',
    };
    const routes = [...readFileSync('renderer/app/Routes.tsx', 'utf8').matchAll(/<Route path="([^"]+)"/g)].map(([, path]) => path ?? '');
    expect(routes.toSorted()).toEqual(Object.keys(names).toSorted());
    const inJob = { job: 'job-1', stage: 'assess', room: 'room-2', part: '' } as Record<string, string>;
    for (const [route, name] of Object.entries(names)) {
      if (name === null) continue;
      const address = route.replaceAll(/\/:(\w+)\??/g, (_, key: string) => (inJob[key] === '' ? '' : `/${inJob[key] ?? key}`));
      const found = search(name, '/jobs/job-1/prep/room-2')[0];
      // Pour mode belongs to a pour: Search leads to the Pour stage, which starts or opens it.
      expect([name, found?.href]).toEqual([name, route === '/pour/:pour' ? '/jobs/job-1/pour/room-2' : address]);
    }
  });

  it('finds nothing for a name', () => expect(search('Wicklow', '/')).toEqual([]));
});
