const stages = (job: string, room: string): string[] =>
  ['assess', 'prep', 'estimate', 'quote', 'pour', 'cure', 'handover'].map((stage) => `/jobs/sample-job-${job}/${stage}/sample-${room}`);

/** Addresses of every screen, with the sample data. */
export const SAMPLE_SCREENS = {
  'the first line': ['/', '/jobs', '/customers', '/money', '/materials', '/backup', '/business'],
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
