import { useEffect, useEffectEvent, useState } from 'react';
import type { Photo } from '../../../shared-core/book/papers.ts';
import { pictureName } from '../../../shared-core/book/backup.ts';
import { Dialog } from '../Dialog.tsx';
import { TextButton } from '../Buttons.tsx';
import './photo.css';

interface PhotosProps {
  readonly photos: readonly Photo[];
  /** The bytes of a photo by name; null when they are missing. */
  readonly read: (name: string) => Promise<Uint8Array | null>;
}

/** Photos with their captions, side by side. Pressing one enlarges it. */
export function PhotoRow({ photos, read }: PhotosProps) {
  const [shown, setShown] = useState<Photo | null>(null);
  return (
    <>
      <PhotoStrip photos={photos} read={read} onShow={setShown} />
      {shown !== null && (
        <Dialog
          wide
          onClose={() => setShown(null)}
          title={shown.caption === '' ? 'Photo' : shown.caption}
          actions={<TextButton onPress={() => setShown(null)}>Close</TextButton>}
        >
          <PhotoLarge photo={shown} read={read} />
        </Dialog>
      )}
    </>
  );
}

/** The buttons that show each photo large. */
export function PhotoStrip({ photos, read, onShow }: PhotosProps & { readonly onShow: (photo: Photo) => void }) {
  if (photos.length === 0) return null;
  return (
    <ul className="photo-strip">
      {photos.map((photo) => (
        <li key={photo.id}>
          <button
            type="button"
            className="photo-thumb"
            aria-label={photo.caption === '' ? 'Enlarge photo' : `Enlarge photo: ${photo.caption}`}
            onClick={() => onShow(photo)}
          >
            <PhotoView photo={photo} read={read} />
            <span className="caption">{photo.caption === '' ? 'No caption' : photo.caption}</span>
          </button>
        </li>
      ))}
    </ul>
  );
}

type OnePhoto = Pick<PhotosProps, 'read'> & { readonly photo: Photo };

export function PhotoLarge(props: OnePhoto) {
  return (
    <div className="photo-large">
      <PhotoView {...props} />
    </div>
  );
}

function PhotoView({ photo, read }: OnePhoto) {
  const get = useEffectEvent(read);
  const [source, setSource] = useState<string | null | undefined>(undefined);
  const name = pictureName(photo);
  useEffect(() => {
    let address: string | null = null;
    let isUnmounted = false;
    void (name === null ? Promise.resolve(null) : get(name)).then((bytes) => {
      if (isUnmounted) return;
      address = bytes === null ? null : URL.createObjectURL(new Blob([new Uint8Array(bytes)], { type: photo.mediaType }));
      setSource(address);
    });
    return () => {
      isUnmounted = true;
      if (address !== null) URL.revokeObjectURL(address);
    };
  }, [name, photo.mediaType]);
  if (source === null) return <span className="photo-missing">This photo is missing. An older backup may still have it.</span>;
  return (
    <img
      src={source}
      alt={photo.caption === '' ? 'Photo without a caption' : photo.caption}
      width={photo.widthPx}
      height={photo.heightPx}
    />
  );
}
