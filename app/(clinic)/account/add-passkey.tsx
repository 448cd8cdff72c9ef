"use client"

import { useActionState } from "react"
import {
  startRegistration,
  type PublicKeyCredentialCreationOptionsJSON,
  type RegistrationResponseJSON,
} from "@simplewebauthn/browser"
import styles from "../../(door)/door.module.css"
import { Field, Problem } from "../../(door)/field"
import { Button } from "../../_ui/button"
import { keptForm } from "../../_ui/kept-form"
import { addPasskey, askToAddPasskey, type PasskeyState } from "./passkey-actions"

/** Has an authenticator make a passkey, and keeps it under a name. */
export function AddPasskey() {
  const [state, send, isSending] = useActionState(add, { problem: null })
  return (
    <form action={send} onSubmit={keptForm(send)} className={styles.form}>
      <Field
        label="Name of the new passkey"
        name="passkey-name"
        maxLength={60}
        autoComplete="off"
        note="For example the device that keeps it."
      />
      <Problem words={state.problem} />
      <Button type="submit" disabled={isSending}>
        Add a passkey
      </Button>
    </form>
  )
}

async function add(_before: PasskeyState, form: FormData): Promise<PasskeyState> {
  const options = await askToAddPasskey()
  const made = options && (await madeFor(options))
  return made ? addPasskey(made, form.get("passkey-name")) : { problem: "No passkey was made." }
}

/** The browser says by an error that it has one already, that the person declined, or that time ran out. */
async function madeFor(
  options: PublicKeyCredentialCreationOptionsJSON,
): Promise<RegistrationResponseJSON | null> {
  try {
    return await startRegistration({ optionsJSON: options })
  } catch {
    return null
  }
}
