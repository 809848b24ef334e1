/** The screens and commands that Search knows. Their words include earlier names on purpose, so that those are still found. */
import MiniSearch from 'minisearch';
import type { SearchResult } from '../parts/SearchPanel.tsx';

type Place = {
  readonly id: string;
  readonly kind: 'screen' | 'setting' | 'command';
  readonly title: string;
  /** Synonyms of the trade and names of earlier versions. */
  readonly words: string;
  /** An address, or one inside the open job: `stage:NAME`, `room:plan`, `room:readings`, `job:money`. */
  readonly to: string;
};

const PLACES: readonly Place[] = [
  {
    id: 'new-lead',
    kind: 'command',
    title: 'New lead',
    words: 'add customer call caller inquiry phone prospect first call new job',
    to: 'command:new-lead',
  },
  { id: 'undo', kind: 'command', title: 'Undo', words: 'take back revert', to: 'command:undo' },
  {
    id: 'today',
    kind: 'screen',
    title: 'Today',
    words: 'agenda calendar schedule due home dashboard reminders conflicts clashes to do visits',
    to: '/',
  },
  { id: 'jobs', kind: 'screen', title: 'Jobs', words: 'work projects list finished declined job numbers', to: '/jobs' },
  {
    id: 'customers',
    kind: 'screen',
    title: 'Customers',
    words: 'people clients contacts leads homeowners houses properties address book',
    to: '/customers',
  },
  {
    id: 'import',
    kind: 'command',
    title: 'Import contacts',
    words: 'import vcard csv address book bring in from another program',
    to: '/customers',
  },
  {
    id: 'materials',
    kind: 'screen',
    title: 'Materials',
    words:
      'products data sheet data sheets TDS underlayment self-leveling SLU primer sealer powder cement leveler compound manufacturer coverage working time',
    to: '/materials',
  },
  { id: 'settings', kind: 'screen', title: 'Settings', words: 'business company preferences options configuration setup', to: '/business' },
  {
    id: 'company',
    kind: 'setting',
    title: 'Company',
    words: 'business name address phone telephone email logo mark letterhead license owner',
    to: '/business/company',
  },
  {
    id: 'units',
    kind: 'setting',
    title: 'Units',
    words: 'feet inches meters metric imperial paper size letter A4 time zone currency dollars number date format units and ways',
    to: '/business/units',
  },
  { id: 'tax', kind: 'setting', title: 'Taxes', words: 'tax sales tax rate vat gst rounding', to: '/business/tax' },
  {
    id: 'price',
    kind: 'setting',
    title: 'Price',
    words: 'pricing markup margin contingency minimum charge profit',
    to: '/business/price',
  },
  {
    id: 'costs',
    kind: 'setting',
    title: 'Costs',
    words: 'labor rate hourly wage helper travel mileage rate grinding disposal overhead',
    to: '/business/costs',
  },
  { id: 'hours', kind: 'setting', title: 'Working hours', words: 'schedule days week time open', to: '/business/hours' },
  {
    id: 'quotes',
    kind: 'setting',
    title: 'Quotes',
    words: 'quote terms validity valid expires deposit contract conditions payment',
    to: '/business/quotes',
  },
  {
    id: 'contract',
    kind: 'setting',
    title: 'Contract',
    words: 'license registration insurance state law payment methods late charge warranty right to cancel',
    to: '/business/contract',
  },
  {
    id: 'clauses',
    kind: 'setting',
    title: 'Contract clauses',
    words: 'terms conditions change orders concealed conditions cancellation legal wording',
    to: '/business/clauses',
  },
  {
    id: 'bags',
    kind: 'setting',
    title: 'Bags and pours',
    words: 'waste factor loss bucket mixing cold joint risk safety percentile',
    to: '/business/bags',
  },
  {
    id: 'past-pours',
    kind: 'setting',
    title: 'Past pours',
    words: 'learned history actual estimate compare task times',
    to: '/business/past-pours',
  },
  { id: 'appearance', kind: 'setting', title: 'Appearance', words: 'look theme dark light mode colors', to: '/business' },
  { id: 'reminders', kind: 'setting', title: 'Reminders', words: 'notifications notices alerts alarm', to: '/business' },
  {
    id: 'calendar-files',
    kind: 'setting',
    title: 'Calendar files',
    words: 'ics ical subscribe phone calendar export dates',
    to: '/business',
  },
  {
    id: 'archive',
    kind: 'setting',
    title: 'Archived records',
    words: 'archive unarchive put away bring back hidden deleted trash',
    to: '/business',
  },
  { id: 'sample', kind: 'command', title: 'Sample data', words: 'sample book demo example try tutorial', to: '/business' },
  {
    id: 'storage',
    kind: 'setting',
    title: 'Storage',
    words: 'disk space folder documents papers where saved version about',
    to: '/business',
  },
  {
    id: 'backup',
    kind: 'screen',
    title: 'Backups',
    words: 'backup back up copy copies restore snapshot passphrase encrypt lock import from backup move computer usb',
    to: '/backup',
  },
  { id: 'export', kind: 'command', title: 'Export lists', words: 'export csv json spreadsheet tables download leave', to: '/backup' },
  { id: 'problems', kind: 'screen', title: 'Data problems', words: 'damaged odd broken repair missing check', to: '/backup' },
  { id: 'licenses', kind: 'screen', title: 'Licenses', words: 'open source legal packages credits', to: '/licenses' },
  {
    id: 'money',
    kind: 'screen',
    title: 'Money',
    words:
      'invoice invoices bill payment payments receipts costs profit owed ledger accounts bookkeeping bookkeeper year income expenses 1099 overdue balance books',
    to: '/money',
  },
  {
    id: 'stock',
    kind: 'screen',
    title: 'Stock',
    words: 'on hand van inventory bags lots lot number purchases buy shopping list expired shelf life count',
    to: '/stock',
  },
  {
    id: 'job-money',
    kind: 'screen',
    title: 'Job money',
    words:
      'invoice payment receive cost receipt purchase hours time worked mileage drive trip subcontractor retainage lien deposit statement',
    to: 'job:money',
  },
  {
    id: 'plan',
    kind: 'screen',
    title: 'Plan',
    words: 'floor plan draw room walls openings doorway cutouts corners tape sketch layout marks cracks',
    to: 'room:plan',
  },
  {
    id: 'readings',
    kind: 'screen',
    title: 'Readings',
    words: 'elevation elevations laser rod shots survey level heights floor flatness F-numbers high low staff',
    to: 'room:readings',
  },
  {
    id: 'expenses',
    kind: 'setting',
    title: 'Expenses and lien deadlines',
    words: 'expense categories bookkeeper preliminary notice mechanics lien state deadline',
    to: '/business/money',
  },
  {
    id: 'assess',
    kind: 'screen',
    title: 'Assess',
    words:
      'assessment substrate subfloor slab layers floor assembly tests moisture test relative humidity RH MVER calcium chloride dish water drop porosity pull-off tensile bond pH alkalinity wood moisture joists deflection asbestos lead paint lab laboratory findings hold inspection timber',
    to: 'stage:assess',
  },
  {
    id: 'prep',
    kind: 'screen',
    title: 'Prep',
    words:
      'preparation checklist grinding primer sign prep sheet shopping list baseboard skirting dam isolation strip cracks height schedule',
    to: 'stage:prep',
  },
  {
    id: 'estimate',
    kind: 'screen',
    title: 'Estimate',
    words:
      'bags takeoff depth volume thickness level finish elevation ballpark price range what if ramp high spots options doorways flatness',
    to: 'stage:estimate',
  },
  {
    id: 'quote',
    kind: 'screen',
    title: 'Quote',
    words:
      'quote bid proposal offer contract deposit accepted declined options change order signature discount price line items expired lapsed',
    to: 'stage:quote',
  },
  {
    id: 'pour',
    kind: 'screen',
    title: 'Pour',
    words: 'pour mode pour-day sheet batches lanes crew start log wet edge cold joint seam mixing cart simulation flow test',
    to: 'stage:pour',
  },
  {
    id: 'cure',
    kind: 'screen',
    title: 'Cure',
    words:
      'curing drying dry temperature data logger humidity foot traffic ready for flooring promised date moisture test visits schedule flooring laid installed sealed',
    to: 'stage:cure',
  },
  {
    id: 'handover',
    kind: 'screen',
    title: 'Handover',
    words:
      'handover sheet care warranty job record finished sign off callback completion certificate lien waiver before and after installer',
    to: 'stage:handover',
  },
];

