/**
 * Takes the lines of a netlist file one by one: which code is it, does it start
 * something or continue what stands before it, is it used or only listed?
 * Nothing is ever joined by designator and pin alone: exporters cut both
 * short, so two pads of one name may be two pins. No regular expression runs
 * over a whole line.
 *
 * Source: AN40, "Allowed operation codes".
 */
import { createHeader, readComment, readParameter, type Verdict } from './header.ts';
import { createNames } from './intern.ts';
import type { DoubtfulRecord, ListedCode, ListedRecord, PadKind, UsedKind } from './ipc-file.ts';
import { MAX_LINE_CHARACTERS } from './limits.ts';
import type { PadDraft } from './pad-draft.ts';
import {
  type AdjacencyDraft,
  continueAdjacency,
  continueMeasured,
  type MeasuredDraft,
  startAdjacency,
  startMeasured,
} from './read-measured.ts';
import { continuePad, readPad } from './read-pad.ts';
import { continueStrokes, type StrokesDraft, startConductor, startOutline } from './read-strokes.ts';
import { untab } from './untab.ts';

/** Codes of test records and what kind of pad they are. */
const PAD_CODES: ReadonlyMap<string, PadKind> = new Map([
  ['317', 'hole'],
  ['327', 'surface'],
  ['307', 'blind'],
  ['337', 'tooling'],
  ['347', 'tooling'],
  ['367', 'tooling'],
]);

/** Records that say nothing about which pads are joined. */
const PASSED_CODES: ReadonlyMap<string, ListedCode> = new Map([
  ['309', 'stepped-image'],
  ['390', 'non-test-feature'],
  ['090', 'non-test-feature'],
  ['099', 'tester-location'],
  ['088', 'mask-clearance'],
]);

/** What a continuation record would continue. */
type Open =
  | { readonly kind: 'pad'; readonly draft: PadDraft }
  | { readonly kind: 'strokes'; readonly draft: StrokesDraft; readonly used: 'conductor' | 'outline' }
  | { readonly kind: 'adjacency'; readonly draft: AdjacencyDraft }
  | { readonly kind: 'measured'; readonly draft: MeasuredDraft };

/** Holds what has been read so far. */
export class RecordReader {
  readonly header = createHeader();
  readonly names = createNames();
  readonly pads: PadDraft[] = [];
  readonly conductors: StrokesDraft[] = [];
  readonly outlines: StrokesDraft[] = [];
  readonly adjacencies: AdjacencyDraft[] = [];
  readonly measured: MeasuredDraft[] = [];
  readonly listed: ListedRecord[] = [];
  readonly doubts: DoubtfulRecord[] = [];
  readonly used: Record<UsedKind, number> = {
    comment: 0,
    parameter: 0,
    pad: 0,
    continuation: 0,
    conductor: 0,
    adjacency: 0,
    outline: 0,
    measured: 0,
    end: 0,
  };
  records = 0;
  private open: Open | null = null;
  /** A panel's or stepped image's last record was passed over, so its continuations are too. */
  private passed: ListedCode | null = null;

  /** Takes one line; false where it is blank and no record. */
  read(raw: string, lineNumber: number): boolean {
    if (raw.length > MAX_LINE_CHARACTERS) {
      if (raw.trim() === '') return false;
      this.records++;
      this.list('line-too-long', lineNumber, raw.length);
      return true;
    }
    const line = raw.includes('\t') ? untab(raw) : raw;
    const trimmed = line.trimEnd();
    if (trimmed === '') return false;
    this.records++;
    const verdict = this.verdictOn(trimmed, lineNumber);
    if ('used' in verdict) this.used[verdict.used]++;
    else this.list(verdict.listed, lineNumber, trimmed.length);
    return true;
  }

  private list(code: ListedCode, line: number, length: number): void {
    this.listed.push({ line, column: 1, length, code });
  }

  private verdictOn(line: string, lineNumber: number): Verdict {
    if (this.used.end > 0) return { listed: 'after-end' };
    const first = line[0];
    if (first === 'C' && (line[1] === ' ' || line.length === 1))
      return readComment(this.header, line, lineNumber);
    if (first === 'P' && line[1] === ' ') return readParameter(this.header, line, lineNumber);
    const code = line.slice(0, 3);
    if (code === '999') return { used: 'end' };
    if (first === '0' && PASSED_CODES.get(code) === undefined)
      return this.continueWith(line, code, lineNumber);
    return this.start(line, code, lineNumber);
  }

