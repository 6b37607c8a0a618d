/** Words of the map notes editor. */
export const notesWords = {
  notesTitle: 'Map notes',
  notesLabel: 'Notes, one thing per line',
  notesClose: 'Close notes',
  notesFormat: 'Format',
  notesProblems: 'Problems',
  notesFine: (lines: number, points: number): string => `Reads well: ${lines} lines, ${points} points.`,
  notesProblemCount: (count: number): string => (count === 1 ? '1 problem' : `${count} problems`),
  notesPlace: (line: number, column: number): string => `line ${line}, column ${column}`,
  notesKept: 'The graph keeps the last map that could be read; your text is kept too.',
  notesFirst: [
    'board "My board"',
    'deck main "Main deck"',
    'part J1 connector on main',
    'part R1 resistor 100 on main',
    'part U1 controller on main',
    'line KEY  J1.2 - R1 - U1.A4',
  ],
};
