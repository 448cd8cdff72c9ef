"use client"

import { useActionState } from "react"
import { Button } from "../../_ui/button"
import styles from "../row-form.module.css"
import { takeNextCase } from "./case-actions"
import { nothingSent } from "./case-sent"

/** Takes the first person in the order whom nobody has, and opens their page. */
export function TakeNextForm() {
  const [sent, send, isSending] = useActionState(takeNextCase, nothingSent)
  return (
    <form action={send} className={styles.form}>
      <Button type="submit" kind="primary" name="next" value="yes" data-act="take-next" disabled={isSending}>
        Take next
      </Button>
      {sent.problem === null ? null : <p role="alert">{sent.problem}</p>}
    </form>
  )
}
