"use client"

import { useActionState } from "react"
import { Button } from "../../../_ui/button"
import styles from "../../door.module.css"
import { Field, Problem } from "../../field"
import { PasskeyButton } from "../../passkey-button"
import { askForFactor, giveCode, givePasskey } from "./actions"

/** Asks for the second factor: a code, or a passkey where there is one. */
export function CodeForm({ hasPasskey }: { hasPasskey: boolean }) {
  const [state, send, isSending] = useActionState(giveCode, { problem: null })
  return (
    <section aria-labelledby="factor" className={styles.part}>
      <h2 id="factor">Second factor</h2>
      <form action={send} className={styles.form}>
        <Field
          label="Code"
          name="code"
          autoComplete="one-time-code"
          autoFocus
          spellCheck={false}
          note="Six digits of the authenticator app, or one of the recovery codes. Each is good once."
        />
        <Problem words={state.problem} />
        <Button type="submit" kind="primary" disabled={isSending}>
          Sign in
        </Button>
      </form>
      {hasPasskey ? <PasskeyButton label="Use a passkey" ask={askForFactor} give={givePasskey} /> : null}
    </section>
  )
}
