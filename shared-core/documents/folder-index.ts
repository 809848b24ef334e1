/** The index page of a job’s folder: every file with what it is, as a plain web page that needs no program. */

/** A file of the folder. */
export type FolderFile = { readonly name: string; readonly about: string; readonly when: string };
/** Files of one kind under a heading. */
export type FolderPart = { readonly heading: string; readonly files: readonly FolderFile[] };

const plain = (text: string): string => text.replace(/[&<>"']/g, (sign) => `&#${sign.charCodeAt(0)};`);

/**
 * The page as HTML with links to the files beside it.
 * @param title the job, its customer and its property
 * @param language of the words, `en-US`
 */
export function folderIndex(title: string, language: string, parts: readonly FolderPart[]): string {
  const row = ({ name, about, when }: FolderFile): string =>
    `<tr><td><a href="${encodeURIComponent(name)}">${plain(name)}</a></td><td>${plain(about)}</td><td>${plain(when)}</td></tr>`;
  const table = ({ heading, files }: FolderPart): string =>
    `<h2>${plain(heading)}</h2>\n<table>\n<thead><tr><th scope="col">File</th><th scope="col">Contents</th><th scope="col">Date</th></tr></thead>\n<tbody>\n${files.map(row).join('\n')}\n</tbody>\n</table>`;
  const filled = parts.filter(({ files }) => files.length > 0);
  return `<!doctype html>
<html lang="${plain(language)}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${plain(title)}</title>
<style>body{font:16px/1.5 serif;max-width:60rem;margin:2rem auto;padding:0 1rem}table{border-collapse:collapse;width:100%}td,th{text-align:left;padding:.2rem 1rem .2rem 0;border-bottom:1px solid #999;vertical-align:top}</style>
</head>
<body>
<h1>${plain(title)}</h1>
${filled.map(table).join('\n')}
</body>
</html>
`;
}
