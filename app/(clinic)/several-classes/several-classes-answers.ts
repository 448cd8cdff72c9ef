import "server-only"
import { activeDrugs, type ActiveDrug } from "../../../lib/questions/active-drugs"
import {
  severalClassesCounts,
  type SeveralClassesCounts,
} from "../../../lib/questions/several-classes-counts"
import {
  severalClassesPeople,
  type SeveralClassesPerson,
} from "../../../lib/questions/several-classes-people"
import { ask } from "../../_http/ask"
import type { ChosenMonth } from "../months"
import { rowsOfPage } from "../search-params"
import type { SeveralClassesView } from "./search-params"

/** People on one page of the list. */
export const pageSize = 50

const nobody: SeveralClassesCounts = { people: 0, severe: 0, found: [] }

export type SeveralClassesAnswers = {
  counts: SeveralClassesCounts
  people: SeveralClassesPerson[]
  drugs: ActiveDrug[]
}

/** The counts, a page of the people, and what these take. */
export async function severalClassesAnswers(options: {
  view: SeveralClassesView
  chosen: ChosenMonth
}): Promise<SeveralClassesAnswers> {
  const { view, chosen } = options
  const day = { as_of: chosen.asOf }
  const page = rowsOfPage(view.page, pageSize)
  const [counts, people] = await Promise.all([
    ask(severalClassesCounts, day),
    ask(severalClassesPeople, { ...day, detail: view.finding, ...page }),
  ])
  const listed_ids = people.map((person) => person.public_id).join(",")
  const drugs = await ask(activeDrugs, { ...day, listed_ids })
  return { counts: counts[0] ?? nobody, people, drugs }
}
