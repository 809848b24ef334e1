/**
 * Writes tables as one workbook (ECMA-376) with typed cells: numbers, days as dates, phone numbers as text. Rows are compressed as they are
 * read: a library that first builds every cell as an object took 14 s and 1.2 GB for the lists of 1,000 jobs.
 */
import { Zip, type ZipInputFile } from 'fflate';
import { type DataCell, type DataTable, type Holds, SHEET_ROWS_MOST } from '../../shared-core/documents/lists/data-table.ts';
import { joined } from './text-bytes.ts';

/** The longest text that spreadsheets open in a cell, characters. */
const MOST_LETTERS = 32_767;
/** Characters compressed at a time. */
const PIECE_LETTERS = 500_000;
/** Bytes around the compressed data of a gzip, and what a zip calls that compression (APPNOTE 4.4.5). */
const [GZIP_HEAD, GZIP_END, DEFLATED] = [10, 8, 8];

/** Indexes into the formats of `STYLES`. */
const STYLE: Readonly<Partial<Record<Holds | 'head', number>>> = { head: 1, day: 2, local: 3, money: 4 };
const STYLES =
  '<numFmts count="2"><numFmt numFmtId="164" formatCode="yyyy\\-mm\\-dd"/><numFmt numFmtId="165" formatCode="yyyy\\-mm\\-dd\\ hh:mm"/></numFmts>' +
  '<fonts count="2"><font><sz val="11"/><name val="Calibri"/></font><font><b/><sz val="11"/><name val="Calibri"/></font></fonts>' +
  '<fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills>' +
  '<borders count="1"><border/></borders><cellStyleXfs count="1"><xf/></cellStyleXfs>' +
  '<cellXfs count="5"><xf/><xf fontId="1" applyFont="1"/><xf numFmtId="164" applyNumberFormat="1"/><xf numFmtId="165" applyNumberFormat="1"/><xf numFmtId="4" applyNumberFormat="1"/></cellXfs>';

const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const LINKS = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const PACKAGE = 'http://schemas.openxmlformats.org/package/2006';
const TYPE = 'application/vnd.openxmlformats-officedocument.spreadsheetml';

/** Days from 1899-12-30, the origin of workbook dates, to 1970-01-01. */
const ORIGIN_DAYS = 25_569;
const DAY_MS = 86_400_000;

