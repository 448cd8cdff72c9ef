"use client"

import { useActionState } from "react"
import { longestNote } from "../../../../lib/domain/chart-marks"
import { month } from "../../../../lib/speech/format"
import { Button } from "../../../_ui/button"
import { keptForm } from "../../../_ui/kept-form"
import { setOwnBaseline } from "./chart-actions"
import styles from "../../../_ui/line-form.module.css"

/** The first of the twelve months that signals are to be judged by, and why. */
export function BaselineForm({ measureId, choices }: { measureId: string; choices: string[] }) {
  const [answer, send, isSaving] = useActionState(setOwnBaseline, { problem: null, saved: 0 })
  return (
    <form key={answer.saved} action={send} onSubmit={keptForm(send)} className={styles.form}>
      <input type="hidden" name="measure" value={measureId} />
      <label>
        <span>Twelve months from</span>
        <select name="from" defaultValue={choices.at(-1)}>
          {choices.map((choice) => (
            <option key={choice} value={choice}>
              {month(choice)}
            </option>
          ))}
        </select>
      </label>
      <label className={styles.wide}>
        <span>Reason</span>
        <input
          name="reason"
          autoComplete="off"
          required
          maxLength={longestNote}
          aria-invalid={answer.problem !== null}
        />
      </label>
      <Button type="submit" disabled={isSaving}>
        Set
      </Button>
      {answer.problem === null ? null : <p role="alert">{answer.problem}</p>}
    </form>
  )
}
