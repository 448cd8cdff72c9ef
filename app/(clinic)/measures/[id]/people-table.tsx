import type { WordedMeasure } from "../../../../lib/measures/types"
import type { MeasurePerson } from "../../../../lib/questions/measure-people"
import type { ChosenMonth } from "../../months"
import type { MeasureView } from "../search-params"
import { shownStanding } from "./measure-answers"
import type { Column } from "./column"
import { columnsOf } from "./people-columns"
import { PersonHead } from "../../../_ui/person-head"
import table from "../../../_ui/table.module.css"

/** The people with the values and dates that put them where they stand; the name opens the patient. */
export function PeopleTable(props: {
  measure: WordedMeasure
  people: MeasurePerson[]
  view: MeasureView
  chosen: ChosenMonth
}) {
  const { measure, people, view, chosen } = props
  const columns = columnsOf(measure, {
    shown: shownStanding(measure, view),
    isRunning: chosen.isRunning,
  })
  return (
    <div className={table.frame}>
      <table className={table.table} role="table">
        <caption className="visually-hidden">People by name, with the values that put them here</caption>
        <thead role="rowgroup">
          <tr role="row">
            <th scope="col" role="columnheader">
              Name
            </th>
            {columns.map((column) => (
              <th
                key={column.head}
                scope="col"
                role="columnheader"
                className={column.isNumber ? table.number : undefined}
              >
                {column.head}
                {column.unit ? <small>{column.unit}</small> : null}
              </th>
            ))}
          </tr>
        </thead>
        <tbody role="rowgroup">
          {people.map((person) => (
            <tr key={person.public_id} role="row">
              <PersonHead person={person} month={chosen.param} />
              {columns.map((column) => (
                <td key={column.head} role="cell" data-label={column.label} className={cellClass(column)}>
                  {column.cell(person) ?? <span className={table.absent}>{column.absent ?? "none"}</span>}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}

function cellClass(column: Column): string | undefined {
  if (column.isNumber) return table.number
  if (column.isLong) return table.wrap
  return column.isFolding ? table.fold : undefined
}