// oxlint-disable-next-line no-control-regex -- characters that XML 1.0 does not allow
const NOT_XML = /[\u0000-\u0008\u000B\u000C\u000E-\u001F\uFFFE\uFFFF]/g;
const ESCAPES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };
const escaped = (text: string): string => text.replace(NOT_XML, '').replace(/[&<>"]/g, (sign) => ESCAPES[sign] ?? sign);

/** Texts that cells refer to by number, each once. */
class SharedTexts {
  private readonly numbers = new Map<string, number>();
  numberOf(text: string): number {
    const known = this.numbers.get(text);
    if (known !== undefined) return known;
    this.numbers.set(text, this.numbers.size);
    return this.numbers.size - 1;
  }
  *xml(): Generator<string> {
    yield `<sst xmlns="${MAIN}" uniqueCount="${this.numbers.size}">`;
    for (const text of this.numbers.keys()) yield `<si><t xml:space="preserve">${escaped(text.slice(0, MOST_LETTERS))}</t></si>`;
    yield '</sst>';
  }
}

/** The letters of a column: A to Z, then AA (ECMA-376, 18.18.7). @param i counted from 0 */
const lettersOf = (i: number): string => (i < 26 ? '' : lettersOf(Math.floor(i / 26) - 1)) + String.fromCharCode(65 + (i % 26));

/** What follows a cell's address. */
function cellXml(value: DataCell, holds: Holds | 'head', texts: SharedTexts): string {
  const style = STYLE[holds] === undefined ? '' : ` s="${STYLE[holds]}"`;
  // Workbook dates have no zone, so the wall-clock time is written.
  if (holds === 'day' || holds === 'local') {
    const [day, clock = '00:00'] = String(value).split(' ');
    return `"${style}><v>${Date.parse(`${day ?? ''}T${clock}:00Z`) / DAY_MS + ORIGIN_DAYS}</v></c>`;
  }
  if (holds === 'money' || holds === 'number') return `"${style}><v>${Number(value)}</v></c>`;
  // Instants hardly repeat.
  if (holds === 'instant') return `"${style} t="inlineStr"><is><t>${escaped(String(value))}</t></is></c>`;
  return `"${style} t="s"><v>${texts.numberOf(String(value))}</v></c>`;
}

/** Compresses a part of the file, a piece of text at a time. */
export interface Packing {
  write(text: string): Promise<void>;
  /** The part as a gzip. */
  finish(): Promise<ArrayBuffer>;
}

/** Compresses with the browser's own zlib, ten times as fast as one in script. */
export function packHere(): Packing {
  const stream = new CompressionStream('gzip');
  const writer = stream.writable.getWriter();
  const packed = new Response(stream.readable).arrayBuffer();
  return {
    write: (text) => writer.write(new TextEncoder().encode(text)),
    finish: async () => {
      await writer.close();
      return packed;
    },
  };
}

/** One part of the file, compressed as it is written. */
class Part {
  readonly name: string;
  private readonly packing: Packing;
  private piece = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';

  constructor(name: string, packing: Packing) {
    this.name = name;
    this.packing = packing;
  }

  add(xml: string): void {
    this.piece += xml;
  }
  /** Whether enough is there to be compressed. */
  get isFull(): boolean {
    return this.piece.length >= PIECE_LETTERS;
  }
  async flush(): Promise<void> {
    const { piece } = this;
    this.piece = '';
    await this.packing.write(piece);
  }
  /** Returns how the part is added to a zip. A gzip ends with the checksum and the size that a zip asks for (RFC 1952, 2.3.1). */
  async finish(): Promise<(zip: Zip) => void> {
    await this.flush();
    const gzip = await this.packing.finish();
    const end = new DataView(gzip, gzip.byteLength - GZIP_END);
    const entry: ZipInputFile = { filename: this.name, compression: DEFLATED, size: end.getUint32(4, true), crc: end.getUint32(0, true) };
    return (zip) => {
      zip.add(entry);
      entry.ondata?.(null, new Uint8Array(gzip, GZIP_HEAD, gzip.byteLength - GZIP_HEAD - GZIP_END), true);
    };
  }
}

async function written(name: string, xml: Iterable<string>, packing: Packing): Promise<(zip: Zip) => void> {
  const whole = new Part(name, packing);
  for (const text of xml) {
    whole.add(text);
    if (whole.isFull) await whole.flush();
  }
  return whole.finish();
}

/** A sheet being written row by row. */
class Sheet extends Part {
  private readonly columns: readonly { readonly letters: string; readonly holds: Holds }[];
  private readonly texts: SharedTexts;
  /** The values of the row above and what was written for them: most repeat. */
  private readonly above: (DataCell | undefined)[];
  private readonly written: string[];
  private r = 1;

  constructor(name: string, { columns }: DataTable, texts: SharedTexts, packing: Packing) {
    super(name, packing);
    this.texts = texts;
    this.columns = columns.map(({ holds }, i) => ({ letters: lettersOf(i), holds }));
    this.above = columns.map(() => undefined);
    this.written = columns.map(() => '');
    const widths = columns.map(({ title, holds }) => (holds === 'text' ? 24 : Math.max(12, title.length + 2)));
    this.add(
      `<worksheet xmlns="${MAIN}"><sheetViews><sheetView workbookViewId="0"><pane ySplit="1" topLeftCell="A2" activePane="bottomLeft" state="frozen"/></sheetView></sheetViews><cols>${widths
        .map((width, i) => `<col min="${i + 1}" max="${i + 1}" width="${width}" customWidth="1"/>`)
        .join('')}</cols><sheetData>`,
    );
    this.add(`<row r="1">${columns.map(({ title }, i) => `<c r="${lettersOf(i)}1${cellXml(title, 'head', texts)}`).join('')}</row>`);
  }

  addRow(row: readonly DataCell[]): void {
    this.r += 1;
    let cells = `<row r="${this.r}">`;
    for (let i = 0; i < this.columns.length; i += 1) {
      const value = row[i] ?? null;
      const column = this.columns[i];
      if (value === null || value === '' || column === undefined) continue;
      if (value !== this.above[i]) {
        this.above[i] = value;
        this.written[i] = cellXml(value, column.holds, this.texts);
      }
      cells += `<c r="${column.letters}${this.r}${this.written[i] ?? ''}`;
    }
    this.add(`${cells}</row>`);
  }
}

const hasSheet = ({ rows }: DataTable): boolean => rows.length > 0 && rows.length <= SHEET_ROWS_MOST;

const link = (i: number, kind: string, target: string): string => `<Relationship Id="r${i}" Type="${LINKS}/${kind}" Target="${target}"/>`;
const links = (all: readonly string[]): string => `<Relationships xmlns="${PACKAGE}/relationships">${all.join('')}</Relationships>`;
const part = (name: string, kind: string): string => `<Override PartName="/xl/${name}.xml" ContentType="${TYPE}.${kind}+xml"/>`;

/** The parts beside the sheets: what the file holds and how the parts refer to each other. */
function frame(names: readonly string[]): Readonly<Record<string, string>> {
  const after = names.length + 1;
  return {
    '[Content_Types].xml': `<Types xmlns="${PACKAGE}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>${[
      part('workbook', 'sheet.main'),
      part('styles', 'styles'),
      part('sharedStrings', 'sharedStrings'),
      ...names.map((_, i) => part(`worksheets/sheet${i + 1}`, 'worksheet')),
    ].join('')}</Types>`,
    '_rels/.rels': links([link(1, 'officeDocument', 'xl/workbook.xml')]),
    'xl/workbook.xml': `<workbook xmlns="${MAIN}" xmlns:r="${LINKS}"><sheets>${names
      .map((name, i) => `<sheet name="${escaped(name.slice(0, 31))}" sheetId="${i + 1}" r:id="r${i + 1}"/>`)
      .join('')}</sheets></workbook>`,
    'xl/_rels/workbook.xml.rels': links([
      ...names.map((_, i) => link(i + 1, 'worksheet', `worksheets/sheet${i + 1}.xml`)),
      link(after, 'styles', 'styles.xml'),
      link(after + 1, 'sharedStrings', 'sharedStrings.xml'),
    ]),
    'xl/styles.xml': `<styleSheet xmlns="${MAIN}">${STYLES}</styleSheet>`,
  };
}

/** A workbook whose sheets are written one after another. */
export class Workbook {
  private readonly names: readonly string[];
  private readonly texts = new SharedTexts();
  private readonly sheets: ((zip: Zip) => void)[] = [];

  private readonly newPacking: () => Packing;

  /**
   * @param tables those with rows get a sheet, in this order
   * @param newPacking called for each part, after the one before is finished
   */
  constructor(tables: readonly DataTable[], newPacking: () => Packing = packHere) {
    this.newPacking = newPacking;
    this.names = tables.filter(hasSheet).map(({ name }) => name);
  }

  /** Writes the sheet of a table. @param see called with each row, so that it can go to another file too */
  async add(table: DataTable, see: (row: readonly DataCell[]) => void = () => undefined): Promise<void> {
    if (!hasSheet(table)) {
      for (const row of table.rows) see(row);
      return;
    }
    const sheet = new Sheet(`xl/worksheets/sheet${this.sheets.length + 1}.xml`, table, this.texts, this.newPacking());
    for (const row of table.rows) {
      see(row);
      sheet.addRow(row);
      if (sheet.isFull) await sheet.flush();
    }
    sheet.add('</sheetData></worksheet>');
    this.sheets.push(await sheet.finish());
  }

  /** The whole file, after the last sheet. */
  async finish(): Promise<Uint8Array<ArrayBuffer>> {
    const texts = await written('xl/sharedStrings.xml', this.texts.xml(), this.newPacking());
    const packed: Uint8Array[] = [];
    const zip = new Zip((error, piece) => {
      if (error !== null) throw error;
      packed.push(piece);
    });
    for (const [name, xml] of Object.entries(frame(this.names))) (await written(name, [xml], this.newPacking()))(zip);
    for (const add of [...this.sheets, texts]) add(zip);
    zip.end();
    return joined(packed);
  }
}

/** The bytes of a workbook with one sheet per table that has rows. */
export async function workbookOf(tables: readonly DataTable[]): Promise<Uint8Array<ArrayBuffer>> {
  const workbook = new Workbook(tables);
  for (const table of tables) await workbook.add(table);
  return workbook.finish();
}
