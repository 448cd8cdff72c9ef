"use client"

import { useActionState } from "react"
import { Button } from "../../_ui/button"
import { makeCodes } from "./actions"
import styles from "./account.module.css"

/** Makes recovery codes and shows them, once. */
export function CodesForm() {
  const [state, send, isSending] = useActionState(makeCodes, { codes: [] })
  return (
    <form action={send} className={styles.part}>
      {state.codes.length === 0 ? null : (
        <div role="status">
          <p>Shown once, to be kept where the phone is not:</p>
          <ul className={styles.codes}>
            {state.codes.map((code) => (
              <li key={code}>
                <code>{code}</code>
              </li>
            ))}
          </ul>
        </div>
      )}
      <Button type="submit" disabled={isSending}>
        Make new recovery codes
      </Button>
    </form>
  )
}
