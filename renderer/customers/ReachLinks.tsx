interface ReachLinksProps {
  readonly name: string;
  readonly phone: string;
  readonly email: string;
}

/** Calling and writing, by the computer's own programs. */
export function ReachLinks({ name, phone, email }: ReachLinksProps) {
  if (phone === '' && email === '') return null;
  return (
    <span className="person-reach">
      {phone !== '' && (
        <a href={`tel:${phone.replace(/[^\d+*#x]/gi, '')}`} aria-label={`Call ${name}`}>
          Call
        </a>
      )}
      {email !== '' && (
        <a href={`mailto:${email}`} aria-label={`Write to ${name}`}>
          Write
        </a>
      )}
    </span>
  );
}
