/** Links for email and calls. Characters that could end the address or add a header are escaped (RFC 6068). */
import { emailsIn, phonesIn, splitExtension } from '../../shared-core/measure/phone-email.ts';

const recipient = (email: string): string =>
  `mailto:${emailsIn(email)
    .map((one) => encodeURIComponent(one).replace('%40', '@'))
    .join(',')}`;

/** A link that starts an email in the system's mail program. Without a recipient the user adds one. */
export function mailAddress(email: string, letter?: { readonly subject: string; readonly body: string }): string {
  if (letter === undefined) return recipient(email);
  return `${recipient(email)}?subject=${encodeURIComponent(letter.subject)}&body=${encodeURIComponent(letter.body.replace(/\r?\n/g, '\r\n'))}`;
}

/** A link that calls the first number of a field, with its extension as a parameter (RFC 3966). */
export function callAddress(phone: string): string {
  const { before, extension } = splitExtension(phonesIn(phone)[0] ?? '');
  const [number = ''] = before.split(/[/;,]/);
  const digits = number.replace(/[^\d+*#]/g, '').replace(/#/g, '%23');
  return `tel:${digits}${extension === '' ? '' : `;ext=${extension}`}`;
}
