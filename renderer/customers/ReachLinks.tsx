import { callAddress, mailAddress } from '../parts/mail-address.ts';

interface ReachLinksProps {
  readonly name: string;
  readonly phone: string;
  readonly email: string;
}

/** Links that call or email through the system's own programs. */
export function ReachLinks({ name, phone, email }: ReachLinksProps) {
  if (phone === '' && email === '') return null;
  return (
    <span className="words customer-reach">
      {phone !== '' && (
        <a href={callAddress(phone)} aria-label={`Call ${name}`}>
          Call
        </a>
      )}
      {email !== '' && (
        <a href={mailAddress(email)} aria-label={`Email ${name}`}>
          Email
        </a>
      )}
    </span>
  );
}
