/** A document tree as it is stored: photos by the name of their bytes, so that they are kept once, and read back as they were. */
import { type Block, type DocumentTree, documentTreeSchema } from './tree.ts';

/** Photos are stored as `photos/SHA256.jpg`; a data address has no such beginning. */
const PHOTO = 'photos/';

/** Every block of a list, those within columns and groups among them, with its photos replaced. */
function withPictures(blocks: readonly Block[], replace: (picture: string) => string | null): Block[] {
  return blocks.map((block): Block => {
    switch (block.kind) {
      case 'photos':
        return {
          ...block,
          photos: block.photos.flatMap((photo) => {
            const picture = replace(photo.picture);
            return picture === null ? [] : [{ ...photo, picture }];
          }),
        };
      case 'columns':
        return { ...block, columns: block.columns.map((column) => withPictures(column, replace)) };
      case 'together':
      case 'cover':
        return { ...block, blocks: withPictures(block.blocks, replace) };
      default:
        return block;
    }
  });
}

/**
 * The tree as JSON text, photos by name.
 * @param names data address of a picture to the name its bytes are stored under, `photos/SHA256.jpg`; any other picture stays whole
 */
export function storedTree(tree: DocumentTree, names: ReadonlyMap<string, string>): string {
  const blocks = withPictures(tree.blocks, (picture) => {
    const name = names.get(picture);
    return name === undefined ? picture : name;
  });
  return JSON.stringify({ ...tree, blocks });
}

/** A stored document's tree; null when it cannot be read. */
export function readTree(content: string): DocumentTree | null {
  try {
    const read = documentTreeSchema.safeParse(JSON.parse(content));
    return read.success ? read.data : null;
  } catch {
    return null;
  }
}

/** Names of the photos a stored tree refers to. */
export function photoNames(tree: DocumentTree): string[] {
  const names: string[] = [];
  withPictures(tree.blocks, (picture) => {
    if (picture.startsWith(PHOTO)) names.push(picture);
    return picture;
  });
  return [...new Set(names)];
}

/**
 * The tree with its photos back in place.
 * @param pictures name to data address; a photo that is missing is left out
 */
export function withPhotos(tree: DocumentTree, pictures: ReadonlyMap<string, string>): DocumentTree {
  return {
    ...tree,
    blocks: withPictures(tree.blocks, (picture) => (picture.startsWith(PHOTO) ? (pictures.get(picture) ?? null) : picture)),
  };
}
