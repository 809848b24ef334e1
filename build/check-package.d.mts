/** What is in a packaged program. */
export function packageWithStandIn(folder: string): { files: string[]; unpacked: string };
