import type { InvoiceBalance } from '../../shared-core/ledger/account.ts';
import { addDaysToDay, daysBetween, formatDay } from '../../shared-core/measure/day.ts';
import { Datum, type DatumScale } from '../parts/Datum.tsx';
import { useMeasure } from '../parts/use-measure.ts';

const ROW_PX = 30;
const EDGE_DAYS = 4;
/** Names end this far from the window's edge. */
const EDGE_PX = 18;
/** Width of a date on the line. */
const LABEL_PX = 96;

interface MoneyDatumProps {
  readonly rows: readonly { readonly name: string; readonly balance: InvoiceBalance }[];
  readonly today: string;
}

/** A bar from each open invoice's date to its due date, under the datum; days overdue are cross-hatched. */
export function MoneyDatum({ rows, today }: MoneyDatumProps) {
  const { locale } = useMeasure();
  if (rows.length === 0) return null;
  const days = rows.flatMap(({ balance }) => [balance.invoice.onDay, balance.dueOn]);
  const from = addDaysToDay(
    [today, ...days].reduce((a, b) => (a < b ? a : b)),
    -EDGE_DAYS,
  );
  const to = addDaysToDay(
    [today, ...days].reduce((a, b) => (a > b ? a : b)),
    EDGE_DAYS * 2,
  );
  const span = daysBetween(from, to);
  const xOf = (day: string, widthPx: number): number => (daysBetween(from, day) / span) * widthPx;
  const scale = (widthPx: number): DatumScale => {
    const everyDays = Math.max(1, Math.ceil((span * LABEL_PX) / widthPx / 7) * 7);
    const ticks = Array.from({ length: Math.floor(span / everyDays) + 1 }, (_, i) => addDaysToDay(from, i * everyDays)).slice(1);
    return {
      ticks: ticks.map((day) => ({ xPx: xOf(day, widthPx), label: formatDay(day, 'short', locale) })),
      pointerPx: xOf(today, widthPx),
    };
  };
  const label = `Open invoices from ${formatDay(from, 'dated', locale)} to ${formatDay(to, 'dated', locale)}, today ${formatDay(today, 'dated', locale)}`;
  return (
    <Datum label={label} scale={scale}>
      {(widthPx) => (
        <ul className="money-bars" style={{ height: rows.length * ROW_PX }}>
          {rows.map(({ name, balance: { invoice, dueOn, daysOverdue } }, i) => {
            const [start, due] = [xOf(invoice.onDay, widthPx), xOf(dueOn, widthPx)];
            const end = daysOverdue > 0 ? xOf(today, widthPx) : due;
            return (
              <li key={invoice.id} style={{ top: i * ROW_PX }}>
                <svg width={widthPx} height={ROW_PX} aria-hidden="true">
                  <defs>
                    <pattern id={`money-late-${invoice.id}`} width="6" height="6" patternUnits="userSpaceOnUse">
                      <path d="M0 6L6 0M0 0L6 6" stroke="var(--ink)" strokeWidth="0.75" />
                    </pattern>
                  </defs>
                  <line x1={start} x2={due} y1="21" y2="21" stroke="var(--ink)" strokeWidth="2.25" />
                  {daysOverdue > 0 && (
                    <rect
                      x={due}
                      y="16"
                      width={Math.max(4, end - due)}
                      height="10"
                      fill={`url(#money-late-${invoice.id})`}
                      stroke="var(--ink)"
                    />
                  )}
                </svg>
                <span
                  className="money-bar-name"
                  style={
                    start < widthPx / 2
                      ? { left: start, maxWidth: widthPx - start - EDGE_PX }
                      : { right: widthPx - Math.max(due, end), maxWidth: Math.max(due, end) - EDGE_PX }
                  }
                >
                  <span className="money-bar-customer">{name}</span>
                  <span>{`, ${invoice.number}`}</span>
                </span>
              </li>
            );
          })}
        </ul>
      )}
    </Datum>
  );
}
