import { useState } from 'react';
import { DropZone } from '../parts/DropZone.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import { shrinkLogo } from './shrink-logo.ts';

interface LogoFieldProps {
  readonly mark: string | null;
  readonly onChange: (mark: string | null) => void;
}

export function LogoField({ mark, onChange }: LogoFieldProps) {
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
