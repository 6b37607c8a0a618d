/**
 * The whole picture in a few sentences, for those who can't see it: which
 * line, through what, what was measured and how it stands, the leading
 * suspect, what is shown faintly or left out.
 */
import type { FindingState } from '../../engine.ts';
import { STATE_ORDER, STATE_WORDS } from '../theme/tokens.ts';
import type { Scene, SceneInput } from './scene-types.ts';
import { printShare } from './words.ts';

const listed = (items: readonly string[]): string =>
  items.length < 2 ? items.join('') : `${items.slice(0, -1).join(', ')} and ${items[items.length - 1]}`;

function readingWords(states: readonly FindingState[]): string {
  const measured: readonly FindingState[] = states.filter((state) => state !== 'not-measured');
  if (measured.length === 0) return 'Nothing is measured yet.';
  const counts = STATE_ORDER.filter((state) => measured.includes(state)).map(
    (state) => `${measured.filter((entry) => entry === state).length} ${STATE_WORDS[state]}`,
  );
  const points = measured.length === 1 ? 'point' : 'points';
  return `${measured.length} ${points} measured: ${listed(counts)}.`;
}

/** Sentences that stand for the drawing of the chosen line. */
export function summarise(input: SceneInput, scene: Omit<Scene, 'summary'>): string {
  const [main, ...faint] = scene.chains;
  if (main === undefined) return '';
  const stops = new Set(main.stops.map((stop) => stop.node));
  const points = scene.nodes.filter((node) => stops.has(node.id));
  const decks = scene.bands.filter((band) => band.kind !== 'frame').map((band) => band.title);
  const first = points[0]?.title ?? '';
  const last = points[points.length - 1]?.title ?? '';
  const gone = scene.nodes.filter((node) => node.gone && node.kind !== 'slab').map((node) => node.title);
  const leading = input.diagnosis?.suspects[0];
  return [
    `Line ${scene.title}, from pin ${first} to controller pin ${last}, ${points.length} points on ${listed(decks)}.`,
    readingWords(points.map((node) => node.state ?? 'not-measured')),
    leading === undefined ? '' : `Leading: ${leading.title}, ${printShare(leading.share)}.`,
    gone.length === 0 ? '' : `Off in this stack state: ${listed([...new Set(gone)])}.`,
    faint.length === 0 ? '' : `Shown faintly: ${listed(faint.map((chain) => chain.line))}.`,
    scene.omitted.length === 0 ? '' : `Near by, not drawn: ${listed(scene.omitted)}.`,
  ]
    .filter((text) => text !== '')
    .join(' ');
}
