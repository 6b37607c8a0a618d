/** Which wire is proposed, and when a wire is warned of. */
import { describe, expect, test } from 'vitest';
import { WIRE_SIZES, type WireSize } from '../../src/rework/wire.ts';
import { chooseWire, judgeWire, loadOfLine } from '../../src/rework/wire-choice.ts';
import { demoBoard } from './demo.ts';

const size = (name: string): WireSize => {
  const found = WIRE_SIZES.find((entry) => entry.name === name);
  if (found === undefined) throw new Error(name);
  return found;
};

describe('wire choice', () => {
  test('[W3] a line through a fuse or inductor, and a rail, count as supplies; keys do not', () => {
    const board = demoBoard();
    expect(loadOfLine(board, 'VBUS').kind).toBe('supply');
    expect(loadOfLine(board, 'VBAT').kind).toBe('supply');
    expect(loadOfLine(board, 'MARK').kind).toBe('signal');
    expect(loadOfLine(board, null).kind).toBe('signal');
    expect(loadOfLine(board, 'VBUS', { VBUS: 0.3 })).toMatchObject({
      amps: 0.3,
      because: '300 mA, as given',
    });
  });

  test('[W3] a signal gets a thin wire without a warning', () => {
    const choice = chooseWire(loadOfLine(demoBoard(), 'MARK'), 20);
    expect(choice).toMatchObject({ size: { diameterMillimetres: 0.05 }, strands: 1, warnings: [] });
  });

  test('[W3] a supply gets wire that keeps drop, warmth and melting within limits', () => {
    const board = demoBoard();
    for (const amps of [0.2, 1, 2]) {
      for (const millimetres of [2, 15, 40]) {
        const choice = chooseWire(loadOfLine(board, 'VBUS', { VBUS: amps }), millimetres);
        expect(choice.warnings).toEqual([]);
        expect(choice.dropVolts).toBeLessThanOrEqual(0.05);
        expect(choice.fusingAmps).toBeGreaterThanOrEqual(3 * amps);
      }
    }
  });

  test('[W3] a signal wire on a supply is warned of, with drop and melting current', () => {
    const choice = judgeWire(size('0.05 mm enamelled'), loadOfLine(demoBoard(), 'VBUS'), 20);
    // 8.78 ohm per metre times 20 mm is 176 mV at 1 A; Preece 80 * 0.05^1.5 = 0.894 A.
    expect(choice.warnings).toEqual([
      'This is a signal wire on a supply: 0.05 mm enamelled at 1 A drops 176 mV and melts at 890 mA. Take a thicker wire or more strands.',
    ]);
  });

  test('[W3] a wire too thin even for a signal says so', () => {
    const choice = judgeWire(size('0.01 mm enamelled'), loadOfLine(demoBoard(), 'MARK', { MARK: 0.05 }), 30);
    expect(choice.warnings).toHaveLength(2);
  });
});
