import { useState } from 'react';
import { mailAddress } from './mail-address.ts';
import { TextButton } from './Buttons.tsx';
import './MailWord.css';

interface MailWordProps {
  readonly email: string;
  readonly message: { readonly subject: string; readonly body: string };
}

/** Sends a message to a customer through the system's mail program or the clipboard. */
export function MailWord({ email, message }: MailWordProps) {
  const [copied, setCopied] = useState(false);
  return (
    <>
      <div className="mail-message">
        <p>
          <b>{message.subject}</b>
        </p>
        {message.body.split('\n\n').map((part) => (
          <p key={part}>{part}</p>
        ))}
      </div>
      <p className="words">
        <a className="link-word" href={mailAddress(email, message)}>
          Email
        </a>
        <TextButton
          onPress={() =>
            void navigator.clipboard.writeText(`${message.subject}\n\n${message.body}`).then(
              () => setCopied(true),
              () => setCopied(false),
            )
          }
        >
          {copied ? 'Copied' : 'Copy'}
        </TextButton>
      </p>
    </>
  );
}
