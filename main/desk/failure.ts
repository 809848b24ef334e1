import type { DeskErrorCode } from '../../shared-core/desk/envelope.ts';

/** An expected failure, such as a full disk. Its message is shown to the user. */
export class DeskFailure extends Error {
  readonly code: DeskErrorCode;
  constructor(code: DeskErrorCode, message: string, cause?: unknown) {
    super(message, { cause });
    this.name = 'DeskFailure';
    this.code = code;
  }
}

/** The system's code of an error, such as `ENOENT`; empty for none. */
export const errno = (error: unknown): string => (error instanceof Error && 'code' in error ? String(error.code) : '');

/** What was tried with a file or folder, and why it is refused where the system does not allow it. */
const REFUSED = {
  saved: 'you cannot write to its folder. Choose another folder or change its permissions',
  created: 'you cannot write there. Choose another folder or change its permissions',
  chosen: 'you cannot write to it. Choose another folder or change its permissions',
  opened: 'you have no permission for it. Change its permissions',
  deleted: 'you cannot write to its folder. Change the permissions of the file and its folder',
} as const;

/** What to do about one that is gone. */
const GONE: Readonly<Record<keyof typeof REFUSED, string>> = {
  saved: 'Save it again.',
  created: 'Choose another folder.',
  chosen: 'Choose another folder.',
  opened: 'Put it back, or save it again.',
  deleted: 'There is nothing left to delete.',
};

/** Turns file system errors into sentences. An unexpected error is returned unchanged. */
export function explainDisk(error: unknown, name: string, tried: keyof typeof REFUSED = 'saved'): unknown {
  const not = `${name} was not ${tried}`;
  switch (errno(error)) {
    case 'ENOSPC':
    case 'EDQUOT':
      return new DeskFailure('disk-full', `The disk is full, so ${not}. Free up space and try again. Your data is safe.`, error);
    case 'EACCES':
    case 'EPERM':
    case 'EROFS':
      return new DeskFailure('read-only', `${not} because ${REFUSED[tried]}, then try again.`, error);
    case 'ENOTDIR':
    case 'EEXIST':
      return new DeskFailure('read-only', `${not} because a file is where its folder should be. Move that file, then try again.`, error);
    case 'EBUSY':
    case 'ETXTBSY':
      return new DeskFailure('in-use', `${name} is open in another program. Close it there, then try again.`, error);
    case 'ENAMETOOLONG':
      return new DeskFailure('bad-input', `${not} because its name is too long for this disk. Shorten the name.`, error);
    case 'ELOOP':
      return new DeskFailure('not-allowed', `${name} is a link that leads nowhere. Replace it with a folder.`, error);
    case 'EIO':
    case 'ENXIO':
    case 'ENODEV':
      return new DeskFailure('failed', `${not} because the disk failed or was removed. Check the disk, then try again.`, error);
    case 'ENOENT':
      return new DeskFailure('not-found', `${name} was not found. It may have been moved or deleted. ${GONE[tried]}`, error);
    default:
      return error;
  }
}
