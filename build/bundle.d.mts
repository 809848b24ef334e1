/** Types of the build's own functions that tests call. */
export function copyFonts(target: string): void;
export function buildHosts(): Promise<void>;
export function buildAll(): Promise<void>;
