import { type ReactNode, useState } from 'react';
import { Dialog as AriaDialog, Heading, Modal, ModalOverlay } from 'react-aria-components';
import './Dialog.css';
import { Notice } from './Notice.tsx';
import { TextButton } from './Buttons.tsx';

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

/** The result of saving; `message` is the reason it failed. */
type Saved = { readonly ok: true } | { readonly ok: false; readonly message: string };

interface SaveDialogProps {
  readonly title: string;
  readonly saveWord?: string;
  /** Saves; returns what is missing, or the result. */
  readonly save: () => Promise<Saved | string>;
  readonly onClose: () => void;
  readonly firm?: boolean;
  readonly wide?: boolean;
  /** Replaces Cancel in a dialog that saves nothing. */
  readonly extra?: ReactNode;
  readonly children: ReactNode;
}

/** A form that saves one entry and closes. If saving fails, it stays open with the reason. */
export function SaveDialog({ title, saveWord = 'Save', save, onClose, firm = false, wide = false, extra, children }: SaveDialogProps) {
  const [problem, setProblem] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const run = async (): Promise<void> => {
    if (busy) return;
    setBusy(true);
    const saved = await save();
    setBusy(false);
    if (typeof saved === 'string') setProblem(saved);
    else if (saved.ok) onClose();
    else setProblem(saved.message);
  };
  return (
    <Dialog
      open
      firm={firm}
      wide={wide}
      onClose={onClose}
      title={title}
      actions={
        <>
          <TextButton onPress={onClose}>Cancel</TextButton>
          {extra}
          <TextButton kind="outlined" disabled={busy} onPress={() => void run()}>
            {saveWord}
          </TextButton>
        </>
      }
    >
      {problem !== null && <Notice kind="failure">{problem}</Notice>}
      {children}
    </Dialog>
  );
}
