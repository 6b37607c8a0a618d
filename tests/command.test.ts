import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { answer } from '../src/command-verbs.ts';
import type { CutsBetween, Diagnosis, WorkedCase } from '../src/engine.ts';

function fileOf(path: string): string {
  return readFileSync(new URL(`../data/${path}`, import.meta.url), 'utf8');
}

function diagnosisOf(text: string, ...words: string[]): Diagnosis {
  const { exit, output } = answer('suspects', text, words, false);
  expect(exit).toBe(0);
  return JSON.parse(output) as Diagnosis;
}

describe('the headless command on the worked cases', () => {
  for (const number of [1, 2, 3]) {
    it(`[C1] case ${number}: the fault that was put in stands first`, () => {
      const text = fileOf(`cases/case-${number}.json`);
      const { truth } = JSON.parse(text) as WorkedCase;
      const [first] = diagnosisOf(text).suspects;
      expect(first?.faults[0]?.element).toBe(truth[0]?.element);
      expect(first?.faults[0]?.defect).toBe(truth[0]?.defect);
      expect(first?.share).toBeGreaterThan(0.7);
    });
  }

  it('[C1] case 6: no fault is found, and it says what it cannot see', () => {
    const { suspects, limits } = diagnosisOf(fileOf('cases/case-6.json'));
    expect(suspects[0]?.kind).toBe('no-fault');
    expect(suspects[0]?.share).toBeGreaterThan(0.5);
    expect(limits.length).toBeGreaterThanOrEqual(4);
    expect(limits.join(' ')).toMatch(/cannot be touched/);
  });

  it('[C2] case 2: both lines and the pair of frame contacts are named, and the next test parts the sites', () => {
    const text = fileOf('cases/case-2.json');
    const worked = JSON.parse(text) as WorkedCase;
    // After the first two readings: the bridge is known, its place is not.
    const early = diagnosisOf(JSON.stringify({ ...worked, entries: worked.entries.slice(0, 2) }));
    const [first] = early.suspects;
    expect(first?.id).toBe('S.41|S.42 bridge');
    expect([...(first?.lines ?? [])].sort()).toEqual(['SCAN', 'TUNE']);
    const sites = early.suspects.filter(
      (suspect) => suspect.faults[0]?.defect === 'bridge' && suspect.share > 0.05,
    );
    expect(sites.length).toBeGreaterThan(2);
    const [next] = early.testsHere;
    expect(next?.probe.kind).toBe('between');
    const means = next?.outcomes.map((outcome) => outcome.means) ?? [];
    const withFrame = means.filter((text) => text.startsWith('Contacts S.41 and S.42'));
    const withBalls = means.filter((text) => text.startsWith('U1.F2 and U1.G2'));
    expect(withFrame.length).toBeGreaterThan(0);
    expect(withBalls.length).toBeGreaterThan(0);
  });

  it('[C3] without the bench readings the same case is still open', () => {
    const { suspects } = diagnosisOf(fileOf('cases/case-1.json'), '--no-readings');
    expect(suspects[0]?.share).toBeLessThan(0.5);
  });
});

describe('the other verbs', () => {
  const notes = fileOf('plover-hr-2.notes');

  it('[C4] check passes the demo map', () => {
    expect(answer('check', notes, [], true)).toEqual({ exit: 0, output: 'No problems.' });
  });

  it('[C4] check tells line and column of a broken map and exits 1', () => {
    const broken = notes.replace('S.38 - R18', 'S.38 - R81');
    const { exit, output } = answer('check', broken, [], true);
    expect(exit).toBe(1);
    expect(output).toMatch(/^line \d+, column \d+: .*R81/m);
  });

  it('[C5] cuts between a pin and its controller are the series elements, each alone', () => {
    const { exit, output } = answer('cuts', notes, ['J3.7', 'U1.G4'], false);
    expect(exit).toBe(0);
    const cuts = JSON.parse(output) as CutsBetween;
    expect(cuts.size).toBe(1);
    expect(cuts.cuts.map((cut) => cut.join())).toEqual([
      'J3.7-FL2.3',
      'FL2.3~FL2.6',
      'FL2.6-S.38',
      'S.38',
      'S.38-R18.1',
      'R18.1~R18.2',
      'R18.2-U1.G4',
    ]);
    expect(cuts.means).toBe('Any one of these 7 breaks it.');
  });

  it('[C5] doubled contacts of a rail must fail together', () => {
    const { output } = answer('cuts', notes, ['C41.1', 'C43.1'], false);
    const cuts = JSON.parse(output) as CutsBetween;
    expect(cuts.cuts).toContainEqual(['VDD_1V8:C41.1']);
    expect(cuts.next).toContainEqual(['S.8', 'S.9']);
  });

  it('[C5] reach goes from the pin to the die and does not pass ground', () => {
    const { output } = answer('reach', notes, ['J3.7'], true);
    expect(output).toContain('U1.G4');
    expect(output).not.toContain('U1.G5');
  });

  it('[C6] predict shows the fault it is told', () => {
    expect(answer('predict', notes, ['J3.7'], true).output).toMatch(/^0\.43\d V$/);
    expect(answer('predict', notes, ['J3.7', 'FL2.3~FL2.6 open'], true).output).toBe('OL');
  });

  it('[C7] what is not understood exits 2 with the usage, bad names exit 1 with a suggestion', () => {
    expect(answer('solve', notes, [], false).exit).toBe(2);
    const { exit, output } = answer('reach', notes, ['J3.77'], true);
    expect(exit).toBe(1);
    expect(output).toMatch(/J3\.7/);
    expect(answer('predict', notes, ['J3.7', 'FL2.3~FL2.6 broken'], true).exit).toBe(1);
  });

  it('[C7] a file that is no case is refused with its place', () => {
    const { exit, output } = answer('suspects', '{"kind": "hopline-case", "schema": 1}', [], true);
    expect(exit).toBe(1);
    expect(output.length).toBeGreaterThan(20);
  });
});
