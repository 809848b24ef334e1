/** Rules between records, checked in the transaction that writes. */
import type { StoredRow } from '../../shared-core/book/migrations/all-steps.ts';
import type { Job } from '../../shared-core/book/job.ts';
import type { Quote } from '../../shared-core/book/quote.ts';
import { accountOf } from '../../shared-core/ledger/account.ts';
import { contractOfJob, overInvoicedMinor } from '../../shared-core/ledger/job-contract.ts';
import { standingInvoices } from '../../shared-core/ledger/next-invoice.ts';
import { book, type Change } from './database.ts';

/** Thrown by a patch whose record changed so that the edit no longer applies. Nothing is written, and the sentence is shown. */
export class Refusal extends Error {
  readonly where: string;
  constructor(message: string, where = '') {
    super(message);
    this.where = where;
  }
}

const text = (row: StoredRow | null, field: string): string => {
  const value = row?.[field];
  return typeof value === 'string' ? value : '';
};
const isLive = (row: StoredRow | null): boolean => row !== null && row['deletedAt'] === null;
const nameKey = (row: StoredRow | null): string => text(row, 'name').trim().toLocaleLowerCase();

/** Room names are unique within a property, because lists, documents and calendars identify rooms by name. */
async function nameTaken({ before, after }: Change): Promise<string | null> {
  if (!isLive(after)) return null;
  const propertyId = text(after, 'propertyId');
  const wasSame = isLive(before) && nameKey(before) === nameKey(after) && text(before, 'propertyId') === propertyId;
  if (wasSame) return null;
  const others = await book().table<StoredRow, string>('rooms').where('propertyId').equals(propertyId).toArray();
  const duplicate = others.find((row) => row.id !== after?.id && isLive(row) && nameKey(row) === nameKey(after));
  return duplicate === undefined
    ? null
    : `This property already has a room named ${text(duplicate, 'name')}. Use another name, or rename that room first.`;
}

/** Records that an open job needs cannot be archived: the job would stay on Today without them. */
async function openJobOf(change: Change): Promise<string | null> {
  const { table, id, before, after } = change;
  if (!isLive(before) || isLive(after)) return null;
  const jobs = await book().rowsOf('jobs').where('state').equals('open').toArray();
  const job = jobs.find(
    (one) =>
      one.deletedAt === null &&
      (table === 'customers'
        ? one.customerId === id
        : table === 'properties'
          ? one.propertyId === id
          : one.rooms.some((r) => r.roomId === id)),
  );
  const recordWord = { customers: 'customer', properties: 'property', rooms: 'room' }[table as 'customers' | 'properties' | 'rooms'];
  return job === undefined ? null : `Job ${job.number} is still open. Finish or archive the job before you archive this ${recordWord}.`;
}

const openRooms = (row: StoredRow | null): readonly string[] => {
  const job = row as Job | null;
  return job !== null && isLive(row) && job.state === 'open' ? job.rooms.map((r) => r.roomId) : [];
};

/** Another open job that has one of these rooms, and which; null when none has. */
export async function openJobWith(roomIds: readonly string[], exceptId: string): Promise<{ number: string; roomId: string } | null> {
  if (roomIds.length === 0) return null;
  const jobs = await book().rowsOf('jobs').where('state').equals('open').toArray();
  for (const job of jobs) {
    const { roomId } = (job.id !== exceptId && job.deletedAt === null && job.rooms.find((r) => roomIds.includes(r.roomId))) || {};
    if (roomId !== undefined) return { number: job.number, roomId };
  }
  return null;
}

/** A room is in at most one open job: two would plan, price and pour it twice. */
async function inTwoJobs({ id, before, after }: Change): Promise<string | null> {
  const had = openRooms(before);
  const taken = await openJobWith(
    openRooms(after).filter((roomId) => !had.includes(roomId)),
    id,
  );
  if (taken === null) return null;
  const name = (await book().rowsOf('rooms').get(taken.roomId))?.name ?? 'A room';
  return `${name} is already in job ${taken.number}, which is open. Finish that job first, or remove the room from it.`;
}

/** Why a second press or window is refused. @param name what the first one issued */
export const issuedBefore = (name: string): string => `${name} was issued a moment ago. Read it, then issue another if you need one.`;

