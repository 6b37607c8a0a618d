/**
 * One statement as words, each of which stays on one line. Both printers use
 * it: the formatter on statements as read, the map printer on statements made
 * from a map. Attributes come out in one fixed order; numbers stay as typed.
 */
import { unreachable } from '../result.ts';
import {
  type JunctionTokens,
  type PlaceToken,
  STATEMENT_EXAMPLES,
  type Statement,
  type StatementOf,
  type Token,
  type WayItem,
} from './statement.ts';

const PLAIN_NAME = /^[\p{L}\p{M}\p{N}_+/]+(?:-+[\p{L}\p{M}\p{N}_+/]+)*$/u;
const PLAIN_PIN = /^[\p{L}\p{M}\p{N}_+/]+$/u;
/** A value that needs no quotes and is read back as it stands. */
const PLAIN_VALUE = /^[0-9.](?:(?!["#\\])[!-~])*$/;
/** Signs that would not survive, or would mislead the eye: controls, formats, line ends, lone halves. */
const UNSAFE = /["\\\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/gu;
/** Words with a meaning of their own inside statements; as names they go in quotes. */
const KEYWORDS = new Set([...STATEMENT_EXAMPLES.keys(), 'gap', 'within', 'ohms', 'to', 'none']);

/** A text in quotes, with signs that need it escaped. */
function printQuoted(text: string): string {
  const escaped = (sign: string): string =>
    sign === '"' || sign === '\\' ? `\\${sign}` : `\\u{${(sign.codePointAt(0) ?? 0).toString(16)}}`;
  return `"${text.replace(UNSAFE, escaped)}"`;
}

/** A name as the notes write it: plain where it can be, else in quotes. */
function printName(name: string): string {
  return PLAIN_NAME.test(name) && !KEYWORDS.has(name) ? name : printQuoted(name);
}

const printPin = (pin: string): string => (PLAIN_PIN.test(pin) ? pin : printQuoted(pin));

/** A point's id as the notes write it: `J3.7`, `S.41@power`, `"N 1"."A-1"`. */
function printPoint(id: string): string {
  const dot = id.indexOf('.');
  if (dot < 0) return printName(id);
  const owner = printName(id.slice(0, dot));
  const rest = id.slice(dot + 1);
  const at = rest.lastIndexOf('@');
  if (at < 0) return `${owner}.${printPin(rest)}`;
  return `${owner}.${printPin(rest.slice(0, at))}@${printName(rest.slice(at + 1))}`;
}

/** A part's value: bare where it reads back the same, else in quotes. */
function printValue(value: string): string {
  return PLAIN_VALUE.test(value) && !value.endsWith('ohms') ? value : printQuoted(value);
}

const name = (token: Token): string => printName(token.text);
const point = (token: Token): string => printPoint(token.text);
const at = (token: PlaceToken): string => `${token.x}, ${token.y}`;

/** The words of a statement, first word first. */
export function printStatement(statement: Statement): string[] {
  switch (statement.kind) {
    case 'board':
      return ['board', printQuoted(statement.title.text)];
    case 'deck': {
      const { id, title, flex } = statement;
      const words = ['deck', name(id)];
      if (title !== null && title.text !== id.text) words.push(printQuoted(title.text));
      return flex ? [...words, 'flex'] : words;
    }
    case 'shield':
      return ['shield', name(statement.id), `on ${name(statement.deck)}`];
    case 'frame': {
      const { id, plugged, upper, lower } = statement;
      return [plugged ? 'plug' : 'frame', name(id), `between ${name(upper)}, ${name(lower)}`];
    }
    case 'contacts': {
      const { frame, first, last, grid } = statement;
      const words = ['contacts', name(frame), `${printPin(first.text)}..${printPin(last.text)}`];
      return grid === null ? words : [...words, `from ${at(grid.from)}`, `step ${at(grid.step)}`];
    }
    case 'contact':
      return [
        'contact',
        point(statement.point),
        ...(statement.at === null ? [] : [`at ${at(statement.at)}`]),
      ];
    case 'part':
      return printPart(statement);
    case 'pin':
      return ['pin', point(statement.point), `at ${at(statement.at)}`];
    case 'channel':
      return printChannel(statement);
    case 'track': {
      const { points, ohms } = statement;
      const words = points.map((token, i) => (i === 0 ? point(token) : `- ${point(token)}`));
      return ['track', ...words, ...(ohms === null ? [] : [`ohms ${ohms.text}`])];
    }
    case 'net':
      return ['net', name(statement.id), ...statement.points.map(point)];
    case 'rail':
      return printRail(statement);
    case 'clamp':
      return printClamp(statement);
    case 'pull':
      return ['pull', point(statement.point), `to ${name(statement.rail)}`, statement.ohms.text];
    case 'line': {
      const { id, title, way } = statement;
      const words = ['line', name(id)];
      if (title !== null && title.text !== id.text) words.push(printQuoted(title.text));
      return [...words, ...way.map((item, i) => (i === 0 ? printWayItem(item) : `- ${printWayItem(item)}`))];
    }
    case 'near': {
      const { owner, points, millimetres } = statement;
      if (owner !== null) return ['near', name(owner), `within ${millimetres?.text ?? ''}`];
      return ['near', ...points.map(point), ...(millimetres === null ? [] : [`gap ${millimetres.text}`])];
    }
    case 'good':
      return printGood(statement);
    default:
      return unreachable(statement);
  }
}

function printWayItem({ from, to }: WayItem): string {
  return to === null ? point(from) : `${point(from)}~${point(to)}`;
}

function printJunction({ drop, amps, ideality }: JunctionTokens): string {
  const current = amps === null ? '' : ` at ${amps.text}`;
  return `${drop.text}${current}${ideality === null ? '' : ` n ${ideality.text}`}`;
}

function printPart({ id, type, value, attributes }: StatementOf<'part'>): string[] {
  const words = ['part', name(id), type.text];
  if (value !== null) words.push(printValue(value.text));
  for (const kind of ['on', 'at', 'under', 'side', 'ball-grid'] as const) {
    for (const attribute of attributes) {
      if (attribute.kind !== kind) continue;
      if (attribute.kind === 'at') words.push(`at ${at(attribute.at)}`);
      else if (kind === 'on' || kind === 'under') words.push(`${kind} ${name(attribute.token)}`);
      else words.push(attribute.token.text);
    }
  }
  return words;
}

function printChannel({ from, to, what }: StatementOf<'channel'>): string[] {
  if (to === null || what.kind === 'none') return ['channel', point(from), 'none'];
  const words = ['channel', `${point(from)}~${point(to)}`];
  if (what.kind === 'quantity') return [...words, what.quantity.text];
  if (what.kind === 'part-value') return words;
  return [...words, `drop ${printJunction(what.junction)}`, ...(what.bothWays ? ['both-ways'] : [])];
}

function printRail({ id, volts, options }: StatementOf<'rail'>): string[] {
  const words = ['rail', name(id), volts.text];
  for (const kind of ['on', 'load', 'reverse', 'ohms'] as const) {
    for (const option of options) {
      if (option.kind !== kind) continue;
      if ('junction' in option) words.push(`${kind} ${printJunction(option.junction)}`);
      else words.push(`${kind} ${kind === 'on' ? name(option.token) : option.token.text}`);
    }
  }
  return words;
}

function printClamp({ point: ball, lower, upper }: StatementOf<'clamp'>): string[] {
  const words = ['clamp', point(ball)];
  if (lower === null && upper === null) return [...words, 'none'];
  if (lower !== null) words.push(printJunction(lower));
  if (upper !== null) words.push(`upper ${printJunction(upper.junction)}`, `to ${name(upper.rail)}`);
  return words;
}

function printGood({ point: at_, reading, items }: StatementOf<'good'>): string[] {
  const words = ['good', point(at_), reading.text];
  const options = items.filter(({ kind }) => kind !== 'value' && kind !== 'over');
  for (const { kind, token } of options) {
    if (kind !== 'polarity') words.push(`${kind} ${name(token)}`);
    else if (token.text !== 'red-on-ground') words.push(token.text);
  }
  for (const item of items) if (!options.includes(item)) words.push(item.token.text);
  return words;
}
