"use client"

import { useActionState } from "react"
import { longestAction, type MeasureAction } from "../../../../lib/domain/measure-actions"
import { Button } from "../../../_ui/button"
import { keptForm } from "../../../_ui/kept-form"
import { endOneOfLog, openOneOfLog } from "./meeting-actions"
import styles from "../../../_ui/line-form.module.css"

/**
 * Ends an open one as done or dropped, with a note, or opens a closed one again. One form for both, so that what is said to
 * the later of two stays when the log shows what the earlier did.
 */
export function CloseForm(props: Pick<MeasureAction, "id" | "version" | "kind" | "state">) {
  const { id, version, kind, state } = props
  const isOpen = state === "open"
  const [answer, send, isSaving] = useActionState(isOpen ? endOneOfLog : openOneOfLog, {
    problem: null,
    saved: 0,
  })
  return (
    <form action={send} onSubmit={keptForm(send)} className={styles.form}>
      <input type="hidden" name="id" value={id} />
      <input type="hidden" name="version" value={version} />
      {isOpen ? (
        <label className={styles.wide}>
          <span>Note</span>
          <input name="outcome" autoComplete="off" maxLength={longestAction} />
        </label>
      ) : null}
      {isOpen && kind === "action" ? (
        <Button type="submit" name="state" value="done" disabled={isSaving}>
          Done
        </Button>
      ) : null}
      {isOpen ? (
        <Button type="submit" name="state" value="dropped" disabled={isSaving}>
          Drop
        </Button>
      ) : (
        <Button type="submit" disabled={isSaving}>
          Open again
        </Button>
      )}
      {answer.problem === null ? null : <p role="alert">{answer.problem}</p>}
    </form>
  )
}
