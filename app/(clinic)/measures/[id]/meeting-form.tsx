"use client"

import { useActionState } from "react"
import { longestAction, longestOwner } from "../../../../lib/domain/measure-actions"
import { Button } from "../../../_ui/button"
import { keptForm } from "../../../_ui/kept-form"
import { writeDown } from "./meeting-actions"
import styles from "../../../_ui/line-form.module.css"

/** A decision, or an action with who does it and until when. */
export function MeetingForm(props: { measureId: string; month: string; owners: readonly string[] }) {
  const [answer, send, isSaving] = useActionState(writeDown, { problem: null, saved: 0 })
  return (
    <form key={answer.saved} action={send} onSubmit={keptForm(send)} className={styles.form}>
      <input type="hidden" name="measure" value={props.measureId} />
      <input type="hidden" name="month" value={props.month} />
      <label>
        <span>Kind</span>
        <select name="kind" defaultValue="action">
          <option value="action">Action</option>
          <option value="decision">Decision</option>
        </select>
      </label>
      <label className={styles.wide}>
        <span>What</span>
        <input
          name="text"
          autoComplete="off"
          required
          maxLength={longestAction}
          aria-invalid={answer.problem !== null}
        />
      </label>
      <label>
        <span>Who</span>
        <input name="owner" autoComplete="off" list="action-owners" maxLength={longestOwner} />
      </label>
      <datalist id="action-owners">
        {props.owners.map((name) => (
          <option key={name} value={name} />
        ))}
      </datalist>
      <label>
        <span>Until</span>
        <input type="date" name="due" />
      </label>
      <Button type="submit" disabled={isSaving}>
        Write down
      </Button>
      {answer.problem === null ? null : <p role="alert">{answer.problem}</p>}
    </form>
  )
}