const KIND_WORDS = { screen: 'screen', setting: 'setting', command: 'command' } as const;
const MOST = 6;

/** Job and room of an address such as `/jobs/JOB/prep/ROOM`; null on other screens. */
function openJob(path: string): { readonly jobId: string; readonly roomId: string } | null {
  const [, jobId, roomId] = /^\/jobs\/([^/]+)\/[^/]+\/([^/]+)/.exec(path) ?? [];
  return jobId === undefined || roomId === undefined ? null : { jobId, roomId };
}

/** The address of a place; null for one inside a job when no job is open. */
function addressOf(to: string, job: ReturnType<typeof openJob>): string | null {
  const [, kind, name] = /^(stage|room|job):(.+)$/.exec(to) ?? [];
  if (kind === undefined || name === undefined) return to;
  if (job === null) return null;
  if (kind === 'room') return `/${name}/${job.roomId}`;
  return kind === 'job' ? `/jobs/${job.jobId}/${name}` : `/jobs/${job.jobId}/${name}/${job.roomId}`;
}

type PlaceSearch = (query: string, path: string, spelling: 'exact' | 'near') => SearchResult[];

/** Finds screens and commands by name or synonym. A stage opens in the open job, or in the list of jobs when none is open. */
export function openPlaceSearch(): PlaceSearch {
  const index = new MiniSearch<Place>({
    fields: ['title', 'words'],
    storeFields: [],
    searchOptions: { boost: { title: 3 }, prefix: true, combineWith: 'AND' },
  });
  index.addAll(PLACES);
  const byId = new Map(PLACES.map((place) => [place.id, place]));
  return (query, path, spelling) => {
    const job = openJob(path);
    const hits = index.search(query, spelling === 'near' ? { fuzzy: 0.34 } : {});
    return hits.slice(0, MOST).flatMap((hit) => {
      const place = byId.get(String(hit.id));
      if (place === undefined) return [];
      const href = addressOf(place.to, job);
      const detail = href === null ? 'Choose a job' : undefined;
      const result = { id: `place/${place.id}`, kind: KIND_WORDS[place.kind], title: place.title, href: href ?? '/jobs' };
      return [detail === undefined ? result : { ...result, detail }];
    });
  };
}

/** Screens as named, then records. Similar names of screens only where there is neither: most names of people resemble one. */
export async function searchAll(
  query: string,
  path: string,
  places: PlaceSearch,
  records: (query: string) => Promise<readonly SearchResult[]>,
): Promise<readonly SearchResult[]> {
  const found = [...places(query, path, 'exact'), ...(await records(query))];
  return found.length > 0 ? found : places(query, path, 'near');
}
