/** Currencies by their three letters (ISO 4217), as the platform knows them. */
import type { Parsed } from '../measure/parsed.ts';

/** A currency's name in English: `US Dollar`; the letters themselves when it is not known. */
export function currencyName(code: string): string {
  try {
    return new Intl.DisplayNames('en', { type: 'currency' }).of(code) ?? code;
  } catch {
    return code;
  }
}

/** Reads a currency's three letters, small or capital. */
export function parseCurrency(text: string): Parsed<string> {
  const typed = text.trim();
  const code = typed.toUpperCase();
  if (Intl.supportedValuesOf('currency').includes(code)) return { ok: true, value: code };
  return { ok: false, message: `“${typed}” is not a currency. Enter three letters, such as USD or CAD.` };
}
