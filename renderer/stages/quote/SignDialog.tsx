import SignaturePad from 'signature_pad';
import { useEffect, useRef, useState } from 'react';
import type { Signature } from '../../../shared-core/book/papers.ts';
import type { Signing } from '../../book/sign-commands.ts';
import { ChoiceRow } from '../../parts/ChoiceRow.tsx';
import { Dialog } from '../../parts/Dialog.tsx';
import { Notice } from '../../parts/Notice.tsx';
import { TextButton } from '../../parts/TextButton.tsx';
import { TextField } from '../../parts/TextField.tsx';

interface SignDialogProps {
  readonly options: readonly { readonly value: string; readonly word: string }[];
  readonly suggested: string;
  readonly names: Readonly<Record<Signature['role'], string>>;
  /** What is signed, in a sentence. */
  readonly what: string;
  /** Gives why it cannot be saved, or null. */
  readonly onSign: (signing: Signing) => Promise<string | null>;
  readonly onClose: () => void;
}

const ROLES = [
  { value: 'customer', word: 'Customer' },
  { value: 'second-owner', word: 'Second owner' },
  { value: 'contractor', word: 'Contractor' },
] as const;

/** Pixels of the drawing surface; the PDF scales it down. */
const PAD_PX = { width: 560, height: 160 } as const;

/** A signature drawn with pen, finger or mouse, with the signer's name. */
export function SignDialog({ options, suggested, names, what, onSign, onClose }: SignDialogProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const pad = useRef<SignaturePad | null>(null);
  const [role, setRole] = useState<Signature['role']>('customer');
  const [name, setName] = useState(names.customer);
  const [option, setOption] = useState(suggested);
  const [problem, setProblem] = useState<string | null>(null);
  useEffect(() => {
    if (canvas.current === null) return undefined;
    const made = new SignaturePad(canvas.current, { penColor: '#000000' });
    pad.current = made;
    return () => made.off();
  }, []);
  const sign = (): void => {
    const drawn = pad.current;
    if (drawn === null || drawn.isEmpty()) return setProblem('Sign in the box first.');
    return void onSign({ role, name, optionId: role === 'customer' ? option : null, picture: drawn.toDataURL('image/png') }).then(
      setProblem,
    );
  };
  return (
    <Dialog
      open
      wide
      onClose={onClose}
      title="Sign on screen"
      actions={
        <>
          <TextButton onPress={onClose}>Cancel</TextButton>
          <TextButton onPress={() => pad.current?.clear()}>Clear signature</TextButton>
          <TextButton kind="outlined" onPress={sign}>
            Save signature
          </TextButton>
        </>
      }
    >
      {problem !== null && <Notice kind="failure">{problem}</Notice>}
      <p>{what}</p>
      <ChoiceRow
        label="Signer"
        options={ROLES}
        value={role}
        onChange={(next) => {
          setRole(next);
          setName(names[next]);
        }}
      />
      {role === 'customer' && options.length > 1 && (
        <ChoiceRow label="Option" captioned options={options} value={option} onChange={setOption} />
      )}
      <TextField label="Printed name" value={name} onChange={setName} />
      <canvas
        ref={canvas}
        width={PAD_PX.width}
        height={PAD_PX.height}
        className="sign-pad"
        aria-label="Signature box. Draw with pen, finger, or mouse."
      />
    </Dialog>
  );
}
