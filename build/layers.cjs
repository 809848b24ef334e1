/** The import rules between folders. `npm run layers` fails on a violation, on a cycle, and when too few modules were read. */
const ORDER = [
  'measure',
  'table',
  'book',
  'plan',
  'survey',
  'climate',
  'substrate',
  'lead',
  'assess',
  'prep',
  'material',
  'pour',
  'cure',
  'price',
  'ledger',
  'standing',
  'agenda',
  'learn',
  'drawing',
  'documents',
  'desk',
  'sample',
];

const downward = ORDER.map((folder, i) => ({
  name: `shared-core-${folder}-knows-only-those-above`,
  severity: 'error',
  comment: `shared-core/${folder} may import itself and the folders above it in the house order`,
  from: { path: `^shared-core/${folder}/` },
  to: { path: `^shared-core/(${ORDER.slice(i + 1).join('|') || 'nothing'})/` },
}));

/** Screens: every folder of the renderer except shared ones and the entry. */
const SHARED_GROUND = 'parts|look|book|desk|workers|app';

module.exports = {
  forbidden: [
    { name: 'no-cycles', severity: 'error', from: {}, to: { circular: true } },
    { name: 'not-resolved', severity: 'error', from: {}, to: { couldNotResolve: true, pathNot: '^(electron|virtual:)' } },
    {
      name: 'shared-core-imports-nothing-else-of-ours',
      severity: 'error',
      from: { path: '^shared-core/' },
      to: { path: '^(main|renderer|test|build)/' },
    },
    {
      name: 'shared-core-only-small-pure-libraries',
      severity: 'error',
      from: { path: '^shared-core/' },
      to: { dependencyTypes: ['npm', 'npm-dev', 'npm-optional', 'npm-peer', 'core'], pathNot: 'node_modules/(zod|@18f/us-federal-holidays|dayjs|temporal-polyfill|temporal-spec|delaunator|robust-predicates|papaparse|chrono-node|qr|libphonenumber-js|@types/)' },
    },
    ...downward,
    { name: 'main-never-imports-renderer', severity: 'error', from: { path: '^main/' }, to: { path: '^(renderer|test)/' } },
    { name: 'renderer-never-imports-main', severity: 'error', from: { path: '^renderer/' }, to: { path: '^(main|test)/' } },
    { name: 'renderer-has-no-node', severity: 'error', from: { path: '^renderer/' }, to: { dependencyTypes: ['core'] } },
    { name: 'the-desk-knows-no-electron', severity: 'error', from: { path: '^main/(desk|loopback)/' }, to: { path: '(^|node_modules/)electron' } },
    { name: 'the-desk-knows-no-host', severity: 'error', from: { path: '^main/desk/' }, to: { path: '^main/(electron|loopback)/' } },
    { name: 'hosts-do-not-know-each-other', severity: 'error', from: { path: '^main/electron/' }, to: { path: '^main/loopback/' } },
    { name: 'loopback-does-not-know-electron', severity: 'error', from: { path: '^main/loopback/' }, to: { path: '^main/electron/' } },
    { name: 'only-the-book-names-dexie', severity: 'error', from: { path: '^renderer/', pathNot: '^renderer/book/' }, to: { path: 'node_modules/dexie' } },
    {
      name: 'screens-do-not-import-each-other',
      severity: 'error',
      from: { path: '^renderer/(?!' + SHARED_GROUND + ')((?:stages/)?[^/]+)/' },
      to: { path: '^renderer/', pathNot: ['^renderer/(' + SHARED_GROUND + ')/', '^renderer/$1/'] },
    },
    {
      name: 'shared-ground-does-not-know-screens',
      severity: 'error',
      from: { path: '^renderer/(parts|look|book|desk|workers)/' },
      to: { path: '^renderer/', pathNot: '^renderer/(parts|look|book|desk|workers)/' },
    },
    { name: 'look-knows-only-look', severity: 'error', from: { path: '^renderer/look/' }, to: { path: '^renderer/', pathNot: '^renderer/look/' } },
    { name: 'parts-do-not-know-the-book', severity: 'error', from: { path: '^renderer/parts/' }, to: { path: '^renderer/book/' } },
    { name: 'the-book-does-not-know-the-parts', severity: 'error', from: { path: '^renderer/book/' }, to: { path: '^renderer/parts/' } },
    { name: 'the-desk-client-knows-only-itself', severity: 'error', from: { path: '^renderer/desk/' }, to: { path: '^renderer/', pathNot: '^renderer/desk/' } },
    { name: 'product-does-not-import-tests', severity: 'error', from: { path: '^(main|renderer|shared-core)/' }, to: { path: '^test/' } },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    exclude: { path: '(^|/)(\\.out|\\.cache)/' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'renderer/tsconfig.json' },
    enhancedResolveOptions: { exportsFields: ['exports'], conditionNames: ['import', 'require', 'node', 'default', 'types'], extensions: ['.ts', '.tsx', '.js', '.mjs', '.cjs', '.json', '.css'] },
  },
};
