/** The part of clipper-lib (which ships no types) that the checks use. */
declare module 'clipper-lib' {
  type IntPoint = { X: number; Y: number };
  class Clipper {
    AddPaths(paths: IntPoint[][], kind: number, closed: boolean): boolean;
    Execute(operation: number, solution: IntPoint[][], subjectFill: number, clipFill: number): boolean;
    static Area(path: IntPoint[]): number;
  }
  const library: {
    Clipper: typeof Clipper;
    PolyType: { ptSubject: number; ptClip: number };
    ClipType: { ctIntersection: number };
    PolyFillType: { pftEvenOdd: number };
  };
  export default library;
}
