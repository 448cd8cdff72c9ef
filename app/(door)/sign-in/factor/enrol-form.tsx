"use client"

import { useActionState } from "react"
import { Button } from "../../../_ui/button"
import type { QrPath } from "../../../_ui/qr-path"
import styles from "../../door.module.css"
import { Field, Problem } from "../../field"
import { enrol } from "./actions"

/** Sets up an authenticator app. */
export function EnrolForm(props: { sealed: string; text: string; picture: QrPath }) {
  const [state, send, isSending] = useActionState(enrol, { problem: null })
  const { path, size } = props.picture
  return (
    <section aria-labelledby="factor" className={styles.part}>
      <h2 id="factor">Set up the second factor</h2>
      <p>
        An authenticator app on a phone reads this picture and then shows a new code of six digits every 30
        seconds. Each sign-in asks for one.
      </p>
      <svg
        role="img"
        aria-label="The key as a picture for the authenticator app"
        viewBox={`0 0 ${size} ${size}`}
        className={styles.picture}
        shapeRendering="crispEdges"
      >
        <path d={path} fill="#000" />
      </svg>
      <p className={styles.seed}>
        The same key to type: <code>{props.text}</code>
      </p>
      <form action={send} className={styles.form}>
        <input type="hidden" name="sealed" value={props.sealed} />
        <Field label="Code the app shows" name="code" autoComplete="one-time-code" inputMode="numeric" />
        <Problem words={state.problem} />
        <Button type="submit" kind="primary" disabled={isSending}>
          Set up
        </Button>
      </form>
    </section>
  )
}
