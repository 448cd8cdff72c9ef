import "server-only"
import { dietMonths } from "../../../lib/questions/diet-months"
import { sodiumBars, type SodiumBar } from "../../../lib/questions/sodium-bars"
import { sodiumCounts, type SodiumCounts } from "../../../lib/questions/sodium-counts"
import { sodiumEffects, type SodiumEffect } from "../../../lib/questions/sodium-effects"
import { sodiumGroups, type SodiumGroup } from "../../../lib/questions/sodium-groups"
import { sodiumLimits, type SodiumLimits } from "../../../lib/questions/sodium-limits"
import type { SodiumPerson } from "../../../lib/questions/sodium-people"
import { sodiumRatios, type SodiumRatios } from "../../../lib/questions/sodium-ratios"
import { sodiumUrines, type SodiumUrines } from "../../../lib/questions/sodium-urines"
import type { SnapshotMeta } from "../../../lib/engine/snapshot-meta"
import { dietFigure, type DietFigure } from "../../../lib/figures/diet-figure"
import { ask } from "../../_http/ask"
import type { ChosenMonth } from "../months"
import { rowsOfPage } from "../search-params"
import type { SodiumView } from "./search-params"
import { shownList } from "./sodium-lists"

/** Rows on one page of a list. */
export const pageSize = 50

const nobody: SodiumCounts = {
  ...{ counted: 0, assessed: 0, not_assessed: 0 },
  ...{ above: 0, above_uncontrolled: 0, fell: 0, rose: 0, doubtful_urine: 0 },
}

export type SodiumAnswers = {
  figure: DietFigure
  counts: SodiumCounts
  limits: SodiumLimits[]
  bars: SodiumBar[]
  ratios: SodiumRatios[]
  urines: SodiumUrines[]
  effects: SodiumEffect[]
  groups: SodiumGroup[]
  people: SodiumPerson[]
}

/** All that the sodium screen tells of a month, and a page of the list that is asked for. */
export async function sodiumAnswers(options: {
  view: SodiumView
  chosen: ChosenMonth
  snapshot: SnapshotMeta
}): Promise<SodiumAnswers> {
  const { view, chosen, snapshot } = options
  const day = { as_of: chosen.asOf }
  const limited = { ...day, sodium_limit_mg: snapshot.settings["diet.limitMg"] }
  const { question, detail } = shownList(view.list)
  const page = rowsOfPage(view.page, pageSize)
  const [months, counts, limits, bars, ratios, urines, effects, groups, people] = await Promise.all([
    ask(dietMonths),
    ask(sodiumCounts, day),
    ask(sodiumLimits, day),
    ask(sodiumBars, day),
    ask(sodiumRatios, day),
    ask(sodiumUrines, day),
    ask(sodiumEffects, limited),
    ask(sodiumGroups, limited),
    ask(question, { ...day, detail, ...page }),
  ])
  const figure = dietFigure(months, snapshot.asOfs, chosen.asOf)
  return { figure, counts: counts[0] ?? nobody, limits, bars, ratios, urines, effects, groups, people }
}
