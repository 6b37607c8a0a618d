/**
 * How does the drawing, which our printer writes as text, get into the page?
 * Not through a sink that makes markup of text: the policy forbids it. The text
 * is read back into a tree against the short list of what our own printer
 * writes, and nodes are made of that one by one; anything else is left out, so
 * a name from a map can never be more than text.
 */

/** One element of the drawing. */
export interface SvgTree {
  readonly name: string;
  readonly attributes: ReadonlyMap<string, string>;
  readonly children: readonly (SvgTree | string)[];
}

const ELEMENTS: ReadonlySet<string> = new Set(['svg', 'title', 'desc', 'g', 'rect', 'path', 'text']);
const ATTRIBUTES: ReadonlySet<string> = new Set([
  'width',
  'height',
  'viewBox',
  'role',
  'font-family',
  'font-size',
  'font-weight',
  'fill',
  'fill-opacity',
  'stroke',
  'stroke-width',
  'stroke-opacity',
  'stroke-linecap',
  'stroke-linejoin',
  'stroke-dasharray',
  'd',
  'x',
  'y',
  'dy',
  'rx',
  'text-anchor',
  'transform',
]);

const ENTITIES: Readonly<Record<string, string>> = {
  '&amp;': '&',
  '&lt;': '<',
  '&gt;': '>',
  '&quot;': '"',
  '&#39;': "'",
};

function plain(text: string): string {
  return text.replace(/&(?:amp|lt|gt|quot|#39);/g, (entity) => ENTITIES[entity] ?? entity);
}

interface Open {
  readonly name: string;
  readonly attributes: ReadonlyMap<string, string>;
  readonly children: (SvgTree | string)[];
}

/** Reads what `printSvg` wrote; null for anything that is not one `svg` element. Linear in the text. */
export function parseSvg(text: string): SvgTree | null {
  const root: Open = { name: '', attributes: new Map(), children: [] };
  const open: Open[] = [root];
  for (const [, tag, letters] of text.matchAll(/<([^>]*)>|([^<]+)/g)) {
    const top = open[open.length - 1];
    if (top === undefined) return null;
    if (letters !== undefined) {
      top.children.push(plain(letters));
    } else if (tag?.startsWith('/') === true) {
      open.pop();
      if (open.length === 0 || tag.slice(1) !== top.name) return null;
      if (ELEMENTS.has(top.name)) open[open.length - 1]?.children.push(top);
    } else {
      const element = readTag(tag ?? '');
      if (element === null) return null;
      if (tag?.endsWith('/') !== true) open.push(element);
      else if (ELEMENTS.has(element.name)) top.children.push(element);
    }
  }
  const [svg, ...rest] = root.children;
  const isOne = open.length === 1 && rest.length === 0 && typeof svg === 'object' && svg.name === 'svg';
  return isOne ? svg : null;
}

function readTag(tag: string): Open | null {
  const name = /^[a-zA-Z]+/.exec(tag)?.[0];
  if (name === undefined) return null;
  const attributes = new Map<string, string>();
  for (const [, key, value] of tag.matchAll(/([a-zA-Z-]+)="([^"]*)"/g)) {
    if (key !== undefined && value !== undefined && ATTRIBUTES.has(key)) attributes.set(key, plain(value));
  }
  return { name, attributes, children: [] };
}

const SVG_NAMESPACE = 'http://www.w3.org/2000/svg';

/** The tree as nodes of a document. */
export function createSvg({ name, attributes, children }: SvgTree, owner: Document): SVGElement {
  const node = owner.createElementNS(SVG_NAMESPACE, name) as SVGElement;
  for (const [key, value] of attributes) node.setAttribute(key, value);
  for (const child of children) node.append(typeof child === 'string' ? child : createSvg(child, owner));
  return node;
}
