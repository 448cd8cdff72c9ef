import "server-only"
import { activeDrugs, type ActiveDrug } from "../../../lib/questions/active-drugs"
import { keptClasses, type KeptClass } from "../../../lib/questions/kept-classes"
import { startingCounts, type StartingCounts } from "../../../lib/questions/starting-and-stopping-counts"
import { startingPeople, type StartingPerson } from "../../../lib/questions/starting-and-stopping-people"
import { stoppedClasses, type StoppedClass } from "../../../lib/questions/stopped-classes"
import { ask } from "../../_http/ask"
import type { ChosenMonth } from "../months"
import { rowsOfPage } from "../search-params"
import type { StartingView } from "./search-params"

/** People on one page of a list. */
export const pageSize = 50

const nobody: StartingCounts = { groups: [], found: [] }

/** What is told of the drugs of people. */
export type DrugFacts = { drugs: ActiveDrug[]; kept: KeptClass[]; stops: StoppedClass[] }

export type StartingAnswers = DrugFacts & { counts: StartingCounts; people: StartingPerson[] }

/** The counts, a page of the people of a list, what these take and what they stopped. */
export async function startingAnswers(options: {
  view: StartingView
  chosen: ChosenMonth
}): Promise<StartingAnswers> {
  const { view, chosen } = options
  const day = { as_of: chosen.asOf }
  const page = rowsOfPage(view.page, pageSize)
  const [counts, people] = await Promise.all([
    ask(startingCounts, day),
    ask(startingPeople, { ...day, ...page, group_id: view.group, detail: view.finding }),
  ])
  const listed = { ...day, listed_ids: people.map((person) => person.public_id).join(",") }
  const [drugs, kept, stops] = await Promise.all([
    ask(activeDrugs, listed),
    ask(keptClasses, listed),
    ask(stoppedClasses, listed),
  ])
  return { counts: counts[0] ?? nobody, people, drugs, kept, stops }
}

/** Of all that is told of drugs, what is one person's. */
export function drugFactsOf(answers: DrugFacts, publicId: string): DrugFacts {
  const isOwn = (one: { public_id: string }) => one.public_id === publicId
  return {
    drugs: answers.drugs.filter(isOwn),
    kept: answers.kept.filter(isOwn),
    stops: answers.stops.filter(isOwn),
  }
}
