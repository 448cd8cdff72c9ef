import { reportedMeasures, type MonthReport } from "../../figures/month-report"
import { entryUrl } from "./codes"
import { dietReport, summaryReport } from "./measure-report"
import { dietResource, measureResource } from "./measure-resource"
import { subjectLists, type ListedStanding } from "./subject-lists"
import type { Bundle, Resource } from "./types"

/**
 * A month as a FHIR R4 Bundle: of every measure a Measure and a MeasureReport with its counts. With people, a report of
 * the type subject-list and its lists come with each, in which people are named by the site's own number alone.
 */
export function monthBundle(report: MonthReport, people: readonly ListedStanding[] | null): Bundle {
  const diet = report.themes.flatMap((theme) => theme.diet ?? [])
  const resources: Resource[] = [
    ...reportedMeasures(report).flatMap((measure) => [
      measureResource(measure.figure.measure, report),
      summaryReport(measure, report),
      ...(people === null ? [] : subjectLists(measure, { report, people })),
    ]),
    ...diet.flatMap((figure) => [dietResource(report), dietReport(figure.series, report)]),
  ]
  return {
    resourceType: "Bundle",
    id: `month-${report.month}`,
    type: "collection",
    timestamp: report.builtAt,
    entry: resources.map((resource) => ({
      fullUrl: entryUrl(`${resource.resourceType}/${resource.id}`),
      resource,
    })),
  }
}
