/**
 * Which content may the built page load, and who says so? One policy, written
 * once: the build puts it into the page as a meta tag (any static server then
 * enforces it) and into `_headers` with what a meta tag cannot say
 * (`frame-ancestors`); the preview server sends the same headers. The dev
 * server is left alone, because hot reload needs inline scripts.
 *
 * Source: WHATWG HTML issue 523 for what a meta tag ignores.
 */
import type { Plugin } from 'vite';

const DIRECTIVES = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' data: blob:",
  "font-src 'self'",
  "connect-src 'self'",
  "worker-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "require-trusted-types-for 'script'",
  'trusted-types lit-html hopline-worker',
] as const;

/** The policy as the meta tag carries it. */
export const PAGE_POLICY = DIRECTIVES.join('; ');

/** Headers a server should send with every file. */
export const SECURITY_HEADERS: Readonly<Record<string, string>> = {
  'Content-Security-Policy': `${PAGE_POLICY}; frame-ancestors 'none'`,
  'Referrer-Policy': 'no-referrer',
  'X-Content-Type-Options': 'nosniff',
  'Permissions-Policy': 'camera=(), microphone=(), geolocation=()',
};

/** The headers file that common static hosts read. */
export function printHeadersFile(headers: Readonly<Record<string, string>> = SECURITY_HEADERS): string {
  const lines = Object.entries(headers).map(([name, value]) => `  ${name}: ${value}`);
  return `/*\n${lines.join('\n')}\n`;
}

/** Puts the policy into the built page and writes `_headers` beside it. */
export function contentSecurity(): Plugin {
  return {
    name: 'hopline-content-security',
    apply: 'build',
    transformIndexHtml: () => [
      {
        tag: 'meta',
        attrs: { 'http-equiv': 'Content-Security-Policy', content: PAGE_POLICY },
        injectTo: 'head-prepend',
      },
    ],
    generateBundle() {
      this.emitFile({ type: 'asset', fileName: '_headers', source: printHeadersFile() });
    },
  };
}
