"use client"

import { useActionState } from "react"
import { Button } from "../../_ui/button"
import { keptForm } from "../../_ui/kept-form"
import { invite } from "./actions"
import { Outcome } from "./outcome"
import { ShapeFields, TextField } from "./shape-fields"
import styles from "./users.module.css"

/** Makes an account and shows the link for its first password. */
export function InviteForm() {
  const [state, send, isSending] = useActionState(invite, { problem: null, link: null })
  return (
    <form key={state.link} action={send} onSubmit={keptForm(send)} className={styles.form}>
      <TextField id="invite-user-name" label="User name" name="userName" isNeeded="yes" />
      <ShapeFields id="invite" />
      <Outcome state={state} />
      <Button type="submit" kind="primary" disabled={isSending}>
        Invite
      </Button>
    </form>
  )
}
