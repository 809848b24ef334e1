import type { DeskErrorCode } from '../../shared-core/desk/envelope.ts';

/** An expected failure: a full disk, a read-only folder. Its message is shown as it stands. */
export class DeskFailure extends Error {
  readonly code: DeskErrorCode;
  constructor(code: DeskErrorCode, message: string, cause?: unknown) {
    super(message, { cause });
    this.name = 'DeskFailure';
    this.code = code;
  }
}

const errno = (error: unknown): string => (error instanceof Error && 'code' in error ? String(error.code) : '');

/** Puts what the file system answered into words; anything unforeseen is passed on as it is. */
export function explainDisk(error: unknown, name: string): unknown {
  switch (errno(error)) {
    case 'ENOSPC':
    case 'EDQUOT':
      return new DeskFailure(
        'disk-full',
        `The disk is full: ${name} was not written. Make room, then try again; nothing in the book is lost.`,
        error,
      );
    case 'EACCES':
    case 'EPERM':
    case 'EROFS':
      return new DeskFailure(
        'read-only',
        `${name} cannot be written: the folder is read-only for this user. Choose another folder or change its rights, then try again.`,
        error,
      );
    case 'ENOTDIR':
    case 'EEXIST':
      return new DeskFailure(
        'read-only',
        `${name} cannot be written: a file lies where its folder should be. Move that file away, then try again.`,
        error,
      );
    case 'EBUSY':
    case 'ETXTBSY':
      return new DeskFailure('in-use', `${name} is open in another program. Close it there, then try again.`, error);
    case 'ENOENT':
      return new DeskFailure('not-found', `${name} is not in the papers folder any more. Make it again from the job.`, error);
    default:
      return error;
  }
}
