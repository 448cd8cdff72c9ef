"use client"

import { useActionState } from "react"
import styles from "../../(door)/door.module.css"
import { Field, Problem } from "../../(door)/field"
import { Button } from "../../_ui/button"
import { changePassword } from "./actions"

/** Changes the password. */
export function PasswordForm({ userName }: { userName: string }) {
  const [state, send, isSending] = useActionState(changePassword, { problem: null, isDone: false })
  return (
    <form action={send} className={styles.form}>
      <input type="hidden" autoComplete="username" value={userName} readOnly />
      <Field label="Present password" name="old" type="password" autoComplete="current-password" />
      <Field
        label="New password"
        name="fresh"
        type="password"
        autoComplete="new-password"
        note="At least 15 characters. Sessions elsewhere end."
      />
      <Problem words={state.problem} />
      {state.isDone ? <p role="status">The password is changed.</p> : null}
      <Button type="submit" disabled={isSending}>
        Change password
      </Button>
    </form>
  )
}
