"use client"

import { useActionState } from "react"
import { Button } from "../../_ui/button"
import { keptForm } from "../../_ui/kept-form"
import { undo } from "./decision-actions"
import styles from "./decision-form.module.css"
import { nothingSent } from "./decision-sent"

/** Takes a decision back, with what is said to the later of two. */
export function UndoForm(props: { publicId: string; id: number; about: string; verb?: string }) {
  const { publicId, id, about, verb = "Undo" } = props
  const [sent, send, isSending] = useActionState(undo, nothingSent)
  return (
    <form action={send} onSubmit={keptForm(send)} className={styles.form}>
      <input type="hidden" name="publicId" value={publicId} />
      <input type="hidden" name="id" value={id} />
      <Button type="submit" disabled={isSending} aria-label={`${verb}: ${about}`}>
        {verb}
      </Button>
      {sent.problem === null ? null : <p role="alert">{sent.problem}</p>}
    </form>
  )
}
