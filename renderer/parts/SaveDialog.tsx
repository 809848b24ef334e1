import { type ReactNode, useState } from 'react';
import { Dialog } from './Dialog.tsx';
import { Notice } from './Notice.tsx';
import { TextButton } from './TextButton.tsx';

/** What became of the saving; `message` says why not. */
type Saved = { readonly ok: true } | { readonly ok: false; readonly message: string };

interface SaveDialogProps {
  readonly title: string;
  readonly saveWord?: string;
  /** Saves; gives a sentence about what is missing, or what became of it. */
  readonly save: () => Promise<Saved | string>;
  readonly onClose: () => void;
  readonly firm?: boolean;
  readonly wide?: boolean;
  /** Words beside Cancel for something that saves nothing. */
  readonly extra?: ReactNode;
  readonly children: ReactNode;
}

/** A form over the screen that saves one entry and closes. What could not be saved stays, with the reason. */
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
