/** What the tests use of the font reader, which carries no types. */
declare module 'fontkit' {
  interface Glyph {
    readonly advanceWidth: number;
  }
  interface Face {
    glyphsForString(text: string): Glyph[];
    layout(text: string): { readonly advanceWidth: number };
  }
  export function openSync(path: string): Face;
}
