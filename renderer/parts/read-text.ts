/** Decodes text as devices write it: UTF-8, UTF-16 with a byte order mark, or Windows-1252. */

/** Rejects only when the file cannot be read. */
export async function readText(file: Blob): Promise<string> {
  const bytes = new Uint8Array(await file.arrayBuffer());
  // Byte order marks: Unicode Standard, section 23.8.
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return new TextDecoder('utf-16le').decode(bytes);
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return new TextDecoder('utf-16be').decode(bytes);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    // The usual cause is a degree sign in one byte.
    return new TextDecoder('windows-1252').decode(bytes);
  }
}
