/** Types of the font plugin that the page's build uses. */
import type { Plugin } from 'vite';
export function webFonts(): Plugin;
