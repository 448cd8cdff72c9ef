"use client"

import { useActionState } from "react"
import { Button } from "../../_ui/button"
import { keptForm } from "../../_ui/kept-form"
import { signOff } from "./actions"
import styles from "./emergencies.module.css"

/** The note with which one access is signed off. */
export function ReviewForm({ id }: { id: number }) {
  const [answer, review, isSaving] = useActionState(signOff, { problem: null })
  return (
    <form action={review} onSubmit={keptForm(review)} className={styles.form}>
      <input type="hidden" name="id" value={id} />
      <label>
        <span>Note</span>
        <input name="note" autoComplete="off" maxLength={500} aria-invalid={answer.problem !== null} />
      </label>
      <Button type="submit" disabled={isSaving}>
        Sign off
      </Button>
      {answer.problem === null ? null : <p role="alert">{answer.problem}</p>}
    </form>
  )
}
