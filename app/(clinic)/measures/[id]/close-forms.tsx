"use client"

import { useActionState } from "react"
import { longestAction, type MeasureAction } from "../../../../lib/domain/measure-actions"
import { Button } from "../../../_ui/button"
import { keptForm } from "../../../_ui/kept-form"
import { endOneOfLog, openOneOfLog } from "./meeting-actions"
import styles from "../../../_ui/line-form.module.css"

type Which = Pick<MeasureAction, "id" | "version" | "kind">

/** Ends one as done or dropped, with a note. A decision is only dropped. */
export function CloseForm({ id, version, kind }: Which) {
  const [answer, send, isSaving] = useActionState(endOneOfLog, { problem: null, saved: 0 })
  return (
    <form action={send} onSubmit={keptForm(send)} className={styles.form}>
      <Named id={id} version={version} />
      <label className={styles.wide}>
        <span>Note</span>
        <input name="outcome" autoComplete="off" maxLength={longestAction} />
      </label>
      {kind === "action" ? (
        <Button type="submit" name="state" value="done" disabled={isSaving}>
          Done
        </Button>
      ) : null}
      <Button type="submit" name="state" value="dropped" disabled={isSaving}>
        Drop
      </Button>
      {answer.problem === null ? null : <p role="alert">{answer.problem}</p>}
    </form>
  )
}

/** Opens one again. */
export function ReopenForm({ id, version }: Which) {
  const [answer, send, isSaving] = useActionState(openOneOfLog, { problem: null, saved: 0 })
  return (
    <form action={send} onSubmit={keptForm(send)} className={styles.form}>
      <Named id={id} version={version} />
      <Button type="submit" disabled={isSaving}>
        Open again
      </Button>
      {answer.problem === null ? null : <p role="alert">{answer.problem}</p>}
    </form>
  )
}

function Named({ id, version }: { id: number; version: number }) {
  return (
    <>
      <input type="hidden" name="id" value={id} />
      <input type="hidden" name="version" value={version} />
    </>
  )
}
