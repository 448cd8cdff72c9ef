"use client"

import { useActionState } from "react"
import { Button } from "../../../../_ui/button"
import { askForErasure, withdrawErasure } from "./actions"
import styles from "./record.module.css"

/** Asks why the record is to be erased and what demands it. */
export function ErasureForm({ publicId }: { publicId: string }) {
  const [answer, ask, isAsking] = useActionState(askForErasure, { problem: null })
  return (
    <form action={ask} className={styles.form}>
      <input type="hidden" name="publicId" value={publicId} />
      <p id="erase-note">
        For where law demands it. All facts under all numbers of the person go for good, with every earlier
        version; the figures of closed months are kept as they stand. Whoever runs the machine carries the
        request out, with the number typed again. Law and local policy decide; a duty to keep health records
        may forbid it.
      </p>
      <label>
        <span>Reason, without a name</span>
        <textarea
          name="reason"
          rows={3}
          minLength={10}
          maxLength={500}
          required
          aria-describedby="erase-note"
          aria-invalid={answer.problem !== null}
        />
      </label>
      <label>
        <span>Law or order that demands it</span>
        <input name="basis" minLength={3} maxLength={200} required autoComplete="off" />
      </label>
      {answer.problem === null ? null : (
        <p role="alert" className={styles.problem}>
          {answer.problem}
        </p>
      )}
      <Button type="submit" disabled={isAsking}>
        Ask for erasure
      </Button>
    </form>
  )
}

/** A request that waits for the console, and the way back. */
export function ErasureWaiting(props: { publicId: string; id: number; words: string; reason: string }) {
  return (
    <form action={withdrawErasure} className={styles.form}>
      <input type="hidden" name="publicId" value={props.publicId} />
      <p>
        <strong>Request {props.id} waits to be carried out.</strong> {props.words}
      </p>
      <p>Reason: {props.reason}</p>
      <p>
        At the console: <code>npx filtrate erase {props.id} --confirm NUMBER</code>
      </p>
      <Button type="submit">Withdraw the request</Button>
    </form>
  )
}
