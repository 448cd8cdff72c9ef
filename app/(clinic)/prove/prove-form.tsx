"use client"

import { useActionState } from "react"
import styles from "../../(door)/door.module.css"
import { Field, Problem } from "../../(door)/field"
import { Button } from "../../_ui/button"
import { giveProof } from "./actions"

/** Asks for a code of the second factor, or the password. */
export function ProveForm({ to }: { to: string }) {
  const [state, send, isSending] = useActionState(giveProof, { problem: null })
  return (
    <form action={send} className={styles.form}>
      <input type="hidden" name="to" value={to} />
      <Field
        label="Code of the second factor, or password"
        name="proof"
        type="password"
        autoComplete="one-time-code"
      />
      <Problem words={state.problem} />
      <Button type="submit" kind="primary" disabled={isSending}>
        Confirm
      </Button>
    </form>
  )
}
