/**
 * Writes a netlist file in the 356A form. Long net names go through aliases,
 * long designators push the rest of their record to the right (as exporters
 * do, and as the reader takes back). A record whose names would not come back
 * as they are is refused with its name, not written wrongly: every printed
 * record is taken apart again before it leaves.
 *
 * Columns: AN40.
 */
import { bad, good, type Problem, type Result } from '../../board/result.ts';
import { findFields } from './find-fields.ts';
import type { IpcConductor, IpcFile, IpcMeasured, IpcOutline, IpcPad, IpcUnit, PadKind } from './ipc-file.ts';
import { millimetresToCounts } from './units.ts';

export const PRINT_IPC_PROBLEMS = ['name-not-writable'] as const;

const CODES: Readonly<Record<PadKind, string>> = {
  hole: '317',
  surface: '327',
  tooling: '367',
  blind: '307',
};
const NET_WIDTH = 14;
const PART_WIDTH = 6;
const PIN_WIDTH = 4;

/** Prints a file; problems name what the format cannot hold. O(records). */
export function printIpc(file: IpcFile): Result<string> {
  return new Printer(file).run();
}

class Printer {
  private readonly file: IpcFile;
  private readonly unit: IpcUnit;
  private readonly aliases = new Map<string, string>();
  private readonly problems: Problem[] = [];

  constructor(file: IpcFile) {
    this.file = file;
    this.unit = file.units.unit;
  }

  run(): Result<string> {
    const { file } = this;
    const body = [
      ...file.pads.map((pad) => this.pad(pad)),
      ...file.conductors.map((conductor) => this.conductor(conductor)),
      ...file.outlines.map((outline) => this.outline(outline)),
      ...file.adjacencies.map(
        ({ net, others }) => `379${[net, ...others].map((name) => this.net(name)).join(' ')}`,
      ),
      ...file.measured.map((measured) => this.measured(measured)),
    ];
    if (this.problems.length > 0) return bad(...this.problems);
    const head = [
      ...(file.title === '' ? [] : [`P  JOB   ${file.title}`]),
      `P  UNITS CUST ${this.unit === 'inch' ? 0 : 1}`,
      `P  VER   ${file.version === '' ? 'IPC-D-356A' : file.version}`,
      `P  LAYERS ${file.lastLayer}`,
      'P  IMAGE PRIMARY',
      ...[...this.aliases].map(([name, alias]) => `P  ${alias} ${name}`),
    ];
    return good(`${[...head, ...body, '999'].join('\n')}\n`);
  }

  /** The name as its field holds it: itself, or an alias. */
  private net(name: string): string {
    if (name.length <= NET_WIDTH && !name.includes(' ') && !name.startsWith('NNAME') && name !== 'N/C')
      return name;
    let alias = this.aliases.get(name);
    if (alias === undefined) {
      alias = `NNAME${this.aliases.size + 1}`;
      this.aliases.set(name, alias);
    }
    return alias;
  }

  private pad(pad: IpcPad): string {
    const net = pad.net === null ? '' : this.net(pad.net);
    const part = pad.via ? 'VIA' : (pad.part ?? '');
    const pin = pad.pin ?? '';
    const dash = pin === '' && part.length <= PART_WIDTH ? ' ' : '-';
    const wide = pin.length > PIN_WIDTH;
    const marked = pad.midpoint ? (wide ? ' M' : 'M') : wide ? '' : ' ';
    const head = `${CODES[pad.kind]}${net.padEnd(NET_WIDTH)}   ${part.padEnd(PART_WIDTH)}${dash}`;
    const line = `${head}${pin.padEnd(PIN_WIDTH)}${marked}${this.hole(pad)}${this.tail(pad)}`.trimEnd();
    const back = findFields(line);
    if (back.net !== net || back.part !== part || back.pin !== pin) {
      const name = `${part}${pin === '' ? '' : `.${pin}`}`;
      const what = `Expected names that fit the columns of IPC-D-356, got \`${name}\` on net \`${pad.net ?? 'N/C'}\`.`;
      this.problems.push({
        code: 'name-not-writable',
        where: { line: pad.line },
        what,
        mend: 'Rename it, or write another format.',
      });
    }
    return line;
  }

