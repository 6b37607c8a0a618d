/**
 * Closes a test run with one plain line, "N passed, N failed, N skipped", which
 * any build server can read. An extra reporter beside vitest's own.
 */
import type { Reporter, TestCase, TestModule } from 'vitest/node';

export class PlainSummary implements Reporter {
  onTestRunEnd(modules: readonly TestModule[]): void {
    const counts = { passed: 0, failed: 0, skipped: 0, pending: 0 };
    let broken = 0;
    for (const module of modules) {
      for (const test of module.children.allTests() as Iterable<TestCase>) counts[test.result().state] += 1;
      // A file that could not even be read has failed, though none of its tests ran.
      if (module.errors().length > 0) broken += 1;
    }
    console.log(`\n${counts.passed} passed, ${counts.failed + broken} failed, ${counts.skipped} skipped`);
  }
}
