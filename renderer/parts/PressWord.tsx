import type { ReactNode } from 'react';
import { Button } from 'react-aria-components';
import './TextButton.css';

/** A word that opens a dialog or a panel, placed inside that dialog's trigger. */
export function PressWord({ children, label }: { readonly children: ReactNode; readonly label?: string }) {
  return (
    <Button className="text-button text-button-plain" {...(label === undefined ? {} : { 'aria-label': label })}>
      <span className="text-button-word">{children}</span>
    </Button>
  );
}
