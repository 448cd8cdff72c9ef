"use client"

import { useActionState } from "react"
import { Button } from "../../../_ui/button"
import { keptForm } from "../../../_ui/kept-form"
import { saveOutreach } from "./outreach-actions"
import type { ReasonRow, TierRows } from "./reason-rows"
import styles from "./outreach-form.module.css"

/** The reasons by tier, each on or off with its place, and the words of urgent rows; saved at once, with a reason. */
export function OutreachForm(props: { rows: readonly TierRows[]; urgentText: string; mayChange: boolean }) {
  const { rows, urgentText, mayChange } = props
  const [answer, save, isSaving] = useActionState(saveOutreach, { problem: null })
  return (
    <form action={save} onSubmit={keptForm(save)} className={styles.form}>
      {rows.map(({ tier, title, rows: own }) => (
        <fieldset key={tier} className={styles.tier} disabled={!mayChange}>
          <legend>{title}</legend>
          {own.map((row) => (
            <Row key={row.id} row={row} isUrgent={tier === "urgent"} isAlone={own.length === 1} />
          ))}
        </fieldset>
      ))}
      <fieldset className={styles.tier} disabled={!mayChange}>
        <legend>What urgent rows say</legend>
        <textarea
          name="outreach.urgentText"
          aria-label="What urgent rows say"
          rows={3}
          maxLength={500}
          required
          defaultValue={urgentText}
        />
        <p className={styles.fine}>Shown beside every urgent row. Clinicians decide; local policy applies.</p>
      </fieldset>
      {mayChange ? (
        <div className={styles.save}>
          <label>
            <span>Reason for the change</span>
            <input name="reason" autoComplete="off" required maxLength={500} />
          </label>
          <Button type="submit" kind="primary" disabled={isSaving}>
            Save
          </Button>
          {answer.problem === null ? null : <p role="alert">{answer.problem}</p>}
        </div>
      ) : null}
    </form>
  )
}

function Row({ row, isUrgent, isAlone }: { row: ReasonRow; isUrgent: boolean; isAlone: boolean }) {
  const { id, name, actor, endsWith, source, isOn, place } = row
  return (
    <div className={styles.row}>
      {isUrgent ? (
        <p className={styles.stays}>Stays on</p>
      ) : (
        <label className={styles.on}>
          <input type="checkbox" name={`on.${id}`} value="yes" defaultChecked={isOn} />
          <span>
            On<span className="visually-hidden">: {name}</span>
          </span>
        </label>
      )}
      {isAlone ? (
        <input type="hidden" name={`place.${id}`} value={place} />
      ) : (
        <label className={styles.place}>
          <span>
            Place<span className="visually-hidden"> of {name}</span>
          </span>
          <input name={`place.${id}`} inputMode="numeric" autoComplete="off" defaultValue={place} />
        </label>
      )}
      <div>
        <p className={styles.name}>{name}</p>
        <p className={styles.fine}>
          {actor} acts. Ends with {endsWith}.
        </p>
        <p className={styles.fine}>{source}</p>
      </div>
    </div>
  )
}
