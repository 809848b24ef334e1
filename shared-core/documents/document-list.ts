/** Every document of a job that a person can save, once: what it is called, where it is offered, what it needs, how it is built. */
import type { DocumentKind } from '../book/papers.ts';
import { inventedCompany } from '../book/sample-company.ts';
import type { Stage } from '../standing/stage.ts';
import type { JobReading } from '../standing/read-job.ts';
import { ballparkSheet, missingForBallpark } from './ballpark-sheet.ts';
import { beforeAndAfter } from './before-and-after.ts';
import { completionCertificate, lienWaiver, missingForLetter, preparationLetter, warrantyCertificate } from './certificates.ts';
import type { DocumentInput } from './document-input.ts';
import { floorNotice, needsNotice } from './floor-notice.ts';
import { handoverRooms } from './handover-rooms.ts';
import { handoverSheet } from './handover-sheet.ts';
import { installerPage, missingForInstaller } from './installer-page.ts';
import { jobRecord } from './job-record.ts';
import { moistureReport } from './moisture-report.ts';
import { shoppingListSheet } from './shopping-list.ts';
import type { DocumentTree } from './tree.ts';
import { missingForWarranty } from '../standing/warranty-period.ts';

/** Documents built from the job alone. The others need a choice and are saved on their own screens. */
export type JobDocumentKind = Exclude<
  DocumentKind,
  | 'quote'
  | 'change-order'
  | 'signed-copy'
  | 'prep-sheet'
  | 'pour-day-sheet'
  | 'invoice'
  | 'receipt'
  | 'statement'
  | 'overdue-notice'
  | 'calendar'
>;

export type DocumentEntry = {
  readonly kind: JobDocumentKind;
  /** As it reads in a list. */
  readonly label: string;
  readonly reader: 'customer' | 'installer' | 'crew' | 'file';
  readonly offeredAt: readonly Stage[];
  /** What is missing for it; null when it can be saved. */
  readonly missing: (reading: JobReading) => string | null;
  readonly build: (input: DocumentInput) => DocumentTree;
};

const nothing = (): null => null;
const needsFloor = (reading: JobReading): string | null => (handoverRooms(reading).length > 0 ? null : 'No floor is fully placed yet.');

const needsTest = (reading: JobReading): string | null => {
  const isTested = reading.whole.clearanceTests.some(({ deletedAt }) => deletedAt === null);
  const isByHours = handoverRooms(reading).every(({ schedule }) => schedule.clearance?.requirement.byHours === true);
  return needsFloor(reading) ?? (isByHours && !isTested ? 'The placed floors need no moisture test.' : null);
};

const ENTRIES: Readonly<Record<JobDocumentKind, Omit<DocumentEntry, 'kind'>>> = {
  ballpark: { label: 'Ballpark', reader: 'customer', offeredAt: ['estimate'], missing: missingForBallpark, build: ballparkSheet },
  'preparation-letter': {
    label: 'Letter to prepare the house',
    reader: 'customer',
    offeredAt: ['quote', 'prep'],
    missing: missingForLetter,
    build: preparationLetter,
  },
  'shopping-list': {
    label: 'Shopping list',
    reader: 'crew',
    offeredAt: ['estimate', 'quote'],
    missing: nothing,
    build: ({ reading, now, revision }) => shoppingListSheet(reading, reading.estimate.suggested, now, revision),
  },
  'floor-notice': {
    label: 'Floor notice',
    reader: 'customer',
    offeredAt: ['pour', 'cure'],
    missing: (reading) => (needsNotice(reading) ? null : 'No floor is left open or in need of repair.'),
    build: floorNotice,
  },
  handover: {
    label: 'Handover sheet',
    reader: 'customer',
    offeredAt: ['handover'],
    missing: needsFloor,
    build: ({ reading, ...choice }) => handoverSheet(reading, choice),
  },
  'installer-page': {
    label: 'Installer page',
    reader: 'installer',
    offeredAt: ['handover'],
    missing: (reading) => needsFloor(reading) ?? missingForInstaller(reading),
    build: installerPage,
  },
  'moisture-report': {
    label: 'Moisture test report',
    reader: 'installer',
    offeredAt: ['cure', 'handover'],
    missing: needsTest,
    build: moistureReport,
  },
  'completion-certificate': {
    label: 'Certificate of completion',
    reader: 'customer',
    offeredAt: ['handover'],
    missing: needsFloor,
    build: completionCertificate,
  },
  'warranty-certificate': {
    label: 'Warranty certificate',
    reader: 'customer',
    offeredAt: ['handover'],
    missing: (reading) => needsFloor(reading) ?? missingForWarranty(reading),
    build: warrantyCertificate,
  },
  'before-and-after': {
    label: 'Before and after',
    reader: 'customer',
    offeredAt: ['handover'],
    missing: needsFloor,
    build: beforeAndAfter,
  },
  'lien-waiver': { label: 'Lien waivers', reader: 'file', offeredAt: ['handover'], missing: nothing, build: lienWaiver },
  'job-record': {
    label: 'Job record',
    reader: 'file',
    offeredAt: ['handover'],
    missing: nothing,
    build: ({ reading, photos, now, revision }) => jobRecord(reading, photos, now, revision),
  },
};

/** Every document, in the order a job needs them. No document of the user's own job leaves the company under the sample's name. */
export const DOCUMENTS: readonly DocumentEntry[] = (Object.keys(ENTRIES) as JobDocumentKind[]).map((kind) => ({
  kind,
  ...ENTRIES[kind],
  missing: (reading) => {
    const { business, job } = reading.whole;
    const invented = ENTRIES[kind].reader === 'crew' ? null : inventedCompany(business, job.id);
    return invented ?? ENTRIES[kind].missing(reading);
  },
}));

/** The documents offered at a stage. */
export function documentsAt(stage: Stage): readonly DocumentEntry[] {
  return DOCUMENTS.filter((entry) => entry.offeredAt.includes(stage));
}
