import type { Caller } from "../../../../lib/access/caller"
import { may } from "../../../../lib/access/permissions"
import { recordedOnce } from "../../../_http/recorded"
import { ask } from "../../../_http/ask"
import { Theme } from "../../../_ui/screen"
import { PersonHead } from "../../../_ui/person-head"
import { TableHead } from "../../../_ui/table-head"
import table from "../../../_ui/table.module.css"
import type { Standing } from "../../../../lib/domain/standings"
import type { MeasureFigure } from "../../../../lib/figures/measure-figure"
import { wouldBeWords } from "../../../../lib/figures/would-be-words"
import type { WordedMeasure } from "../../../../lib/measures/types"
import { movedSinceClosing, type MovedPerson } from "../../../../lib/questions/moved-since-closing"
import { count, counted, sentenceCase } from "../../../../lib/speech/format"
import { standingWords } from "../../../../lib/speech/measure-words"
import { askMonthToday } from "../../month-closing-answers"
import type { ChosenMonth } from "../../months"

const mostListed = 200

/** Of a closed month: what the measure would be today, and who stands elsewhere than when it was closed. */
export async function MeasureSinceClosing(props: {
  caller: Caller
  measure: WordedMeasure
  figure: MeasureFigure
  chosen: ChosenMonth
}) {
  const { caller, measure, figure, chosen } = props
  if (!chosen.isClosed) return null
  const words = wouldBeWords(figure, (await askMonthToday(chosen.asOf)).get(measure.id))
  const isListed = may(caller, "people.see")
  const people = isListed
    ? await ask(movedSinceClosing(measure), { as_of: chosen.asOf, limit: mostListed })
    : []
  if (isListed)
    await recordedOnce(caller, {
      ...{ action: "patients.list", object: "measure since closing", objectId: measure.id },
      people: people.map((person) => person.public_id),
    })
  return (
    <Theme id="closed" title="Since the month was closed">
      <p>{words === null ? "The counts would be the same today." : `${words}.`}</p>
      {people.length === 0 ? null : <Moved measure={measure} people={people} month={chosen.param} />}
    </Theme>
  )
}

function Moved(props: { measure: WordedMeasure; people: MovedPerson[]; month: string | null }) {
  const { measure, people, month } = props
  const total = people[0]?.total ?? 0
  return (
    <>
      <p className="soft">
        {counted(total, "person stands", "people stand")} elsewhere today
        {total > people.length ? `; the first ${count(people.length)} by name` : ""}.
      </p>
      <div className={table.frame}>
        <table className={table.table} role="table">
          <caption className="visually-hidden">
            People who stand elsewhere today than when it was closed
          </caption>
          <TableHead heads={["Name", "Site", "Clinician", "When closed", "Today", "Why"]} />
          <tbody role="rowgroup">
            {people.map((person) => (
              <tr key={person.public_id} role="row">
                <PersonHead person={person} month={month} />
                <td role="cell" data-label="Site">
                  {person.site ?? "not assigned"}
                </td>
                <td role="cell" data-label="Clinician">
                  {person.clinician_name ?? "not assigned"}
                </td>
                <td role="cell" data-label="When closed">
                  {placeWords(measure, person.known)}
                </td>
                <td role="cell" data-label="Today">
                  {placeWords(measure, person.today)}
                </td>
                <td role="cell" data-label="Why">
                  {person.cause === "late"
                    ? "A fact came late or was corrected"
                    : "Something was set otherwise"}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </>
  )
}

function placeWords(measure: WordedMeasure, standing: Standing | null): string {
  return standing === null ? "Not in the panel" : sentenceCase(standingWords(measure, standing))
}
