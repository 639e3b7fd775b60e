import type { Fit } from "../job/plan";
import type { FitPoint } from "../wire/contract";
import { money } from "../words/money";
import { duration, figure } from "../words/number";
import { phrase } from "../words/phrase";

// fixedWords says what an answer is for: "6 h", "€250.00".
export const fixedWords = (fit: Fit): string =>
  "hours" in fit.fixed
    ? duration(fit.fixed.hours * 60)
    : money({ ...fit.fixed.price, currency_code: fit.fixed.price.currency_code || fit.answer.full_total?.likely?.currency_code });

export const pointWords = (p: FitPoint | undefined): string =>
  p ? phrase("{time}: {pct} % of the full result", { time: duration(p.work_min ?? 0), pct: figure(p.result_pct ?? 0, 0) }) : "";
