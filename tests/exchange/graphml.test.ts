/**
 * GraphML: printed and read again equal, with hostile names in every field;
 * the printed file is well-formed XML (checked by a second, strict reader
 * written for the test) and fits the schema's rules on ids and keys; damaged
 * and hostile files are refused or accounted for.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compileBoard } from '../../src/board/compile.ts';
import { ELEMENT_KINDS, type ElementIndex, VERTEX_KINDS } from '../../src/board/compiled-board.ts';
import { type GraphDocument, graphOfBoard } from '../../src/exchange/graphml/graph-document.ts';
import { parseGraphml } from '../../src/exchange/graphml/parse-graphml.ts';
import { printGraphml } from '../../src/exchange/graphml/print-graphml.ts';
import { scanXml } from '../../src/exchange/graphml/scan-xml.ts';
import {
  decodeEntities,
  escapeXml,
  isXmlCharacter,
  unescapeBackslashes,
} from '../../src/exchange/graphml/xml-text.ts';
import { plainRequest, proposeMap } from '../../src/exchange/ipc/propose.ts';
import { readIpc } from '../../src/exchange/ipc/read-ipc.ts';
import { createRandom } from '../bench/graph-boards.ts';
import { expectLinear } from './growth.ts';
import { damage, generateIpcFile, HOSTILE_NAMES } from './ipc-files.ts';

const seed = Number(process.env.SEED ?? 361);
const fuzzCount = Number(process.env.FUZZ_COUNT ?? 300);
console.info(`graphml: SEED=${seed} FUZZ_COUNT=${fuzzCount}`);

const text = fc.oneof(
  fc.constantFrom(...HOSTILE_NAMES.filter((name) => name.length < 200)),
  fc.string({ maxLength: 10 }),
  fc.string({ unit: 'binary', maxLength: 6 }),
  fc.stringMatching(/^[\\u{}0-9a-f&;#x<>\t\r\n ]{0,12}$/),
);
const maybe = fc.option(text);
const document: fc.Arbitrary<GraphDocument> = fc
  .record({
    title: text,
    nodes: fc.uniqueArray(
      fc.record({
        id: text,
        kind: fc.constantFrom(...VERTEX_KINDS),
        deck: maybe,
        part: maybe,
        frame: maybe,
        rail: maybe,
        at: fc.option(
          fc.record({
            xMillimetres: fc.double({ noNaN: true, noDefaultInfinity: true }),
            yMillimetres: fc.double({ noNaN: true, noDefaultInfinity: true }),
          }),
        ),
      }),
      { maxLength: 6, selector: ({ id }) => id },
    ),
    edges: fc.array(
      fc.record({
        id: text,
        kind: fc.constantFrom(...ELEMENT_KINDS),
        from: fc.nat(5),
        to: fc.nat(5),
        deck: maybe,
        part: maybe,
        frame: maybe,
        ohms: fc.option(fc.double({ min: 0, max: 1e12, noNaN: true })),
      }),
      { maxLength: 6 },
    ),
  })
  .map(({ title, nodes, edges }) => ({
    title,
    nodes,
    edges: edges.flatMap((edge) => {
      const [from, to] = [nodes[edge.from]?.id, nodes[edge.to]?.id];
      return from === undefined || to === undefined ? [] : [{ ...edge, from, to }];
    }),
  }));

/** Strict about what XML 1.0 asks of the output, by way of expressions on the whole text. */
function expectWellFormed(xml: string): void {
  expect([...xml].every((sign) => isXmlCharacter(sign.codePointAt(0) ?? 0))).toBe(true);
  const body = xml.replace(/^<\?xml [^?]*\?>\n/, '');
  const token = /<(\/?)([a-z]+)((?: [a-z.]+="[^"<&]*")*)(\/?)>|[^<&]+|&(?:lt|gt|amp|quot|apos|#\d+);/gy;
  const stack: string[] = [];
  let at = 0;
  for (let match = token.exec(body); match !== null; match = token.exec(body)) {
    at = token.lastIndex;
    const [, close, name = '', , empty] = match;
    if (match[0].startsWith('<') === false) continue;
    if (close === '/') expect(stack.pop()).toBe(name);
    else if (empty !== '/') stack.push(name);
  }
  expect(at).toBe(body.length);
  expect(stack).toEqual([]);
}

describe('GraphML', () => {
  it('[X25] printed and read again it is equal, whatever the names', () => {
    fc.assert(
      fc.property(document, (graph) => {
        const xml = printGraphml(graph);
        expectWellFormed(xml);
        const back = parseGraphml(xml);
        expect(back).toMatchObject({
          ok: true,
          value: { graph, skipped: [], count: graph.nodes.length + graph.edges.length },
        });
      }),
      { seed, numRuns: fuzzCount },
    );
  });

  it('[X25] ids are name tokens, keys are declared, edges end at nodes (GraphML schema 1.0)', () => {
    const xml = printGraphml({
      title: 'Plover HR-2',
      nodes: HOSTILE_NAMES.map((id) => ({
        id,
        kind: 'point',
        deck: id,
        part: null,
        frame: null,
        rail: null,
        at: null,
      })),
      edges: [
        {
          id: 'a',
          kind: 'track',
          from: '__proto__',
          to: 'constructor',
          deck: null,
          part: null,
          frame: null,
          ohms: 0.02,
        },
      ],
    });
    const ids = [...xml.matchAll(/ id="([^"]*)"/g)].map((match) => match[1] ?? '');
    expect(new Set(ids).size).toBe(ids.length);
    for (const id of ids) expect(id).toMatch(/^[A-Za-z0-9]+$/);
    const declared = new Set([...xml.matchAll(/<key id="([^"]*)"/g)].map((match) => match[1]));
    for (const [, used] of xml.matchAll(/<data key="([^"]*)"/g)) expect(declared).toContain(used);
    for (const [, type] of xml.matchAll(/attr\.type="([^"]*)"/g))
      expect(['string', 'double']).toContain(type);
    expect(parseGraphml(xml)).toMatchObject({
      ok: true,
      value: { graph: { edges: [{ from: '__proto__', to: 'constructor' }] } },
    });
    expect(xml).not.toMatch(/<(img|script|svg)/);
  });

  it('[X25] any text survives the escape, and comes out as XML characters alone', () => {
    fc.assert(
      fc.property(text, (raw) => {
        const escaped = escapeXml(raw);
        expect(escaped).not.toMatch(/[<>"'\t\r\n]/);
        expect(unescapeBackslashes(decodeEntities(escaped) ?? 'failed')).toBe(raw);
      }),
      { seed, numRuns: 4 * fuzzCount },
    );
    expect(escapeXml('a\u0000<\\')).toBe('a\\u{0}&lt;\\\\');
    expect(decodeEntities('&nbsp;')).toBeNull();
    expect(decodeEntities('&#0;')).toBeNull();
    expect(decodeEntities('a & b')).toBeNull();
    expect(unescapeBackslashes('C:\\new')).toBe('C:\\new');
  });

  it('[X25] a board and a choice of it, with all ends', () => {
    const file = readIpc(generateIpcFile(seed, 400));
    if (!file.ok) throw new Error('not read');
    const proposal = proposeMap(plainRequest(file.value.pads, 'radio', 'Radio deck'));
    if (!proposal.ok) throw new Error('not proposed');
    const board = compileBoard(proposal.value.map);
    const whole = graphOfBoard(board);
    expect(whole.nodes).toHaveLength(board.vertices.length);
    expect(whole.edges).toHaveLength(board.elements.length);
    expect(parseGraphml(printGraphml(whole))).toMatchObject({
      ok: true,
      value: { graph: whole, skipped: [] },
    });
    const some = [7, 3, 3].map((index) => index as ElementIndex);
    const part = graphOfBoard(board, { vertices: [], elements: some });
    expect(part.edges.map(({ id }) => id)).toEqual([board.elements[3]?.id, board.elements[7]?.id]);
    const ids = new Set(part.nodes.map(({ id }) => id));
    for (const { from, to } of part.edges) expect(ids.has(from) && ids.has(to)).toBe(true);
  });

  it('[X26] what is not well-formed, too deep, or brings a document type is refused with its line', () => {
    const rows: readonly (readonly [string, string, number | undefined])[] = [
      ['', 'xml-broken', undefined],
      ['<a>\n<b>', 'xml-broken', 2],
      ['<a>\n</b>', 'xml-broken', 2],
      ['<a/><b/>', 'xml-broken', 1],
      ['<a x=1/>', 'xml-broken', 1],
      ['<a x="1" x="2"/>', 'xml-broken', 1],
      ['<a x="1', 'xml-broken', 1],
      ['text', 'xml-broken', 1],
      ['<a><!-- ', 'xml-broken', 1],
      ['\n<!DOCTYPE a [<!ENTITY b "c">]><a>&b;</a>', 'xml-doctype', 2],
      ['<a>&b;</a>', 'xml-entity', 1],
      ['<a>'.repeat(100), 'xml-too-deep', 1],
      ['<a>1 < 2</a>', 'xml-broken', 1],
    ];
    for (const [xml, code, line] of rows) {
      const result = scanXml(xml);
      expect(result.ok ? 'read' : result.problems[0]?.code, xml).toBe(code);
      expect(result.ok ? undefined : result.problems[0]?.where.line, xml).toBe(line);
    }
    const fine = scanXml("<?xml version='1.0'?>\n<!-- x --><a b='&lt;'>1<c/>2<![CDATA[<&]]></a>\n");
    expect(
      fine.ok && [fine.value.text, fine.value.attributes.get('b'), fine.value.children[0]?.line],
    ).toEqual(['12<&', '<', 2]);
    expect(parseGraphml('<svg/>')).toMatchObject({ ok: false, problems: [{ code: 'not-graphml' }] });
    expect(parseGraphml('<graphml><x/></graphml>')).toMatchObject({
      ok: false,
      problems: [{ code: 'not-graphml' }],
    });
    expect(scanXml(`<a>${'<b/>'.repeat(5000)}</a>`, { stop: () => true })).toMatchObject({
      ok: false,
      problems: [{ code: 'stopped' }],
    });
  });

  it('[X26] damaged files: nodes and edges = read + left out, no crash', () => {
    const random = createRandom(seed);
    const source = printGraphml({
      title: 'Plover HR-2',
      nodes: Array.from({ length: 8 }, (_, i) => ({
        id: `J3.${i}`,
        kind: 'point',
        deck: 'radio',
        part: 'J3',
        frame: null,
        rail: null,
        at: { xMillimetres: i, yMillimetres: 0 },
      })),
      edges: Array.from({ length: 7 }, (_, i) => ({
        id: `e${i}`,
        kind: 'track',
        from: `J3.${i}`,
        to: `J3.${i + 1}`,
        deck: 'radio',
        part: null,
        frame: null,
        ohms: 0.02,
      })),
    });
    let read = 0;
    for (let run = 0; run < 3 * fuzzCount; run++) {
      const result = parseGraphml(damage(source, random));
      if (!result.ok) continue;
      read++;
      const { graph, skipped, count } = result.value;
      expect(graph.nodes.length + graph.edges.length + skipped.length).toBe(count);
    }
    const bits = [...source.matchAll(/>[^<\s]/g)].length;
    for (let run = 0; run < fuzzCount; run++) {
      // Damage inside the text alone keeps the file well-formed.
      const hit = Math.floor(random() * bits);
      let seen = 0;
      const result = parseGraphml(
        source.replace(/>[^<\s]/g, (piece) =>
          seen++ === hit ? `>${'x9 '[Math.floor(random() * 3)]}` : piece,
        ),
      );
      if (!result.ok) throw new Error('not read');
      read++;
      expect(
        result.value.graph.nodes.length + result.value.graph.edges.length + result.value.skipped.length,
      ).toBe(15);
    }
    expect(read).toBeGreaterThan(fuzzCount);
  });

  it('[X9] twice the file costs at most 2.5 times the work', () => {
    const shapes: Readonly<Record<string, (count: number) => string>> = {
      flat: (count) => `<a>${'<b c="d">e</b>'.repeat(count)}</a>`,
      text: (count) => `<a>${'x &lt; y\n'.repeat(count)}</a>`,
      'bare ampersands': (count) => `<a>${'&'.repeat(count)}</a>`,
      attributes: (count) => `<a ${Array.from({ length: count }, (_, i) => `b${i}="c"`).join(' ')}/>`,
      lines: (count) => `<a>${'<b/>\n\n\n'.repeat(count)}</a>`,
      'open comments': (count) => '<!-- '.repeat(count),
    };
    for (const [shape, make] of Object.entries(shapes)) {
      expectLinear(shape, 5000, (count) => {
        const whole = make(count);
        return () => scanXml(whole);
      });
    }
  });
});
