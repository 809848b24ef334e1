import { countryName, parseCountry } from '../../shared-core/measure/country.ts';
import { AddressFields } from '../parts/AddressFields.tsx';
import { Field } from '../parts/Field.tsx';
import { Fields, TextField } from '../parts/Fields.tsx';
import { type BusinessPart, SettingsPart } from './SettingsPart.tsx';
import { useState } from 'react';
import { DropZone } from '../parts/DropZone.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import type { Parsed } from '../../shared-core/measure/parsed.ts';

/** The company as its documents show it. */
export function IdentityPart({ business, edit }: BusinessPart) {
  return (
    <SettingsPart heading="Company" text="Printed at the top of every quote and handover sheet.">
      <Fields wide>
        <TextField label="Company name" value={business.name} onChange={(name) => edit('company name', { name })} />
        <TextField label="Your name" value={business.ownerName} onChange={(ownerName) => edit('your name', { ownerName })} />
      </Fields>
      <AddressFields
        address={business.address}
        onChange={(change) => edit('company address', (b) => ({ ...b, address: { ...b.address, ...change } }))}
      />
      <Fields>
        <Field
          label="Country"
          value={business.address.country}
          parse={parseCountry}
          format={(code) => code}
          emptyMessage="Enter a country as two letters, such as US."
          hint={countryName(business.address.country) ?? undefined}
          onChange={(country) => edit('country', (b) => ({ ...b, address: { ...b.address, country } }))}
        />
        <TextField label="Phone" kind="tel" value={business.phone} onChange={(phone) => edit('company phone', { phone })} />
      </Fields>
      <Fields wide>
        <TextField label="Email" kind="email" value={business.email} onChange={(email) => edit('company email', { email })} />
      </Fields>
      <LogoField mark={business.mark} onChange={(mark) => edit('company logo', { mark })} />
    </SettingsPart>
  );
}

interface LogoFieldProps {
  readonly mark: string | null;
  readonly onChange: (mark: string | null) => void;
}

function LogoField({ mark, onChange }: LogoFieldProps) {
  const [problem, setProblem] = useState<string | null>(null);
  const take = async (file: File | undefined): Promise<void> => {
    if (file === undefined) return;
    const logo = await shrinkLogo(file);
    setProblem(logo.ok ? null : logo.message);
    if (logo.ok) onChange(logo.value);
  };
  return (
    <div className="words settings-logo">
      {mark !== null && (
        <figure className="stack-close settings-logo-preview">
          <img src={mark} alt="The logo as it is printed" />
          <TextButton kind="delete" label="Delete logo" onPress={() => onChange(null)}>
            Delete
          </TextButton>
        </figure>
      )}
      <DropZone
        label="Logo"
        chooseWord={mark === null ? 'Choose picture' : 'Replace picture'}
        accept={['image/png', 'image/jpeg', 'image/webp']}
        refuse={(name) => `${name} cannot be used as a logo. Choose a PNG or JPEG file.`}
        hint="The picture is resized, and its location data is removed. Without a logo the name is printed alone."
        problem={problem}
        onFiles={(files) => void take(files[0])}
      />
    </div>
  );
}

/** The company record allows a data address of 400,000 characters, and base64 takes 4 characters for 3 bytes. */
const MOST_CHARACTERS = 395_000;
/** 2 in., the widest print, at 300 dots per inch. */
const WIDEST_PX = 600;
const SMALLEST_PX = 80;

const canvasOf = (picture: ImageBitmap, widestPx: number): HTMLCanvasElement => {
  const scale = Math.min(1, widestPx / Math.max(picture.width, picture.height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(picture.width * scale));
  canvas.height = Math.max(1, Math.round(picture.height * scale));
  canvas.getContext('2d')?.drawImage(picture, 0, 0, canvas.width, canvas.height);
  return canvas;
};

/** Returns a PNG data address of at most 300 kB, or why there is none. */
async function shrinkLogo(file: File): Promise<Parsed<string>> {
  let picture: ImageBitmap;
  try {
    picture = await createImageBitmap(file);
  } catch {
    return { ok: false, message: `${file.name} could not be read as a picture. Open it in another program and save it as PNG.` };
  }
  try {
    for (let widestPx = WIDEST_PX; widestPx >= SMALLEST_PX; widestPx = Math.floor(widestPx * 0.8)) {
      const text = canvasOf(picture, widestPx).toDataURL('image/png');
      if (text.startsWith('data:image/png') && text.length <= MOST_CHARACTERS) return { ok: true, value: text };
    }
  } finally {
    picture.close();
  }
  return { ok: false, message: `${file.name} is still too large after resizing. Choose a simpler picture.` };
}
