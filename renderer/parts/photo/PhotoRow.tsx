import { useEffect, useState } from 'react';
import type { Photo } from '../../../shared-core/book/papers.ts';
import { pictureName } from '../../../shared-core/book/snapshot.ts';
import './photo.css';

interface PhotoRowProps {
  readonly photos: readonly Photo[];
  /** The bytes of a photo by their name; null when they are not in the book any more. */
  readonly read: (name: string) => Promise<Uint8Array | null>;
}

/** Photos side by side, each with its words; pressed, one is shown large in a window of its own. */
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
  useEffect(() => {
    let made: string | null = null;
    let left = false;
    const name = pictureName(photo);
    void (name === null ? Promise.resolve(null) : read(name)).then((bytes) => {
      if (left) return;
      if (bytes === null) return setGone(true);
      made = URL.createObjectURL(new Blob([new Uint8Array(bytes)], { type: photo.mediaType }));
      return setAddress(made);
    });
    return () => {
      left = true;
      if (made !== null) URL.revokeObjectURL(made);
    };
  }, [photo, read]);
  return (
    <figure className="photo-seen">
      {address === null ? (
        <p className="caption">{isGone ? 'The picture is not in this book.' : ''}</p>
      ) : (
        <a href={address} target="_blank" rel="noreferrer">
          <img src={address} alt={photo.caption} width={photo.widthPx} height={photo.heightPx} />
        </a>
      )}
      <figcaption className="caption">{photo.caption}</figcaption>
    </figure>
  );
}
