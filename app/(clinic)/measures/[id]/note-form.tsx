"use client"

import { useActionState } from "react"
import { longestNote } from "../../../../lib/domain/chart-marks"
import { Button } from "../../../_ui/button"
import { keptForm } from "../../../_ui/kept-form"
import { addNote } from "./chart-actions"
import styles from "../../../_ui/line-form.module.css"

/** A change in practice: its day, its words, and the charts it is shown on. */
export function NoteForm({ measureId }: { measureId: string }) {
  const [answer, send, isSaving] = useActionState(addNote, { problem: null, saved: 0 })
  return (
    <form key={answer.saved} action={send} onSubmit={keptForm(send)} className={styles.form}>
      <input type="hidden" name="measure" value={measureId} />
      <label>
        <span>Day</span>
        <input type="date" name="on" required />
      </label>
      <label className={styles.wide}>
        <span>What changed</span>
        <input
          name="text"
          autoComplete="off"
          required
          maxLength={longestNote}
          aria-invalid={answer.problem !== null}
        />
      </label>
      <label>
        <span>Shown on</span>
        <select name="reach" defaultValue="this">
          <option value="this">this measure</option>
          <option value="all">all measures</option>
        </select>
      </label>
      <Button type="submit" disabled={isSaving}>
        Note
      </Button>
      {answer.problem === null ? null : <p role="alert">{answer.problem}</p>}
    </form>
  )
}
