/**
 * The lint rules of this program, read by oxlint.
 *
 * `function-lines`: the lines of a function, without comments, blank lines, markup, tables (array and object literals of more than three
 * lines) and inner functions, which are counted separately.
 * `named-exports`: no default export and no `export *`. `no-enum`: a union of words in place of an enum.
 * `doc-comments`: a doc comment with a description on each exported function and class.
 */
const TABLE_LINES = 4;
const linesOf = ({ loc }) => loc.end.line - loc.start.line + 1;
const isFunction = ({ type }) => /^(FunctionDeclaration|FunctionExpression|ArrowFunctionExpression)$/.test(type);
const isAside = (node) =>
  /^JSX(Element|Fragment)$/.test(node.type) || (/^(Array|Object)Expression$/.test(node.type) && linesOf(node) >= TABLE_LINES);

function* children(node, keys) {
  for (const key of keys[node.type] ?? [])
    for (const child of [node[key]].flat()) if (child !== null && typeof child === 'object' && 'type' in child) yield child;
}

/** Lines that are not counted. */
function* asides(node, keys) {
  for (const child of children(node, keys)) {
    if (isAside(child) || (isFunction(child) && linesOf(child) > 1)) yield child;
    else yield* asides(child, keys);
  }
}

const functionLines = {
  meta: { type: 'suggestion', schema: [{ type: 'object', properties: { max: { type: 'integer' } }, additionalProperties: false }] },
  create(context) {
    const { max } = context.options[0];
    const { sourceCode } = context;
    const check = (node) => {
      if (linesOf(node) <= max) return;
      const counted = new Set();
      const comments = new Set(sourceCode.getAllComments().flatMap(({ loc }) => range(loc.start.line, loc.end.line)));
      for (const line of range(node.loc.start.line, node.loc.end.line)) {
        const text = sourceCode.lines[line - 1].trim();
        if (text !== '' && !(comments.has(line) && /^(\/\/|\/?\*)/.test(text))) counted.add(line);
      }
      // The first line of an excluded node still has code beside it.
      for (const { loc } of asides(node, sourceCode.visitorKeys))
        for (const line of range(loc.start.line + 1, loc.end.line)) counted.delete(line);
      if (counted.size > max)
        context.report({
          node,
          loc: { start: node.loc.start, end: node.loc.start },
          message: `This function has ${counted.size} lines; at most ${max}.`,
        });
    };
    return { FunctionDeclaration: check, FunctionExpression: check, ArrowFunctionExpression: check };
  },
};

const range = (from, to) => Array.from({ length: to - from + 1 }, (_, i) => from + i);

const rule = (create) => ({ meta: { type: 'suggestion', schema: [] }, create });
const refuse = (message) => (context) => (node) => context.report({ node, message });

const namedExports = rule((context) => ({
  ExportDefaultDeclaration: refuse('Named exports only.')(context),
  ExportAllDeclaration: refuse('No barrel files: import from the file that has it.')(context),
}));

const noEnum = rule((context) => ({ TSEnumDeclaration: refuse('No enums: a union of words.')(context) }));

/** A doc comment's own words: without stars, and without what follows its first tag. */
const described = ({ value }) =>
  value
    .replace(/^\s*\*/gm, '')
    .split(/^\s*@/m)[0]
    .trim();

const docComments = rule((context) => ({
  ExportNamedDeclaration(node) {
    if (!/^(Function|Class)Declaration$/.test(node.declaration?.type ?? '')) return;
    const before = context.sourceCode.getCommentsBefore(node).at(-1);
    if (before?.type !== 'Block' || !before.value.startsWith('*') || described(before) === '')
      context.report({ node, message: 'Describe what this is in a doc comment.' });
  },
}));

export default {
  meta: { name: 'house' },
  rules: { 'function-lines': functionLines, 'named-exports': namedExports, 'no-enum': noEnum, 'doc-comments': docComments },
};