  private hole(pad: IpcPad): string {
    if (pad.hole === null) return '      ';
    const counts = millimetresToCounts(pad.hole.diameterMillimetres, this.unit);
    return `D${String(counts).padStart(4, '0')}${pad.hole.plated ? 'P' : 'U'}`;
  }

  private tail(pad: IpcPad): string {
    if (pad.at === null && pad.side === 'unknown') return '';
    const place =
      pad.at === null
        ? 'X       Y       '
        : `X${this.signed(pad.at.xMillimetres)}Y${this.signed(pad.at.yMillimetres)}`;
    return `${this.access(pad)}${place}${this.size(pad)} ${this.mask(pad)}${spanOf(pad)}`;
  }

  private access({ layer, side, span }: IpcPad): string {
    if (layer !== null) return `A${String(layer).padStart(2, '0')}`;
    return side === 'both' && span === null ? 'A00' : '   ';
  }

  private size(pad: IpcPad): string {
    if (pad.size === null) return 'X0000Y0000R000';
    return `X${this.plain(pad.size.xMillimetres)}Y${this.plain(pad.size.yMillimetres)}R000`;
  }

  private mask(pad: IpcPad): string {
    if (pad.masked === null) return '  ';
    return `S${{ none: 0, first: 1, last: 2, both: 3 }[pad.masked]}`;
  }

  private conductor({ net, layer, widthMillimetres, strokes }: IpcConductor): string {
    const head = `378${this.net(net).padEnd(NET_WIDTH)} L${String(layer).padStart(2, '0')}`;
    return this.drawn(head, '078', millimetresToCounts(widthMillimetres, this.unit), strokes);
  }

  private outline({ title, strokes }: IpcOutline): string {
    // A drawing size is for show only; one count, because nought would read as a corner.
    return this.drawn(`389${title.padEnd(NET_WIDTH)}    `, '089', 1, strokes);
  }

  /** One record per few coordinates, the rest in continuation records. */
  private drawn(
    head: string,
    more: string,
    widthCounts: number,
    strokes: readonly (readonly number[])[],
  ): string {
    const words: string[] = [];
    strokes.forEach((stroke, index) => {
      if (index > 0) words.push('*');
      for (let i = 0; i + 1 < stroke.length; i += 2) {
        words.push(`X${this.signed(stroke[i] ?? 0)}Y${this.signed(stroke[i + 1] ?? 0)}`);
      }
    });
    const lines = [`${head} X${widthCounts} ${words.slice(0, 3).join(' ')}`.trimEnd()];
    for (let i = 3; i < words.length; i += 4) {
      lines.push(`${more}              ${words.slice(i, i + 4).join(' ')}`);
    }
    return lines.join('\n');
  }

  private measured({ name, kind, value, nets }: IpcMeasured): string {
    const letter = { resistor: 'R', capacitor: 'C', inductor: 'L' }[kind];
    const number = printValue(kind === 'resistor' ? value : value * 1e12);
    const first = `370${this.net(nets[0]).padEnd(NET_WIDTH)} A00 X+000000Y+000000 ${letter} ${number} ${number} ${number} ${name}`;
    return nets[1] === ''
      ? first
      : `${first}\n070${this.net(nets[1]).padEnd(NET_WIDTH)} A00 X+000000Y+000000`;
  }

  private signed(millimetres: number): string {
    const counts = millimetresToCounts(millimetres, this.unit);
    return `${counts < 0 ? '-' : '+'}${String(Math.abs(counts)).padStart(6, '0')}`;
  }

  private plain(millimetres: number): string {
    return String(millimetresToCounts(millimetres, this.unit)).padStart(4, '0');
  }
}

function spanOf({ span }: IpcPad): string {
  if (span === null) return '';
  return span.map((layer) => `L${String(layer).padStart(2, '0')}`).join('');
}

/** Four digits and a one-digit exponent, `0100E+1`. */
function printValue(value: number): string {
  const [digits = '0', power = '0'] = value.toExponential(3).split('e');
  const exponent = Number(power) - 3;
  return `${digits.replace('.', '')}E${exponent < 0 ? '-' : '+'}${Math.abs(exponent)}`;
}
