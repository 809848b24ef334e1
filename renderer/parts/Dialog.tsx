import type { ReactNode } from 'react';
import { Dialog as AriaDialog, Heading, Modal, ModalOverlay } from 'react-aria-components';
import './Dialog.css';

interface DialogProps {
  readonly open: boolean;
  readonly onClose: () => void;
  readonly title: string;
  readonly children: ReactNode;
  /** Buttons, the one that goes on last. */
  readonly actions?: ReactNode;
  /** Must be answered: a click beside it does not close it (Escape still does). */
  readonly firm?: boolean;
  readonly wide?: boolean;
}

/** A question or a small task over the sheet. */
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
