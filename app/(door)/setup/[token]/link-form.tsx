"use client"

import { useActionState } from "react"
import { Button } from "../../../_ui/button"
import styles from "../../door.module.css"
import { Field, Problem } from "../../field"
import { usePasswordLink } from "./actions"

type Props = { token: string; purpose: string; userName: string | null }

/** Sets a password; the first administrator also says who that is. */
export function LinkForm({ token, purpose, userName }: Props) {
  const [state, send, isSending] = useActionState(usePasswordLink, { problem: null, name: "", userName: "" })
  const isSetup = purpose === "setup"
  return (
    <section aria-labelledby="set" className={styles.part}>
      <h2 id="set">{isSetup ? "The first administrator" : "Set a password"}</h2>
      {isSetup ? (
        <p>This account invites the others. An administrator sees counts and no patient.</p>
      ) : (
        <p>
          For the account <strong>{userName}</strong>.
          {purpose === "reset-factor" ? " The second factor is set up anew." : null}
        </p>
      )}
      <form action={send} className={styles.form}>
        <input type="hidden" name="token" value={token} />
        {isSetup ? (
          <>
            <Field label="Name" name="name" autoComplete="name" defaultValue={state.name} maxLength={100} />
            <Field
              label="User name"
              name="userName"
              autoComplete="username"
              autoCapitalize="none"
              spellCheck={false}
              defaultValue={state.userName}
              maxLength={64}
            />
            <label className={styles.check}>
              <input type="checkbox" name="isLead" value="yes" />
              <span>Also clinic lead, who sees patients and sets what counts</span>
            </label>
          </>
        ) : (
          <input type="hidden" autoComplete="username" value={userName ?? ""} readOnly />
        )}
        <Field
          label="Password"
          name="password"
          type="password"
          autoComplete="new-password"
          note="At least 15 characters; several words that do not belong together are easy to keep in mind."
        />
        <Field label="The same password again" name="again" type="password" autoComplete="new-password" />
        <Problem words={state.problem} />
        <Button type="submit" kind="primary" disabled={isSending}>
          Set password
        </Button>
      </form>
    </section>
  )
}
