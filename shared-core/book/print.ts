/**
 * Whether two texts differ, by 106 bits that every character goes into: worked out at once, also within a transaction, which waits
 * for no checksum of the browser's. Two pairs of multiply-and-fold, each 53 bits of which are kept; it guards against edits, not
 * forgers.
 */
export class Print {
  readonly #state = [0xdeadbeef, 0x41c6ce57, 0x9e3779b1, 0x85ebca77];

  /** Takes more of the text. */
  add(text: string): void {
    let [a = 0, b = 0, c = 0, d = 0] = this.#state;
    for (let i = 0; i < text.length; i += 1) {
      const code = text.charCodeAt(i);
      a = Math.imul(a ^ code, 2654435761);
      b = Math.imul(b ^ code, 1597334677);
      c = Math.imul(c ^ code, 2246822507) + b;
      d = Math.imul(d ^ code, 3266489909) + a;
    }
    this.#state.splice(0, 4, a, b, c, d);
  }

  /** The print of all that was taken, 32 hexadecimal digits. */
  text(): string {
    return this.#state.map((part) => (part >>> 0).toString(16).padStart(8, '0')).join('');
  }
}
