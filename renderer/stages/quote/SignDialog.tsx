import SignaturePad from 'signature_pad';
import { useEffect, useEffectEvent, useRef, useState } from 'react';
import type { Signature } from '../../../shared-core/book/papers.ts';
import { instantAt, dayOfInstant } from '../../../shared-core/measure/moment.ts';
import { hasSecondSigner } from '../../../shared-core/documents/blocks.ts';
import { signerOf } from '../../../shared-core/standing/names.ts';
import { standingAt } from '../../../shared-core/price/quote-state.ts';
import { nowInstant } from '../../book/command.ts';
import { type Signed, type Signing, signDocument } from '../../book/sign-commands.ts';
import { ChoiceRow } from '../../parts/Choices.tsx';
import { DateField, TextField } from '../../parts/Fields.tsx';
import { PhotoDrop } from '../../parts/photo/PhotoDrop.tsx';
import { SaveDialog } from '../../parts/Dialog.tsx';
import type { ScaledPhoto } from '../../parts/scale-photo.ts';
import { TextButton } from '../../parts/Buttons.tsx';

interface SignDialogProps {
  readonly signed: Signed;
  /** What is signed, in a sentence. */
  readonly subject: string;
  /** The result; null when it was canceled. */
  readonly onDone: (outcome: { readonly ok: boolean; readonly text: string } | null) => void;
}

const ROLES = [
  { value: 'customer', word: 'Customer' },
  { value: 'second-owner', word: 'Second owner' },
  { value: 'contractor', word: 'Contractor' },
] as const;
const WAYS = { screen: 'On screen', paper: 'On paper' };

/** Size of the canvas, px; the PDF scales it down. */
const PAD_PX = { width: 560, height: 160 } as const;

/** A signature drawn by pen, finger or mouse, or a photo of a signed paper, with the signer's name. */
export function SignDialog({ signed, subject, onDone }: SignDialogProps) {
  const { whole, quote, orderId, document } = signed;
  const { customer, business, property } = whole;
  const { options, suggestedId } = quote.priced;
  const names = {
    customer: signerOf(customer.name),
    'second-owner': signerOf(property.secondOwner?.name ?? ''),
    contractor: business.ownerName,
  };
  const today = dayOfInstant(nowInstant(), business.timeZone);
  // Only a page signed while the quote was valid is left to enter.
  const [isLate] = useState(orderId === null && standingAt(quote, nowInstant()) === 'expired');
  const pad = useRef<SignaturePad | null>(null);
  const [way, setWay] = useState<'screen' | 'paper'>(isLate ? 'paper' : 'screen');
  const [role, setRole] = useState<Signature['role']>('customer');
  const [name, setName] = useState<string>(names.customer);
  const [option, setOption] = useState(suggestedId);
  const [paper, setPaper] = useState<ScaledPhoto | null>(null);
  const [day, setDay] = useState(isLate ? null : today);
  const saved = useRef<Parameters<typeof onDone>[0]>(null);
  const signing = (): Signing | string => {
    const own = { role, name, optionId: role === 'customer' && orderId === null ? option : null };
    if (way === 'screen') {
      const drawn = pad.current;
      return drawn === null || drawn.isEmpty() ? 'Sign in the box first.' : { ...own, picture: drawn.toDataURL('image/png') };
    }
    if (paper === null) return 'Add a photo of the signed page.';
    if (day === null) return 'Enter the date on the signed page.';
    const noon = instantAt(day, '12:00', business.timeZone);
    const instant = day === today || !noon.ok ? nowInstant() : noon.value.instant;
    return { ...own, paper, signedAt: instant < document.madeAt ? document.madeAt : instant };
  };
  const sign = async () => {
    const signature = signing();
    if (typeof signature === 'string') return signature;
    const outcome = await signDocument(signed, signature);
    if (outcome.documentId === null) return outcome.text;
    saved.current = outcome;
    return { ok: true } as const;
  };
  return (
    <SaveDialog
      title="Sign"
      saveWord="Save signature"
      wide
      firm
      save={sign}
      onClose={() => onDone(saved.current)}
      extra={way === 'screen' && <TextButton onPress={() => pad.current?.clear()}>Clear signature</TextButton>}
    >
      <p>{subject}</p>
      <ChoiceRow label="Signed" options={WAYS} value={way} onChange={setWay} />
      <ChoiceRow
        label="Signer"
        options={ROLES.filter(({ value }) => value !== 'second-owner' || hasSecondSigner(quote.frozen))}
        value={role}
        onChange={(next) => {
          setRole(next);
          setName(names[next]);
        }}
      />
      {role === 'customer' && orderId === null && options.length > 1 && (
        <ChoiceRow
          label="Option"
          captioned
          options={options.map((one) => ({ value: one.id, word: one.name }))}
          value={option}
          onChange={setOption}
        />
      )}
      <TextField label="Printed name" value={name} onChange={setName} />
      {way === 'screen' ? (
        <SignPad
          onMade={(outcome) => {
            pad.current = outcome;
          }}
        />
      ) : (
        <>
          <DateField label="Date signed" value={day} onChange={setDay} today={today} latest={today} />
          <PhotoDrop
            label={paper === null ? 'Photo of the signed page' : 'The photo is added.'}
            isRequired={paper === null}
            onPhoto={setPaper}
          />
        </>
      )}
    </SaveDialog>
  );
}

function SignPad({ onMade }: { readonly onMade: (pad: SignaturePad | null) => void }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const give = useEffectEvent(onMade);
  useEffect(() => {
    if (canvas.current === null) return undefined;
    const pad = new SignaturePad(canvas.current, { penColor: '#000000' });
    give(pad);
    return () => {
      pad.off();
      give(null);
    };
  }, []);
  return (
    <canvas
      ref={canvas}
      width={PAD_PX.width}
      height={PAD_PX.height}
      className="sign-pad"
      aria-label="Signature box. Draw with pen, finger, or mouse."
    />
  );
}
