/**
 * Reads a GraphML file that `printGraphml` wrote. A node or edge that cannot be
 * read is left out and listed with its line; the others are used.
 */
import { ELEMENT_KINDS, VERTEX_KINDS } from '../../board/compiled-board.ts';
import { bad, good, type Problem, type Result } from '../../board/result.ts';
import { MAX_RECORDS, refuseManyRecords, type Watch } from '../ipc/limits.ts';
import type { GraphDocument, GraphEdge, GraphNode } from './graph-document.ts';
import { scanXml, type XmlElement } from './scan-xml.ts';
import { unescapeBackslashes } from './xml-text.ts';

export const GRAPHML_PROBLEMS = [
  'not-graphml',
  'node-unreadable',
  'edge-unreadable',
  'node-twice',
  'end-unknown',
] as const;
type GraphmlProblem = (typeof GRAPHML_PROBLEMS)[number];

export interface ReadGraph {
  readonly graph: GraphDocument;
  /** Nodes and edges that were left out. */
  readonly skipped: readonly Problem[];
  /** Nodes and edges in the file: used and left out. */
  readonly count: number;
}

/** Reads a graph. O(size). */
export function parseGraphml(text: string, watch?: Watch): Result<ReadGraph> {
  const scanned = scanXml(text, watch);
  if (!scanned.ok) return scanned;
  const root = scanned.value;
  const graph = root.children.find(({ name }) => name === 'graph');
  if (root.name !== 'graphml' || graph === undefined) {
    const what = `Expected a graphml element with a graph in it, got ${root.name}.`;
    return bad({
      code: 'not-graphml',
      where: { line: root.line },
      what,
      mend: 'Check that this is a GraphML file.',
    });
  }
  const parts = graph.children.filter(({ name }) => name === 'node' || name === 'edge');
  if (parts.length > MAX_RECORDS) return refuseManyRecords(graph.line);
  return good(new Reader(root, graph).run(parts));
}

class Reader {
  private readonly keys: ReadonlyMap<string, string>;
  private readonly graph: XmlElement;
  private readonly nodes: GraphNode[] = [];
  private readonly edges: GraphEdge[] = [];
  private readonly skipped: Problem[] = [];
  private readonly names = new Map<string, string>();

  constructor(root: XmlElement, graph: XmlElement) {
    this.graph = graph;
    const keys = root.children.filter(({ name }) => name === 'key');
    this.keys = new Map(
      keys.map(({ attributes }) => [attributes.get('id') ?? '', attributes.get('attr.name') ?? '']),
    );
  }

  run(parts: readonly XmlElement[]): ReadGraph {
    for (const part of parts) if (part.name === 'node') this.readNode(part);
    for (const part of parts) if (part.name === 'edge') this.readEdge(part);
    const title = this.dataOf(this.graph).get('title') ?? '';
    return {
      graph: { title, nodes: this.nodes, edges: this.edges },
      skipped: this.skipped,
      count: parts.length,
    };
  }

  private dataOf(element: XmlElement): Map<string, string> {
    const values = new Map<string, string>();
    for (const { name, attributes, text } of element.children) {
      const key = this.keys.get(attributes.get('key') ?? '');
      if (name === 'data' && key !== undefined) values.set(key, unescapeBackslashes(text));
    }
    return values;
  }

  private skip(element: XmlElement, code: GraphmlProblem, what: string): void {
    this.skipped.push({ code, where: { line: element.line }, what, mend: 'Export the graph again.' });
  }

  private readNode(element: XmlElement): void {
    const values = this.dataOf(element);
    const id = values.get('name');
    const kind = VERTEX_KINDS.find((word) => word === values.get('kind'));
    const [x, y] = [numberOf(values.get('x mm')), numberOf(values.get('y mm'))];
    if (id === undefined || kind === undefined || x === undefined || y === undefined) {
      this.skip(element, 'node-unreadable', 'Expected a node with name, kind and numbers for its place.');
      return;
    }
    const number = element.attributes.get('id') ?? '';
    if (this.names.has(number)) {
      this.skip(element, 'node-twice', `Two nodes have the id ${number}.`);
      return;
    }
    this.names.set(number, id);
    const at = x === null || y === null ? null : { xMillimetres: x, yMillimetres: y };
    const of = (key: string): string | null => values.get(key) ?? null;
    this.nodes.push({
      id,
      kind,
      deck: of('deck'),
      part: of('part'),
      frame: of('frame'),
      rail: of('rail'),
      at,
    });
  }

  private readEdge(element: XmlElement): void {
    const values = this.dataOf(element);
    const id = values.get('name');
    const kind = ELEMENT_KINDS.find((word) => word === values.get('kind'));
    const ohms = numberOf(values.get('ohms'));
    if (id === undefined || kind === undefined || ohms === undefined) {
      this.skip(element, 'edge-unreadable', 'Expected an edge with name, kind and a number for its ohms.');
      return;
    }
    const from = this.names.get(element.attributes.get('source') ?? '');
    const to = this.names.get(element.attributes.get('target') ?? '');
    if (from === undefined || to === undefined) {
      this.skip(element, 'end-unknown', `The edge ${id} ends at a node that is not in the file.`);
      return;
    }
    const of = (key: string): string | null => values.get(key) ?? null;
    this.edges.push({ id, kind, from, to, deck: of('deck'), part: of('part'), frame: of('frame'), ohms });
  }
}

/** `null` where it is not there, `undefined` where it is no number. */
function numberOf(text: string | undefined): number | null | undefined {
  if (text === undefined) return null;
  const value = text.trim() === '' ? Number.NaN : Number(text);
  return Number.isFinite(value) ? value : undefined;
}
