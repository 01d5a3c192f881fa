import js from '@eslint/js';
import { defineConfig } from 'eslint/config';
import tseslint from 'typescript-eslint';

export default defineConfig(
  { ignores: ['build/', 'out/', 'node_modules/', 'fixtures/', 'tests/artifacts/', '**/*.cjs'] },
  js.configs.recommended,
  ...tseslint.configs.strictTypeChecked,
  {
    languageOptions: {
      parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname },
    },
    rules: {
      // The compiler checks names; eslint would need every global listed.
      'no-undef': 'off',
      'no-console': 'error',
      eqeqeq: 'error',
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
      '@typescript-eslint/no-confusing-void-expression': ['error', { ignoreArrowShorthand: true }],
      '@typescript-eslint/no-unnecessary-condition': ['error', { allowConstantLoopConditions: true }],
      '@typescript-eslint/switch-exhaustiveness-check': 'error',
      '@typescript-eslint/consistent-type-imports': ['error', { fixStyle: 'inline-type-imports' }],
    },
  },
  // The command line and the set-up scripts speak to a terminal.
  {
    files: ['electron/setup/**', 'electron/command-line/**', 'tests/bench/**'],
    rules: { 'no-console': 'off' },
  },
);
