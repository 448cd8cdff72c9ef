"use client"

import { useActionState } from "react"
import { Button } from "../../../../_ui/button"
import { keptForm } from "../../../../_ui/kept-form"
import { dietFields, dietMethods } from "./diet-fields"
import { enterDiet } from "./enter-actions"
import styles from "./enter.module.css"
import { nothingEntered, type EntrySent } from "./entry-sent"
import { fieldProps, Outcome, Wrong } from "./told-field"

const form = "diet"

/** One record of what somebody ate, in the amounts of the contract. */
export function DietForm({ publicId, today }: { publicId: string; today: string }) {
  const [sent, send, isSending] = useActionState(enterDiet, nothingEntered)
  return (
    <form action={send} onSubmit={keptForm(send)} className={styles.form} aria-label="Diet record" noValidate>
      <input type="hidden" name="publicId" value={publicId} />
      <div className={styles.fields} key={sent.saved}>
        {dietFields.map(({ column, label, isNeeded }) => (
          <div key={column}>
            <label>
              <span>{isNeeded ? label : `${label}, if known`}</span>
              <Field column={column} sent={sent} today={today} />
            </label>
            <Wrong form={form} name={column} sent={sent} />
          </div>
        ))}
      </div>
      <div className={styles.foot}>
        <Button type="submit" disabled={isSending}>
          Save diet record
        </Button>
        <Outcome sent={sent} noun={["diet record", "diet records"]} />
      </div>
    </form>
  )
}

function Field(props: { column: (typeof dietFields)[number]["column"]; sent: EntrySent; today: string }) {
  const { column, sent, today } = props
  const told = fieldProps(form, column, sent)
  const typed = sent.typed[column]
  if (column === "recorded_on")
    return <input {...told} type="date" max={today} defaultValue={typed ?? today} />
  if (column !== "method") return <input {...told} inputMode="decimal" defaultValue={typed} />
  return (
    <select {...told} defaultValue={typed}>
      {dietMethods.map(({ word, label }) => (
        <option key={word} value={word}>
          {label}
        </option>
      ))}
    </select>
  )
}
