/** An address that begins a letter in the machine's own mail program. An unknown recipient is left for the person to fill in. */
export function mailAddress(email: string, letter: { readonly subject: string; readonly body: string }): string {
  const fields = `subject=${encodeURIComponent(letter.subject)}&body=${encodeURIComponent(letter.body)}`;
  return `mailto:${encodeURIComponent(email).replace('%40', '@')}?${fields}`;
}
