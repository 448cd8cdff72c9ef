import "server-only"
import { isWhole } from "../../../../lib/access/scope"
import { plainToday } from "../../../../lib/domain/plain-date"
import { reasonIds } from "../../../../lib/domain/reason-ids"
import { pairFigure } from "../../../../lib/outreach/effect-figures"
import { turnedInto } from "../../../../lib/outreach/turned-into"
import { store } from "../../../../lib/store/client"
import { effectOfOutreach, type EffectRow } from "../../../../lib/store/outreach-effect"
import { readSettings } from "../../../../lib/store/settings"
import { callerScope } from "../../../_http/ask"
import type { RawSearch } from "../../../_ui/href"
import { clinicTimeZone } from "../../time-zone"
import { parseEffectView } from "./search-params"

/** Below it no share of people is shown anywhere; the clinic may set more. */
const fewestShown = 20

export type EffectFigures = ReturnType<typeof figuresOf>

export type EffectAnswers = Awaited<ReturnType<typeof effectAnswers>>

/** What came of the reasons of a period, all together and each by itself in the order of the reasons. */
export async function effectAnswers(raw: RawSearch) {
  const view = parseEffectView(raw, plainToday(new Date(), await clinicTimeZone()))
  const [scope, settings] = [await callerScope(), await readSettings(store())]
  const rows = await effectOfOutreach(store(), { ...view, scope, turnedInto })
  const fewest = Math.max(fewestShown, settings["reports.smallestGroup"])
  const all = rows.find((row) => row.reason === null && row.people > 0)
  const each = reasonIds.flatMap((id) => rows.filter((row) => row.reason === id))
  return {
    ...{ view, settings, fewest, isWhole: isWhole(scope) },
    all: all ? figuresOf(all, fewest) : null,
    each: each.map((row) => figuresOf(row, fewest)),
  }
}

function figuresOf(row: EffectRow, fewest: number) {
  const { reason, people, contacted, reached, paired } = row
  const month = {
    ...{ pairs: row.pairs_30, contacted_resolved: row.contacted_resolved_30 },
    others_resolved: row.others_resolved_30,
  }
  const quarter = {
    ...{ pairs: row.pairs_90, contacted_resolved: row.contacted_resolved_90 },
    others_resolved: row.others_resolved_90,
  }
  return {
    ...{ reason, people, contacted, reached, paired },
    pairs: [pairFigure(30, month, fewest), pairFigure(90, quarter, fewest)],
  }
}
