// UNBUILT
export function PourScreen(_: Record<string, unknown>) {
  return <h1>Unbuilt: PourScreen</h1>;
}
