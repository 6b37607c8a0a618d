/**
 * The line as the report shows it: the exported drawing in the light theme,
 * with the plan's cuts and wires drawn over it by the same shapes as on screen.
 */
import type { CompiledBoard, Diagnosis, StackState } from '../../engine.ts';
import { chooseLine, linesBeside } from '../app/graph-choice.ts';
import { arrangeLine } from '../graph/arrange.ts';
import { escapeXml, printSvg } from '../graph/graph-svg.ts';
import { type DrawnPlan, drawnPlan, type MarkShape, marksOf } from '../rework/plan-marks.ts';
import { PALETTES } from '../theme/tokens.ts';
import { words } from '../words/words.ts';
import type { ReportSource } from './report-content.ts';

export interface ReportPicture {
  /** What it shows, as a sentence under it. */
  readonly caption: string;
  readonly svg: string;
  readonly widthPixels: number;
  readonly heightPixels: number;
}

/** What the picture shows. */
export interface PictureSource {
  readonly board: CompiledBoard;
  readonly diagnosis: Diagnosis;
  readonly state: StackState;
  /** Line to draw; `null` for the first in question. */
  readonly line: string | null;
  readonly plan: DrawnPlan | null;
  readonly caption: string;
}

/** Width of a page's text at 96 px to the inch, less a little; letters then keep their size on paper. */
const PAGE_PIXELS = 700;
/** Flat enough that two fit on a page; a line that cannot be drawn so flat may take the second height. */
const HEIGHTS_PIXELS = [430, 2000] as const;
const THEME = 'light';

/**
 * The line as found; and, where a plan cuts or wires anything or is begun, the
 * line it works on with the plan drawn in and the readings taken since.
 */
export function pictureSources(source: ReportSource): readonly PictureSource[] {
  const { board, diagnosis, shown, state, plan, progress } = source;
  const { reportPictureFound, reportPicturePlanned, reportPictureNow } = words();
  const suspected = diagnosis.suspects[0]?.lines[0] ?? null;
  const stood = state.plan?.state ?? state.state;
  const found = { board, diagnosis, state: stood, line: suspected, plan: null, caption: reportPictureFound };
  const isBegun = progress !== null && progress.done > 0;
  const draws = plan !== null && plan.cuts.length + plan.jumpers.length > 0;
  if (plan === null || (!draws && !isBegun)) return [found];
  const line = plan.jumpers.find((jumper) => jumper.line !== null)?.line ?? suspected;
  const marks = drawnPlan(plan, board);
  const caption = isBegun ? reportPictureNow : reportPicturePlanned;
  return [
    found,
    { board, diagnosis: shown, state: isBegun ? state.state : stood, line, plan: marks, caption },
  ];
}

/** A plan's shapes as SVG text. */
export function printMarks(shapes: readonly MarkShape[]): string {
  const palette = PALETTES[THEME];
  return shapes
    .map((shape) =>
      shape.kind === 'text'
        ? `<text x="${shape.x.toFixed(1)}" y="${shape.y.toFixed(1)}" dy="0.35em" text-anchor="middle" font-weight="700" fill="${palette.text}">${escapeXml(shape.text)}</text>`
        : `<path d="${shape.d}" fill="none" stroke="${palette[shape.paint]}" stroke-width="${shape.width}" stroke-linecap="round"/>`,
    )
    .join('');
}

/** Draws the line in question; null on a map without lines. */
export async function drawPicture(source: PictureSource): Promise<ReportPicture | null> {
  const { board, diagnosis, state, plan, caption } = source;
  const line = chooseLine(board, diagnosis, source.line, '');
  if (line === null) return null;
  const { createCytoscape } = await import('../graph/cytoscape-chunk.ts');
  const extraLines = linesBeside(board, diagnosis, line, []);
  const input = { board, line, extraLines, diagnosis, state, selected: null, arrangement: 'flow' } as const;
  const [flat, tall] = HEIGHTS_PIXELS.map((height) =>
    arrangeLine(input, { width: PAGE_PIXELS, height }, createCytoscape),
  );
  const arranged = flat?.layout.mode === 'flow' ? flat : (tall ?? flat);
  if (arranged === undefined) return null;
  const { scene, layout } = arranged;
  const title = words().reportPictureOf(line.title === '' ? line.id : line.title);
  const marks = plan === null ? '' : printMarks(marksOf(plan, scene, layout));
  const svg = printSvg(scene, layout, { theme: THEME, title, marks });
  return { caption, svg, widthPixels: layout.width, heightPixels: layout.height };
}
