import type { ReactNode } from 'react';
import { Dialog as AriaDialog, Heading, Modal, ModalOverlay } from 'react-aria-components';
import './Dialog.css';

interface DialogProps {
  readonly open: boolean;
  readonly onClose: () => void;
  readonly title: string;
  readonly children: ReactNode;
  /** Buttons, with the one that proceeds last. */
  readonly actions?: ReactNode;
  /** A click outside does not close it; Escape does. */
  readonly firm?: boolean;
  readonly wide?: boolean;
}

export function Dialog({ open, onClose, title, children, actions, firm = false, wide = false }: DialogProps) {
  return (
    <ModalOverlay className="dialog-ground" isOpen={open} onOpenChange={(now) => !now && onClose()} isDismissable={!firm}>
      <Modal className={`dialog${wide ? ' dialog-wide' : ''}`}>
        <AriaDialog className="dialog-inner" {...(firm ? { role: 'alertdialog' } : {})}>
          <Heading slot="title" level={2} className="speech">
            {title}
          </Heading>
          <div className="dialog-body">{children}</div>
          {actions !== undefined && <div className="dialog-actions">{actions}</div>}
        </AriaDialog>
      </Modal>
    </ModalOverlay>
  );
}
