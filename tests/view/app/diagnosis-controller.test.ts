import type { ReactiveControllerHost } from 'lit';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { DiagnoseRequest, Diagnosis, Result } from '../../../src/engine.ts';
import { JOINED, ORDINARY_METER } from '../../../src/engine.ts';
import {
  type Diagnoser,
  DiagnosisController,
  sameRequest,
} from '../../../src/view/app/diagnosis-controller.ts';
import type { Answer } from '../../../src/worker/engine-client.ts';

const host: ReactiveControllerHost = {
  addController: () => undefined,
  removeController: () => undefined,
  requestUpdate: () => undefined,
  updateComplete: Promise.resolve(true),
};

const request = (notes: string): DiagnoseRequest => ({
  notes,
  meter: ORDINARY_METER,
  readings: [],
  history: [],
  state: JOINED,
  rework: [],
});

const diagnosis = (entropyBits: number): Diagnosis => ({
  findings: [],
  points: [],
  suspects: [],
  where: [],
  testsHere: [],
  testsOneStep: [],
  stop: null,
  lines: [],
  limits: [],
  entropyBits,
  doubts: [],
  unplaced: [],
});

/** Answers by hand, in any order. */
class SlowDiagnoser implements Diagnoser {
  readonly open: ((answer: Answer<Result<Diagnosis>>) => void)[] = [];
  readonly asked: DiagnoseRequest[] = [];
  readonly revisions: number[] = [];
  diagnose(asked: DiagnoseRequest, revision: number): Promise<Answer<Result<Diagnosis>>> {
    this.asked.push(asked);
    this.revisions.push(revision);
    return new Promise((resolve) => this.open.push(resolve));
  }
  stop(): void {
    this.open.at(-1)?.({ kind: 'stopped', revision: this.revisions.at(-1) ?? 0 });
  }
  async answer(at: number, value: Diagnosis): Promise<void> {
    const done = { ok: true, value, notices: [] } as const;
    this.open[at]?.({ kind: 'done', revision: this.revisions[at] ?? 0, value: done });
    await Promise.resolve();
    await Promise.resolve();
  }
}

describe('diagnosis controller', () => {
  beforeEach(() => vi.useFakeTimers());
  afterEach(() => vi.useRealTimers());

  it('[U11] an answer to an older state is dropped, however late it comes', async () => {
    const diagnoser = new SlowDiagnoser();
    const controller = new DiagnosisController(host, diagnoser, () => undefined);
    controller.update(request('a'));
    controller.update(request('b'));
    await diagnoser.answer(0, diagnosis(1));
    expect(controller.status).toBe('pending');
    await diagnoser.answer(1, diagnosis(2));
    expect(controller.status).toBe('complete');
    expect(controller.value?.entropyBits).toBe(2);
    await diagnoser.answer(0, diagnosis(3));
    expect(controller.value?.entropyBits).toBe(2);
  });

  it('[U11] the last answer stays while the next is on its way, and goes with its case', async () => {
    const diagnoser = new SlowDiagnoser();
    const heard: (number | null)[] = [];
    const controller = new DiagnosisController(host, diagnoser, (_, before) =>
      heard.push(before?.entropyBits ?? null),
    );
    controller.update(request('a'));
    await diagnoser.answer(0, diagnosis(1));
    controller.update(request('b'));
    expect(controller.value?.entropyBits).toBe(1);
    await diagnoser.answer(1, diagnosis(2));
    expect(heard).toEqual([null, 1]);
    controller.update(null);
    expect(controller.value).toBeNull();
    expect(controller.status).toBe('initial');
  });

  it('[U11] the same request is not asked twice, unless asked again by hand', async () => {
    const diagnoser = new SlowDiagnoser();
    const controller = new DiagnosisController(host, diagnoser, () => undefined);
    controller.update(request('a'));
    controller.update(request('a'));
    expect(diagnoser.asked).toHaveLength(1);
    controller.again();
    expect(diagnoser.asked).toHaveLength(2);
    expect(sameRequest(request('a'), request('b'))).toBe(false);
    expect(sameRequest(request('a'), { ...request('a'), state: { ...JOINED, split: ['S'] } })).toBe(false);
  });

  it('[U11] work is said to be slow after half a second and can be stopped', async () => {
    const diagnoser = new SlowDiagnoser();
    const controller = new DiagnosisController(host, diagnoser, () => undefined);
    controller.update(request('a'));
    vi.advanceTimersByTime(499);
    expect(controller.slow).toBe(false);
    vi.advanceTimersByTime(2);
    expect(controller.slow).toBe(true);
    controller.stop();
    await vi.advanceTimersByTimeAsync(0);
    expect(controller.status).toBe('stopped');
    expect(controller.slow).toBe(false);
  });
});
