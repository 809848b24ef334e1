/** Types of the font functions that tests call. */
export function copyFonts(target: string): void;
