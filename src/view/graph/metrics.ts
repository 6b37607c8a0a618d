/**
 * How large is everything at zoom 1? Sizes in px, and an estimate of text
 * width that needs no canvas, so that the layout is a pure function and gives
 * the same picture in a test, on the screen and in a report.
 */

/** Size of all letters on the drawing, and the smallest we let zooming make them. */
export const TEXT_PX = 13;
export const LEAST_TEXT_PX = 12;
/** Zoom at which letters reach the least size: fitting goes no further down. */
export const LEAST_FIT_ZOOM = LEAST_TEXT_PX / TEXT_PX;
export const MOST_FIT_ZOOM = 1.7;

/** Mean advance of a sans-serif letter in em, on the wide side; measured on common system fonts, no source. */
const ADVANCE_EM = 0.62;

/** Estimated width of a text in px. */
export function textWidth(text: string): number {
  return [...text].length * TEXT_PX * ADVANCE_EM;
}

/** Line height of stacked labels, px. */
export const LINE_PX = 15;
/** Free space round the drawing, px. */
export const MARGIN_PX = 14;
/** Least free space between two blocks of a line; more where faint lines must pass between them, px. */
export const GAP_PX = 6;
export const PASSAGE_GAP_PX = 16;
/** The most a gap is stretched to fill the width, px. */
export const MOST_GAP_PX = 46;

export const PIN_RADIUS = 11;
export const FAINT_RADIUS = 6.5;
export const SIDE_RADIUS = 7;
/** Between a pill's text and its pins, px. */
export const PILL_PADDING = 5;
/** Half height of a series pill: the pin plus its rim. */
export const PILL_HALF = 14;
export const FAINT_PILL_HALF = 8.5;

/** Least width of a pin's column: room for `0.452` above it. */
export const COLUMN_PX = 44;
export const FAINT_COLUMN_PX = 20;
/** Room of one thing that hangs below, and of one with a point and its value when another follows. */
export const SLOT_PX = 48;
export const VALUE_SLOT_PX = 60;
export const BODY_HEIGHT = 20;
export const BODY_PADDING = 14;
export const LEAST_BODY_PX = 38;

export const HOP_WIDTH = 12;
export const FAINT_HOP_WIDTH = 8;
/** From a contact's upright to its label. */
export const HOP_LABEL_OFFSET = 11;
export const FRAME_HEIGHT = 38;

export const WORLD_HEIGHT = 36;
export const CELL_WIDTH = 116;
export const CELL_HEIGHT = 56;
/** From the controller pin's rim to its cell. */
export const CELL_GAP = 16;
/** From a cell's rim to its text. */
export const CELL_GAP_TEXT = 8;
export const FAINT_CELL_HEIGHT = 17;

/** Lane of the chosen line: above and below its copper, px. */
export const LANE_ABOVE = 46;
export const LANE_BELOW = 18;
export const LANE_BELOW_PILL = 31;
export const FAINT_LANE_ABOVE = 10;
export const FAINT_LANE_BELOW = 10;

/** From the copper up to a pin's name. */
export const NAME_RISE = 24;
/** Depths below the copper of what hangs there, px. */
export const SIDE_POINT_DEPTH = 38;
export const BODY_DEPTH_DIRECT = 42;
export const BODY_DEPTH = 60;
export const END_OFFSET = 18;
/** From the lower end of a contact down to its value. */
export const HOP_VALUE_DROP = 22;
/** From a test pad down to its name. */
export const SIDE_NAME_DROP = 17;

/** Above the first band and below the last, px. */
export const BAND_MARGIN = 4;
export const BAND_PADDING = 4;
export const MOST_BAND_PADDING = 26;
export const BAND_NAME_HEIGHT = 16;

/** A text on at most `most` lines of about `width` px; what is left over is cut with an ellipsis. */
export function wrapText(text: string, width: number, most: number): readonly string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/)) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line === '' || textWidth(longer) <= width) line = longer;
    else {
      lines.push(line);
      line = word;
    }
  }
  lines.push(line);
  const kept = lines.slice(0, most);
  if (lines.length > most) kept[most - 1] = `${kept[most - 1]}…`;
  return kept.map((entry) => cutText(entry, width));
}

/** A text cut with an ellipsis to about `width` px. */
export function cutText(text: string, width: number): string {
  const letters = [...text];
  const room = Math.max(2, Math.floor(width / (TEXT_PX * ADVANCE_EM)));
  return letters.length <= room ? text : `${letters.slice(0, room - 1).join('')}…`;
}
