import js from '@eslint/js';
import jsdoc from 'eslint-plugin-jsdoc';
import reactHooks from 'eslint-plugin-react-hooks';
import tseslint from 'typescript-eslint';
import { functionLines } from './function-lines.mjs';

/** Rules of single files. Biome formats; rules that need types are in oxlint.json. */
export default tseslint.config(
  // A comment that disables a typed rule is for oxlint; ESLint would report it as unused.
  { linterOptions: { reportUnusedDisableDirectives: 'off' } },
  { ignores: ['**/node_modules/**', '.out/**', '.cache/**'] },
  js.configs.recommended,
  {
    files: ['**/*.{ts,tsx}'],
    extends: [...tseslint.configs.strict],
    rules: {
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_', varsIgnorePattern: '^_' }],
      '@typescript-eslint/consistent-type-imports': ['error', { fixStyle: 'inline-type-imports' }],
      'no-restricted-syntax': [
        'error',
        { selector: 'ExportDefaultDeclaration', message: 'Named exports only.' },
        { selector: 'TSEnumDeclaration', message: 'No enums: a union of words.' },
        { selector: 'ExportAllDeclaration', message: 'No barrel files: import from the file that has it.' },
      ],
      'max-lines': ['error', { max: 400, skipBlankLines: true, skipComments: true }],
      // `== null` checks for null and undefined on purpose.
      eqeqeq: ['error', 'always', { null: 'ignore' }],
    },
  },
  {
    files: ['{shared-core,main,renderer}/**/*.{ts,tsx}'],
    plugins: { limits: { rules: { 'function-lines': functionLines } } },
    rules: { 'limits/function-lines': ['error', { max: 80 }], 'max-params': ['error', { max: 5 }] },
  },
  {
    files: ['shared-core/**/*.ts'],
    plugins: { jsdoc },
    rules: {
      'jsdoc/require-jsdoc': [
        'error',
        { publicOnly: true, require: { FunctionDeclaration: true, ClassDeclaration: true }, enableFixer: false },
      ],
      'jsdoc/require-description': ['error', { contexts: ['FunctionDeclaration'] }],
      'no-console': 'error',
    },
  },
  {
    files: ['renderer/**/*.{ts,tsx}'],
    plugins: { 'react-hooks': reactHooks },
    rules: { 'react-hooks/rules-of-hooks': 'error', 'react-hooks/exhaustive-deps': 'error', 'no-console': 'error' },
  },
  {
    files: ['test/**/*.{ts,tsx}', 'build/*.ts'],
    rules: {
      '@typescript-eslint/no-non-null-assertion': 'off',
    },
  },
  {
    files: ['build/*.config.ts', 'build/*.config.js'],
    rules: { 'no-restricted-syntax': 'off' },
  },
  {
    files: ['build/**/*.{mjs,js}', 'test/**/*.mjs'],
    languageOptions: {
      globals: {
        process: 'readonly',
        console: 'readonly',
        URL: 'readonly',
        setTimeout: 'readonly',
        Buffer: 'readonly',
        fetch: 'readonly',
        performance: 'readonly',
      },
    },
    rules: { 'no-restricted-syntax': 'off' },
  },
);
