/** Input of the lists, and the names that connect their rows. */
import type { RowOf } from '../../book/rows.ts';
import type { TableName } from '../../book/tables.ts';

/** Every record that the lists hold, by table. */
export type ListRows = { readonly [Table in TableName]: readonly RowOf<Table>[] };

/** Records by id, and the names and zones that other lists repeat. */
export class Names {
  private readonly rows: ListRows;
  private readonly byId = new Map<TableName, ReadonlyMap<string, unknown>>();

  constructor(rows: ListRows) {
    this.rows = rows;
  }

  get<Table extends TableName>(table: Table, id: string | null | undefined): RowOf<Table> | undefined {
    let rows = this.byId.get(table);
    if (rows === undefined) {
      rows = new Map((this.rows[table] as readonly { readonly id: string }[]).map((row) => [row.id, row]));
      this.byId.set(table, rows);
    }
    // Made from the rows of this table.
    return rows.get(id ?? '') as RowOf<Table> | undefined;
  }

  customer(id: string | null | undefined): string {
    return this.get('customers', id)?.name ?? '';
  }
  job(id: string | null | undefined): string {
    return this.get('jobs', id)?.number ?? '';
  }
  customerOfJob(id: string | null | undefined): string {
    return this.customer(this.get('jobs', id)?.customerId);
  }
  property(id: string | null | undefined): string {
    const address = this.get('properties', id)?.address;
    return address === undefined ? '' : [address.line, address.city].filter((part) => part !== '').join(', ');
  }
  rooms(ids: readonly string[]): string {
    return ids.map((id) => this.get('rooms', id)?.name ?? '').join('; ');
  }
  material(id: string | null | undefined): string {
    return this.get('materials', id)?.name ?? '';
  }
  /** The business's zone, where a record belongs to no property. */
  get zone(): string {
    return this.rows.business[0]?.timeZone ?? 'UTC';
  }
  get currency(): string {
    return this.rows.business[0]?.currency ?? 'USD';
  }
  zoneOfProperty(id: string | null | undefined): string {
    return this.get('properties', id)?.timeZone ?? this.zone;
  }
  zoneOfJob(id: string | null | undefined): string {
    return this.zoneOfProperty(this.get('jobs', id)?.propertyId);
  }
  /** The same as functions of a row. */
  readonly ownZone = (): string => this.zone;
  readonly rowZone = ({ jobId }: { readonly jobId: string | null }): string => this.zoneOfJob(jobId);
}

/** Records in use: those deleted or archived are left out, except where others name them. */
export const inUse = <Row extends { readonly deletedAt: string | null }>(rows: readonly Row[]): readonly Row[] =>
  rows.filter((row) => row.deletedAt === null);
