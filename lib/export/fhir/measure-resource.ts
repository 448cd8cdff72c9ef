import { withSettings } from "../../domain/setting-words"
import { dietSodium } from "../../measures/diet-sodium"
import type { Condition, WordedMeasure } from "../../measures/types"
import type { MonthReport } from "../../figures/month-report"
import {
  improvementConcept,
  measureUrl,
  narrative,
  notMeasuredConcept,
  populationConcept,
  scoringConcept,
  versionOf,
} from "./codes"
import type { MeasurePopulation, MeasureResource } from "./types"

const disclaimer =
  "Supports licensed clinicians, who decide; local policy applies. Each person counts in the first that applies: " +
  "not in the population, excluded, not measured, met, documented reason, not met."

/** What a measure with standings counts, each population with its words and its condition in SQL. */
export function measureResource(measure: WordedMeasure, report: MonthReport): MeasureResource {
  const isUp = measure.direction === "up"
  const counted = isUp ? measure.population : [...measure.population, ...measure.unknown.map(not)]
  const populations: (MeasurePopulation | null)[] = [
    populationOf(measure.population, populationConcept("initial-population"), "and"),
    populationOf(counted, populationConcept("denominator"), "and"),
    populationOf(measure.excluded, populationConcept("denominator-exclusion"), "or"),
    populationOf(measure.unknown, notMeasuredConcept, "or"),
    populationOf([measure.met], populationConcept("numerator"), "and"),
    populationOf(measure.exception, populationConcept("denominator-exception"), "or"),
  ]
  return {
    ...frame(measure, report),
    version: versionOfMeasure(measure),
    scoring: scoringConcept("proportion"),
    improvementNotation: improvementConcept(measure.direction),
    relatedArtifact: [{ type: "citation", citation: measure.source }],
    group: [{ population: populations.filter((one) => one !== null) }],
  }
}

/** The mean sodium: one group for each way of asking, since they are never mixed in one mean. */
export function dietResource(report: MonthReport): MeasureResource {
  return {
    ...frame(dietSodium, report),
    version: dietVersion(report),
    scoring: scoringConcept("continuous-variable"),
    improvementNotation: improvementConcept("down"),
    relatedArtifact: dietSodium.limits.map((limit) => ({ type: "citation", citation: limit.source })),
    group: dietSodium.series.map((series) => ({
      code: { text: series },
      population: [
        populationOf([inPanel], populationConcept("initial-population"), "and"),
        populationOf([inPanel, recordOf(series)], populationConcept("measure-population"), "and"),
        populationOf([meanOf(series)], populationConcept("measure-observation"), "and"),
      ].filter((one) => one !== null),
    })),
  }
}

/** Another version as soon as a condition, or a setting that shapes the measure, is another. */
export function versionOfMeasure(measure: WordedMeasure): string {
  const conditions = [...measure.population, ...measure.excluded, ...measure.unknown, measure.met]
  const settings = measure.settings.map((key) => withSettings(`${key} {${key}}`, measure.set))
  return versionOf([...[...conditions, ...measure.exception].map((one) => one.sql), ...settings])
}

export function dietVersion(report: MonthReport): string {
  return versionOf([...dietSodium.series, withSettings("{diet.urineRecovery}", report.settings)])
}

type Told = { id: string; name: string; question: string; action: string }

function frame(measure: Told, report: MonthReport) {
  return {
    resourceType: "Measure",
    id: measure.id,
    text: narrative([measure.question]),
    url: measureUrl(measure.id),
    name: measure.id
      .split("-")
      .map((word) => word.charAt(0).toUpperCase() + word.slice(1))
      .join(""),
    title: measure.name,
    status: "active",
    date: report.builtAt,
    publisher: report.clinicName,
    description: measure.question,
    purpose: measure.action,
    disclaimer,
  } as const
}

type Clause = Pick<Condition, "sql" | "words">

const inPanel: Clause = { sql: "p.in_panel", words: "in the panel" }

function recordOf(series: string): Clause {
  return {
    sql: `exists (select 1 from sodium_records as r where r.patient_id = p.patient_id and r.series = '${series}' and r.day between date_trunc('month', p.as_of) and p.as_of)`,
    words: `a record of the series (${series}) dated in the month`,
  }
}

function meanOf(series: string): Clause {
  return {
    sql: `select avg(r.sodium_mg) from sodium_records as r where r.patient_id = p.patient_id and r.series = '${series}' and r.day between date_trunc('month', p.as_of) and p.as_of`,
    words: "the mean of the person's records of the month, in mg of sodium a day; each person weighs one",
  }
}

function not(condition: Clause): Clause {
  return { sql: `not coalesce(${condition.sql}, false)`, words: `not: ${condition.words}` }
}

function populationOf(
  conditions: readonly Clause[],
  code: MeasurePopulation["code"],
  joint: "and" | "or",
): MeasurePopulation | null {
  if (conditions.length === 0) return null
  const words = conditions.map((one) => one.words).join(`; ${joint} `)
  const [only] = conditions
  const expression =
    conditions.length === 1 && only ? only.sql : conditions.map((one) => `(${one.sql})`).join(` ${joint} `)
  // A media type of its own (RFC 6922): the conditions are SQL over one row for each person and day.
  return {
    code,
    description: words,
    criteria: { description: words, language: "application/sql", expression },
  }
}
