/** Database logs as a killed browser leaves them. The format is LevelDB's (`doc/log_format.md` of that project). */
import { Buffer } from 'node:buffer';

const HEADER_BYTES = 7;
export const KINDS = { full: 1, first: 2, middle: 3, last: 4 } as const;

/** One piece of a log; `announced` is the length that its header gives. The checksum is not looked at. */
export function piece(kind: keyof typeof KINDS, bytes: number, announced = bytes): Buffer {
  const made = Buffer.alloc(HEADER_BYTES + bytes, 7);
  made.writeUInt16LE(announced, 4);
  made.writeUInt8(KINDS[kind], 6);
  return made;
}

/** An entry of which the end was not written. */
export const tornEntry = (): Buffer => piece('full', 100, 500);
