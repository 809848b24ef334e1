/**
 * The tables of a document checked row by row: their arithmetic, their numbering, and what the records have for each row. Read from the
 * structure tree of the PDF, and worked out here by plain arithmetic.
 */
import type { JobReading } from '../../../shared-core/standing/read-job.ts';
import { clockOf, momentIn } from './figures.ts';

type Table = readonly (readonly string[])[];

const cents = (text: string): number => Math.round(Number(text.replace(/[$,]/g, '')) * 100);
const isMoney = (text: string | undefined): text is string => text !== undefined && /^-?\$[\d,]+\.\d\d$/.test(text);

/** A list of amounts over its total; a subtotal is of the rows over it. */
function checkSum(rows: Table): string[] {
  let sum = 0;
  return rows.flatMap((row) => {
    const [name = '', amount] = [row[0], row.at(-1)];
    if (!isMoney(amount)) return [];
    if (/^(Subtotal|Total|Due by)/.test(name)) return cents(amount) === sum ? [] : [`${name} ${amount} is not ${sum}`];
    sum += cents(amount);
    return [];
  });
}

/** `17 × 50 lb bag` at $34.00 is $578.00. */
const checkCosts = (rows: Table): string[] =>
  rows.flatMap(([quantity = '', , , price, cost]) => {
    const count = /^(\d+) ×/.exec(quantity)?.[1];
    if (count === undefined || !isMoney(price) || !isMoney(cost)) return [];
    return Number(count) * cents(price) === cents(cost) ? [] : [`${quantity} at ${price} is not ${cost}`];
  });

/** Each balance is the one before with the row's amount. */
function checkBalance(rows: Table): string[] {
  let balance = 0;
  return rows.flatMap(([, name = '', amount, shown]) => {
    if (!isMoney(amount) || !isMoney(shown)) return [];
    balance += cents(amount);
    return cents(shown) === balance ? [] : [`${name}: balance ${shown} is not ${balance}`];
  });
}

/** Bags and lots of each placed room, from the log. */
function checkPlaced(head: readonly string[], rows: Table, { whole }: JobReading): string[] {
  return rows.flatMap((row) => {
    const room = whole.rooms.find(({ name }) => name === row[0]);
    const ids = new Set(whole.pours.filter(({ roomIds }) => room !== undefined && roomIds.includes(room.id)).map(({ id }) => id));
    const events = whole.pourEvents.filter(({ pourId }) => ids.has(pourId));
    const bags = events.reduce((sum, event) => sum + (event.kind === 'placed' && event.roomId === room?.id ? event.bags : 0), 0);
    const lots = events.flatMap((event) => (event.kind === 'lot' ? [event.lot] : [])).join(', ');
    const [shownBags, shownLots] = [row[head.indexOf('Bags')], row[head.indexOf('Lots')]];
    return Number(shownBags) === bags && shownLots === lots
      ? []
      : [`${row[0] ?? ''}: ${shownBags ?? ''} bags of ${shownLots ?? ''} are not ${bags} of ${lots}`];
  });
}

/** Each row of a pour log is the event of its number: the minute it was logged, and the bags of its batch. */
function checkLog(rows: Table, { whole }: JobReading): string[] {
  return rows.flatMap(([no = '', time = '', entry = '']) => {
    const isLogged = whole.pourEvents.some((event) => {
      if (String(event.seq) !== no || !momentIn(event.instant, whole.property.timeZone).endsWith(clockOf(time))) return false;
      return event.kind !== 'placed' || entry.startsWith(`Batch ${event.batch} placed: ${event.bags} bag`);
    });
    return isLogged ? [] : [`${no}, ${time}: ${entry} is not in the log`];
  });
}

/** Air readings of each day: how many, the coldest and the warmest. */
function checkDays(rows: Table, { whole }: JobReading): string[] {
  const format = new Intl.DateTimeFormat('en-US', { timeZone: whole.property.timeZone, dateStyle: 'long' });
  const shown = (f: number): string => `${Math.round(f)} °F`;
  const days = whole.cureLogs.flatMap((log) => {
    const byDay = new Map<string, number[]>();
    for (const { instant, tempC } of log.readings) {
      const day = format.format(new Date(instant));
      byDay.set(day, [...(byDay.get(day) ?? []), tempC * 1.8 + 32]);
    }
    return [...byDay].map(([day, temps]) => [day, temps.length, shown(Math.min(...temps)), shown(Math.max(...temps))].join('|'));
  });
  return rows.flatMap((row) => (days.includes(row.slice(0, 4).join('|')) ? [] : [`${row.slice(0, 4).join(', ')} is not in the logs`]));
}

/** Rows that begin with a number count up by one, also over a page's end. */
function checkNumbers(rows: Table): string[] {
  const numbers = rows.flatMap(([first = '']) => /^\d+/.exec(first)?.[0] ?? []).map(Number);
  return numbers.flatMap((n, i) => (n === (numbers[i - 1] ?? 0) + 1 ? [] : [`row ${n} follows ${numbers[i - 1] ?? 'nothing'}`]));
}

/** Rows under their titles: a table that continues on the next page has no titles of its own there. */
function joined(tables: readonly Table[]): { readonly titles: readonly string[]; readonly rows: (readonly string[])[] }[] {
  const all: { readonly titles: readonly string[]; readonly rows: (readonly string[])[] }[] = [];
  for (const table of tables) {
    const [first = []] = table;
    const last = all.at(-1);
    const isRow = /^(\d+$|\d+ |[A-Z][a-z]+ \d{1,2},|Go$|Hold$|Prep needed$)/.test(first[0] ?? '');
    if (isRow && last !== undefined && first.length === last.titles.length) last.rows.push(...table);
    else all.push({ titles: first, rows: table.slice(1) });
  }
  return all;
}

/** What is wrong in the tables of a document, and how many rows were checked. */
export function tableProblems(tables: readonly Table[], reading: JobReading): { readonly problems: string[]; readonly rows: number } {
  const problems: string[] = [];
  let checked = 0;
  for (const { titles, rows } of joined(tables)) {
    const by = titles.join('|');
    const check = (found: string[]): void => {
      checked += rows.length;
      problems.push(...found);
    };
    if (by === 'Quantity|Item|For|Price|Cost') check([...checkCosts(rows), ...checkSum(rows)]);
    else if (by === 'Price|Amount' || (by === 'Description|Amount' && rows.some(([name]) => name === 'Subtotal'))) check(checkSum(rows));
    else if (by === 'Date|Description|Amount|Balance') check(checkBalance(rows));
    else if (titles[0] === 'Room' && titles.includes('Bags')) check(checkPlaced(titles, rows, reading));
    else if (by === 'No.|Time|Entry') check([...checkLog(rows, reading), ...checkNumbers(rows)]);
    else if (by === 'Day|Readings|Coldest|Warmest|Average humidity') check(checkDays(rows, reading));
    else if (by === 'Description|Reason|Quantity|Time|By') check(checkNumbers(rows));
  }
  return { problems, rows: checked };
}
