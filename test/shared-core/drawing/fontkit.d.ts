/** The part of the font reader (which ships no types) that the tests use. */
declare module 'fontkit' {
  interface Glyph {
    readonly advanceWidth: number;
  }
  interface Face {
    glyphsForString(text: string): Glyph[];
    readonly availableFeatures: readonly string[];
    layout(text: string): { readonly advanceWidth: number };
  }
  export function openSync(path: string): Face;
}
