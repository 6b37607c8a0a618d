/**
 * Where does the mark of a drop-down list go when an arrow is pressed? -1 is
 * "nothing chosen": the field's own text stands, and Enter means that text.
 */
export function moveMark(key: string, mark: number, count: number): number | null {
  if (count === 0) return null;
  switch (key) {
    case 'ArrowDown':
      return mark + 1 >= count ? -1 : mark + 1;
    case 'ArrowUp':
      return mark < 0 ? count - 1 : mark - 1;
    default:
      return null;
  }
}
