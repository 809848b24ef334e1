/** An email address as a link; what could end the address or add a header is escaped (RFC 6068). */
const recipient = (email: string): string => `mailto:${encodeURIComponent(email.trim()).replace('%40', '@')}`;

/** A link that starts an email in the computer's own mail program. An unknown recipient is left for the person to fill in. */
export function mailAddress(email: string, letter?: { readonly subject: string; readonly body: string }): string {
  if (letter === undefined) return recipient(email);
  return `${recipient(email)}?subject=${encodeURIComponent(letter.subject)}&body=${encodeURIComponent(letter.body.replace(/\r?\n/g, '\r\n'))}`;
}

/** A link that starts a call: digits, and what a keypad has. */
export function callAddress(phone: string): string {
  return `tel:${phone.replace(/[^\d+*#x]/gi, '').replace(/#/g, '%23')}`;
}
