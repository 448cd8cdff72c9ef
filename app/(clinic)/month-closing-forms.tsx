"use client"

import { useActionState } from "react"
import { Button } from "../_ui/button"
import { keptForm } from "../_ui/kept-form"
import { closeShownMonth, openMonthAgain } from "./month-closing-actions"
import styles from "./month-closing.module.css"

/** Closes the month with the figures on the screen. */
export function CloseForm(props: { asOf: string; builtAt: string; name: string }) {
  const [answer, close, isSaving] = useActionState(closeShownMonth, { problem: null })
  return (
    <form action={close} onSubmit={keptForm(close)} className={styles.form}>
      <input type="hidden" name="asOf" value={props.asOf} />
      <input type="hidden" name="builtAt" value={props.builtAt} />
      <label>
        <span>Note, if any; no names</span>
        <input name="note" autoComplete="off" maxLength={500} />
      </label>
      <Button type="submit" disabled={isSaving}>
        Close {props.name}
      </Button>
      {answer.problem === null ? null : <p role="alert">{answer.problem}</p>}
    </form>
  )
}

/** Opens a closed month again, with the reason that is kept. */
export function ReopenForm({ id, name }: { id: number; name: string }) {
  const [answer, reopen, isSaving] = useActionState(openMonthAgain, { problem: null })
  return (
    <details>
      <summary>Open {name} again</summary>
      <form action={reopen} onSubmit={keptForm(reopen)} className={styles.form}>
        <input type="hidden" name="id" value={id} />
        <label>
          <span>Reason; kept, so no names</span>
          <input name="reason" autoComplete="off" maxLength={500} aria-invalid={answer.problem !== null} />
        </label>
        <Button type="submit" disabled={isSaving}>
          Open again
        </Button>
        {answer.problem === null ? null : <p role="alert">{answer.problem}</p>}
      </form>
    </details>
  )
}
