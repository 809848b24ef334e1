/** Removes a folder with everything in it, also while a program writes there. */
export function removeFolder(folder: string): void;
