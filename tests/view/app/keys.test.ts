import { describe, expect, it } from 'vitest';
import {
  COMMANDS,
  commandFor,
  DEFAULT_BINDINGS,
  type KeyPress,
  keyName,
  keyOf,
} from '../../../src/view/app/keys.ts';

const press = (part: Partial<KeyPress>): KeyPress => ({
  key: '',
  code: '',
  altKey: false,
  ctrlKey: false,
  metaKey: false,
  shiftKey: false,
  ...part,
});

describe('keys', () => {
  it('[U1] every command has a key, and no key has two commands', () => {
    for (const command of COMMANDS) expect(keyOf(command)).not.toBe('');
    const keys = DEFAULT_BINDINGS.flatMap((binding) => binding.keys);
    expect(new Set(keys).size).toBe(keys.length);
  });

  it.each([
    ['Ctrl+Z', press({ key: 'z', code: 'KeyZ', ctrlKey: true }), 'undo'],
    ['Ctrl+Shift+Z', press({ key: 'Z', code: 'KeyZ', ctrlKey: true, shiftKey: true }), 'redo'],
    ['Ctrl+Z', press({ key: 'z', code: 'KeyZ', metaKey: true }), 'undo'],
    // Alt+L types another sign on some keyboards; the place of the key counts.
    ['Alt+L', press({ key: '¬', code: 'KeyL', altKey: true }), 'log-next-test'],
    ['/', press({ key: '/', code: 'Slash' }), 'search'],
    ['?', press({ key: '?', code: 'Slash', shiftKey: true }), 'help'],
    ['F1', press({ key: 'F1', code: 'F1' }), 'help'],
    ['l', press({ key: 'l', code: 'KeyL' }), null],
  ] as const)('[U1] %s is named by its keys and finds its command', (name, event, command) => {
    expect(keyName(event)).toBe(name);
    expect(commandFor(event)).toBe(command);
  });

  it('[U1] keys that type a sign can be switched off, the others stay (WCAG 2.2, 2.1.4)', () => {
    expect(commandFor(press({ key: '/', code: 'Slash' }), DEFAULT_BINDINGS, false)).toBeNull();
    expect(commandFor(press({ key: 'F1', code: 'F1' }), DEFAULT_BINDINGS, false)).toBe('help');
  });
});
