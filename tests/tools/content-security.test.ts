import { describe, expect, it } from 'vitest';
import { PAGE_POLICY, printHeadersFile, SECURITY_HEADERS } from '../../tools/content-security.ts';

describe('content-security policy', () => {
  it('[U16] nothing is allowed that is not named, and nothing unsafe is named', () => {
    expect(PAGE_POLICY).toMatch(/^default-src 'none'/);
    expect(PAGE_POLICY).not.toMatch(/unsafe|https?:|\*/);
    expect(PAGE_POLICY).toContain("require-trusted-types-for 'script'");
  });

  it('[U16] the headers file carries the same policy and what a meta tag cannot say', () => {
    const file = printHeadersFile();
    expect(file).toContain(`  Content-Security-Policy: ${PAGE_POLICY}; frame-ancestors 'none'\n`);
    for (const name of Object.keys(SECURITY_HEADERS)) expect(file).toContain(`  ${name}: `);
  });
});
