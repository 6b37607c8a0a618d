/**
 * Which key does what? The bindings are plain data, so that the help can list
 * them and later a foot switch or another layout can replace them. Letters are
 * matched by their place on the keyboard where a modifier may change what they
 * type (Alt+L types another sign on some systems).
 *
 * Keys without a modifier can be switched off (WCAG 2.2, 2.1.4).
 */
export const COMMANDS = [
  'focus-entry',
  'log-next-test',
  'focus-graph',
  'focus-work',
  'search',
  'undo',
  'redo',
  'toggle-notes',
  'save-file',
  'help',
] as const;
export type Command = (typeof COMMANDS)[number];

export interface Binding {
  readonly command: Command;
  readonly keys: readonly string[];
}

/** Control stands for Command on a Mac as well. */
export const DEFAULT_BINDINGS: readonly Binding[] = [
  { command: 'focus-entry', keys: ['Alt+R'] },
  { command: 'log-next-test', keys: ['Alt+L'] },
  { command: 'focus-graph', keys: ['Alt+G'] },
  { command: 'focus-work', keys: ['Alt+W'] },
  { command: 'search', keys: ['/', 'Ctrl+K'] },
  { command: 'undo', keys: ['Ctrl+Z'] },
  { command: 'redo', keys: ['Ctrl+Shift+Z', 'Ctrl+Y'] },
  { command: 'toggle-notes', keys: ['Alt+N'] },
  { command: 'save-file', keys: ['Ctrl+S'] },
  { command: 'help', keys: ['?', 'F1'] },
];

/** What a key press tells us; a `KeyboardEvent` fits. */
export interface KeyPress {
  readonly key: string;
  readonly code: string;
  readonly altKey: boolean;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly shiftKey: boolean;
}

/** The name of a key press as bindings write it: `Ctrl+Shift+Z`, `/`, `F1`. */
export function keyName(press: KeyPress): string {
  const control = press.ctrlKey || press.metaKey;
  const letter = /^Key([A-Z])$/.exec(press.code)?.[1];
  if (!control && !press.altKey) return press.key;
  const base = letter ?? press.key;
  return `${control ? 'Ctrl+' : ''}${press.altKey ? 'Alt+' : ''}${press.shiftKey ? 'Shift+' : ''}${base}`;
}

/** True for keys that type a sign and so must not fire while one is typing. */
export function isSingleKey(name: string): boolean {
  return [...name].length === 1;
}

/** The command a key press stands for, or null. */
export function commandFor(
  press: KeyPress,
  bindings: readonly Binding[] = DEFAULT_BINDINGS,
  singleKeys = true,
): Command | null {
  const name = keyName(press);
  if (!singleKeys && isSingleKey(name)) return null;
  return bindings.find((binding) => binding.keys.includes(name))?.command ?? null;
}

/** The first key of a command, as the help and the buttons show it. */
export function keyOf(command: Command, bindings: readonly Binding[] = DEFAULT_BINDINGS): string {
  return bindings.find((binding) => binding.command === command)?.keys[0] ?? '';
}
