const stages = (job: string, room: string): string[] =>
  ['assess', 'prep', 'estimate', 'quote', 'pour', 'cure', 'handover'].map((stage) => `/jobs/sample-job-${job}/${stage}/sample-${room}`);

/** Addresses of every screen, with the sample data. */
export const SAMPLE_SCREENS = {
  'the first line': ['/', '/jobs', '/customers', '/money', '/stock', '/materials', '/backup', '/business'],
  'a customer, a property and a room': [
    '/customers/sample-odell',
    '/customers/sample-haldane',
    '/properties/sample-pennant-hill',
    '/plan/sample-hall',
    '/readings/sample-hall',
    '/jobs/sample-job-abara/money',
    '/licenses',
  ],
  'a job': stages('odell', 'hall'),
  'other jobs': [
    '/jobs/sample-job-rusk/assess/sample-basement',
    '/jobs/sample-job-lindqvist/pour/sample-family',
    '/jobs/sample-job-abara/cure/sample-living',
    '/jobs/sample-job-abara/handover/sample-living',
  ],
} as const satisfies Readonly<Record<string, readonly string[]>>;

/** Maximum inputs that each kind of screen shows before anything is opened; a row of choices is one. Their sum is under 150. */
export const INPUTS_AT_REST: Readonly<Record<string, number>> = {
  '/': 0,
  '/jobs': 1,
  '/customers': 2,
  '/money': 2,
  '/stock': 5,
  '/materials': 12,
  '/backup': 2,
  '/business': 13,
  '/customers/sample-odell': 5,
  '/properties/sample-pennant-hill': 6,
  '/plan/sample-hall': 9,
  '/readings/sample-hall': 9,
  '/jobs/sample-job-abara/money': 1,
  '/licenses': 0,
  '/jobs/sample-job-odell/assess/sample-hall': 31,
  '/jobs/sample-job-odell/prep/sample-hall': 3,
  '/jobs/sample-job-odell/estimate/sample-hall': 12,
  '/jobs/sample-job-odell/quote/sample-hall': 6,
  '/jobs/sample-job-odell/pour/sample-hall': 25,
  '/jobs/sample-job-odell/cure/sample-hall': 2,
  '/jobs/sample-job-odell/handover/sample-hall': 1,
};
