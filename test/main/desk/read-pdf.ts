/** A PDF as pdf.js reads it: its headings, tables and figures in order, the cells of its tables, its words, and those in drawings. */
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';

/** What a reader of the structure tree gets: headings with their text, tables, and figures with theirs. */
type Met = { readonly role: string; readonly words: string };
type Node = { readonly role?: string; readonly alt?: string; readonly id?: string; readonly children?: readonly Node[] };

/** The marked content that lies in figures: what is lettered in drawings. */
const figureIds = (node: Node, within: boolean): string[] =>
  (node.children ?? []).flatMap((child) => {
    const isDrawn = within || child.role === 'Figure';
    return child.role === undefined ? (within && child.id !== undefined ? [child.id] : []) : figureIds(child, isDrawn);
  });

/** The rows of a table, which may stand in groups. */
const rowsIn = (node: Node): readonly Node[] => (node.role === 'TR' ? [node] : (node.children ?? []).flatMap(rowsIn));

/** Reads a PDF. */
export async function readPdf(pdf: Buffer) {
  const loaded = await getDocument({ data: new Uint8Array(pdf), useSystemFonts: false, verbosity: 0 }).promise;
  const [met, prose, drawn]: [Met[], string[], string[]] = [[], [], []];
  const tables: string[][][] = [];
  for (let n = 1; n <= loaded.numPages; n += 1) {
    const page = await loaded.getPage(n);
    const tree: Node = await page.getStructTree();
    const inFigures = new Set(figureIds(tree, false));
    const { items } = await page.getTextContent({ includeMarkedContent: true });
    const byId = new Map<string, string>();
    const open: string[] = [];
    for (const item of items) {
      const into = open.some((id) => inFigures.has(id)) ? drawn : prose;
      if ('str' in item) {
        const words = `${item.str}${item.hasEOL ? ' ' : ''}`;
        for (const id of open) byId.set(id, `${byId.get(id) ?? ''}${words}`);
        into.push(words);
        if (into === drawn) into.push(' ');
      } else if (item.type.startsWith('begin')) open.push(item.id);
      else {
        open.pop();
        into.push(' ');
      }
    }
    const wordsOf = (node: Node): string =>
      (node.children ?? []).map((c) => (c.role === undefined ? (byId.get(c.id ?? '') ?? '') : wordsOf(c))).join(' ');
    const cellsOf = (node: Node): string[] => (node.children ?? []).map((cell) => wordsOf(cell).replace(/\s+/g, ' ').trim());
    const walk = (node: Node): void => {
      if (node.role === 'Table') tables.push((node.children ?? []).flatMap(rowsIn).map(cellsOf));
      if (node.role !== undefined && /^(H[1-6]|Table|Figure|TH)$/.test(node.role))
        met.push({
          role: node.role,
          words: (node.role === 'Figure' ? (node.alt ?? '') : /^H/.test(node.role) ? wordsOf(node) : '').replace(/\s+/g, ' ').trim(),
        });
      for (const child of node.children ?? []) walk(child);
    };
    walk(tree);
  }
  const outline = await loaded.getOutline();
  const labels = await loaded.getPageLabels();
  const [text, inDrawings] = [prose, drawn].map((parts) => parts.join('').replace(/\s+/g, ' '));
  const result = { met, tables, text: text ?? '', drawn: inDrawings ?? '', outline, labels, pages: loaded.numPages };
  await loaded.destroy();
  return result;
}
