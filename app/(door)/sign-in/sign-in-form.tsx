"use client"

import { useActionState } from "react"
import { Button } from "../../_ui/button"
import styles from "../door.module.css"
import { Field, Problem } from "../field"
import { signInWithPassword } from "./actions"

/** Asks for user name and password; `first` says that there is no other door before it. */
export function SignInForm({ place }: { place: "first" | "second" }) {
  const [state, send, isSending] = useActionState(signInWithPassword, { problem: null, userName: "" })
  return (
    <section aria-labelledby="sign-in" className={styles.part}>
      <h2 id="sign-in">{place === "first" ? "Sign in" : "Sign in with a password"}</h2>
      <form action={send} className={styles.form}>
        <Field
          label="User name"
          name="userName"
          autoComplete="username"
          autoCapitalize="none"
          spellCheck={false}
          maxLength={64}
          defaultValue={state.userName}
        />
        <Field label="Password" name="password" type="password" autoComplete="current-password" />
        <Problem words={state.problem} />
        <Button type="submit" kind={place === "first" ? "primary" : "quiet"} disabled={isSending}>
          Sign in
        </Button>
      </form>
      <p className={styles.note}>
        An administrator of the clinic makes accounts, and a link for a forgotten password or a lost second
        factor.
      </p>
    </section>
  )
}
