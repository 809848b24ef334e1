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

const errno = (error: unknown): string => (error instanceof Error && 'code' in error ? String(error.code) : '');

/** Turns file system errors into sentences. An unexpected error is returned unchanged. */
export function explainDisk(error: unknown, name: string): unknown {
  switch (errno(error)) {
    case 'ENOSPC':
    case 'EDQUOT':
      return new DeskFailure(
        'disk-full',
        `The disk is full, so ${name} was not saved. Free up space and try again. Your data is safe.`,
        error,
      );
    case 'EACCES':
    case 'EPERM':
    case 'EROFS':
      return new DeskFailure(
        'read-only',
        `${name} was not saved because you cannot write to its folder. Choose another folder or change its permissions, then try again.`,
        error,
      );
    case 'ENOTDIR':
    case 'EEXIST':
      return new DeskFailure(
        'read-only',
        `${name} was not saved because a file is where its folder should be. Move that file, then try again.`,
        error,
      );
    case 'EBUSY':
    case 'ETXTBSY':
      return new DeskFailure('in-use', `${name} is open in another program. Close it there, then try again.`, error);
    case 'ENAMETOOLONG':
      return new DeskFailure('bad-input', `${name} was not saved because its name is too long for this disk. Shorten the name.`, error);
    case 'ELOOP':
      return new DeskFailure('not-allowed', `${name} is a link that leads nowhere. Replace it with a folder.`, error);
    case 'EIO':
    case 'ENXIO':
    case 'ENODEV':
      return new DeskFailure(
        'failed',
        `${name} was not saved because the disk failed or was removed. Check the disk, then try again.`,
        error,
      );
    case 'ENOENT':
      return new DeskFailure('not-found', `${name} was not found. It may have been moved or deleted. Save it again.`, error);
    default:
      return error;
  }
}
