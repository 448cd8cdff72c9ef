"use client"

import { useActionState } from "react"
import { z } from "zod"
import { Button } from "../../../../_ui/button"
import styles from "./record.module.css"

type HandOutState = { problem: string | null }

const Refusal = z.object({ message: z.string() })

/** Asks to whom the record goes and why; the answer is the file itself. */
export function HandOutForm({ publicId }: { publicId: string }) {
  const [state, send, isSending] = useActionState(
    (_before: HandOutState, form: FormData) => handOut(publicId, form),
    { problem: null },
  )
  return (
    <form action={send} className={styles.form}>
      <p id="hand-out-note">
        Every fact with the row that brought it and every earlier version, as the files of the extract in one
        zip file. The audit log keeps who took it and why; the words name no one.
      </p>
      <label>
        <span>To whom, and why</span>
        <input
          name="purpose"
          minLength={10}
          maxLength={300}
          required
          autoComplete="off"
          aria-describedby="hand-out-note"
          aria-invalid={state.problem !== null}
        />
      </label>
      {state.problem === null ? null : (
        <p role="alert" className={styles.problem}>
          {state.problem}
        </p>
      )}
      <Button type="submit" kind="primary" disabled={isSending}>
        Download the record
      </Button>
    </form>
  )
}

/** Fetched and not sent as a page: without a referrer a browser does not say of a form where it comes from. */
async function handOut(publicId: string, form: FormData): Promise<HandOutState> {
  const response = await fetch(`/api/patients/${publicId}/record`, { method: "POST", body: form })
  if (!response.ok) return { problem: await wordsOf(response) }
  const address = URL.createObjectURL(await response.blob())
  const link = document.createElement("a")
  link.href = address
  link.download = `record-${publicId}.zip`
  link.click()
  URL.revokeObjectURL(address)
  return { problem: null }
}

async function wordsOf(response: Response): Promise<string> {
  const refusal = Refusal.safeParse(await response.json().catch(() => null))
  return refusal.success ? refusal.data.message : "The record could not be handed out. Try again."
}
