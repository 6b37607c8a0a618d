/**
 * What a meter should show at a stage of a rework, as a distribution: the model
 * with the rework in place, shifted by what the model misses against good
 * boards where the reading is still near what they show, and with a spread that
 * grows with how far the rework moves the reading. The same rule as for
 * readings under a fault (`diagnosis/forecast.ts`), with rework for faults.
 */
import type { CompiledBoard } from '../board/compiled-board.ts';
import type { Fault, ReworkEdit } from '../board/fault.ts';
import { FUNCTION_WORDS, type Meter, type Probe } from '../board/reading.ts';
import type { Forecast } from '../diagnosis/forecast.ts';
import {
  createHealthy,
  isResistance,
  meterSpread,
  modelSpread,
  type NumberForecast,
  overLimit,
  withinMeter,
} from '../diagnosis/healthy.ts';
import { combineSpreads } from '../diagnosis/normal.ts';
import { probeKey } from '../diagnosis/probe-key.ts';
import { predict } from '../electrics/predict.ts';

/** Answers for one board and meter; answers are kept. */
export interface StageForecaster {
  forecast(probe: Probe, edits: readonly ReworkEdit[], faults: readonly Fault[]): Forecast;
}

/** How wrong the model may be about the change a rework makes, as a share of it. Common practice, no source. */
const CHANGE_SHARE = 0.12;
/** Below this share of the healthy spread a change counts as none. */
const NO_CHANGE_SPREADS = 0.02;
/** Resistance between two points above this runs through junctions, in ohms: only its size is known. */
export const THROUGH_JUNCTIONS_OHMS = 2000;
const JUNCTION_SHARE = 0.35;
/** Share of yes/no tests that come out as predicted. Common practice, no source. */
const WORD_SHARE = 0.95;

/** Makes a forecaster. Each new question costs one or two solves of the probe's piece of the board. */
export function createStageForecaster(board: CompiledBoard, meter: Meter): StageForecaster {
  const kept = new Map<string, Forecast>();
  const figure = (probe: Probe, edits: readonly ReworkEdit[], faults: readonly Fault[]): number => {
    const { volts, ohms } = predict(board, { probe, faults, rework: edits, meter });
    return withinMeter((isResistance(probe) ? ohms : volts) ?? Number.NaN, overLimit(probe, meter));
  };
  const healthy = createHealthy(board, meter, (probe) => figure(probe, [], []));

  const number = (probe: Probe, edits: readonly ReworkEdit[], faults: readonly Fault[]): NumberForecast => {
    const { mean: soundMean, spread: soundSpread, overAbove } = healthy(probe);
    const base: NumberForecast = { kind: 'number', mean: soundMean, spread: soundSpread, overAbove };
    const model = figure(probe, edits, faults);
    const sound = figure(probe, [], []);
    const change = Math.abs(model - sound);
    if (change < NO_CHANGE_SPREADS * soundSpread) return widen(probe, base);
    const isShown = Math.max(model, sound, soundMean) < overAbove;
    const nearness = Math.max(0, 1 - change / Math.max(Math.abs(sound), 1e-6));
    const mean = isShown ? Math.max(0, model + (soundMean - sound) * nearness) : model;
    const spread = combineSpreads(
      modelSpread(probe, model) / 2,
      CHANGE_SHARE * Math.min(change, model),
      meterSpread(probe, model, meter),
    );
    return widen(probe, { kind: 'number', mean, spread, overAbove });
  };

  return {
    forecast(probe, edits, faults) {
      const key = `${probeKey(probe)} ${JSON.stringify([edits, faults])}`;
      const known = kept.get(key);
      if (known !== undefined) return known;
      const made = isYesNo(probe)
        ? { kind: 'words' as const, shares: wordShares(board, probe, edits, faults, meter) }
        : number(probe, edits, faults);
      kept.set(key, made);
      return made;
    },
  };
}

function isYesNo(probe: Probe): boolean {
  return probe.kind === 'function' || probe.kind === 'pull';
}

/** A high resistance between points depends on the meter: its spread is that of junctions. */
function widen(probe: Probe, forecast: NumberForecast): NumberForecast {
  if (probe.kind !== 'between' || forecast.mean < THROUGH_JUNCTIONS_OHMS) return forecast;
  return { ...forecast, spread: Math.max(forecast.spread, JUNCTION_SHARE * forecast.mean) };
}

function wordShares(
  board: CompiledBoard,
  probe: Probe,
  edits: readonly ReworkEdit[],
  faults: readonly Fault[],
  meter: Meter,
): Readonly<Record<string, number>> {
  const { outcome } = predict(board, { probe, faults, rework: edits, meter });
  const word = outcome.kind === 'word' ? outcome.word : 'dead';
  const rest = (1 - WORD_SHARE) / (FUNCTION_WORDS.length - 1);
  return Object.fromEntries(FUNCTION_WORDS.map((name) => [name, name === word ? WORD_SHARE : rest]));
}
