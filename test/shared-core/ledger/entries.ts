/** Ledger entries for tests: invented amounts over one job. */
import type { Credit, Drive, Hours, Invoice, Payment, Purchase, Refund } from '../../../shared-core/book/ledger.ts';

const AT = '2026-03-02T15:00:00Z';
const base = (id: string, onDay: string) => ({
  id,
  createdAt: AT,
  changedAt: AT,
  deletedAt: null,
  onDay,
  note: '',
  voidedAt: null,
  voidReason: '',
});

export const invoice = (id: string, serial: number, totalMinor: number, of: Partial<Invoice> = {}): Invoice => ({
  ...base(id, '2026-03-02'),
  kind: 'invoice',
  jobId: 'job-1',
  serial,
  number: `INV-2026-${String(serial).padStart(3, '0')}`,
  purpose: 'stage',
  stageName: null,
  title: 'Kitchen floor',
  netMinor: totalMinor,
  taxes: [],
  totalMinor,
  retainageMinor: 0,
  dueOn: '2026-03-16',
  currency: 'USD',
  ...of,
});

export const payment = (id: string, amountMinor: number, invoiceId: string | null = null): Payment => ({
  ...base(id, '2026-03-10'),
  kind: 'payment',
  jobId: 'job-1',
  amountMinor,
  method: 'check',
  reference: '1207',
  invoiceId,
});

export const refund = (id: string, amountMinor: number): Refund => ({
  ...base(id, '2026-03-20'),
  kind: 'refund',
  jobId: 'job-1',
  amountMinor,
  method: 'check',
  reference: '88',
});

export const credit = (id: string, kind: Credit['kind'], amountMinor: number, invoiceId: string | null = null): Credit => ({
  ...base(id, '2026-03-18'),
  kind,
  jobId: 'job-1',
  amountMinor,
  taxes: [],
  invoiceId,
  reason: 'Scratch at the doorway',
});

/** A credit that the action "Record credit" records. */
export const orderCredit = (id: string, amountMinor: number, of: Partial<Credit> = {}): Credit => ({
  ...credit(id, 'credit', amountMinor),
  reason: 'Change orders',
  forChangeOrders: true,
  ...of,
});

export const purchase = (id: string, amounts: readonly number[], of: Partial<Purchase> = {}): Purchase => ({
  ...base(id, '2026-03-05'),
  kind: 'purchase',
  jobId: 'job-1',
  supplier: 'Northside Supply',
  category: 'Materials',
  lines: amounts.map((amountMinor, i) => ({
    text: `Line ${i + 1}`,
    quantity: 1,
    unit: 'bag',
    amountMinor,
    materialId: null,
    lot: '',
    expiresOn: null,
  })),
  taxMinor: 0,
  method: 'card',
  reference: '',
  photoIds: [],
  ...of,
});

export const hours = (id: string, minutes: number, hourMinor: number, of: Partial<Hours> = {}): Hours => ({
  ...base(id, '2026-03-06'),
  kind: 'hours',
  jobId: 'job-1',
  who: 'Rae Holloway',
  paidAs: 'owner',
  task: 'Grinding',
  minutes,
  hourMinor,
  readFrom: '',
  ...of,
});

export const drive = (id: string, distanceKm: number, kmMinor: number): Drive => ({
  ...base(id, '2026-03-06'),
  kind: 'drive',
  jobId: 'job-1',
  purpose: 'To the site and back',
  distanceKm,
  kmMinor,
});
