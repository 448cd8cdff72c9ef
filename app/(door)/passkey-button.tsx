"use client"

import { useActionState } from "react"
import {
  startAuthentication,
  type AuthenticationResponseJSON,
  type PublicKeyCredentialRequestOptionsJSON,
} from "@simplewebauthn/browser"
import { Button } from "../_ui/button"
import styles from "./door.module.css"
import { Problem } from "./field"

type Props = {
  label: string
  ask: () => Promise<PublicKeyCredentialRequestOptionsJSON>
  give: (answer: AuthenticationResponseJSON) => Promise<{ problem: string }>
}

/** Has a passkey sign what the site asks, and leads on when it holds. */
export function PasskeyButton({ label, ask, give }: Props) {
  const [state, send, isSending] = useActionState(async () => {
    const answer = await answerOf(await ask())
    return answer ? give(answer) : { problem: "No passkey was used." }
  }, null)
  return (
    <form action={send} className={styles.form}>
      <Problem words={state?.problem ?? null} />
      <Button type="submit" disabled={isSending}>
        {label}
      </Button>
    </form>
  )
}

/** The browser says by an error that there is none, that the person declined, or that time ran out. */
async function answerOf(
  options: PublicKeyCredentialRequestOptionsJSON,
): Promise<AuthenticationResponseJSON | null> {
  try {
    return await startAuthentication({ optionsJSON: options })
  } catch {
    return null
  }
}
