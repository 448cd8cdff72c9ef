import type { Standing } from "../../domain/standings"
import type { MonthReport, ReportedMeasure } from "../../figures/month-report"
import { entryUrl, notMeasuredConcept, populationConcept } from "./codes"
import { summaryReport } from "./measure-report"
import type { Concept, MeasureReport, PatientList } from "./types"

/** Where somebody stands on a measure, by the site's own number of the person. */
export type ListedStanding = { measure_id: string; public_id: string; standing: Standing }

type Listed = { name: string; code: Concept; standings: readonly Standing[] }

const population = ["excluded", "unknown", "met", "exception", "not met"] as const

/** The report of a measure that names who is counted, and a list of people for each of its populations. */
export function subjectLists(
  measure: ReportedMeasure,
  { report, people }: { report: MonthReport; people: readonly ListedStanding[] },
): (MeasureReport | PatientList)[] {
  const { id, direction } = measure.figure.measure
  const own = people.filter((one) => one.measure_id === id)
  const lists = listedPopulations(direction === "up").map((listed) => ({
    listed,
    list: listOf(
      { id: `${id}-${report.month}-${listed.name}`, title: listed.name.replaceAll("-", " "), report },
      own.filter((one) => listed.standings.includes(one.standing)).map((one) => one.public_id),
    ),
  }))
  const { group, ...summary } = summaryReport({ ...measure, divisions: [] }, report)
  return [
    {
      ...summary,
      id: `${summary.id}-people`,
      type: "subject-list",
      group: [
        {
          population: lists.map(({ listed, list }) => ({
            code: listed.code,
            count: list.entry?.length ?? 0,
            subjectResults: { reference: entryUrl(`List/${list.id}`) },
          })),
          ...(group[0]?.measureScore ? { measureScore: group[0].measureScore } : {}),
        },
      ],
    },
    ...lists.map(({ list }) => list),
  ]
}

function listedPopulations(isUp: boolean): Listed[] {
  const counted = isUp ? population : population.filter((one) => one !== "unknown")
  return [
    { name: "initial-population", code: populationConcept("initial-population"), standings: population },
    { name: "denominator", code: populationConcept("denominator"), standings: counted },
    { name: "exclusion", code: populationConcept("denominator-exclusion"), standings: ["excluded"] },
    { name: "exception", code: populationConcept("denominator-exception"), standings: ["exception"] },
    { name: "numerator", code: populationConcept("numerator"), standings: ["met"] },
    { name: "not-measured", code: notMeasuredConcept, standings: ["unknown"] },
  ]
}

/** A list of nobody says so: an empty one is no valid FHIR. */
function listOf(
  about: { id: string; title: string; report: MonthReport },
  publicIds: readonly string[],
): PatientList {
  const { id, title, report } = about
  const frame = { resourceType: "List", id, status: "current", mode: "snapshot", title } as const
  if (publicIds.length > 0) {
    const entry = publicIds.toSorted().map((one) => ({ item: { reference: `Patient/${one}` } }))
    return { ...frame, date: report.builtAt, entry }
  }
  const system = "http://terminology.hl7.org/CodeSystem/list-empty-reason"
  return { ...frame, date: report.builtAt, emptyReason: { coding: [{ system, code: "nilknown" }] } }
}
