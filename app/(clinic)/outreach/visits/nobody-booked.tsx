import { dayInFull, weekday } from "../../../../lib/speech/format"
import styles from "./visits.module.css"
import type { VisitsAnswers } from "./visits-answers"

/** What a day without visits says. */
export function NobodyBooked({ answers }: { answers: VisitsAnswers }) {
  const when = `${weekday(answers.on)} ${dayInFull(answers.on)}`
  if (answers.ofDay.length > 0)
    return <p className={styles.none}>Nobody is booked with this clinician on {when}.</p>
  return (
    <p className={styles.none}>
      Nobody is booked on {when}. Visits stand here once an extract has them in <code>appointments.csv</code>.
    </p>
  )
}
