export type { GwpVintage } from './accounts/gwp.ts';
export type { ChartColours } from './charts/chart-colours.ts';
export { type Check, type Evidence, type Outcome, outcomes } from './checks/check.ts';
export { checks } from './checks/checks.ts';
export { messageText } from './checks/message-text.ts';
export { asRecorded, type Policy, policySchema, readPolicy } from './checks/policy.ts';
export { DryholdError } from './errors.ts';
export { type PlanAnswer, planAnswer, type PlannedRiseRow, type PlanQuestion } from './facts/plan/plan-answer.ts';
export type { TestPlan } from './facts/plan/test-plan.ts';
export { type Skill, skills } from './fleet/skill.ts';
export { lineFit } from './numerics/line-fit.ts';
export { median } from './numerics/median.ts';
export { quantile } from './numerics/quantile.ts';
export { wilsonInterval } from './numerics/wilson-interval.ts';
export type { AccountsReport, BalanceLine } from './pages/accounts-data.ts';
export { apartReasonText } from './pages/apart-text.ts';
export type { CallbackReport } from './pages/callback-data.ts';
export { co2eText } from './pages/co2e-text.ts';
export { dayText, monthText, periodText } from './pages/day-text.ts';
export type { FleetReport, RatesReport } from './pages/fleet-data.ts';
export type { LeaksReport } from './pages/leaks-data.ts';
export type { ShownChart, ShownRow, ShownValue } from './pages/notebook/notebook-output.ts';
export { countText, fineShareText, groupedCount, moneyText, percentText, shareText } from './pages/share-text.ts';
export { columnsOf, type Table } from './records/table.ts';
export { inputTables, outputTables, tableNamed } from './records/tables.ts';
export { type ReferenceKey, references } from './references.ts';
export { type SourceMap, sourceMapSchema } from './sources/source-map.ts';
export { type AccountsOptions, accountsReport } from './steps/accounts-report.ts';
export { callbackReport } from './steps/callback-report.ts';
export { fleetReport, type WholeReportOptions } from './steps/fleet-report.ts';
export { type IngestOptions, ingest } from './steps/ingest.ts';
export type { IngestResult } from './steps/ingest-result.ts';
export { type JudgeOptions, type JudgeResult, judge } from './steps/judge.ts';
export { type LeaksOptions, leaksReport } from './steps/leaks-report.ts';
export { type Notebook, openNotebook, type Query, type Show } from './steps/notebook/open-notebook.ts';
export type { ChartWords, TableWords } from './steps/notebook/shown-output.ts';
export type { CallbackOptions } from './steps/open-callbacks.ts';
export type { PeopleNames } from './steps/people-names.ts';
export { report } from './steps/report.ts';
export { type ExportFormat, exportTable } from './store/export-table.ts';
export { runQuery } from './store/run-query.ts';
export { Store, type StoreMode } from './store/store.ts';
export { findVacuumPhases, type VacuumPhase, type VacuumPhases } from './traces/vacuum-phases.ts';
export type { PhaseMark, VacuumSeries } from './traces/vacuum-series.ts';
export {
  bookedMassText,
  durationText,
  lengthText,
  massText,
  riseRateText,
  type UnitSystem,
  vacuumText,
  volumeText,
  yearlyLossText,
} from './units/display.ts';
export { absolutePressure, type GaugePressure, gaugePressure } from './units/gauge-pressure.ts';
export { type ParseQuantityOptions, parseQuantity } from './units/parse-quantity.ts';
export type { Quantity, QuantityKind } from './units/quantity.ts';
export { fromInterchange, toInterchange, type UnitName, unitNames } from './units/unit.ts';
