import { ask } from "../_http/ask"
import type { ChosenBaseline } from "../../lib/domain/chart-marks"
import type { MeasureAction } from "../../lib/domain/measure-actions"
import { plainToday, type PlainDate } from "../../lib/domain/plain-date"
import type { SnapshotMeta } from "../../lib/engine/snapshot-meta"
import { dietSodium } from "../../lib/measures/diet-sodium"
import { wordedMeasures } from "../../lib/measures/worded-measures"
import { detailCounts, type DetailCount } from "../../lib/questions/measure-details"
import { dietMonths, type DietMonth } from "../../lib/questions/diet-months"
import { measureInMonth } from "../../lib/questions/measure-in-month"
import { measureMonths } from "../../lib/questions/measure-months"
import { panelCounts, type PanelCounts } from "../../lib/questions/panel-counts"
import { standingChanges } from "../../lib/questions/standing-changes"
import { measureFigure, type MeasureFigure } from "../../lib/figures/measure-figure"
import type { MonthToday } from "../../lib/questions/months-today"
import { listChosenBaselines } from "../../lib/store/chart-baselines"
import { store } from "../../lib/store/client"
import { listActions } from "../../lib/store/measure-actions"
import { askDietToday, askMonthToday } from "./month-closing-answers"
import { askDietSince } from "./diet-since"
import type { DietChangeWords } from "../../lib/figures/diet-change-words"
import type { ChosenMonth } from "./months"

export type MonthAnswers = {
  counts: PanelCounts
  figures: Map<string, MeasureFigure>
  details: DetailCount[]
  diet: DietMonth[]
  dietBaseline: ChosenBaseline | null
  dietSince: DietChangeWords | null
  /** What today's facts and settings make of the means of a closed month; null of another. */
  dietToday: DietMonth[] | null
  asOfs: string[]
  /** What the meetings up to the month wrote down, and the clinic's day by which it is judged late. */
  actions: MeasureAction[]
  clinicToday: PlainDate
  /** What today's facts and settings make of a closed month. */
  today: ReadonlyMap<string, MonthToday>
}

const nobody: PanelCounts = {
  in_panel: 0,
  ckd_before_replacement: 0,
  without_pressure: 0,
  without_urine_albumin: 0,
  without_diet_record: 0,
  kidney_unknown: 0,
}

/** Asks the snapshot everything the Month screen tells, all at once. */
export async function askMonth(snapshot: SnapshotMeta, chosen: ChosenMonth): Promise<MonthAnswers> {
  const day = { as_of: chosen.asOf }
  const [counts, rows, inMonthRows, moves, details, diet, baselines, actions] = await Promise.all([
    ask(panelCounts, day),
    ask(measureMonths),
    ask(measureInMonth),
    chosen.earlierAsOf ? ask(standingChanges, { ...day, earlier_as_of: chosen.earlierAsOf }) : [],
    ask(detailCounts, day),
    ask(dietMonths),
    listChosenBaselines(store()),
    listActions(store(), { asOf: chosen.asOf }),
  ])
  const { asOfs, settings, timeZone } = snapshot
  const figures = wordedMeasures(settings).map((measure) =>
    measureFigure({
      ...{ measure, rows, moves, asOfs, asOf: chosen.asOf, earlierAsOf: chosen.earlierAsOf },
      inMonth: { rows: inMonthRows, chosenBaseline: baselines.get(measure.id) ?? null },
    }),
  )
  return {
    counts: counts[0] ?? nobody,
    figures: new Map(figures.map((figure) => [figure.measure.id, figure])),
    details,
    diet,
    dietBaseline: baselines.get(dietSodium.id) ?? null,
    dietSince: await askDietSince(chosen),
    dietToday: await askDietToday(snapshot, chosen.asOf),
    ...{ asOfs, actions },
    clinicToday: plainToday(new Date(), timeZone),
    today: await askMonthToday(chosen.asOf),
  }
}
