/** Writes comma-separated values (RFC 4180) that spreadsheets open without altering the text. */

const PLAIN_CELL = /^[A-Za-z0-9][^",\r\n]*$/;

/**
 * One cell. Text that a spreadsheet would treat as a formula (it starts with = + - @, a tab, or a return) gets an apostrophe
 * in front, as the OWASP notes on CSV injection recommend; a plain number or a phone number does not need it.
 */
export function csvCell(text: string): string {
  // Most cells are words or figures, which need neither an apostrophe nor quotes.
  if (PLAIN_CELL.test(text)) return text;
  const isHarmless = /^-?\d+(\.\d+)?$/.test(text) || /^\+\d+ [\d ]+$/.test(text);
  const guarded = !isHarmless && /^[=+\-@\t\r\uFF1D\uFF0B\uFF0D\uFF20]/.test(text.replace(/^[ \u00a0]+/, '')) ? `'${text}` : text;
  return /[",\r\n]/.test(guarded) ? `"${guarded.replaceAll('"', '""')}"` : guarded;
}

/**
 * A phone number that every spreadsheet treats as text: digits alone get hyphens, and one after a plus sign gets spaces,
 * because `+1-555` would be calculated and `5550100` would be a number.
 */
export function phoneCell(phone: string): string {
  const plain = phone.trim();
  if (/^\+[\d .()/-]+$/.test(plain)) {
    const spaced = `+${plain.slice(1).replace(/\D+/g, ' ').trim()}`;
    return spaced.includes(' ')
      ? spaced
      : spaced.replace(/^(\+\d+?)(\d{3})?(\d{3})(\d{4})$/, (_, ...part: (string | undefined)[]) =>
          part
            .slice(0, 4)
            .filter((p) => p !== undefined)
            .join(' '),
        );
  }
  return /^\d{7,}$/.test(plain)
    ? plain.replace(/^(\d*?)(\d{3})?(\d{3})(\d{4})$/, (_, ...part: (string | undefined)[]) =>
        part
          .slice(0, 4)
          .filter((p) => p !== undefined && p !== '')
          .join('-'),
      )
    : plain;
}

/** One row with its CRLF. */
export const csvRow = (row: readonly string[]): string => `${row.map(csvCell).join(',')}\r\n`;

/** Rows as CSV with CRLF line ends, and a byte order mark so that spreadsheets detect UTF-8. */
export function csvText(rows: readonly (readonly string[])[]): string {
  return `\uFEFF${rows.map(csvRow).join('')}`;
}