/** Whether two issued records have the same numbers: quotes of a job, its documents of one kind. */
const isSameSeries = (a: StoredRow, b: StoredRow): boolean => text(a, 'jobId') === text(b, 'jobId') && text(a, 'kind') === text(b, 'kind');
const revisionOf = (row: StoredRow): number => Number(row['revision']);

/** A numbered revision is issued once. It is numbered before its PDF is made, and a second press or window may have issued it by then. */
async function revisionTaken({ table, before, after }: Change, together: ReadonlySet<unknown>): Promise<string | null> {
  if (before !== null || after === null) return null;
  const others = await book().table<StoredRow, string>(table).where('jobId').equals(text(after, 'jobId')).toArray();
  const taken = others.find(
    (row) => isLive(row) && !together.has(row.id) && isSameSeries(row, after) && revisionOf(row) >= revisionOf(after),
  );
  if (taken === undefined) return null;
  const name = table === 'quotes' ? `Revision ${revisionOf(taken)} of the quote` : text(taken, 'title');
  return issuedBefore(name);
}

/** An invoice number is given once: it is numbered before it is stored, and a second press or window may have used it by then. */
async function invoiceTaken({ before, after }: Change): Promise<string | null> {
  if (before !== null || after?.['kind'] !== 'invoice') return null;
  const invoices = await book().table<StoredRow, string>('ledger').where('kind').equals('invoice').toArray();
  const taken = invoices.find((row) => row.id !== after.id && text(row, 'number') === text(after, 'number'));
  return taken === undefined ? null : issuedBefore(`Invoice ${text(taken, 'number')}`);
}

/** The number of a change order whose signature an edit takes back; null for none. */
function unsignedOrder(before: Quote, after: Quote): number | null {
  const signed = new Set(after.orders.filter((order) => order.state === 'signed').map(({ id }) => id));
  return before.orders.find((order) => order.state === 'signed' && !signed.has(order.id))?.number ?? null;
}

/**
 * What an invoice bills stays while the invoice counts: an acceptance, and the signature of a change order without which more would be
 * billed than agreed. A customer may still cancel the contract.
 */
async function billedContract({ before, after }: Change): Promise<string | null> {
  const isIn = (row: StoredRow | null, state: string): boolean => isLive(row) && text(row, 'state') === state;
  if (!isIn(before, 'accepted') || isIn(after, 'declined')) return null;
  const left = isIn(after, 'accepted') ? (after as Quote | null) : null;
  const order = left === null ? null : unsignedOrder(before as Quote, left);
  if (left !== null && order === null) return null;
  const entries = await book().rowsOf('ledger').where('jobId').equals(text(before, 'jobId')).toArray();
  const invoice = standingInvoices(entries).at(-1);
  const contract = left === null ? null : contractOfJob([left]);
  if (invoice === undefined || (contract !== null && overInvoicedMinor(contract, accountOf(entries, invoice.onDay)) === 0)) return null;
  return `Invoice ${invoice.number} bills ${order === null ? 'the accepted quote' : `change order ${order}`}. Void the invoice first.`;
}

/** Numbers given now. Records of a backup were issued before, perhaps on another computer: they keep the numbers that the customer has. */
function issuedRule(change: Change, together: ReadonlySet<unknown>): Promise<string | null> | null {
  switch (change.table) {
    case 'quotes':
    case 'documents':
      return revisionTaken(change, together);
    case 'ledger':
      return invoiceTaken(change);
    default:
      return null;
  }
}

function ruleOf(change: Change): Promise<string | null> | null {
  switch (change.table) {
    case 'rooms':
      return nameTaken(change).then((broken) => broken ?? openJobOf(change));
    case 'customers':
    case 'properties':
      return openJobOf(change);
    case 'jobs':
      return inTwoJobs(change);
    case 'quotes':
      return billedContract(change);
    default:
      return null;
  }
}

/**
 * The first rule that these changes break, as a sentence; null when none is broken.
 * @param isImport whether they are from a backup
 */
export async function brokenRule(changes: readonly Change[], isImport: boolean): Promise<string | null> {
  const together = new Set<unknown>(changes.map(({ id }) => id));
  for (const change of changes) {
    const broken = (await ruleOf(change)) ?? (isImport ? null : await issuedRule(change, together));
    if (broken !== null) return broken;
  }
  return null;
}
