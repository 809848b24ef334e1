/** Long texts as UTF-8, encoded a piece at a time, so that they are never in memory as one text. */

const PIECE_LETTERS = 500_000;

export function joined(pieces: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const bytes = new Uint8Array(pieces.reduce((sum, piece) => sum + piece.length, 0));
  let at = 0;
  for (const piece of pieces) {
    bytes.set(piece, at);
    at += piece.length;
  }
  return bytes;
}

export class TextBytes {
  private piece: string;
  private readonly encoded: Uint8Array[] = [];
  constructor(start: string) {
    this.piece = start;
  }
  add(text: string): void {
    this.piece += text;
    if (this.piece.length >= PIECE_LETTERS) this.encode();
  }
  private encode(): void {
    this.encoded.push(new TextEncoder().encode(this.piece));
    this.piece = '';
  }
  /** All of it, once. */
  take(): Uint8Array<ArrayBuffer> {
    this.encode();
    return joined(this.encoded);
  }
}
