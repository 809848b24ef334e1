import { type ReactNode, useState, useEffect, useRef } from 'react';
import { Dialog as AriaDialog, Heading, Modal, ModalOverlay } from 'react-aria-components';
import './Dialog.css';
import { TextButton } from './Buttons.tsx';
import { FieldProblem } from './Field.tsx';
import { FormContext, useFormCheck } from './form-check.ts';
import { StateShape } from './StateShape.tsx';
import './Notice.css';

interface DialogProps {
  readonly onClose: () => void;
  readonly title: string;
  readonly children: ReactNode;
  /** Why it could not be saved, above the form. */
  readonly problem?: string | null;
  /** Gives the dialog Cancel and Save. */
  readonly onSave?: () => void;
  readonly saveWord?: ReactNode;
  readonly blocked?: boolean;
  /** Buttons between Cancel and Save. */
  readonly extra?: ReactNode;
  /** Buttons in place of Cancel and Save, with the one that proceeds last. Those that save what the fields say have `saves`. */
  readonly actions?: ReactNode;
  /** A click outside does not close it; Escape does. */
  readonly firm?: boolean;
  readonly wide?: boolean;
}

const FIELD = 'input:enabled:not([tabindex="-1"], [type="file"]), textarea:enabled, select:enabled';

export function Dialog(props: DialogProps) {
  const { onClose, title, children, problem = null, onSave, saveWord = 'Save', blocked = false, extra, firm = false, wide = false } = props;
  const body = useRef<HTMLDivElement>(null);
  const { form: check, refusal } = useFormCheck(body, onSave !== undefined);
  const form = onSave !== undefined && (
    <>
      <TextButton onPress={onClose}>Cancel</TextButton>
      {extra}
      <TextButton kind="outlined" saves disabled={blocked} onPress={onSave}>
        {saveWord}
      </TextButton>
    </>
  );
  const actions = props.actions ?? form;
  const isForm = onSave !== undefined;
  // The first field of a form has the focus, unless another field took it.
  useEffect(() => {
    if (isForm && body.current?.contains(document.activeElement) === false) body.current.querySelector<HTMLElement>(FIELD)?.focus();
  }, [isForm]);
  return (
    <ModalOverlay className="dialog-ground" isOpen onOpenChange={(now) => !now && onClose()} isDismissable={!firm}>
      <Modal className={`dialog${wide ? ' dialog-wide' : ''}`}>
        <AriaDialog className="dialog-inner" {...(firm ? { role: 'alertdialog' } : {})}>
          <Heading slot="title" level={2} className="speech">
            {title}
          </Heading>
          <FormContext value={check}>
            <div ref={body} className="dialog-body">
              {problem !== null && <Notice kind="failure">{problem}</Notice>}
              {children}
              {refusal !== null && <Notice kind="failure">{refusal}</Notice>}
            </div>
            {actions !== false && <div className="dialog-actions">{actions}</div>}
          </FormContext>
        </AriaDialog>
      </Modal>
    </ModalOverlay>
  );
}

/** A form on a screen. Its buttons with `saves` wait until its fields are right. */
export function Form({ children }: { readonly children: ReactNode }) {
  const around = useRef<HTMLDivElement>(null);
  const { form, refusal } = useFormCheck(around, true);
  return (
    <FormContext value={form}>
      <div ref={around} style={{ display: 'contents' }}>
        {children}
        <FieldProblem text={refusal} />
      </div>
    </FormContext>
  );
}

/** The result of saving; `message` is the reason it failed. */
type Saved = { readonly ok: true } | { readonly ok: false; readonly message: string };

/** What is missing, or the result; nothing once it is saved. */
type Answer = Saved | string | undefined;

interface SaveDialogProps extends Pick<DialogProps, 'title' | 'saveWord' | 'onClose' | 'firm' | 'wide' | 'extra' | 'children'> {
  readonly save: () => Answer | Promise<Answer>;
}

/** A form that saves one entry and closes. If saving fails, it stays open with the reason. */
export function SaveDialog({ save, ...rest }: SaveDialogProps) {
  const [problem, setProblem] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const run = async (): Promise<void> => {
    if (busy) return;
    setBusy(true);
    const saved = await save();
    setBusy(false);
    if (typeof saved === 'string') setProblem(saved);
    else if (saved === undefined || saved.ok) rest.onClose();
    else setProblem(saved.message);
  };
  return <Dialog {...rest} problem={problem} blocked={busy} onSave={() => void run()} />;
}

interface NoticeProps {
  /** Screen readers announce `failure` at once, `told` after the present sentence. */
  readonly kind?: 'success' | 'failure';
  readonly children: ReactNode;
  /** The button and what it does. */
  readonly action?: { readonly word: string; readonly run: () => void; readonly keys?: string };
  readonly onClose?: () => void;
  /** The close button's words, where closing does more than close. */
  readonly closeWord?: string;
}

/** A bar with what happened and what to do. */
export function Notice({ kind = 'success', children, action, onClose, closeWord = 'Close' }: NoticeProps) {
  const bar = useRef<HTMLDivElement>(null);
  const answers = onClose !== undefined;
  // An answer to what was pressed: the screen may be scrolled away from where it stands.
  useEffect(() => {
    if (answers) bar.current?.scrollIntoView({ block: 'nearest' });
  }, [answers, children]);
  return (
    <div ref={bar} className="notice" role={kind === 'failure' ? 'alert' : 'status'}>
      {kind === 'failure' && <StateShape state="held" />}
      <div className="notice-words">{children}</div>
      {action !== undefined && (
        <TextButton onPress={action.run} {...(action.keys === undefined ? {} : { keys: action.keys })}>
          {action.word}
        </TextButton>
      )}
      {onClose !== undefined && (
        <TextButton kind="plain" onPress={onClose}>
          {closeWord}
        </TextButton>
      )}
    </div>
  );
}

/** What a command said: a failure's sentence, a result with its sentence, or its outcome, which has a sentence where it failed. */
export type Said = string | { readonly ok: boolean; readonly text: string } | Saved | null;

interface ResultNoticeProps {
  readonly message: Said;
  readonly onClose: (none: null) => void;
}

/** What the last command said, until it is closed. */
export function ResultNotice({ message, onClose }: ResultNoticeProps) {
  if (message === null) return null;
  const said = typeof message === 'string' ? { ok: false, message } : message;
  if (said.ok && !('text' in said)) return null;
  return (
    <Notice kind={said.ok ? 'success' : 'failure'} onClose={() => onClose(null)}>
      {'text' in said ? said.text : said.message}
    </Notice>
  );
}
