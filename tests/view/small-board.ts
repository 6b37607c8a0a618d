/** A small invented board for screen tests: two decks, a frame, a plug, a shield, two lines. */
import { type CompiledBoard, compileBoard, parseNotes } from '../../src/engine.ts';

export const SMALL_NOTES = `board "Small"
deck keys "Key flex" flex
deck radio "Radio deck"
deck power "Power deck"
shield can-1 on radio
frame S between radio, power
contacts S 1..4 from 0, 0 step 1, 0
plug J3 between keys, power
contacts J3 1..4 from 0, 20 step 0.5, 0
near S within 1.2
rail VDD 1.8V on radio
part K1 test-pad on keys
part K2 test-pad on keys
part R1 resistor 47 on power
part R2 resistor 100 on power
part U1 controller on radio under can-1 ball-grid
line MARK "Mark key" K1.1 - J3.2 - R1 - S.2 - U1.G4
line SCAN "Scan key" K2.1 - J3.3 - R2 - S.3 - U1.G5
clamp U1.G4 0.412
clamp U1.G5 0.421
`;

export function smallBoard(): CompiledBoard {
  const parsed = parseNotes(SMALL_NOTES);
  if (!parsed.ok)
    throw new Error(parsed.problems.map(({ what, where }) => `${where.line}: ${what}`).join('\n'));
  return compileBoard(parsed.value.map);
}
