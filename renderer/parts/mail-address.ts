/** Links for email and calls. Characters that could end the address or add a header are escaped (RFC 6068). */
const recipient = (email: string): string => `mailto:${encodeURIComponent(email.trim()).replace('%40', '@')}`;

/** A link that starts an email in the system's mail program. Without a recipient the user adds one. */
export function mailAddress(email: string, letter?: { readonly subject: string; readonly body: string }): string {
  if (letter === undefined) return recipient(email);
  return `${recipient(email)}?subject=${encodeURIComponent(letter.subject)}&body=${encodeURIComponent(letter.body.replace(/\r?\n/g, '\r\n'))}`;
}

/** A link that starts a call, with digits and other keypad characters only. */
export function callAddress(phone: string): string {
  return `tel:${phone.replace(/[^\d+*#x]/gi, '').replace(/#/g, '%23')}`;
}
