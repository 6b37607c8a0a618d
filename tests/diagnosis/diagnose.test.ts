import { describe, expect, it } from 'vitest';
import { JOINED } from '../../src/board/board-map.ts';
import type { Diagnosis } from '../../src/diagnosis/diagnosis.ts';
import { createFaultSpace } from '../../src/diagnosis/fault-space.ts';
import { DEFAULT_PRIORS } from '../../src/diagnosis/priors.ts';
import { demoBoard, freshDiagnoser, measured, reading } from './bench-case.ts';

const board = demoBoard();
const diagnose = freshDiagnoser(board);
const still = { history: [], state: JOINED } as const;

function shareOf(diagnosis: Pick<Diagnosis, 'suspects'>, id: string): number {
  return diagnosis.suspects.find((suspect) => suspect.id === id)?.share ?? 0;
}

describe('fault space', () => {
  it('[D8] priors sum to one, whatever the history', () => {
    for (const history of [[], ['drop'], ['liquid', 'repaired-before']] as const) {
      const space = createFaultSpace(board, ['MARK', 'TUNE'], history, DEFAULT_PRIORS);
      const sum = space.hypotheses.reduce((total, hypothesis) => total + hypothesis.prior, 0);
      expect(sum).toBeCloseTo(1, 12);
    }
  });

  it('[D8] a drop makes frame joints likelier, and liquid makes leaks likelier', () => {
    const priorOf = (history: ('drop' | 'liquid')[], id: string): number => {
      const space = createFaultSpace(board, ['UP'], history, DEFAULT_PRIORS);
      const candidate = space.candidates.findIndex((entry) => entry.id === id);
      return space.hypotheses.reduce(
        (sum, entry) => sum + (entry.candidate === candidate ? entry.prior : 0),
        0,
      );
    };
    expect(priorOf(['drop'], 'S.37 open')).toBeGreaterThan(1.5 * priorOf([], 'S.37 open'));
    expect(priorOf(['liquid'], 'FL2.5~ground leak')).toBeGreaterThan(1.5 * priorOf([], 'FL2.5~ground leak'));
  });

  it('[D8] a bridge to a contact with nothing on it is not thought of', () => {
    const space = createFaultSpace(board, ['TUNE'], [], DEFAULT_PRIORS);
    const bridges = space.candidates
      .filter((candidate) => candidate.defect === 'bridge')
      .map((entry) => entry.id);
    expect(bridges).toContain('S.41|S.42 bridge');
    expect(bridges).not.toContain('S.42|S.43 bridge');
  });
});

describe('posterior', () => {
  const readings = [
    reading('function', 'MARK', 'dead'),
    reading('diode', 'J3.7', 'OL'),
    reading('diode', 'FL2.6', 0.388),
  ];

  it('[D9] shares of suspects and of places each sum to one', () => {
    const { where, suspects } = diagnose({ readings, ...still });
    expect(where.reduce((sum, piece) => sum + piece.share, 0)).toBeCloseTo(1, 9);
    // The list leaves out suspects under 0.2 percent.
    const listed = suspects.reduce((sum, suspect) => sum + suspect.share, 0);
    expect(listed).toBeGreaterThan(0.97);
    expect(listed).toBeLessThan(1 + 1e-9);
  });

  it('[D9] the order of readings does not matter', () => {
    const forward = diagnose({ readings, ...still });
    const backward = diagnose({ readings: [...readings].reverse(), ...still });
    for (const suspect of forward.suspects)
      expect(shareOf(backward, suspect.id)).toBeCloseTo(suspect.share, 9);
  });

  it('[D9] kept predictions change nothing: a fresh diagnoser says the same', () => {
    expect(diagnose({ readings, ...still })).toEqual(freshDiagnoser(board)({ readings, ...still }));
  });

  it('[D10] with no reading "no fault" stands at its prior and nothing stands out', () => {
    const { suspects } = diagnose({ readings: [reading('function', 'MARK', 'works')], ...still });
    expect(suspects[0]?.kind).toBe('no-fault');
  });
});

describe('verdicts', () => {
  it('[D11] OL at the pin with a filter beside it puts the filter first', () => {
    // Common practice, no source.
    const { suspects } = diagnose({
      readings: [reading('function', 'UP', 'dead'), reading('diode', 'J3.9', 'OL')],
      ...still,
    });
    expect(suspects[0]?.id).toBe('FL2.4~FL2.5 open');
  });

  it('[D11] two neighbouring lines that read alike where one is due OL are bridged', () => {
    // Common practice, no source: 441 and 440 mV on neighbouring contacts.
    const { suspects, findings } = diagnose({
      readings: [reading('diode', 'FL1.8', 0.388), reading('diode', 'R27.2', 0.388)],
      ...still,
    });
    expect(suspects[0]?.faults[0]?.defect).toBe('bridge');
    expect(findings[1]?.state).toBe('same-as-another');
    expect(findings[1]?.sameAs).toBe('FL1.8');
  });

  it('[D11] a hard short is grounded, and no open is believed', () => {
    const fault = { element: 'FL2.6~ground', defect: 'short' } as const;
    const { findings, suspects } = diagnose({
      readings: [measured(board, 'diode', 'FL2.6', [fault]), measured(board, 'function', 'MARK', [fault])],
      ...still,
    });
    expect(findings[0]?.state).toBe('grounded');
    expect(suspects[0]?.id).toBe('FL2.6~ground short');
    expect(
      suspects.filter((suspect) => suspect.faults[0]?.defect === 'open' && suspect.share > 0.01),
    ).toEqual([]);
  });

  it('[D12] two faults are believed once a slip no longer explains the second', () => {
    const faults = [
      { element: 'FL2.3~FL2.6', defect: 'open' },
      { element: 'J3.11', defect: 'open' },
    ] as const;
    const points = ['J3.7', 'FL2.3', 'FL2.6', 'K4.1', 'J3.11'];
    const once = points.map((at) => measured(board, 'diode', at, faults));
    const first = diagnose({ readings: once, ...still });
    const odd = once.filter((entry) => first.doubts.some((doubt) => doubt.reading === entry.id));
    expect(odd.map((entry) => entry.probe.at)).toContain('K4.1');
    const twice = diagnose({ readings: [...once, measured(board, 'diode', 'K4.1', faults)], ...still });
    expect([...(twice.suspects[0]?.elements ?? [])].sort()).toEqual(['FL2.3~FL2.6', 'J3.11']);
  });
});
