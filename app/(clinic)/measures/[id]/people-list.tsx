import type { Caller } from "../../../../lib/access/caller"
import { count, dayInFull } from "../../../../lib/speech/format"
import { hrefOf } from "../../../_ui/href"
import { Pager } from "../../../_ui/pager"
import type { WordedMeasure } from "../../../../lib/measures/types"
import type { ChosenMonth } from "../../months"
import { ListDownload } from "../../list-download"
import { measureHref, type MeasureView } from "../search-params"
import { pageSize, type MeasureAnswers } from "./measure-answers"
import { PeopleChoice } from "./people-choice"
import { PeopleTable } from "./people-table"
import styles from "./people-list.module.css"

/** The people behind one number of the measure: which number, the people with their values, the list as a file. */
export function PeopleList(props: {
  caller: Caller
  measure: WordedMeasure
  answers: MeasureAnswers
  chosen: ChosenMonth
  view: MeasureView
}) {
  const { caller, measure, answers, chosen, view } = props
  const total = answers.people[0]?.total ?? 0
  const { page: _page, ...list } = view
  return (
    <>
      <PeopleChoice {...props} />
      {answers.people.length === 0 ? (
        <p className={styles.nobody}>
          {view.page !== null
            ? "The list is not that long."
            : `No one stands here on ${dayInFull(chosen.asOf)}.`}
        </p>
      ) : (
        <>
          <PeopleTable measure={measure} people={answers.people} view={view} chosen={chosen} />
          <div className={styles.foot}>
            <Pager
              page={view.page}
              size={pageSize}
              total={total}
              hrefOf={(page) => measureHref(measure.id, { ...view, page }, "people")}
            />
            <ListDownload
              caller={caller}
              needs="people.export"
              href={hrefOf(`/api/measures/${measure.id}/people`, list)}
              place={{ measure: measure.id }}
            >
              Download {count(total)} {total === 1 ? "row" : "rows"}
            </ListDownload>
          </div>
        </>
      )}
    </>
  )
}
