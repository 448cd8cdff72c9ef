import { ask, snapshotMeta } from "../../../../_http/ask"
import { AppError } from "../../../../../lib/errors"
import { dietRecordsCsv } from "../../../../../lib/export/diet-records-csv"
import { standingPeopleCsv } from "../../../../../lib/export/standing-people-csv"
import { dietSodium } from "../../../../../lib/measures/diet-sodium"
import { findWordedMeasure } from "../../../../../lib/measures/worded-measures"
import { dietPeople } from "../../../../../lib/questions/diet-people"
import { measurePeople } from "../../../../../lib/questions/measure-people"
import { chooseMonths, underSettingsThen } from "../../../../(clinic)/months"
import { parseMeasureView } from "../../../../(clinic)/measures/search-params"
import { peopleParams, shownStanding } from "../../../../(clinic)/measures/[id]/measure-answers"
import { answering, type Called } from "../../../../_http/answer"
import { recorded } from "../../../../_http/recorded"
import { isProvenForLists, proveHref } from "../../../../_http/prove"
import { takeTurn } from "../../../../_http/rate-limit"
import { shownSeries } from "../../../../(clinic)/measures/[id]/diet-series"

export const dynamic = "force-dynamic"

const everyone = { limit: 1_000_000, offset: 0 }

/** The list of people of a measure's screen as CSV: the same list, all of its pages. */
export const GET = answering(
  "people.export",
  async (request: Request, { params, caller }: RouteContext<"/api/measures/[id]/people"> & Called) => {
    const { id } = await params
    if (!isProvenForLists(caller, new Date()))
      return new Response(null, { status: 303, headers: { location: proveHref({ measure: id }) } })
    takeTurn("exports", caller)
    const snapshot = await snapshotMeta()
    const view = parseMeasureView(Object.fromEntries(new URL(request.url).searchParams))
    const chosen = chooseMonths(snapshot, view)
    const measure = findWordedMeasure(id, underSettingsThen(snapshot, chosen).settings)
    const taken = { object: "measure", objectId: id, detail: { on: chosen.asOf } }
    if (id === dietSodium.id) {
      const series = shownSeries(view)
      const records = await ask(dietPeople, { as_of: chosen.asOf, series, ...everyone })
      await recorded(caller, {
        action: "patients.export",
        ...taken,
        people: records.map((row) => row.public_id),
      })
      return csvFile(
        dietRecordsCsv({ on: chosen.asOf, measureId: id, series, records }),
        `${id}-${chosen.asOf}`,
      )
    }
    if (!measure) throw new AppError("not-found", "There is no such measure.")
    const standing = shownStanding(measure, view) ?? view.change ?? ""
    const people = await ask(measurePeople(measure), { ...peopleParams(measure, chosen, view), ...everyone })
    await recorded(caller, {
      action: "patients.export",
      ...taken,
      people: people.map((row) => row.public_id),
    })
    return csvFile(
      standingPeopleCsv({ on: chosen.asOf, measureId: id, standing, people }),
      `${id}-${chosen.asOf}`,
    )
  },
)

function csvFile(csv: string, name: string): Response {
  return new Response(csv, {
    headers: {
      "content-type": "text/csv; charset=utf-8",
      "content-disposition": `attachment; filename="${name}.csv"`,
      "cache-control": "no-store",
    },
  })
}
