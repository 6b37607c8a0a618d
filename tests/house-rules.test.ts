import { readdirSync, readFileSync, statSync } from 'node:fs';
import { builtinModules } from 'node:module';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

const ROOT = new URL('..', import.meta.url).pathname;

/** Source files below a folder, generated ones left out. */
function filesBelow(folder: string): string[] {
  return readdirSync(join(ROOT, folder)).flatMap((name) => {
    const path = join(folder, name);
    if (statSync(join(ROOT, path)).isDirectory()) return filesBelow(path);
    return /\.ts$/.test(name) && !name.includes('.generated.') ? [path] : [];
  });
}

function textOf(path: string): string {
  return readFileSync(join(ROOT, path), 'utf8');
}

/** The code without comments, roughly: enough to look for words in. */
function codeOf(path: string): string {
  return textOf(path)
    .replace(/\/\*[\s\S]*?\*\//g, '')
    .replace(/(^|\s)\/\/.*$/gm, '');
}

/** Larger files, each with its reason in docs/decisions/0006. */
const LARGER = new Set(['src/store/case-session.ts']);

const ENGINE = ['board', 'graph', 'electrics', 'diagnosis', 'rework', 'exchange'].map(
  (layer) => `src/${layer}`,
);

describe('house rules that no linter knows', () => {
  it('[H1] no source file is longer than 300 lines', () => {
    const long = filesBelow('src').filter(
      (path) => textOf(path).split('\n').length > 301 && !LARGER.has(path),
    );
    expect(long).toEqual([]);
  });

  it('[H2] nothing turns text into markup or code', () => {
    const sinks = /innerHTML|outerHTML|unsafeHTML|insertAdjacentHTML|document\.write|\beval\(|new Function/;
    expect(filesBelow('src').filter((path) => sinks.test(codeOf(path)))).toEqual([]);
  });

  it('[H3] the engine draws no random numbers and reads no clock', () => {
    const impure = /Math\.random|Date\.now|new Date\(|performance\.now|crypto\./;
    expect(ENGINE.flatMap(filesBelow).filter((path) => impure.test(codeOf(path)))).toEqual([]);
  });

  it('[H4] the engine imports nothing from Node', () => {
    const fromNode = new RegExp(`from '(node:|(${builtinModules.join('|').replaceAll('/', '\\/')})')`);
    expect(ENGINE.flatMap(filesBelow).filter((path) => fromNode.test(codeOf(path)))).toEqual([]);
  });

  it('[H5] every source file says in its header what question it answers', () => {
    const bare = filesBelow('src').filter(
      (path) => !/^(\/\*\*|\/\/|import)/.test(textOf(path)) || !textOf(path).includes('/**'),
    );
    expect(bare).toEqual([]);
  });

  it('[H6] every titled rule has a line in the documents, and every rule there has a test', () => {
    const documents = [
      'docs/method.md',
      ...readdirSync(join(ROOT, 'docs')).map((name) => `docs/${name}`),
    ].filter((path) => path.endsWith('.md'));
    const stated = new Set(
      documents.flatMap((path) => [...textOf(path).matchAll(/\*\*([A-Z]\d+)\*\*/g)].map((match) => match[1])),
    );
    const titled = new Set(
      filesBelow('tests').flatMap((path) =>
        [...textOf(path).matchAll(/['"`]\[([A-Z]\d+)\]/g)].map((match) => match[1]),
      ),
    );
    expect([...titled].filter((rule) => !stated.has(rule)).sort(), 'tests without a rule in docs').toEqual(
      [],
    );
    expect([...stated].filter((rule) => !titled.has(rule)).sort(), 'rules in docs without a test').toEqual(
      [],
    );
  });
});
