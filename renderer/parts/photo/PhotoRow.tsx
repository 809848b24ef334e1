import { useEffect, useState } from 'react';
import { Button } from 'react-aria-components';
import type { Photo } from '../../../shared-core/book/papers.ts';
import { pictureName } from '../../../shared-core/book/backup.ts';
import { Dialog } from '../Dialog.tsx';
import { TextButton } from '../Buttons.tsx';
import './photo.css';

interface PhotoRowProps {
  readonly photos: readonly Photo[];
  /** The bytes of a photo by name; null when they are missing. */
  readonly read: (name: string) => Promise<Uint8Array | null>;
}

/** Photos with their captions, side by side. Pressing one enlarges it. */
export function PhotoRow({ photos, read }: PhotoRowProps) {
  if (photos.length === 0) return null;
  return (
    <ul className="photo-row">
      {photos.map((photo) => (
        <li key={photo.id}>
          <PhotoSeen photo={photo} read={read} />
        </li>
      ))}
    </ul>
  );
}

function PhotoSeen({ photo, read }: Pick<PhotoRowProps, 'read'> & { readonly photo: Photo }) {
  const [address, setAddress] = useState<string | null>(null);
  const [isGone, setGone] = useState(false);
  const [isLarge, setLarge] = useState(false);
  useEffect(() => {
    let url: string | null = null;
    let isUnmounted = false;
    const name = pictureName(photo);
    void (name === null ? Promise.resolve(null) : read(name)).then((bytes) => {
      if (isUnmounted) return;
      if (bytes === null) return setGone(true);
      url = URL.createObjectURL(new Blob([new Uint8Array(bytes)], { type: photo.mediaType }));
      return setAddress(url);
    });
    return () => {
      isUnmounted = true;
      if (url !== null) URL.revokeObjectURL(url);
    };
  }, [photo, read]);
  return (
    <figure className="photo-caption">
      {address === null ? (
        <p className="caption">{isGone ? 'Photo missing' : ''}</p>
      ) : (
        <>
          <Button
            className="photo-press"
            aria-label={photo.caption === '' ? 'Enlarge photo' : `Enlarge photo: ${photo.caption}`}
            onPress={() => setLarge(true)}
          >
            <img src={address} alt="" width={photo.widthPx} height={photo.heightPx} />
          </Button>
          {isLarge && (
            <Dialog
              onClose={() => setLarge(false)}
              title={photo.caption === '' ? 'Photo' : photo.caption}
              wide
              actions={<TextButton onPress={() => setLarge(false)}>Close</TextButton>}
            >
              <img className="photo-large" src={address} alt={photo.caption} width={photo.widthPx} height={photo.heightPx} />
            </Dialog>
          )}
        </>
      )}
      <figcaption className="caption">{photo.caption}</figcaption>
    </figure>
  );
}
