"use client"

import { useActionState } from "react"
import { Button } from "../../../../_ui/button"
import { keptForm } from "../../../../_ui/kept-form"
import { withdraw } from "./enter-actions"
import { nothingEntered } from "./entry-sent"

/** Takes back what was typed at once. */
export function WithdrawForm(props: { publicId: string; importId: number; about: string }) {
  const { publicId, importId, about } = props
  const [sent, send, isSending] = useActionState(withdraw, nothingEntered)
  return (
    <form action={send} onSubmit={keptForm(send)}>
      <input type="hidden" name="publicId" value={publicId} />
      <input type="hidden" name="importId" value={importId} />
      <Button type="submit" disabled={isSending} aria-label={`Withdraw: ${about}`}>
        Withdraw
      </Button>
      {sent.problem === null ? null : <p role="alert">{sent.problem}</p>}
    </form>
  )
}
