"use client"

import { useActionState } from "react"
import { Button } from "../../_ui/button"
import { saveProposal } from "./actions"
import styles from "./settings.module.css"

/** Saves the proposal, with the reason that stands beside it later on. */
export function SaveForm({ texts }: { texts: Partial<Record<string, string>> }) {
  const [answer, save, isSaving] = useActionState(saveProposal, { problem: null })
  return (
    <form action={save} className={styles.save}>
      {Object.entries(texts).map(([key, text]) => (
        <input key={key} type="hidden" name={key} value={text} />
      ))}
      <label>
        <span>Reason</span>
        <input name="reason" autoComplete="off" maxLength={500} aria-invalid={answer.problem !== null} />
      </label>
      <Button type="submit" kind="primary" disabled={isSaving}>
        Save
      </Button>
      {answer.problem === null ? null : (
        <p role="alert" className={styles.problem}>
          {answer.problem}
        </p>
      )}
    </form>
  )
}
