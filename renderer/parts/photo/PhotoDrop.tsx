import { useState } from 'react';
import { DropZone } from '../DropZone.tsx';
import { type ScaledPhoto, scalePhoto } from '../scale-photo.ts';

interface PhotoDropProps {
  /** What it is of: `Photos of the floor`. */
  readonly label: string;
  readonly multiple?: boolean;
  /** What is wrong with keeping it, from outside. */
  readonly problem?: string | null;
  readonly onPhoto: (photo: ScaledPhoto) => void;
}

/** Photos taken, chosen, dropped or pasted; each is scaled down and drawn anew before it is given on. */
export function PhotoDrop({ label, multiple = false, problem = null, onPhoto }: PhotoDropProps) {
  const [wrong, setWrong] = useState<string | null>(null);
  const take = async (files: readonly File[]): Promise<void> => {
    setWrong(null);
    for (const file of files) {
      const drawn = await scalePhoto(file);
      if (drawn.ok) onPhoto(drawn.value);
      else setWrong(drawn.message);
    }
  };
  return (
    <DropZone
      label={label}
      chooseWord={multiple ? 'Take or choose photos' : 'Take or choose a photo'}
      accept={['image/*']}
      multiple={multiple}
      refuse={(name) => `${name} is not a photo: give a JPEG, PNG or WebP.`}
      hint="Kept smaller, and without the place or the camera that the file may name."
      problem={wrong ?? problem}
      onFiles={(files) => void take(files)}
    />
  );
}
