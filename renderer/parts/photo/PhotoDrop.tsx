import { useState } from 'react';
import { DropZone } from '../DropZone.tsx';
import { PHOTO_TYPES, refusePhoto } from '../photo-file.ts';
import { type ScaledPhoto, scalePhoto } from '../scale-photo.ts';

interface PhotoDropProps {
  readonly label: string;
  readonly multiple?: boolean;
  readonly isRequired?: boolean;
  readonly onPhoto: (photo: ScaledPhoto) => void;
}

/** Photos chosen, dropped or pasted, each resized before it is passed on. */
export function PhotoDrop({ label, multiple = false, isRequired = false, onPhoto }: PhotoDropProps) {
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
      chooseWord={multiple ? 'Add photos' : 'Add photo'}
      accept={PHOTO_TYPES}
      multiple={multiple}
      isRequired={isRequired}
      refuse={refusePhoto}
      hint="Photos are resized, and location data is removed."
      problem={wrong}
      onFiles={(files) => void take(files)}
    />
  );
}
