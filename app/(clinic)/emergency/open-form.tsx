"use client"

import { useActionState } from "react"
import { Button } from "../../_ui/button"
import { keptForm } from "../../_ui/kept-form"
import { openForEmergency } from "./actions"
import styles from "./emergency.module.css"

/** Asks for the reason; whose page was asked for comes along, so that it opens next. */
export function OpenForm({ patient }: { patient: string | null }) {
  const [answer, open, isOpening] = useActionState(openForEmergency, { problem: null })
  return (
    <form action={open} onSubmit={keptForm(open)} className={styles.form}>
      {patient === null ? null : <input type="hidden" name="patient" value={patient} />}
      <label>
        <span>Reason</span>
        <textarea
          name="reason"
          rows={3}
          minLength={10}
          maxLength={500}
          required
          aria-invalid={answer.problem !== null}
        />
      </label>
      {answer.problem === null ? null : (
        <p role="alert" className={styles.problem}>
          {answer.problem}
        </p>
      )}
      <Button type="submit" kind="primary" disabled={isOpening}>
        Open for one hour
      </Button>
    </form>
  )
}
