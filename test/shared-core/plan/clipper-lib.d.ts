/** The part of clipper-lib (which ships no types) that the tests use. */
declare module 'clipper-lib' {
  type IntPoint = { X: number; Y: number };
  type Clipper = {
    AddPaths(paths: IntPoint[][], kind: number, closed: boolean): boolean;
    Execute(operation: number, solution: IntPoint[][], subjectFill: number, clipFill: number): boolean;
  };
  const library: {
    Clipper: { new (): Clipper; Area(path: IntPoint[]): number };
    PolyType: { ptSubject: number; ptClip: number };
    ClipType: { ctIntersection: number };
    PolyFillType: { pftEvenOdd: number };
  };
  export = library;
}
