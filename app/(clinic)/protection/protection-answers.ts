import "server-only"
import type { Caller } from "../../../lib/access/caller"
import type { Settings } from "../../../lib/domain/settings"
import { rasBlockerInAlbuminuria } from "../../../lib/measures/ras-blocker-in-albuminuria"
import { activeDrugs, type ActiveDrug } from "../../../lib/questions/active-drugs"
import { listedAllergies, type ListedAllergy } from "../../../lib/questions/listed-allergies"
import { overduePlans } from "../../../lib/questions/overdue-plans"
import type { WatchedPlan } from "../../../lib/questions/plan-watch"
import { protectionCounts, type ProtectionCounts } from "../../../lib/questions/protection-counts"
import { protectionGroups } from "../../../lib/questions/protection-groups"
import { protectionPeople, type ProtectionPerson } from "../../../lib/questions/protection-people"
import {
  rasConsiderations,
  rasStatements,
  type RasConsideration,
  type RasStatement,
} from "../../../lib/questions/ras-considerations"
import { rasReasons, type RasReason } from "../../../lib/questions/ras-reasons"
import { rasStops, type RasStop } from "../../../lib/questions/ras-stops"
import { urineHistory, type UrinePoint } from "../../../lib/questions/urine-history"
import { ask } from "../../_http/ask"
import type { ChosenMonth } from "../months"
import { rowsOfPage } from "../search-params"
import type { ProtectionView } from "./search-params"

/** People on one page of the list: as many as are gone through in one sitting. */
export const pageSize = 25

const nobody: ProtectionCounts = {
  ...{ people: 0, met: 0 },
  grouped: protectionGroups.map(() => 0),
  excluded: rasBlockerInAlbuminuria.excluded.map(() => 0),
}

export type ProtectionFacts = {
  urine: UrinePoint[]
  drugs: ActiveDrug[]
  allergies: ListedAllergy[]
  stops: RasStop[]
  reasons: RasReason[]
  considerations: RasConsideration[]
}

export type ProtectionAnswers = {
  counts: ProtectionCounts
  people: ProtectionPerson[]
  facts: ProtectionFacts
  statements: RasStatement[]
  /** Plans to start that were not followed in time. */
  overdue: WatchedPlan[]
  /** Whether the list can be the reader's own, and whether it is. */
  panel: { isOffered: boolean; isShown: boolean }
}

/** The counts, a page of the people, and the facts that a decision on each needs. */
export async function protectionAnswers(options: {
  caller: Caller
  view: ProtectionView
  chosen: ChosenMonth
  settings: Settings
}): Promise<ProtectionAnswers> {
  const { caller, view, chosen, settings } = options
  const panel = panelOf(caller, view)
  const asked = {
    as_of: chosen.asOf,
    ras_from_category: settings["ras.fromCategory"],
    clinician_id: panel.isShown ? caller.staffId : null,
  }
  const page = rowsOfPage(view.page, pageSize)
  const [counts, people, statements, overdue] = await Promise.all([
    ask(protectionCounts, asked),
    ask(protectionPeople, { ...asked, group_id: view.group, ...page }),
    ask(rasStatements),
    ask(overduePlans, asked),
  ])
  const facts = await factsOf(people, chosen.asOf)
  return { counts: counts[0] ?? nobody, people, facts, statements, overdue, panel }
}

async function factsOf(people: readonly ProtectionPerson[], asOf: string): Promise<ProtectionFacts> {
  const listed = { as_of: asOf, listed_ids: people.map((person) => person.public_id).join(",") }
  const [urine, drugs, allergies, stops, reasons, considerations] = await Promise.all([
    ask(urineHistory, listed),
    ask(activeDrugs, listed),
    ask(listedAllergies, listed),
    ask(rasStops, listed),
    ask(rasReasons, listed),
    ask(rasConsiderations, listed),
  ])
  return { urine, drugs, allergies, stops, reasons, considerations }
}

/** A nephrologist whom the staff list knows has a panel; it is shown first. */
function panelOf(caller: Caller, view: ProtectionView): ProtectionAnswers["panel"] {
  const isOffered = caller.staffId !== null && caller.roles.includes("nephrologist")
  return { isOffered, isShown: isOffered && view.whose === null }
}
