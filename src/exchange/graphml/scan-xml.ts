/**
 * XML text to elements with text, one pass, own stack. Small on purpose: no
 * document types and no entities beyond the five of XML, so that a file cannot
 * blow itself up or point anywhere; namespaces are left in the names. Comments
 * and instructions are passed over.
 *
 * Source: XML 1.0 (fifth edition).
 */
import { bad, good, invariant, type Problem, type Result } from '../../board/result.ts';
import {
  MAX_ELEMENT_DEPTH,
  MAX_RECORDS,
  refuseLongText,
  stopped,
  WATCH_EVERY_RECORDS,
  type Watch,
} from '../ipc/limits.ts';
import { decodeEntities } from './xml-text.ts';

export const XML_PROBLEMS = [
  'xml-broken',
  'xml-doctype',
  'xml-too-deep',
  'xml-too-many',
  'xml-entity',
] as const;
type XmlProblem = (typeof XML_PROBLEMS)[number];

export interface XmlElement {
  readonly name: string;
  readonly line: number;
  readonly attributes: ReadonlyMap<string, string>;
  readonly children: readonly XmlElement[];
  /** All text directly inside, entities replaced. */
  readonly text: string;
}

interface OpenElement {
  readonly name: string;
  readonly line: number;
  readonly attributes: ReadonlyMap<string, string>;
  readonly children: OpenElement[];
  text: string;
}

/** Scans a whole text to its root element. O(length). */
export function scanXml(text: string, watch: Watch = {}): Result<XmlElement> {
  return refuseLongText(text) ?? new Scanner(text, watch).run();
}

const NAME = /[A-Za-z_:][-A-Za-z0-9_:.]*/y;
/** One for all elements without any, of which there are most. */
const NO_ATTRIBUTES: ReadonlyMap<string, string> = new Map();
const BLANKS = /[ \t\r\n]*/y;

class Scanner {
  private readonly text: string;
  private readonly watch: Watch;
  private at: number;
  private line = 1;
  private nextLineEnd: number;
  private readonly stack: OpenElement[] = [];
  private root: OpenElement | null = null;
  private elements = 0;
  private problem: Problem | null = null;

  constructor(text: string, watch: Watch) {
    this.text = text;
    this.watch = watch;
    this.at = text.charCodeAt(0) === 0xfeff ? 1 : 0;
    this.nextLineEnd = text.indexOf('\n');
  }

  run(): Result<XmlElement> {
    while (this.problem === null && this.at < this.text.length) {
      const open = this.text.indexOf('<', this.at);
      this.takeText(this.text.slice(this.at, open < 0 ? this.text.length : open));
      this.at = open < 0 ? this.text.length : open;
      if (open < 0 || this.problem !== null) break;
      this.takeMarkup();
      if (this.elements % WATCH_EVERY_RECORDS === 0) {
        this.watch.progress?.(this.at, this.text.length);
        if (this.watch.stop?.() === true) return stopped(this.lineHere());
      }
    }
    const problem = this.problem ?? this.problemAtEnd();
    if (problem !== null) return bad(problem);
    invariant(this.root !== null, 'a scan without a root or a problem');
    this.watch.progress?.(this.text.length, this.text.length);
    return good(this.root);
  }

  private problemAtEnd(): Problem | null {
    const open = this.stack[this.stack.length - 1];
    if (open !== undefined) {
      const what = `Expected </${open.name}>, found the end of the file.`;
      return { code: 'xml-broken', where: { line: open.line }, what, mend: 'The file may be cut short.' };
    }
    if (this.root !== null) return null;
    const what = 'Expected an element, found none.';
    return { code: 'xml-broken', where: {}, what, mend: 'Check that this is the right file.' };
  }

  /** Line ends are looked for once each: the next one is kept until it is passed. */
  private lineHere(): number {
    while (this.nextLineEnd >= 0 && this.nextLineEnd < this.at) {
      this.line++;
      this.nextLineEnd = this.text.indexOf('\n', this.nextLineEnd + 1);
    }
    return this.line;
  }

  private fail(code: XmlProblem, what: string, mend: string): void {
    this.problem ??= { code, where: { line: this.lineHere() }, what, mend };
  }

  private takeText(raw: string): void {
    const open = this.stack[this.stack.length - 1];
    if (open === undefined) {
      if (raw.trim() !== '')
        this.fail('xml-broken', 'Expected an element, found text.', 'Check that this is the right file.');
      return;
    }
    open.text += this.decoded(raw);
  }

