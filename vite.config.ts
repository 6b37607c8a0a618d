import { defineConfig } from 'vite';
import { contentSecurity, SECURITY_HEADERS } from './tools/content-security.ts';

export default defineConfig({
  base: './',
  plugins: [contentSecurity()],
  server: { port: 5173, strictPort: false, open: false },
  preview: { headers: { ...SECURITY_HEADERS } },
  build: {
    target: 'es2022',
    modulePreload: { polyfill: false },
    assetsInlineLimit: 0,
    sourcemap: true,
  },
  worker: { format: 'es' },
});
