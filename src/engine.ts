/**
 * The public face of Hopline's engine: pure functions, JSON in, JSON out. The
 * screen, the worker, the headless command and scripts import from here and
 * from nowhere below; what is not listed here is not promised.
 */
export { type AccessStep, accessNeeded, afterAccess, printAccessStep } from './board/access.ts';
export {
  type BoardMap,
  boardMapSchema,
  JOINED,
  type Line,
  type Part,
  type Polarity,
  type ReadingKind,
  type StackState,
} from './board/board-map.ts';
export {
  type CaseDocument,
  type CaseEvent,
  caseDocumentSchema,
  caseEventSchema,
  HISTORY_KINDS,
  type HistoryKind,
  type MapDocument,
  mapDocumentSchema,
  type WorkedCase,
  workedCaseSchema,
} from './board/case.ts';
export { type CaseState, compareEvents, foldCase, type PlanUnderWay } from './board/case-state.ts';
export type { ChosenPlan, PlanWishes } from './board/chosen-plan.ts';
export { compileBoard } from './board/compile.ts';
export {
  bareName,
  type CompiledBoard,
  type CompiledLine,
  type Element,
  type ElementIndex,
  type Vertex,
  type VertexIndex,
} from './board/compiled-board.ts';
export { completeEntry, type EntryChoice, type EntryCompletion } from './board/entry/complete-entry.ts';
export type { EntryContext, EntryReading } from './board/entry/entry-context.ts';
export { parseEntry } from './board/entry/parse-entry.ts';
export { printEntry } from './board/entry/print-entry.ts';
export { printOutcome } from './board/entry/print-outcome.ts';
export { type Fault, faultId, type ReworkEdit } from './board/fault.ts';
export { formatNotes } from './board/notes/format-notes.ts';
export { type ParsedNotes, parseNotes } from './board/notes/parse-notes.ts';
export { printNotes } from './board/notes/print-notes.ts';
export { type Meter, ORDINARY_METER, type Outcome, type Probe, type Reading } from './board/reading.ts';
export { type Problem, printProblem, type Result, unreachable } from './board/result.ts';
export {
  type CutsBetween,
  cutsBetween,
  pointsHangingOn,
  type ReachedPoint,
  reachedPoints,
} from './board/trace.ts';
export type {
  Diagnosis,
  Doubt,
  EvidenceItem,
  Expectation,
  Finding,
  FindingState,
  OutcomeMeaning,
  PointState,
  Suspect,
  TestAdvice,
  WhereShare,
} from './diagnosis/diagnosis.ts';
export { parseFault } from './diagnosis/parse-fault.ts';
export { createDiagnose, type DiagnoseRequest } from './diagnosis/request.ts';
export { type Prediction, predict } from './electrics/predict.ts';
export {
  type Bundle,
  type BundleSetAside,
  parseBundleFile,
  printBundleFile,
  type ReadBundle,
} from './exchange/bundle-file.ts';
export { parseCaseFile, parseMapFile, printCaseFile, printMapFile } from './exchange/case-file.ts';
export { isJsonObject, MAX_FILE_CHARACTERS } from './exchange/json.ts';
export { type EventRecord, eventRecord, readCase, readEvent, readMap } from './exchange/records.ts';
export { readWorkedCase } from './exchange/worked-case.ts';
export { type Caution, printCautions } from './rework/cautions.ts';
export {
  checkStage,
  isPass,
  type StageCheck,
  type StageTick,
  type StageVerdict,
  type TakenReading,
} from './rework/check-stage.ts';
export type { Exposure, ExposureState } from './rework/compare-exposure.ts';
export type {
  FunctionCheck,
  PartNeed,
  PlanCut,
  PlanJumper,
  PlanKind,
  ReadingAfter,
  RefusedPlan,
  ReworkPlan,
  ReworkStep,
  Stage,
  StageReading,
  StageSlip,
  StepKind,
} from './rework/plan.ts';
export { printMoney, type Quote, type QuoteItem, quotePlan, type Rate } from './rework/quote.ts';
export type { Percentiles, QuoteDriver, QuoteEntry, QuoteRange } from './rework/quote-range.ts';
export {
  ASSERTED,
  createPlan,
  type PlanAnswer,
  type PlanRequest,
  type SuspectPlans,
} from './rework/request.ts';
export { NO_WISHES, type RouteWishes } from './rework/route-request.ts';
export { type PlanSuspect, planSuspectOf } from './rework/suspect-plans.ts';
export { awgMillimetres, loadWire, WIRE_SIZES, type WireSize } from './rework/wire.ts';
export { chooseWire, judgeWire, type LineLoad, loadOfLine, type WireChoice } from './rework/wire-choice.ts';
