import js from '@eslint/js';
import jsdoc from 'eslint-plugin-jsdoc';
import reactHooks from 'eslint-plugin-react-hooks';
import tseslint from 'typescript-eslint';

/** Formatting belongs to biome; these rules are about meaning. */
export default tseslint.config(
  { ignores: ['**/node_modules/**', '.out/**', '.cache/**'] },
  js.configs.recommended,
  {
    files: ['**/*.{ts,tsx}'],
    extends: [...tseslint.configs.strictTypeChecked],
    languageOptions: {
      parserOptions: {
        project: './build/tsconfig.lint.json',
        tsconfigRootDir: new URL('..', import.meta.url).pathname,
      },
    },
    rules: {
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
      '@typescript-eslint/switch-exhaustiveness-check': ['error', { considerDefaultExhaustiveForUnions: true }],
      '@typescript-eslint/no-confusing-void-expression': 'off',
      '@typescript-eslint/no-unnecessary-type-parameters': 'off',
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_', varsIgnorePattern: '^_' }],
      '@typescript-eslint/consistent-type-imports': ['error', { fixStyle: 'inline-type-imports' }],
      '@typescript-eslint/no-deprecated': 'off',
      'no-restricted-syntax': [
        'error',
        { selector: 'ExportDefaultDeclaration', message: 'Named exports only.' },
        { selector: 'TSEnumDeclaration', message: 'No enums: a union of words.' },
        { selector: 'ExportAllDeclaration', message: 'No barrel files: import from the file that has it.' },
      ],
      'max-lines': ['error', { max: 400, skipBlankLines: true, skipComments: true }],
      // `== null` asks for null and undefined at once, on purpose.
      eqeqeq: ['error', 'always', { null: 'ignore' }],
      '@typescript-eslint/no-misused-spread': 'off',
      // There are no enums here, and classes are few: these two cost a quarter of the lint for nothing.
      '@typescript-eslint/no-unsafe-class-instance-assignment': 'off',
      '@typescript-eslint/no-unsafe-enum-assignment': 'off',
    },
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
      '@typescript-eslint/no-unsafe-assignment': 'off',
      '@typescript-eslint/no-unsafe-member-access': 'off',
      '@typescript-eslint/no-unsafe-call': 'off',
      '@typescript-eslint/no-unsafe-argument': 'off',
      '@typescript-eslint/no-unsafe-return': 'off',
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
