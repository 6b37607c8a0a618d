/**
 * Writes a graph as GraphML. Every name, kind and value is a declared data key,
 * so that other programs show them; all text is escaped.
 *
 * Source: GraphML, graphdrawing.org, "GraphML Primer" and its schema 1.0
 * (ids are name tokens, attr.type one of boolean, int, long, float, double,
 * string).
 */
import type { GraphDocument, GraphEdge, GraphNode } from './graph-document.ts';
import { escapeXml } from './xml-text.ts';

type Value = string | number | null;

export const NODE_KEYS = ['name', 'kind', 'deck', 'part', 'frame', 'rail', 'x mm', 'y mm'] as const;
export const EDGE_KEYS = ['name', 'kind', 'deck', 'part', 'frame', 'ohms'] as const;
const NUMBERS: ReadonlySet<string> = new Set(['x mm', 'y mm', 'ohms']);

/** Prints a graph. O(size). */
export function printGraphml({ title, nodes, edges }: GraphDocument): string {
  const numbers = new Map(nodes.map(({ id }, index) => [id, index]));
  const lines = [
    '<?xml version="1.0" encoding="UTF-8"?>',
    '<graphml xmlns="http://graphml.graphdrawing.org/xmlns">',
    '  <key id="g0" for="graph" attr.name="title" attr.type="string"/>',
    ...NODE_KEYS.map((name, i) => key(`v${i}`, 'node', name)),
    ...EDGE_KEYS.map((name, i) => key(`e${i}`, 'edge', name)),
    '  <graph id="G" edgedefault="undirected">',
    `    ${data('g0', title)}`,
    ...nodes.map((node, index) => `    <node id="n${index}">${fields('v', nodeValues(node))}</node>`),
    ...edges.map((edge, index) => {
      const [from, to] = [numbers.get(edge.from), numbers.get(edge.to)];
      return `    <edge id="k${index}" source="n${from}" target="n${to}">${fields('e', edgeValues(edge))}</edge>`;
    }),
    '  </graph>',
    '</graphml>',
    '',
  ];
  return lines.join('\n');
}

function nodeValues({ id, kind, deck, part, frame, rail, at }: GraphNode): readonly Value[] {
  return [id, kind, deck, part, frame, rail, at?.xMillimetres ?? null, at?.yMillimetres ?? null];
}

function edgeValues({ id, kind, deck, part, frame, ohms }: GraphEdge): readonly Value[] {
  return [id, kind, deck, part, frame, ohms];
}

function key(id: string, of: 'node' | 'edge', name: string): string {
  return `  <key id="${id}" for="${of}" attr.name="${name}" attr.type="${NUMBERS.has(name) ? 'double' : 'string'}"/>`;
}

function fields(prefix: string, values: readonly Value[]): string {
  return values.map((value, i) => (value === null ? '' : data(`${prefix}${i}`, value))).join('');
}

function data(id: string, value: string | number): string {
  const text = typeof value === 'number' ? (Object.is(value, -0) ? '-0' : String(value)) : escapeXml(value);
  return `<data key="${id}">${text}</data>`;
}
