/** Sets a key as the newest of a map, and forgets the oldest keys beyond a number. */
export function keepLast<K, V>(map: Map<K, V>, key: K, value: V, most: number): void {
  map.delete(key);
  map.set(key, value);
  for (const oldest of map.keys()) {
    if (map.size <= most) break;
    map.delete(oldest);
  }
}
