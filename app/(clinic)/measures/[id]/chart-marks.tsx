import type { Caller } from "../../../../lib/access/caller"
import { may } from "../../../../lib/access/permissions"
import { day } from "../../../../lib/speech/format"
import { Button } from "../../../_ui/button"
import { undoNote, undoOwnBaseline } from "./chart-actions"
import { BaselineForm } from "./baseline-form"
import type { ChartMarksAnswers } from "./chart-marks-answers"
import styles from "./chart-marks.module.css"
import { NoteForm } from "./note-form"

/** The notes on a measure's charts as a list, and, for whoever may, the forms for a note and for another baseline. */
export function ChartMarks(props: {
  caller: Caller
  measureId: string
  marks: ChartMarksAnswers
  hasBaseline: boolean
}) {
  const { measureId, marks } = props
  const isWriter = may(props.caller, "charts.note")
  if (marks.notes.length === 0 && !isWriter) return null
  return (
    <section className={styles.marks} aria-label="Notes on the charts">
      {marks.notes.length === 0 ? null : (
        <ol className={styles.notes}>
          {marks.notes.map(({ note, number, along }) => (
            <li key={note.id}>
              <span>{number}</span>
              <p>
                {day(note.onDay)}: {note.text}{" "}
                <span className="soft">
                  {note.measureId === null ? "All measures. " : ""}
                  {along === null ? "Outside the months shown. " : ""}
                  {note.madeBy}
                </span>
              </p>
              {isWriter ? (
                <form action={undoNote}>
                  <Button type="submit" name="id" value={note.id}>
                    Take back<span className="visually-hidden"> note {number}</span>
                  </Button>
                </form>
              ) : null}
            </li>
          ))}
        </ol>
      )}
      {isWriter ? (
        <div className={styles.forms}>
          <details>
            <summary>Note a change in practice</summary>
            <NoteForm measureId={measureId} />
          </details>
          {props.hasBaseline && marks.choices.length > 0 ? (
            <details>
              <summary>Take the baseline from another year</summary>
              <BaselineForm measureId={measureId} choices={marks.choices} />
            </details>
          ) : null}
          {marks.chosenBaseline ? (
            <form action={undoOwnBaseline}>
              <Button type="submit" name="id" value={marks.chosenBaseline.id}>
                Back to the first year shown
              </Button>
            </form>
          ) : null}
        </div>
      ) : null}
    </section>
  )
}
