import { dietFinding, type DietSeries } from "../../figures/diet-figure"
import { figureSentence, rateWords } from "../../figures/figure-words"
import type { MonthReport, ReportedMeasure } from "../../figures/month-report"
import { partOfClinic } from "../../figures/report-standing"
import { dietSodium } from "../../measures/diet-sodium"
import type { Direction, Rate, StandingCounts } from "../../statistics/rate"
import { improvementConcept, measureUrl, narrative, notMeasuredConcept, populationConcept } from "./codes"
import { dietVersion, versionOfMeasure } from "./measure-resource"
import type { MeasureReport, ReportGroup, ReportPopulation } from "./types"

/** The counts of a measure in the month: how many stand in each population, and the rate of the definitions. */
export function summaryReport({ figure, divisions }: ReportedMeasure, report: MonthReport): MeasureReport {
  const { measure, counts, rate } = figure
  const hidden = divisions.some((division) => division.groups.some((group) => group.shown === null))
  const notice = hidden
    ? [`Groups of fewer than ${report.settings["reports.smallestGroup"]} people are not shown.`]
    : []
  return {
    ...frame(measure.id, report),
    text: narrative([figureSentence(figure), ...rateWords(figure), ...notice, ...limitOf(report)]),
    type: "summary",
    measure: `${measureUrl(measure.id)}|${versionOfMeasure(measure)}`,
    improvementNotation: improvementConcept(measure.direction),
    group: [
      {
        population: reportPopulations(counts, measure.direction),
        ...scoreOf(rate),
        ...(divisions.length === 0
          ? {}
          : {
              stratifier: divisions.map((division) => ({
                code: [{ text: division.kind }],
                stratum: division.groups.map(({ name, shown }) => ({
                  value: { text: name },
                  ...(shown === null
                    ? {}
                    : {
                        population: reportPopulations(shown.counts, measure.direction),
                        ...scoreOf(shown.rate),
                      }),
                })),
              })),
            }),
      },
    ],
  }
}

/** The mean sodium of the month, one group for each way of asking. */
export function dietReport(series: readonly DietSeries[], report: MonthReport): MeasureReport {
  return {
    ...frame(dietSodium.id, report),
    text: narrative([...series.map(dietFinding), ...limitOf(report)]),
    type: "summary",
    measure: `${measureUrl(dietSodium.id)}|${dietVersion(report)}`,
    improvementNotation: improvementConcept("down"),
    group: series.map((one): ReportGroup => ({
      code: { text: one.name },
      population: [
        { code: populationConcept("initial-population"), count: report.panel.in_panel },
        { code: populationConcept("measure-population"), count: one.now.n },
      ],
      ...(one.now.meanMg === null
        ? {}
        : {
            measureScore: {
              value: one.now.meanMg,
              unit: "mg/d",
              system: "http://unitsofmeasure.org",
              code: "mg/d",
            },
          }),
    })),
  }
}

/**
 * The populations of a summary. Whoever was not measured stays in the denominator where more is better, and is not
 * in it otherwise, so that numerator / (denominator - exclusion - exception) is the rate in both.
 */
function reportPopulations(counts: StandingCounts, direction: Direction): ReportPopulation[] {
  const denominator = direction === "up" ? counts.population : counts.population - counts.unknown
  return [
    { code: populationConcept("initial-population"), count: counts.population },
    { code: populationConcept("denominator"), count: denominator },
    { code: populationConcept("denominator-exclusion"), count: counts.excluded },
    { code: populationConcept("denominator-exception"), count: counts.exception },
    { code: populationConcept("numerator"), count: counts.met },
    { code: notMeasuredConcept, count: counts.unknown },
  ]
}

/** Without a denominator there is no score. */
function scoreOf(rate: Rate): { measureScore?: { value: number } } {
  return rate.rate === null ? {} : { measureScore: { value: rate.rate } }
}

/** A sentence where the report is of a part of the clinic. */
function limitOf({ isWholeClinic }: MonthReport): string[] {
  return isWholeClinic ? [] : [partOfClinic]
}

function frame(id: string, report: MonthReport) {
  return {
    resourceType: "MeasureReport",
    id: `${id}-${report.month}`,
    status: "complete",
    ...(report.isWholeClinic ? {} : { subject: { type: "Group", display: partOfClinic } as const }),
    date: report.builtAt,
    reporter: { display: report.clinicName },
    period: { start: `${report.month}-01`, end: report.asOf },
  } as const
}
