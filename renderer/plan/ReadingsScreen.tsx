export function ReadingsScreen({ roomId }: { readonly roomId: string }) {
  return <p>{roomId}</p>;
}
