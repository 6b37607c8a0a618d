/**
 * From what was read to what is handed out: units settled, counts turned into
 * millimetres, aliases put in, layers turned into sides, pads of one name told
 * apart, records that say the same twice set aside. What a person should know
 * goes along as notices.
 */
import { good, type Problem, type Result } from '../../board/result.ts';
import { findSharedPins } from './find-shared-pins.ts';
import type { IpcFile, IpcMeasured, IpcPad, IpcUnit, IpcUnits } from './ipc-file.ts';
import { noticesOfFile } from './ipc-notices.ts';
import { createNetNames, type NetNames } from './net-names.ts';
import type { PadDraft } from './pad-draft.ts';
import type { StrokesDraft } from './read-strokes.ts';
import type { RecordReader } from './record-reader.ts';
import { countsToMillimetres, inferUnit } from './units.ts';

/** More than twice the largest coordinate, so that a place is one number. */
const PLACE_STRIDE = 8_000_000;
/** Pads compared at one place; a file that heaps up more keeps its doubles. */
const MOST_AT_ONE_PLACE = 16;

/** Finishes a file that has pads. O(records). */
export function finishFile(reader: RecordReader, lineCount: number, told: IpcUnit | null): Result<IpcFile> {
  const { header } = reader;
  const units = settleUnits(reader, told);
  const names = createNetNames(header);
  const lastLayer = findLastLayer(reader.pads, header.layers);
  const kept = dropDuplicates(reader);
  const pads = kept.map((draft) => finishPad(draft, units.unit, lastLayer, names));
  const file: IpcFile = {
    title: header.title || header.job,
    version: header.version,
    units,
    lastLayer,
    pads,
    conductors: reader.conductors.map((draft) => ({
      line: draft.line,
      net: names.of(draft.name),
      layer: draft.layer,
      widthMillimetres: countsToMillimetres(draft.widthCounts, units.unit),
      strokes: strokesOf(draft, units.unit),
    })),
    adjacencies: reader.adjacencies.map(({ line, net, others }) => ({
      line,
      net: names.of(net),
      others: others.map((other) => names.of(other)),
    })),
    outlines: reader.outlines.map((draft) => ({
      line: draft.line,
      title: draft.name,
      strokes: strokesOf(draft, units.unit),
    })),
    measured: reader.measured.map(
      ({ line, name, kind, value, net, otherNet }): IpcMeasured => ({
        line,
        name,
        kind,
        value,
        nets: [names.of(net), names.of(otherNet)],
      }),
    ),
    sharedPins: findSharedPins(pads),
    listed: reader.listed,
    doubts: reader.doubts,
    counts: { lines: lineCount, records: reader.records, used: reader.used },
  };
  const notices: readonly Problem[] = noticesOfFile(file, names);
  return good(file, notices);
}

function settleUnits(reader: RecordReader, told: IpcUnit | null): IpcUnits {
  const { unitsWords: words, unit } = reader.header;
  if (told !== null) return { unit: told, words, inferredFrom: null };
  if (unit !== null) return { unit, words, inferredFrom: null };
  const inferred = inferUnit(reader.pads);
  return { unit: inferred.unit, words, inferredFrom: inferred.why };
}

function findLastLayer(pads: readonly PadDraft[], told: number): number {
  let last = Math.max(1, told);
  for (const { highLayer, span } of pads) last = Math.max(last, highLayer, span?.[1] ?? 0);
  return last;
}

/** Sets aside records that say word for word what an earlier one said. */
function dropDuplicates(reader: RecordReader): PadDraft[] {
  /** Pads by place: a number, because a text per pad would fill the memory. */
  const byPlace = new Map<number, PadDraft | PadDraft[]>();
  return reader.pads.filter((pad) => {
    const { xCounts, yCounts } = pad;
    if (pad.continued || xCounts === null || yCounts === null) return true;
    const key = xCounts * PLACE_STRIDE + yCounts;
    const here = byPlace.get(key);
    if (here === undefined) {
      byPlace.set(key, pad);
      return true;
    }
    const others = Array.isArray(here) ? here : [here];
    if (others.length >= MOST_AT_ONE_PLACE || !others.some((other) => isSame(pad, other))) {
      if (others.length < MOST_AT_ONE_PLACE) byPlace.set(key, [...others, pad]);
      return true;
    }
    reader.used.pad--;
    reader.listed.push({ line: pad.line, column: 1, length: 1, code: 'duplicate-record' });
    return false;
  });
}

function isSame(a: PadDraft, b: PadDraft): boolean {
  return (
    a.net === b.net &&
    a.part === b.part &&
    a.pin === b.pin &&
    a.kind === b.kind &&
    a.via === b.via &&
    a.bothSides === b.bothSides &&
    a.lowLayer === b.lowLayer &&
    a.span?.[0] === b.span?.[0] &&
    a.span?.[1] === b.span?.[1]
  );
}

function finishPad(draft: PadDraft, unit: IpcUnit, lastLayer: number, names: NetNames): IpcPad {
  const { holeCounts, xCounts, yCounts, sizeX, sizeY } = draft;
  const scaled = (counts: number): number => countsToMillimetres(counts, unit);
  const net = names.of(draft.net);
  const side = sideOf(draft, lastLayer);
  const hasHole = holeCounts !== null && holeCounts > 0;
  return {
    line: draft.line,
    kind: draft.kind,
    net: net === '' ? null : net,
    part: draft.part === '' ? null : draft.part,
    pin: draft.pin === '' ? null : draft.pin,
    via: draft.via,
    midpoint: draft.midpoint,
    hole: hasHole ? { diameterMillimetres: scaled(holeCounts), plated: draft.plated } : null,
    side,
    layer: side === 'both' || draft.bothSides || draft.lowLayer === 0 ? null : draft.lowLayer,
    span: draft.span,
    at:
      xCounts === null || yCounts === null
        ? null
        : { xMillimetres: scaled(xCounts), yMillimetres: scaled(yCounts) },
    size:
      sizeX === null || sizeX <= 0
        ? null
        : { xMillimetres: scaled(sizeX), yMillimetres: scaled(Math.max(0, sizeY ?? 0)) },
    masked: draft.masked,
  };
}

function sideOf(draft: PadDraft, lastLayer: number): IpcPad['side'] {
  const { bothSides, lowLayer, highLayer, span, kind } = draft;
  if (kind === 'blind' && span !== null) {
    // What the access field of a blind via says does not count (AN40).
    const first = span[0] === 1 || lowLayer === 1;
    const last = span[1] === lastLayer;
    return first && last ? 'both' : first ? 'first' : last ? 'last' : 'inside';
  }
  if (bothSides) return 'both';
  if (lowLayer === 0) return kind === 'hole' ? 'both' : 'unknown';
  if (lowLayer === 1) return highLayer > 1 && highLayer === lastLayer ? 'both' : 'first';
  return highLayer === lastLayer ? 'last' : 'inside';
}

function strokesOf(draft: StrokesDraft, unit: IpcUnit): number[][] {
  return draft.strokes.map((stroke) => stroke.map((counts) => countsToMillimetres(counts, unit)));
}
