import type { MessageJsonType } from "@bufbuild/protobuf";
import type { AdvisorService, FactInfoJson } from "../../contract/glossladder/v1/advisor_service_pb";
import type { BookingService } from "../../contract/glossladder/v1/booking_service_pb";
import type { DecisionExplanationJson, DecisionMapJson, ExplanationJson } from "../../contract/glossladder/v1/explain_pb";
import type { HistoryService, ReplayReportJson, ReplayTallyJson, RuleHintJson } from "../../contract/glossladder/v1/history_service_pb";
import type { DefectJson, FilmSpotJson, GlossSpotJson, InspectionJson, PanelJson } from "../../contract/glossladder/v1/inspection_pb";
import type {
  CorrectionJson,
  JobEventJson,
  JobJson,
  JobPanelJson,
  ProgressJson,
  ReadingsJson,
  TrialRecordJson,
  VehicleRecordJson,
} from "../../contract/glossladder/v1/job_pb";
import type { JobService } from "../../contract/glossladder/v1/job_service_pb";
import type {
  BayBlockJson,
  ExposureDayJson,
  FitPanelJson,
  FitPointJson,
  MoneyJson,
  MoneySpanJson,
  SourceInfoJson,
  SpanJson,
  WorkPlanJson,
} from "../../contract/glossladder/v1/plan_pb";
import type { PlanService } from "../../contract/glossladder/v1/plan_service_pb";
import type { CautionJson, ReasonJson, WantedJson } from "../../contract/glossladder/v1/reason_pb";
import type { PanelAdviceJson, RecommendationJson, RemovalJson, StepAdviceJson } from "../../contract/glossladder/v1/recommendation_pb";
import type { RuleCaseCoverageJson, RuleCaseJson } from "../../contract/glossladder/v1/rule_case_pb";
import type { RuleEffectJson, RuleEffectsJson } from "../../contract/glossladder/v1/rule_edit_pb";
import type { RuleJson, RuleSetJson, RuleTableJson } from "../../contract/glossladder/v1/rule_set_pb";
import type { RulesService } from "../../contract/glossladder/v1/rules_service_pb";
import type { TrialJson } from "../../contract/glossladder/v1/trial_pb";
import type { MeasuredChangeJson, VerdictJson } from "../../contract/glossladder/v1/verdict_pb";
import type { LadderJson, StepJson } from "../../contract/glossladder/v1/words_pb";
import type { WorkCourseJson } from "../../contract/glossladder/v1/work_course_pb";

// The contract's messages as the service writes them in JSON: fields are named as in the .proto files. Only types come from
// there; nothing of it is in the page.
type SnakeOf<S extends string> = S extends `${infer Head}${infer Rest}`
  ? Head extends Lowercase<Head>
    ? `${Head}${SnakeOf<Rest>}`
    : `_${Lowercase<Head>}${SnakeOf<Rest>}`
  : S;

export type Wire<T> = T extends "NaN" | "Infinity" | "-Infinity"
  ? never
  : T extends string | number | boolean | null | undefined
    ? T
    : T extends readonly (infer Item)[]
      ? Wire<Item>[]
      : { [K in keyof T as K extends string ? SnakeOf<K> : never]: Wire<T[K]> };

type Services = {
  AdvisorService: typeof AdvisorService;
  BookingService: typeof BookingService;
  HistoryService: typeof HistoryService;
  JobService: typeof JobService;
  PlanService: typeof PlanService;
  RulesService: typeof RulesService;
};
export type ServiceName = keyof Services;
export type MethodName<S extends ServiceName> = keyof Services[S]["method"] & string;
type MethodOf<S extends ServiceName, M extends MethodName<S>> = Services[S]["method"][M] & { input: unknown; output: unknown };
type JsonOf<D> = D extends Parameters<typeof jsonOf>[0] ? Wire<MessageJsonType<D>> : never;
declare function jsonOf(desc: import("@bufbuild/protobuf").DescMessage): void;

export type Question<S extends ServiceName, M extends MethodName<S>> = JsonOf<MethodOf<S, M>["input"]>;
export type Answer<S extends ServiceName, M extends MethodName<S>> = JsonOf<MethodOf<S, M>["output"]>;

export type BayBlock = Wire<BayBlockJson>;
export type Caution = Wire<CautionJson>;
export type Correction = Wire<CorrectionJson>;
export type Decision = Wire<DecisionExplanationJson>;
export type DecisionMap = Wire<DecisionMapJson>;
export type Defect = Wire<DefectJson>;
export type Explanation = Wire<ExplanationJson>;
export type ExposureDay = Wire<ExposureDayJson>;
export type FactInfo = Wire<FactInfoJson>;
export type FilmSpot = Wire<FilmSpotJson>;
export type FitPanel = Wire<FitPanelJson>;
export type FitPoint = Wire<FitPointJson>;
export type GlossSpot = Wire<GlossSpotJson>;
export type Inspection = Wire<InspectionJson>;
export type Job = Wire<JobJson>;
export type JobEvent = Wire<JobEventJson>;
export type JobPanel = Wire<JobPanelJson>;
export type Ladder = LadderJson;
export type MeasuredChange = Wire<MeasuredChangeJson>;
export type Money = Wire<MoneyJson>;
export type MoneySpan = Wire<MoneySpanJson>;
export type Panel = Wire<PanelJson>;
export type PanelAdvice = Wire<PanelAdviceJson>;
export type Progress = Wire<ProgressJson>;
export type Readings = Wire<ReadingsJson>;
export type Reason = Wire<ReasonJson>;
export type Recommendation = Wire<RecommendationJson>;
export type ReplayReport = Wire<ReplayReportJson>;
export type ReplayTally = Wire<ReplayTallyJson>;
export type Rule = Wire<RuleJson>;
export type RuleCase = Wire<RuleCaseJson>;
export type RuleCaseCoverage = Wire<RuleCaseCoverageJson>;
export type RuleEffect = Wire<RuleEffectJson>;
export type RuleEffects = Wire<RuleEffectsJson>;
export type RuleHint = Wire<RuleHintJson>;
export type RuleSet = Wire<RuleSetJson>;
export type RuleTable = Wire<RuleTableJson>;
export type Removal = Wire<RemovalJson>;
export type SourceInfo = Wire<SourceInfoJson>;
export type Span = Wire<SpanJson>;
export type Step = StepJson;
export type StepAdvice = Wire<StepAdviceJson>;
export type Trial = Wire<TrialJson>;
export type TrialRecord = Wire<TrialRecordJson>;
export type VehicleRecord = Wire<VehicleRecordJson>;
export type Verdict = Wire<VerdictJson>;
export type Wanted = Wire<WantedJson>;
export type WorkCourse = Wire<WorkCourseJson>;
export type WorkPlan = Wire<WorkPlanJson>;