  private decoded(raw: string): string {
    const text = decodeEntities(raw);
    if (text === null)
      this.fail(
        'xml-entity',
        'Expected one of the five entities of XML or a number, got another.',
        'Write the character itself.',
      );
    return text ?? '';
  }

  private takeMarkup(): void {
    const { text, at } = this;
    if (text.startsWith('<!--', at)) this.skipTo('-->', 4);
    else if (text.startsWith('<![CDATA[', at)) this.takeCharacterData();
    else if (text.startsWith('<?', at)) this.skipTo('?>', 2);
    else if (text.startsWith('<!', at)) {
      this.fail(
        'xml-doctype',
        'Expected elements, got a document type.',
        'Such files are not taken in; remove the <! line.',
      );
    } else if (text[at + 1] === '/') this.closeElement();
    else this.openElement();
  }

  private skipTo(end: string, from: number): void {
    const found = this.text.indexOf(end, this.at + from);
    if (found < 0)
      this.fail('xml-broken', `Expected ${end}, found the end of the file.`, 'The file may be cut short.');
    this.at = found < 0 ? this.text.length : found + end.length;
  }

  private takeCharacterData(): void {
    const start = this.at + '<![CDATA['.length;
    this.skipTo(']]>', '<![CDATA['.length);
    const open = this.stack[this.stack.length - 1];
    if (open !== undefined && this.problem === null) open.text += this.text.slice(start, this.at - 3);
  }

  private match(pattern: RegExp): string {
    pattern.lastIndex = this.at;
    const found = pattern.exec(this.text)?.[0] ?? '';
    this.at += found.length;
    return found;
  }

  private closeElement(): void {
    this.at += 2;
    const name = this.match(NAME);
    this.match(BLANKS);
    const open = this.stack.pop();
    if (this.text[this.at] !== '>' || open?.name !== name) {
      this.fail(
        'xml-broken',
        `Expected </${open?.name ?? 'nothing'}>, got </${name}.`,
        'Elements must be closed in order.',
      );
      return;
    }
    this.at++;
  }

  private openElement(): void {
    const line = this.lineHere();
    this.at++;
    const name = this.match(NAME);
    const attributes = this.takeAttributes();
    if (attributes === null) return;
    const element: OpenElement = { name, line, attributes, children: [], text: '' };
    const parent = this.stack[this.stack.length - 1];
    if (parent !== undefined) parent.children.push(element);
    else if (this.root === null) this.root = element;
    else this.fail('xml-broken', 'Expected one root element, got a second.', 'Check the file.');
    if (name === '')
      this.fail('xml-broken', 'Expected the name of an element behind <.', 'Write &lt; for the sign itself.');
    if (++this.elements > 4 * MAX_RECORDS)
      this.fail(
        'xml-too-many',
        `Expected at most ${4 * MAX_RECORDS} elements, got more.`,
        'Export a smaller part.',
      );
    if (this.text[this.at] === '/') {
      this.at += 2;
      return;
    }
    this.at++;
    this.stack.push(element);
    if (this.stack.length > MAX_ELEMENT_DEPTH) {
      this.fail(
        'xml-too-deep',
        `Expected elements at most ${MAX_ELEMENT_DEPTH} deep, got more.`,
        'This is not a file of ours.',
      );
    }
  }

  /** Attributes up to `>` or `/>`; `null` where they cannot be read. */
  private takeAttributes(): ReadonlyMap<string, string> | null {
    let attributes: Map<string, string> | null = null;
    for (;;) {
      this.match(BLANKS);
      if (this.text[this.at] === '>' || this.text.startsWith('/>', this.at))
        return attributes ?? NO_ATTRIBUTES;
      const name = this.match(NAME);
      this.match(BLANKS);
      const isSet = this.text[this.at] === '=';
      this.at++;
      this.match(BLANKS);
      const quote = this.text[this.at];
      const end = quote === '"' || quote === "'" ? this.text.indexOf(quote, this.at + 1) : -1;
      if (name === '' || !isSet || end < 0 || attributes?.has(name) === true) {
        this.fail('xml-broken', 'Expected attributes as name="value", each once.', 'Check this element.');
        return null;
      }
      attributes ??= new Map();
      attributes.set(name, this.decoded(this.text.slice(this.at + 1, end)));
      this.at = end + 1;
    }
  }
}
