"use client"

import { useActionState } from "react"
import { Button } from "../../_ui/button"
import { keptForm } from "../../_ui/kept-form"
import { keepView } from "./view-actions"
import styles from "./views.module.css"

/** A name for the list as it is narrowed now. */
export function ViewForm({ search }: { search: string }) {
  const [answer, send, isSaving] = useActionState(keepView, { problem: null, saved: 0 })
  return (
    <form key={answer.saved} action={send} onSubmit={keptForm(send)} className={styles.form}>
      <input type="hidden" name="search" value={search} />
      <label>
        <span>Save this list as</span>
        <input
          name="name"
          autoComplete="off"
          required
          maxLength={60}
          aria-invalid={answer.problem !== null}
        />
      </label>
      <Button type="submit" disabled={isSaving}>
        Save
      </Button>
      {answer.problem === null ? null : <p role="alert">{answer.problem}</p>}
    </form>
  )
}
