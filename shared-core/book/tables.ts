/** Every table with its schema and indexes. The database, the backups and the data check use this list. */
import { businessSchema } from './business.ts';
import { customerSchema } from './customer.ts';
import { clearanceTestSchema, cureLogSchema, promiseSchema, visitSchema } from './cure-record.ts';
import { jobSchema } from './job.ts';
import { leadSchema } from './lead.ts';
import { ledgerEntrySchema } from './ledger.ts';
import { materialSchema } from './material.ts';
import { calendarEntrySchema, madeDocumentSchema, photoSchema } from './papers.ts';
import { pourEventSchema, pourSchema } from './pour-record.ts';
import { propertySchema } from './property.ts';
import { quoteSchema } from './quote.ts';
import { roomSchema } from './room.ts';

export const TABLES = {
  business: { schema: businessSchema, indexes: [] },
  customers: { schema: customerSchema, indexes: [] },
  properties: { schema: propertySchema, indexes: ['customerId'] },
  rooms: { schema: roomSchema, indexes: ['propertyId'] },
  jobs: { schema: jobSchema, indexes: ['customerId', 'propertyId', 'number', 'state'] },
  leads: { schema: leadSchema, indexes: ['customerId', 'jobId'] },
  materials: { schema: materialSchema, indexes: [] },
  quotes: { schema: quoteSchema, indexes: ['jobId', 'state'] },
  pours: { schema: pourSchema, indexes: ['jobId'] },
  pourEvents: { schema: pourEventSchema, indexes: ['[pourId+seq]'] },
  cureLogs: { schema: cureLogSchema, indexes: ['jobId'] },
  promises: { schema: promiseSchema, indexes: ['jobId'] },
  clearanceTests: { schema: clearanceTestSchema, indexes: ['jobId'] },
  visits: { schema: visitSchema, indexes: ['jobId', 'instant'] },
  ledger: { schema: ledgerEntrySchema, indexes: ['jobId', 'kind', 'onDay'] },
  documents: { schema: madeDocumentSchema, indexes: ['jobId'] },
  photos: { schema: photoSchema, indexes: ['jobId'] },
  calendarEntries: { schema: calendarEntrySchema, indexes: ['jobId'] },
} as const;

export type TableName = keyof typeof TABLES;
export const TABLE_NAMES = Object.keys(TABLES) as TableName[];

/** The version of the records this program writes. Raised with each migration. */
export const SCHEMA_VERSION = 1;
