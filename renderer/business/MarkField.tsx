import { useState } from 'react';
import { DropZone } from '../parts/DropZone.tsx';
import { TextButton } from '../parts/TextButton.tsx';
import { shrinkMark } from './shrink-mark.ts';

interface MarkFieldProps {
  readonly mark: string | null;
  readonly onChange: (mark: string | null) => void;
}

/** The picture that stands beside the name on the papers. */
export function MarkField({ mark, onChange }: MarkFieldProps) {
  const [problem, setProblem] = useState<string | null>(null);
  const take = async (file: File | undefined): Promise<void> => {
    if (file === undefined) return;
    const made = await shrinkMark(file);
    setProblem(made.ok ? null : made.message);
    if (made.ok) onChange(made.value);
  };
  return (
    <div className="settings-mark">
      {mark !== null && (
        <figure className="settings-mark-seen">
          <img src={mark} alt="The mark as it stands on the papers" />
          <TextButton kind="plain" label="Take the mark out" onPress={() => onChange(null)}>
            Take out
          </TextButton>
        </figure>
      )}
      <DropZone
        label="Your mark"
        chooseWord={mark === null ? 'Choose a picture' : 'Choose another'}
        accept={['image/png', 'image/jpeg', 'image/webp']}
        refuse={(name) => `${name} is not a picture that can be used: give a PNG or a JPEG.`}
        hint="It is made small enough for the papers, and nothing else in the file is kept. Without one the name stands alone."
        problem={problem}
        onFiles={(files) => void take(files[0])}
      />
    </div>
  );
}
