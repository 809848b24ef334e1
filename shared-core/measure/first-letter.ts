/** Capitalizes the first letter. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** The words of a label inside a sentence: `After the pour` becomes `after the pour`, `HEPA air scrubber` and `RH test` stay. */
export function lowerFirst(text: string): string {
  return /^\p{Lu}(?![\p{Lu}\d])/u.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text;
}
