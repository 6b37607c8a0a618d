import { describe, expect, it } from 'vitest';
import { compileBoard } from '../../src/engine.ts';
import { pictureOf } from '../../src/view/graph/arrange.ts';
import { escapeXml } from '../../src/view/graph/graph-svg.ts';
import type { SceneInput } from '../../src/view/graph/scene-types.ts';
import { lineOf, trialInput, trialMap } from './graph-fixture.ts';

interface Xml {
  readonly name: string;
  readonly attributes: ReadonlyMap<string, string>;
  readonly children: (Xml | string)[];
}

const ENTITIES: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', '#39': "'" };

/** Text with its references resolved; throws on a bare ampersand. */
function resolve(text: string): string {
  return text.replace(/&([^;&]*);?/g, (_, name: string) => {
    const letter = ENTITIES[name];
    if (letter === undefined) throw new Error(`bad reference &${name}`);
    return letter;
  });
}

/**
 * A strict reader for the part of XML our pictures use: elements, quoted
 * attributes, text (XML 1.0, fifth edition, productions 39 to 44). Throws on
 * anything not well formed.
 */
function parseXml(text: string): Xml {
  const root: Xml = { name: '#root', attributes: new Map(), children: [] };
  const stack = [root];
  const token = /<(\/?)([a-zA-Z][\w:-]*)((?:\s+[\w:-]+="[^"<]*")*)\s*(\/?)>|([^<]+)/y;
  while (token.lastIndex < text.length) {
    const at = token.lastIndex;
    const match = token.exec(text);
    if (match === null) throw new Error(`not well formed at ${at}: ${text.slice(at, at + 40)}`);
    const [, closing, name, attributes, empty, words] = match;
    const top = stack[stack.length - 1]!;
    if (words !== undefined) {
      top.children.push(resolve(words));
      continue;
    }
    if (closing === '/') {
      if (top.name !== name) throw new Error(`</${name}> closes <${top.name}>`);
      stack.pop();
      continue;
    }
    const pairs = [...(attributes ?? '').matchAll(/([\w:-]+)="([^"]*)"/g)].map(
      (pair) => [pair[1]!, resolve(pair[2]!)] as const,
    );
    if (new Set(pairs.map(([key]) => key)).size !== pairs.length) throw new Error('an attribute twice');
    const element: Xml = { name: name!, attributes: new Map(pairs), children: [] };
    top.children.push(element);
    if (empty !== '/') stack.push(element);
  }
  if (stack.length !== 1 || root.children.length !== 1) throw new Error('not one element');
  return root.children[0] as Xml;
}

function* walk(xml: Xml): Generator<Xml> {
  yield xml;
  for (const child of xml.children) if (typeof child !== 'string') yield* walk(child);
}

const texts = (xml: Xml, name: string): readonly string[] =>
  [...walk(xml)].filter((element) => element.name === name).map((element) => element.children.join(''));

const picture = (changes: Partial<SceneInput> = {}, title = 'MARK key'): Promise<string> =>
  pictureOf(trialInput(changes), { width: 1000, theme: 'light', title });

/** Names that try to be more than text, and what of them XML can hold. */
const HOSTILE: readonly (readonly [name: string, legal: string])[] = [
  ['<script>alert(1)</script>', '<script>alert(1)</script>'],
  ['"><svg onload="x()">', '"><svg onload="x()">'],
  ["' & ]]> <!-- ", "' & ]]> <!-- "],
  ['a\u0000\u0001\u000b\ufffe\ud800b', 'ab'],
  ['&lt;b&gt;', '&lt;b&gt;'],
  ['Ω µ “quotes” 漢字 🐦', 'Ω µ “quotes” 漢字 🐦'],
];

describe('graph picture', () => {
  it('[V9] is well-formed XML with a title and a description', async () => {
    const xml = parseXml(await picture());
    expect(xml.name).toBe('svg');
    expect(xml.attributes.get('xmlns')).toBe('http://www.w3.org/2000/svg');
    expect(texts(xml, 'title')).toEqual(['MARK key']);
    expect(texts(xml, 'desc')[0]).toContain('Line MARK key, from pin K1.2');
  });

  it('[V9] holds no script, no style, no handler, no outside reference', async () => {
    const text = await picture();
    const allowed = new Set(['svg', 'title', 'desc', 'g', 'rect', 'path', 'text']);
    for (const element of walk(parseXml(text))) {
      expect(allowed, element.name).toContain(element.name);
      for (const [key, value] of element.attributes) {
        expect(key).not.toMatch(/^(on|style|href|xlink)/i);
        if (key !== 'xmlns') expect(value).not.toMatch(/url\(|https?:|data:|javascript:/i);
      }
    }
  });

  it('[V9] shows every name, value and share that the drawing has', async () => {
    const shown = texts(parseXml(await picture()), 'text');
    for (const text of [
      'F2.8',
      'OL',
      '55 %',
      'S.41',
      '22 %',
      '12 %',
      'D4',
      'U1',
      'clamp 0.412 V',
      'Radio deck',
      'Plug X',
      'MARK key',
    ]) {
      expect(shown, text).toContain(text);
    }
  });

  it.each(HOSTILE)('[V9] a hostile name stays text: %j', async (name, legal) => {
    const map = trialMap();
    map.lines.find((line) => line.id === 'MARK')!.title = name;
    map.decks[0]!.title = name;
    const board = compileBoard(map);
    const diagnosis = trialInput().diagnosis!;
    const points = diagnosis.points.map((point) => ({ ...point, label: name }));
    const changes = {
      board,
      line: lineOf(board, 'MARK'),
      extraLines: [],
      diagnosis: { ...diagnosis, points },
    };
    const xml = parseXml(await picture(changes, name));
    expect(texts(xml, 'title')).toEqual([legal]);
    expect([...walk(xml)].map((element) => element.name)).not.toContain('script');
  });

  it('[V9] escapes what XML reserves and drops what XML forbids', () => {
    expect(escapeXml(`<a href="x">'&`)).toBe('&lt;a href=&quot;x&quot;&gt;&#39;&amp;');
    expect(escapeXml('a\u0000\u0008\uffffb\tc\n')).toBe('ab\tc\n');
  });

  it('[V9] without a line there is no picture', async () => {
    expect(await picture({ line: null })).toBe('');
  });

  it('[V9] is as wide as asked for or less than a tenth wider, in every theme', async () => {
    for (const theme of ['light', 'dark', 'light-contrast', 'dark-contrast'] as const) {
      const xml = parseXml(await pictureOf(trialInput(), { width: 1000, theme, title: '' }));
      expect(Number(xml.attributes.get('width'))).toBeLessThan(1100);
    }
  });
});