  private start(line: string, code: string, lineNumber: number): Verdict {
    const passed = PASSED_CODES.get(code) ?? (this.isKnown(code) ? this.passedImage() : undefined);
    if (passed !== undefined) {
      if (code[0] === '3') this.close(passed);
      return { listed: passed };
    }
    const kind = PAD_CODES.get(code);
    if (kind !== undefined) return this.startPad(line, kind, lineNumber);
    this.close('nothing-to-continue');
    switch (code) {
      case '378':
        return this.startStrokes(startConductor(line, lineNumber), 'conductor');
      case '389':
        return this.startStrokes(startOutline(line, lineNumber), 'outline');
      case '379': {
        const draft = startAdjacency(line, lineNumber);
        if (draft === null) return { listed: 'adjacency-unreadable' };
        this.adjacencies.push(draft);
        this.open = { kind: 'adjacency', draft };
        return { used: 'adjacency' };
      }
      case '370':
      case '380': {
        const draft = startMeasured(line, lineNumber);
        if (draft === null) return { listed: 'measured-unreadable' };
        this.measured.push(draft);
        this.open = { kind: 'measured', draft };
        return { used: 'measured' };
      }
      default:
        return { listed: 'unknown-code' };
    }
  }

  private isKnown(code: string): boolean {
    return PAD_CODES.has(code) || ['378', '389', '379', '370', '380'].includes(code);
  }

  private passedImage(): ListedCode | undefined {
    if (this.header.image === 'panel') return 'panel-data';
    return this.header.image === 'stepped' ? 'stepped-image' : undefined;
  }

  private close(passed: ListedCode): void {
    this.open = null;
    this.passed = passed;
  }

  private startPad(line: string, kind: PadKind, lineNumber: number): Verdict {
    const draft = readPad(line, lineNumber, kind, this.names, (code, column, length) => {
      this.doubts.push({ line: lineNumber, column, length, code });
    });
    if (draft === null) {
      this.close('empty-record');
      return { listed: 'empty-record' };
    }
    this.pads.push(draft);
    this.open = { kind: 'pad', draft };
    return { used: 'pad' };
  }

  private startStrokes(draft: StrokesDraft | null, used: 'conductor' | 'outline'): Verdict {
    if (draft === null) return { listed: 'conductor-unreadable' };
    (used === 'conductor' ? this.conductors : this.outlines).push(draft);
    this.open = { kind: 'strokes', draft, used };
    return { used };
  }

  /** A record whose code starts with 0 belongs to the one before it. */
  private continueWith(line: string, code: string, lineNumber: number): Verdict {
    const { open } = this;
    if (open === null) {
      return { listed: this.passed !== null && isContinuation(code) ? this.passed : orphan(code) };
    }
    switch (open.kind) {
      case 'pad':
        return code === '017' || code === '027'
          ? this.continuePad(line, code, lineNumber, open.draft)
          : { listed: orphan(code) };
      case 'strokes':
        if (code !== (open.used === 'conductor' ? '078' : '089')) return { listed: orphan(code) };
        return continueStrokes(open.draft, line) ? { used: open.used } : { listed: 'conductor-unreadable' };
      case 'adjacency':
        if (code !== '079') return { listed: orphan(code) };
        return continueAdjacency(open.draft, line)
          ? { used: 'adjacency' }
          : { listed: 'adjacency-unreadable' };
      default:
        if (code !== '070' && code !== '080') return { listed: orphan(code) };
        return continueMeasured(open.draft, line) ? { used: 'measured' } : { listed: 'measured-unreadable' };
    }
  }

  private continuePad(line: string, code: string, lineNumber: number, pad: PadDraft): Verdict {
    const kind: PadKind = code === '017' ? 'hole' : 'surface';
    const doubts: DoubtfulRecord[] = [];
    const more = readPad(line, lineNumber, kind, this.names, (doubt, column, length) => {
      doubts.push({ line: lineNumber, column, length, code: doubt });
    });
    if (more === null) return { listed: 'empty-record' };
    if (continuePad(pad, more)) return { used: 'continuation' };
    this.doubts.push(...doubts);
    this.pads.push(more);
    this.open = { kind: 'pad', draft: more };
    return { used: 'pad' };
  }
}

function isContinuation(code: string): boolean {
  return ['017', '027', '070', '078', '079', '080', '089'].includes(code);
}

function orphan(code: string): ListedCode {
  return isContinuation(code) ? 'nothing-to-continue' : 'unknown-code';
}
